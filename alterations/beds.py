"""What fits on a needle bed, and the ways out when a piece does not.

Hand needles have no such cap, so these questions belong to machine knitting only.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from alterations.errors import ShapingError
from alterations.gauge import Gauge
from alterations.panels import panel_counts
from alterations.rounding import Exact, exact, nearest_even, round_up
from alterations.saying import gettext as _
from alterations.saying import gettext_noop
from alterations.units import show_cm, show_in
from alterations.wording import listed

MM_PER_INCH = Fraction("25.4")
SEAMS = 2  # one stitch per seamed edge
TENTH = Fraction(1, 10)


@dataclass(frozen=True)
class BedClass:
    """One class of machine: the pitch (needle to needle) in mm, and the needles commonly quoted.

    Class names follow trade text, seen as a reproduction; needle counts are common practice without
    a source. Makers differ and beds are extended, so the knitter's own count comes first and this
    is only what a form starts with.
    """

    name: str
    pitch_mm: Fraction
    needles: int

    @property
    def bed_mm(self) -> Fraction:
        """Length of the bed in mm."""
        return self.pitch_mm * self.needles

    @property
    def needles_per_inch(self) -> Fraction:
        """Machine gauge E, needles per 25.4 mm (DIN 60917, seen quoted in lecture slides)."""
        return MM_PER_INCH / self.pitch_mm


BED_CLASSES: tuple[BedClass, ...] = (
    BedClass(gettext_noop("fine"), Fraction("3.6"), 250),
    BedClass(gettext_noop("standard"), Fraction("4.5"), 200),
    BedClass(gettext_noop("mid"), Fraction("6.0"), 160),
    BedClass(gettext_noop("mid"), Fraction("6.5"), 150),
    BedClass(gettext_noop("mid"), Fraction("7.0"), 140),
    BedClass(gettext_noop("bulky"), Fraction("8.0"), 120),
    BedClass(gettext_noop("bulky"), Fraction("9.0"), 110),
)


def bed_of_pitch(pitch_mm: Exact) -> BedClass | None:
    """The class with exactly that pitch in mm, or None: a default to start from, never a fact.

    >>> bed_of_pitch(Fraction("6.5")).needles
    150
    """
    return next((bed for bed in BED_CLASSES if bed.pitch_mm == exact(pitch_mm)), None)


def every_second_needle(bed: BedClass) -> BedClass:
    """The same bed with thick yarn on every second needle: half the stitches, twice the pitch.

    >>> thick = every_second_needle(BedClass("own", Fraction("4.5"), 201))
    >>> thick.needles, thick.pitch_mm
    (100, Fraction(9, 1))
    """
    name = _("%(bed)s, every second needle") % {"bed": _(bed.name)}
    return BedClass(name, bed.pitch_mm * 2, bed.needles // 2)


def fits(stitches: int, needles: int) -> bool:
    """Whether so many stitches, the most ever on the bed with held ones, fit: a needle each."""
    return stitches <= _bed(needles)


def fits_as_double_rib(positions: int, needles: int) -> bool:
    """Whether a double-bed rib over so many needle positions fits: both beds need the same
    positions and one more for the end needle opposite (common practice).

    >>> fits_as_double_rib(109, 110), fits_as_double_rib(110, 110)
    (True, False)
    """
    return positions + 1 <= _bed(needles)


def widest_cm(needles: int, gauge: Gauge, seams: int = SEAMS) -> Fraction:
    """Finished width in cm of the widest piece without a seam in it: (N − seam stitches) / w.

    >>> show_in(widest_cm(110, Gauge(Fraction(16), Fraction(22), "4in")))
    '27'
    """
    return max(Fraction(_bed(needles) - seams), Fraction(0)) / gauge.stitches_per_cm


def offers(
    stitches: int,
    needles: int,
    gauge: Gauge,
    *,
    length_cm: Exact | None = None,
    seams: int = SEAMS,
    parted: Mapping[int, tuple[int, ...]] | None = None,
) -> tuple[str, ...]:
    """The five ways out when a piece of so many stitches is wider than the bed, the first to try
    first, each a sentence with its numbers; nothing when it fits.

    length_cm is the finished length of the piece in cm, which sideways knitting has to fit; parted
    holds the widest counts of its panels by their number, where they are not simply shared.

    >>> mid = Gauge(Fraction(21), Fraction(28))
    >>> offers(246, 150, mid)[0]
    'Work it in two halves with a centre seam: 124 stitches each.'
    """
    if fits(stitches, needles):
        return ()
    width_cm = max(Fraction(stitches - seams), Fraction(0)) / gauge.stitches_per_cm

    def known(panels: int) -> tuple[int, ...]:
        return (parted or {}).get(panels) or panel_counts(stitches, panels)

    return (
        _in_panels(_("Work it in two halves with a centre seam"), known(2), needles),
        _in_panels(_("Work it in three panels, with side panels"), known(3), needles),
        _sideways(width_cm, length_cm, needles, gauge, seams),
        _coarser(width_cm, needles, seams),
        _moved(width_cm, needles, gauge, seams),
    )


def _bed(needles: int) -> int:
    if needles < 1:
        raise ShapingError(_("A needle bed has at least one needle; give the needles of your bed."))
    return needles


def _in_panels(words: str, counts: tuple[int, ...], needles: int) -> str:
    each = (
        _("%(stitches)s stitches each") % {"stitches": counts[0]}
        if len(set(counts)) == 1
        else _("%(counts)s stitches") % {"counts": listed([str(count) for count in counts])}
    )
    if fits(max(counts), needles):
        return f"{words}: {each}."
    return _("%(deed)s: %(each)s, still more than your %(needles)s needles.") % {
        "deed": words,
        "each": each,
        "needles": needles,
    }


def _sideways(
    width_cm: Fraction, length_cm: Exact | None, needles: int, gauge: Gauge, seams: int
) -> str:
    rows = nearest_even(width_cm * gauge.rows_per_cm)
    widest = widest_cm(needles, gauge, seams)
    if length_cm is None:
        return _(
            "Knit it sideways: its width becomes %(rows)s rows, and its length must fit the bed "
            "(at most %(cm)s cm, %(inches)s in)."
        ) % {"rows": rows, "cm": show_cm(widest), "inches": show_in(widest)}
    across = round_up(exact(length_cm) * gauge.stitches_per_cm) + seams
    told = {"rows": rows, "stitches": across, "needles": needles}
    if fits(across, needles):
        return (
            _(
                "Knit it sideways: its width becomes %(rows)s rows, and its length must fit the "
                "bed, which it does with %(stitches)s stitches."
            )
            % told
        )
    return (
        _(
            "Knit it sideways: its width becomes %(rows)s rows, and its length must fit the bed, "
            "which it does not with %(stitches)s stitches on %(needles)s needles."
        )
        % told
    )


def _coarser(width_cm: Fraction, needles: int, seams: int) -> str:
    if needles <= seams:
        return _("Use a coarser machine, or thicker yarn with fewer stitches.")
    most = (needles - seams) / width_cm * 10
    tenths = Fraction(int(most * 10), 10)  # cut, not rounded: one more tenth would not fit
    return _(
        "Use a coarser machine, or thicker yarn with fewer stitches: at most %(stitches)s "
        "stitches in 10 cm give the same width on %(needles)s needles."
    ) % {"stitches": show_cm(tenths, TENTH), "needles": needles}


def _moved(width_cm: Fraction, needles: int, gauge: Gauge, seams: int) -> str:
    over = width_cm - widest_cm(needles, gauge, seams)
    return _(
        "Move %(cm)s cm of width from this piece to another, for example to a narrower back and a "
        "wider front, or to separate side gussets."
    ) % {"cm": show_cm(over, TENTH)}
