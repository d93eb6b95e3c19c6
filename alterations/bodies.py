"""What a body measures, how loosely a garment sits on it, and which size to take.

Measurement names follow ISO 8559-1 (anthropometric definitions, in the wording of the 1989 edition
as listed in a textbook); ISO 8559-2 says which of them designate a size. The US tables are known
here by name only: ASTM D5585 (misses), D6240 (men), D6192 (girls), D6458 (boys), D5219 (terms).
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from alterations.bodytables import BODY_TABLES, MEMORY, BodyColumn, BodyTable, Wearer
from alterations.errors import KindError, UnitError
from alterations.rounding import Exact, exact
from alterations.saying import gettext as _
from alterations.saying import gettext_noop
from alterations.units import CM_PER_INCH, show_cm, show_in

__all__ = [
    "BODY_TABLES",
    "EASE_CLASSES",
    "HEIGHT_NOTE",
    "LENGTH_CLASSES",
    "MEASUREMENTS",
    "BodyColumn",
    "BodyTable",
    "EaseClass",
    "FinishedSize",
    "HeightProposal",
    "LengthClass",
    "SizeAdvice",
    "Wearer",
    "ease_class",
    "ease_of",
    "for_height",
    "length_class_cm",
    "shown_length_classes",
    "shown_tables",
    "size_for",
]

# Names are kept in English and said through gettext where they are shown.
MEASUREMENTS: tuple[str, ...] = (
    gettext_noop("height"),
    gettext_noop("under-arm length"),
    gettext_noop("scye depth"),
    gettext_noop("neck shoulder point to breast point"),
    gettext_noop("cervical to waist, front"),
    gettext_noop("cervical to waist, back"),
    gettext_noop("shoulder length"),
    gettext_noop("shoulder width"),
    gettext_noop("back width"),
    gettext_noop("upper-arm length"),
    gettext_noop("arm length"),
    gettext_noop("seventh cervical to wrist length"),
    gettext_noop("neck girth"),
    gettext_noop("neck-base girth"),
    gettext_noop("chest girth"),
    gettext_noop("bust girth"),
    gettext_noop("upper-arm girth"),
    gettext_noop("armscye girth"),
    gettext_noop("elbow girth"),
    gettext_noop("wrist girth"),
    gettext_noop("waist girth"),
    gettext_noop("hip girth"),
)
WIDEST_BODY_CM = Fraction(300)
TENTH = Fraction(1, 10)
# Segment lengths as shares of body height, Drillis and Contini 1966 as reproduced in Winter's
# biomechanics (from memory, unverified): shoulder to wrist, shoulder to hip.
SLEEVE_SHARE, BODY_SHARE = Fraction("0.332"), Fraction("0.288")
MOST_HEIGHT_CM = Fraction(100)
HEIGHT_NOTE = gettext_noop("A starting value only; measuring the wearer beats it.")


def shown_tables() -> tuple[BodyTable, ...]:
    """The body tables with only those measurements that were seen outside memory: what may be shown
    to people. A table without any is left out.

    >>> [(table.wearer, len(table.columns)) for table in shown_tables()]
    [('woman', 1), ('child', 5)]
    """
    kept = (
        replace(table, columns=tuple(one for one in table.columns if one.is_verified))
        for table in BODY_TABLES
    )
    return tuple(table for table in kept if table.columns)


@dataclass(frozen=True)
class EaseClass:
    """How loosely a garment sits. Ease in cm, from (included) to (not included), None is open.

    inches is what the Council published: the older figures as repeated by a web note; the newer
    wording was seen in summary, its figures are from memory, unverified.
    """

    name: str
    from_cm: Fraction | None
    to_cm: Fraction | None
    older_inches: str
    newer: str


# Which band an end belongs to is our own choice.
EASE_CLASSES: tuple[EaseClass, ...] = (
    EaseClass(gettext_noop("very close"), None, Fraction(0), "0 or less", "negative ease"),
    EaseClass(gettext_noop("close"), Fraction(0), Fraction(5), "1–2", "zero ease"),
    EaseClass(gettext_noop("classic"), Fraction(5), Fraction(10), "2–4", "2–4 in (5–10 cm)"),
    EaseClass(gettext_noop("loose"), Fraction(10), Fraction(15), "4–6", "4–6 in (10–15 cm)"),
    EaseClass(gettext_noop("oversized"), Fraction(15), None, "6 and more", "6 in (15 cm) and more"),
)


def ease_of(finished_cm: Exact, body_cm: Exact) -> Fraction:
    """Ease in cm: finished circumference minus body circumference; below zero it stretches.

    >>> ease_of(107, 96)
    Fraction(11, 1)
    """
    return _sane(finished_cm) - _sane(body_cm)


def ease_class(ease_cm: Exact) -> EaseClass:
    """The class of an ease in cm.

    >>> ease_class(Fraction("10.67")).name, ease_class(5).name
    ('loose', 'classic')
    """
    for one in EASE_CLASSES[:-1]:
        if one.to_cm is not None and exact(ease_cm) < one.to_cm:
            return one
    return EASE_CLASSES[-1]


@dataclass(frozen=True)
class FinishedSize:
    """One size of a pattern as it comes out, in cm, and how it would sit on this body."""

    name: str
    finished_cm: Fraction
    ease_cm: Fraction

    @property
    def ease(self) -> EaseClass:
        """How loosely it sits."""
        return ease_class(self.ease_cm)


@dataclass(frozen=True)
class SizeAdvice:
    """The size nearest to the wanted circumference, and the next one up where there is one; all in
    cm. off_by_cm is below zero where the nearest size is smaller than wanted."""

    target_cm: Fraction
    nearest: FinishedSize
    next_up: FinishedSize | None

    @property
    def off_by_cm(self) -> Fraction:
        """The nearest finished circumference minus the wanted one, in cm."""
        return self.nearest.finished_cm - self.target_cm

    @property
    def sentence(self) -> str:
        """What to tell the knitter: the nearest size, the ease it gives, the one above."""
        said = _("Size %(size)s comes nearest: %(sits)s.") % _told(self.nearest)
        if self.off_by_cm < 0 and self.next_up is not None:
            above = _("The next one up, size %(size)s: %(sits)s.") % _told(self.next_up)
            return f"{said} {above}"
        return said


def size_for(body_cm: Exact, ease_cm: Exact, finished: Mapping[str, Fraction]) -> SizeAdvice:
    """The size whose finished circumference is nearest to body + ease, all in cm; of two equally
    near the larger one, since a garment too tight is the worse mistake (our own choice).

    >>> sizes = {"S": Fraction(95), "M": Fraction(107)}
    >>> size_for(92, 8, sizes).sentence[:48]
    'Size S comes nearest: 95 cm finished (37½ in), 3'
    """
    if not finished:
        raise UnitError(_("Give the finished measurement of at least one size."))
    body, target = _sane(body_cm), _sane(exact(body_cm) + exact(ease_cm))
    sizes = sorted(
        (FinishedSize(name, _sane(cm), cm - body) for name, cm in finished.items()),
        key=lambda size: size.finished_cm,
    )
    nearest = min(sizes, key=lambda one: (abs(one.finished_cm - target), -one.finished_cm))
    above = (one for one in sizes if one.finished_cm > nearest.finished_cm)
    return SizeAdvice(target, nearest, next(above, None))


def _sane(cm: Exact) -> Fraction:
    if not 0 < exact(cm) <= WIDEST_BODY_CM:
        raise UnitError(
            _(
                "%(cm)s cm is no measurement of a body or garment; give it in cm, above 0 and at "
                "most %(most)s."
            )
            % {"cm": show_cm(exact(cm), TENTH), "most": WIDEST_BODY_CM}
        )
    return exact(cm)


def _told(size: FinishedSize) -> dict[str, str]:
    return {"size": size.name, "sits": _sits(size)}


def _sits(size: FinishedSize) -> str:
    return _("%(cm)s cm finished (%(inches)s in), %(ease)s cm of ease (%(class)s)") % {
        "cm": show_cm(size.finished_cm, TENTH),
        "inches": show_in(size.finished_cm),
        "ease": show_cm(size.ease_cm, TENTH),
        "class": _(size.ease.name),
    }


@dataclass(frozen=True)
class LengthClass:
    """How long a garment is, in inches beyond the base length, from lowest to highest.

    The base is the back waist length; for a man's hip length it is the measured hip length.
    """

    name: str
    wearer: Wearer
    inches_more: tuple[Fraction, Fraction]
    base: str = "back waist length"
    source: str = MEMORY

    @property
    def is_verified(self) -> bool:
        """Whether the figure was seen outside memory."""
        return self.source != MEMORY


def _more(inches: int) -> tuple[Fraction, Fraction]:
    return Fraction(inches), Fraction(inches)


_CHILD = "a designer's published table based on the Council's"
# Craft Yarn Council, length chart.
LENGTH_CLASSES: tuple[LengthClass, ...] = (
    LengthClass(gettext_noop("waist length"), "woman", _more(0)),
    LengthClass(gettext_noop("hip length"), "woman", _more(6)),
    LengthClass(gettext_noop("tunic length"), "woman", _more(11)),
    LengthClass(gettext_noop("waist length"), "child", _more(0), source=_CHILD),
    LengthClass(gettext_noop("hip length"), "child", _more(2), source=_CHILD),
    LengthClass(gettext_noop("tunic length"), "child", _more(6), source=_CHILD),
    # Men's hip length varies little between sizes: add 1 to 2 in.
    LengthClass(gettext_noop("hip length"), "man", (Fraction(1), Fraction(2)), "back hip length"),
)


def shown_length_classes() -> tuple[LengthClass, ...]:
    """The length classes that were seen outside memory: what may be shown to people."""
    return tuple(one for one in LENGTH_CLASSES if one.is_verified)


def length_class_cm(name: str, wearer: Wearer, base_cm: Exact) -> tuple[Fraction, Fraction]:
    """Shortest and longest garment length in cm of a class, from the wearer's base length in cm;
    refuses a class that wearer has not.

    >>> length_class_cm("hip length", "child", 30)
    (Fraction(877, 25), Fraction(877, 25))
    """
    for one in LENGTH_CLASSES:
        if (one.name, one.wearer) == (name, wearer):
            low, high = one.inches_more
            base = _sane(base_cm)
            return base + low * CM_PER_INCH, base + high * CM_PER_INCH
    names = ", ".join(f"{_(one.name)} ({_(one.wearer)})" for one in LENGTH_CLASSES)
    raise KindError(
        _("There is no %(length)s for a %(wearer)s; choose one of %(known)s.")
        % {"length": _(name), "wearer": _(wearer), "known": names}
    )


@dataclass(frozen=True)
class HeightProposal:
    """How much longer to knit for a taller wearer, in cm; below zero for a shorter one."""

    sleeve_cm: Fraction
    body_cm: Fraction

    @property
    def note(self) -> str:
        """How far it is to be trusted."""
        return _(HEIGHT_NOTE)


def for_height(difference_cm: Exact) -> HeightProposal:
    """What a difference in height in cm suggests: sleeve + 0.332 of it, body + 0.288 of it.

    Drillis and Contini 1966, from memory, unverified; a starting value only.

    >>> for_height(10).sleeve_cm, for_height(10).body_cm
    (Fraction(83, 25), Fraction(72, 25))
    """
    if abs(exact(difference_cm)) > MOST_HEIGHT_CM:
        raise UnitError(
            _("Nobody differs by more than %(most)s cm; give the difference in height in cm.")
            % {"most": MOST_HEIGHT_CM}
        )
    return HeightProposal(exact(difference_cm) * SLEEVE_SHARE, exact(difference_cm) * BODY_SHARE)
