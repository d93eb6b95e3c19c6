"""A swatch as it was counted and measured, washed or with what washing did to it."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from alterations.errors import KindError
from alterations.gauge import Gauge, from_swatch
from alterations.plainfields import Plain, number, whole
from alterations.rounding import exact
from alterations.saying import gettext as _
from alterations.units import parse_length

_SWATCH = ("counted_stitches", "counted_over", "counted_rows", "counted_high", "swatch_grams")
_WASHING = ("wash_width", "wash_length")
MOST_CHANGE = 50  # per cent: beyond it something else was measured (common practice, no source)


@dataclass(frozen=True)
class Swatch:
    """So many stitches over so many cm, rows over cm; its weight in g if known.

    wash_width and wash_length say by how many per cent the measured swatch changed in washing
    (below zero: shrank), where it was measured before; nothing where it was measured washed.
    """

    stitches: int
    width_cm: Fraction
    rows: int
    height_cm: Fraction
    grams: Fraction | None = None
    wash_width: Fraction = Fraction(0)
    wash_length: Fraction = Fraction(0)

    def __post_init__(self) -> None:
        if min(self.stitches, self.rows) < 1 or min(self.width_cm, self.height_cm) <= 0:
            raise KindError(
                _("Count at least one stitch and one row of the swatch, and measure it.")
            )
        if self.grams is not None and not 0 < self.grams <= 1000:
            raise KindError(_("Give the weight of the swatch in grams, between 0 and 1000."))
        if max(abs(self.wash_width), abs(self.wash_length)) > MOST_CHANGE:
            raise KindError(
                _(
                    "A swatch changes in washing by at most %(most)s per cent; measure it again "
                    "before and after."
                )
                % {"most": MOST_CHANGE}
            )
        for name in ("width_cm", "height_cm", *_WASHING):
            object.__setattr__(self, name, exact(getattr(self, name)))

    @property
    def gauge(self) -> Gauge:
        """Stitches and rows per 10 cm, washed, to one decimal.

        >>> str(Swatch(40, Fraction("18.2"), 60, Fraction("20.4")).gauge)
        '22 stitches × 29.4 rows = 10 cm'
        >>> shrunk = Swatch(40, Fraction(20), 56, Fraction(20), wash_length=Fraction(-5))
        >>> str(shrunk.gauge)
        '20 stitches × 29.5 rows = 10 cm'
        """
        return Gauge(
            from_swatch(self.stitches, self.width_cm * (1 + self.wash_width / 100)),
            from_swatch(self.rows, self.height_cm * (1 + self.wash_length / 100)),
        )

    def plain(self) -> Plain:
        """The counts, lengths in cm and per cents as texts."""
        told = (self.stitches, self.width_cm, self.rows, self.height_cm, self.grams)
        washing = (self.wash_width or None, self.wash_length or None)
        pairs = zip((*_SWATCH, *_WASHING), (*told, *washing), strict=True)
        return {name: str(value) for name, value in pairs if value is not None}


def swatch_from(fields: Mapping[str, str]) -> Swatch | None:
    """A swatch from its fields, lengths in cm or with their unit, or None where none is given;
    refuses half a swatch."""
    if not any(fields.get(name, "").strip() for name in (*_SWATCH, *_WASHING)):
        return None
    stitches = whole(fields, "counted_stitches", _("stitches counted in the swatch"))
    rows = whole(fields, "counted_rows", _("rows counted in the swatch"))
    width, height = _cm(fields, "counted_over"), _cm(fields, "counted_high")
    if stitches is None or rows is None or width is None or height is None:
        raise KindError(
            _(
                "A swatch needs its stitches, the length they were counted over, its rows and "
                "theirs."
            )
        )
    return Swatch(
        stitches,
        width,
        rows,
        height,
        number(fields, "swatch_grams", _("swatch's grams")),
        number(fields, "wash_width", _("change in width, in per cent")) or Fraction(0),
        number(fields, "wash_length", _("change in length, in per cent")) or Fraction(0),
    )


def _cm(fields: Mapping[str, str], name: str) -> Fraction | None:
    text = fields.get(name, "").strip()
    if not text:
        return None
    length = parse_length(text, "cm", signed=False)
    if length.unit == "rows":
        raise KindError(_("Measure the swatch in cm or inches; a width in rows cannot be used."))
    return length.in_cm(1)
