"""What shape a size has, altered or not, for the drawings: from the pattern's own measurements."""

from fractions import Fraction

from alterations.gauge import Gauge
from alterations.gauges import fabric_gauge
from alterations.measures import finished, height_cm, measure
from alterations.pattern import Pattern, Size
from gallery.demo.garment import GarmentShape


def shape_of(pattern: Pattern, size: Size, gauge: Gauge | None = None) -> GarmentShape:
    """The garment of that size (as published or as altered) at a gauge, the pattern's own if none.

    Refuses a pattern that does not name a tunic's measurements.
    """
    worked = gauge or pattern.gauge
    found = finished(pattern, size, worked)
    return GarmentShape(
        half_width=measure(found, "half_width"),
        hem_to_underarm=measure(found, "hem_to_underarm"),
        armhole_depth=measure(found, "armhole_depth"),
        cross_back=measure(found, "cross_back"),
        neck_width=measure(found, "neck_width"),
        shoulder_drop=measure(found, "full_length") - measure(found, "length"),
        front_neck_depth=measure(found, "neck_depth"),
        sleeve_length=measure(found, "sleeve_length"),
        sleeve_top=measure(found, "sleeve_top"),
        wrist=measure(found, "wrist"),
        hem_depth=_depth(pattern, size, "back", "hem", worked),
        cuff_depth=_depth(pattern, size, "sleeve", "cuff", worked),
        band_depth=_depth(pattern, size, "neckband", "band", worked),
        stitches_per_cm=worked.stitches_per_cm,
        rows_per_cm=worked.rows_per_cm,
    )


def _depth(pattern: Pattern, size: Size, piece: str, key: str, worked: Gauge) -> Fraction:
    section = size.piece(piece).section(key)
    return height_cm(section, fabric_gauge(pattern, section.fabric, worked))
