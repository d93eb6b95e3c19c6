"""The drawn shape comes from the pattern's own counts."""

from pathlib import Path

import pytest

import gallery.demo
from alterations.patternfile import load_pattern
from gallery.demo.shapes import shape_of

TUNIC = Path(gallery.demo.__file__).with_name("ostrimane_tunic.toml")


def test_size_3_is_drawn_with_its_own_measurements() -> None:
    pattern = load_pattern(TUNIC.read_bytes())
    shape = shape_of(pattern, pattern.size("3"))
    # (114 − 2)/2.1; 18/3.0 + 104/2.8; 18/3.0; 8/3.0; 6/2.8; the same figures in centimetres
    assert float(shape.half_width) == pytest.approx(53.333, abs=0.001)
    assert float(shape.hem_to_underarm) == pytest.approx(43.143, abs=0.001)
    assert float(shape.hem_depth) == pytest.approx(6)
    assert float(shape.band_depth) == pytest.approx(2.667, abs=0.001)
    assert float(shape.shoulder_drop) == pytest.approx(2.143, abs=0.001)


def test_the_drawn_body_has_the_visible_stitches_of_its_size() -> None:
    pattern = load_pattern(TUNIC.read_bytes())
    assert shape_of(pattern, pattern.size("8")).body_stitches == 164  # 166 less two in the seams
