"""The drawn photographs: true to the garment's numbers, repeatable, of the size asked for."""

from dataclasses import replace
from functools import lru_cache

import cv2
import numpy as np
import pytest
from numpy.typing import NDArray

from gallery.demo.drawing import Shot, draw
from gallery.demo.garment import GarmentShape
from gallery.demo.scenes import SCENES

# Size 3 of the tunic at 21 stitches and 28 rows to 10 cm, worked out by hand from its counts:
# (114 − 2)/2.1, 18/3.0 + 104/2.8, 56/2.8, (90 − 2)/2.1, 52/2.1, 6/2.8, (8 + 6 − 2)/2.8.
SIZE_3 = GarmentShape(
    half_width=53.333,
    hem_to_underarm=43.143,
    armhole_depth=20.0,
    cross_back=41.905,
    neck_width=24.762,
    shoulder_drop=2.143,
    front_neck_depth=4.286,
    sleeve_length=49.571,
    sleeve_top=40.0,
    wrist=24.762,
    hem_depth=6.0,
    cuff_depth=6.0,
    band_depth=2.667,
    stitches_per_cm=2.1,
    rows_per_cm=2.8,
)
LANDSCAPE = Shot(SIZE_3, "madder", "flat", portrait=False, megapixels=3, seed=1)
STAMP = 0.12  # of the full size: quick, and shapes can still be measured at a quarter


@lru_cache
def tunic_mask(shape: GarmentShape, scale: float) -> NDArray[np.bool_]:
    """The tunic is what changes with the yarn's colour; the ball beside it is the smaller part."""
    shot = replace(LANDSCAPE, shape=shape)
    dark, light = (
        np.asarray(draw(replace(shot, colour=name), scale)).astype(int)
        for name in ("indigo", "undyed cream")
    )
    changed = (np.abs(dark - light).sum(axis=2) > 40).astype(np.uint8)
    _, parts, facts, _ = cv2.connectedComponentsWithStats(changed)
    return np.asarray(parts == 1 + facts[1:, cv2.CC_STAT_AREA].argmax(), dtype=np.bool_)


def width_and_length(shape: GarmentShape, scale: float = 0.5) -> tuple[float, float]:
    """Pixels across the body in the hem, and from the hem up to the middle of a shoulder."""
    mask = tunic_mask(shape, scale)
    lowest = np.flatnonzero(mask.any(axis=1)).max()
    hem = np.flatnonzero(mask[lowest - round(40 * scale)])
    width = hem.max() - hem.min() + 1
    to_shoulder = float(shape.neck_width + shape.cross_back) / 4 / float(shape.half_width)
    column = round((hem.max() + hem.min()) / 2 + to_shoulder * width)
    return float(width), float(mask[:, column].sum())


def test_the_same_shot_gives_the_same_pixels() -> None:
    first, again = (draw(LANDSCAPE, STAMP).tobytes() for _ in range(2))
    assert first == again


def test_another_seed_gives_another_picture() -> None:
    other = draw(replace(LANDSCAPE, seed=2), STAMP)
    assert other.tobytes() != draw(LANDSCAPE, STAMP).tobytes()


@pytest.mark.parametrize("scene", sorted(SCENES))
@pytest.mark.parametrize("portrait", [True, False])
@pytest.mark.parametrize("seed", [2, 3])
def test_every_scene_can_be_drawn_either_way_up(scene: str, portrait: bool, seed: int) -> None:
    shot = Shot(SIZE_3, "sea marl", scene, portrait=portrait, megapixels=3, seed=seed)
    picture = draw(shot, STAMP)
    assert picture.mode == "RGB"
    assert (picture.height > picture.width) is portrait


def test_a_picture_has_the_megapixels_asked_for() -> None:
    large = draw(Shot(SIZE_3, "weld", "needles", portrait=False, megapixels=12, seed=4))
    small = draw(Shot(SIZE_3, "weld", "needles", portrait=True, megapixels=3, seed=4))
    assert large.size == (4032, 3024)
    assert small.size == (1536, 2048)


def test_the_body_is_as_wide_for_its_length_as_the_shape_says() -> None:
    width, length = width_and_length(SIZE_3)
    # 43.143 + 20 + half of the 2.143 the shoulder rises; half a centimetre of wander is allowed for
    assert width / length == pytest.approx(53.333 / 64.214, rel=0.02)


def test_a_longer_body_makes_a_taller_garment() -> None:
    longer = replace(SIZE_3, hem_to_underarm=63.143)
    width, length = width_and_length(longer)
    base_width, base_length = width_and_length(SIZE_3)
    # 84.214 cm against 64.214 cm at the same width
    assert (length / width) / (base_length / base_width) == pytest.approx(1.3115, rel=0.02)


def columns_across(shape: GarmentShape) -> float:
    """Columns over the body's width: how far five columns lie apart, where rows look most alike."""
    mask, shot = tunic_mask(shape, 1.0), replace(LANDSCAPE, shape=shape)
    grey = np.asarray(draw(shot).convert("L"), dtype=np.float64)
    lowest = np.flatnonzero(mask.any(axis=1)).max()
    alike = np.zeros(8001)
    for row in range(lowest - 260, lowest - 130, 3):
        inside = np.flatnonzero(mask[row])
        body = np.interp(np.linspace(inside.min(), inside.max(), 8000), inside, grey[row, inside])
        fine = body - cv2.blur(body[None], (201, 1))[0]
        alike += np.fft.irfft(np.abs(np.fft.rfft(fine, 16_000)) ** 2)[:8001]
    first = 50 + int(alike[50:110].argmax())
    fifth = round(first * 4.6) + int(alike[round(first * 4.6) : round(first * 5.4)].argmax())
    return 8000 * 5 / fifth


@pytest.mark.parametrize(("half_width", "stitches"), [(53.333, 112), (68.571, 144)])
def test_as_many_columns_of_stitches_stand_across_the_body_as_the_shape_has(
    half_width: float, stitches: int
) -> None:
    # 21 stitches to 10 cm: 112/2.1 and 144/2.1 cm
    found = columns_across(replace(SIZE_3, half_width=half_width))
    assert found == pytest.approx(stitches, rel=0.02)


def test_an_unknown_colour_is_refused_with_those_there_are() -> None:
    with pytest.raises(KeyError, match="madder"):
        draw(replace(LANDSCAPE, colour="tartan"), STAMP)


def test_an_unknown_scene_is_refused_with_those_there_are() -> None:
    with pytest.raises(KeyError, match="hanger"):
        draw(replace(LANDSCAPE, scene="beach"), STAMP)
