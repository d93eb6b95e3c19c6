"""From the gauge a pattern's counts are read in to the gauge worked in: counts, rows and cm."""

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from alterations.gauge import Gauge
from alterations.pattern import Pattern, Piece, Section
from alterations.rounding import nearest_even, round_half_up

Pair = tuple[Fraction, Fraction]


@dataclass(frozen=True)
class Gauges:
    """From the gauge in which the pattern's counts are read as centimetres to the one worked in."""

    pattern: Pattern
    measured: Gauge
    worked: Gauge

    @cached_property
    def regauged(self) -> dict[int, tuple[Piece, Piece]]:
        """Pieces already worked out at the worked gauge, by the base piece's identity."""
        return {}

    @cached_property
    def shaped(self) -> dict[int, tuple[Piece, Piece]]:
        """The same with slopes and necks shaped."""
        return {}

    @cached_property
    def same(self) -> bool:
        """Whether counts stay what they are."""
        return self.measured.same_fabric(self.worked)

    @cached_property
    def _per_cm(self) -> dict[str, tuple[Pair, Pair]]:
        """For each fabric stitches and rows per cm, as measured and as worked."""
        found = {}
        for fabric in self.pattern.fabrics:
            before = fabric_gauge(self.pattern, fabric.key, self.measured)
            after = fabric_gauge(self.pattern, fabric.key, self.worked)
            found[fabric.key] = (
                (before.stitches_per_cm, after.stitches_per_cm),
                (before.rows_per_cm, after.rows_per_cm),
            )
        return found

    @cached_property
    def _ratios(self) -> dict[str, Pair]:
        """For each fabric how many stitches and rows as worked come to one as measured."""
        return {
            fabric: (stitches[1] / stitches[0], rows[1] / rows[0])
            for fabric, (stitches, rows) in self._per_cm.items()
        }

    def stitches_per_cm(self, fabric: str) -> Pair:
        """Stitches per cm of a fabric, as measured and as worked."""
        return self._per_cm[fabric][0]

    def rows_per_cm(self, fabric: str) -> Pair:
        """Rows per cm of a fabric, as measured and as worked."""
        return self._per_cm[fabric][1]

    def rows_cm(self, section: Section) -> Fraction:
        """Height of a section as measured, in cm; half of a folded hem's rows count."""
        return section.rows_seen / self.rows_per_cm(section.fabric)[0]

    def rows(self, section: Section, cm: Fraction) -> int:
        """Rows of a section's fabric for so many cm; even where the pattern's machine wants it,
        and where rows are worked in pairs anyway (held groups, bind-offs at a neck)."""
        return self._counted(section, cm * self.rows_per_cm(section.fabric)[1])

    def regauged_rows(self, section: Section, count: int) -> int:
        """So many rows of a section in the same height at the worked gauge."""
        worked, measured = self._ratios[section.fabric][1].as_integer_ratio()
        return self._counted(
            section, Fraction(count * worked, measured * (2 if section.folded else 1))
        )

    def _counted(self, section: Section, rows: Fraction) -> int:
        in_pairs = self.pattern.even_rows or section.shape in ("held", "neck")
        seen = nearest_even(rows) if in_pairs else round_half_up(rows)
        return 2 * seen if section.folded else seen

    def stitches(
        self, section: Section, count: int, seams: int, wider_cm: Fraction = Fraction(0)
    ) -> int:
        """A count at the worked gauge for the width it had and so many cm more, with the parity it
        had."""
        worked, measured = self._ratios[section.fabric][0].as_integer_ratio()
        odd = count % 2 if section.where == "both" else 0
        wanted = Fraction((count - seams) * worked + (seams - odd) * measured, measured)
        if wider_cm:
            wanted += wider_cm * self.stitches_per_cm(section.fabric)[1]
        return nearest_even(wanted) + odd if section.where == "both" else round_half_up(wanted)


def fabric_gauge(pattern: Pattern, key: str, main: Gauge) -> Gauge:
    """The gauge of one fabric when the main one has the given gauge: the ratio between the two
    fabrics is the pattern's own."""
    fabric = pattern.fabric(key)
    if pattern.gauge.same_fabric(main):
        return fabric.gauge
    if fabric is pattern.fabrics[0]:
        return main
    widthwise = main.stitches_per_cm / pattern.gauge.stitches_per_cm
    lengthwise = main.rows_per_cm / pattern.gauge.rows_per_cm
    return fabric.gauge.scaled(widthwise, lengthwise)
