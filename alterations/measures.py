"""How large the garment becomes: finished measurements in cm, worked out from the counts."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from alterations.errors import PatternError
from alterations.follows import bound_off, neck_depth_rows
from alterations.gauge import Gauge
from alterations.gauges import fabric_gauge
from alterations.pattern import MeasureRule, Pattern, Section, Size
from alterations.saying import gettext as _


@dataclass(frozen=True)
class Measure:
    """One finished measurement in cm."""

    key: str
    title: str
    cm: Fraction


def finished(pattern: Pattern, size: Size, gauge: Gauge | None = None) -> tuple[Measure, ...]:
    """All measurements the pattern names, in cm, for a size at a gauge (the pattern's own)."""
    worked = gauge or pattern.gauge
    gauges = {one.key: fabric_gauge(pattern, one.key, worked) for one in pattern.fabrics}
    return tuple(
        Measure(rule.key, rule.title, _cm(rule, size, gauges)) for rule in pattern.measures
    )


def width_cm(section: Section, gauge: Gauge) -> Fraction:
    """Visible width at the section's upper end in cm, seam stitches taken off."""
    return max(Fraction(0), (section.end - section.seams_at_end) / gauge.stitches_per_cm)


def height_cm(section: Section, gauge: Gauge) -> Fraction:
    """Height of a section in cm; a folded hem measures half its rows."""
    return section.rows_seen / gauge.rows_per_cm


def _cm(rule: MeasureRule, size: Size, of: Mapping[str, Gauge]) -> Fraction:
    sections = [_section(size, address) for address in rule.at]
    gauges = [of[section.fabric] for section in sections]
    if rule.of == "width":
        return sum(map(width_cm, sections, gauges), Fraction(0))
    if rule.of == "height":
        return _height_cm(rule, size, of)
    first, gauge = sections[0], gauges[0]
    if rule.of == "notch":
        return (bound_off(first) - first.seam_left) / gauge.stitches_per_cm
    if rule.of == "shoulder":
        return (sum(first.groups) - first.seam_left) / gauge.stitches_per_cm
    return neck_depth_rows(first, sections[-1]) / gauge.rows_per_cm


def _height_cm(rule: MeasureRule, size: Size, of: Mapping[str, Gauge]) -> Fraction:
    total = Fraction(0)
    for address in rule.at:
        piece, _, key = address.partition(".")
        for section in size.piece(piece).parted(key):
            total += height_cm(section, of[section.fabric])
    return total


def _section(size: Size, address: str) -> Section:
    piece, _, section = address.partition(".")
    return size.piece(piece).section(section)


def measure(measures: tuple[Measure, ...], key: str) -> Fraction:
    """One measurement in cm by its key; refuses one the pattern does not name."""
    for one in measures:
        if one.key == key:
            return one.cm
    raise PatternError(_("The pattern names no measurement “%(key)s”.") % {"key": key})
