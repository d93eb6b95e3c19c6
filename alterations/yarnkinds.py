"""What a knitter used instead of the pattern's yarn: another yarn, or strands held together."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import ClassVar, Literal, Self

from alterations.errors import KindError
from alterations.gauge import Gauge
from alterations.plainfields import (
    Plain,
    gauge_from,
    gauge_to,
    is_yes,
    needed,
    number,
    one_of,
    refuse_long_name,
    whole,
)
from alterations.rounding import exact
from alterations.saying import gettext as _
from alterations.saying import gettext_noop
from alterations.swatches import Swatch, swatch_from

Keep = Literal["measurements", "counts"]
MOST_STRANDS = 6


def _check_ball(yarn: object, grams: Fraction | None, metres: Fraction | None) -> None:
    """Refuses an odd ball; whole numbers become exact, so that no division makes a float."""
    for name, amount in (("ball_grams", grams), ("ball_metres", metres)):
        if amount is not None and not 0 < amount <= 10_000:
            raise KindError(_("Give the grams and metres of one ball, between 0 and 10000."))
        object.__setattr__(yarn, name, None if amount is None else exact(amount))


@dataclass(frozen=True)
class YarnSwap:
    """Another yarn, perhaps with its own gauge, keeping the measurements or the counts.

    The gauge is given as it is (gauge) or by what was counted in a swatch (swatch). is_raised says
    that the yarn is brushed or fuzzy.
    """

    name: str
    ball_grams: Fraction | None = None
    ball_metres: Fraction | None = None
    gauge: Gauge | None = None
    keep: Keep = "measurements"
    swatch: Swatch | None = None
    fibre: str = ""
    is_raised: bool = False
    kind: ClassVar[str] = "yarn_swap"

    def __post_init__(self) -> None:
        refuse_long_name(
            self.name, gettext_noop("Give the yarn a name of at most %(most)s letters.")
        )
        if self.keep not in ("measurements", "counts"):
            raise KindError(_("Say whether the measurements or the counts were kept."))
        if self.gauge is not None and self.swatch is not None:
            raise KindError(_("Give the gauge or the counted swatch, not both."))
        if len(self.fibre) > 120:
            raise KindError(_("Keep the fibre to 120 letters, for example 80 % wool, 20 % nylon."))
        _check_ball(self, self.ball_grams, self.ball_metres)

    @property
    def worked(self) -> Gauge | None:
        """The gauge worked in, however it was given."""
        return self.gauge or (self.swatch.gauge if self.swatch else None)

    @property
    def tex(self) -> Fraction | None:
        """Grams per 1000 m, if the ball band told it."""
        if self.ball_grams is None or self.ball_metres is None:
            return None
        return 1000 * self.ball_grams / self.ball_metres

    def plain(self) -> Plain:
        """The fields as texts; what was not told is left out."""
        fields = {"name": self.name, "keep": self.keep, **gauge_to(self.gauge)}
        if self.ball_grams is not None:
            fields["ball_grams"] = str(self.ball_grams)
        if self.ball_metres is not None:
            fields["ball_metres"] = str(self.ball_metres)
        if self.fibre:
            fields["fibre"] = self.fibre
        if self.is_raised:
            fields["raised"] = "yes"
        return {**fields, **(self.swatch.plain() if self.swatch else {})}

    @classmethod
    def from_plain(cls, fields: Mapping[str, str]) -> Self:
        """Reads name, keep, ball_grams, ball_metres, stitches, rows, basis, fibre, raised and the
        fields of a swatch; only name is needed."""
        return cls(
            name=needed(fields, "name", _("the name of the yarn")),
            ball_grams=number(fields, "ball_grams", _("grams of one ball")),
            ball_metres=number(fields, "ball_metres", _("metres of one ball")),
            gauge=gauge_from(fields),
            keep=fields.get("keep") or "measurements",  # type: ignore[arg-type]
            swatch=swatch_from(fields),
            fibre=fields.get("fibre", "").strip(),
            is_raised=is_yes(fields, "raised"),
        )


@dataclass(frozen=True)
class Strand:
    """One yarn of several held together: its ball in g and m, and how often it runs along."""

    name: str
    ball_grams: Fraction
    ball_metres: Fraction
    times: int = 1

    def __post_init__(self) -> None:
        refuse_long_name(
            self.name, gettext_noop("Give each strand a name of at most %(most)s letters.")
        )
        _check_ball(self, self.ball_grams, self.ball_metres)
        if not 1 <= self.times <= MOST_STRANDS:
            raise KindError(_("Hold a yarn between 1 and %(most)s times.") % {"most": MOST_STRANDS})

    @property
    def tex(self) -> Fraction:
        """Grams per 1000 m of one strand."""
        return 1000 * self.ball_grams / self.ball_metres


@dataclass(frozen=True)
class StrandsTogether:
    """Strands of one or several yarns held together, with the gauge they gave."""

    strands: tuple[Strand, ...]
    gauge: Gauge | None = None
    keep: Keep = "measurements"
    swatch: Swatch | None = field(default=None)
    kind: ClassVar[str] = "strands_together"

    def __post_init__(self) -> None:
        held = sum(strand.times for strand in self.strands)
        if not 2 <= held <= MOST_STRANDS:
            raise KindError(
                _("Hold between 2 and %(most)s strands together; %(held)s given.")
                % {"most": MOST_STRANDS, "held": held}
            )
        if self.keep not in ("measurements", "counts"):
            raise KindError(_("Say whether the measurements or the counts were kept."))
        if self.gauge is not None and self.swatch is not None:
            raise KindError(_("Give the gauge or the counted swatch, not both."))

    @property
    def worked(self) -> Gauge | None:
        """The gauge worked in, however it was given."""
        return self.gauge or (self.swatch.gauge if self.swatch else None)

    @property
    def tex(self) -> Fraction:
        """Grams per 1000 m of all strands together."""
        return sum((strand.tex * strand.times for strand in self.strands), Fraction(0))

    @property
    def name(self) -> str:
        """ "2 × Fennimoor Plain" or "Fennimoor Plain + Kelvarrick Cotton"."""
        return " + ".join(
            f"{one.times} × {one.name}" if one.times > 1 else one.name for one in self.strands
        )

    def plain(self) -> Plain:
        """The strands numbered from 1: name_1, ball_grams_1, ball_metres_1, times_1."""
        fields: Plain = {"keep": self.keep, **gauge_to(self.gauge)}
        for at, strand in enumerate(self.strands, start=1):
            fields[f"name_{at}"] = strand.name
            fields[f"ball_grams_{at}"] = str(strand.ball_grams)
            fields[f"ball_metres_{at}"] = str(strand.ball_metres)
            fields[f"times_{at}"] = str(strand.times)
        return {**fields, **(self.swatch.plain() if self.swatch else {})}

    @classmethod
    def from_plain(cls, fields: Mapping[str, str]) -> Self:
        """Reads name_1, ball_grams_1, ball_metres_1, times_1 and so on, and a gauge."""
        places = [at for at in range(1, MOST_STRANDS + 1) if fields.get(f"name_{at}", "").strip()]
        choices = ("measurements", "counts")
        keep = one_of(fields, "keep", choices, _("what was kept"), choices[0])
        return cls(
            tuple(_strand(fields, at) for at in places),
            gauge_from(fields),
            keep,  # type: ignore[arg-type]
            swatch_from(fields),
        )


def _strand(fields: Mapping[str, str], at: int) -> Strand:
    grams = number(fields, f"ball_grams_{at}", _("grams of one ball"))
    metres = number(fields, f"ball_metres_{at}", _("metres of one ball"))
    if grams is None or metres is None:
        raise KindError(_("Give the grams and metres of one ball for each strand."))
    times = whole(fields, f"times_{at}", _("number of times a strand is held"))
    return Strand(fields[f"name_{at}"].strip(), grams, metres, 1 if times is None else times)
