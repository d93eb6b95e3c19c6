"""The face: readable in light and in dark, and allowed by the site's own security policy."""

import re
from collections.abc import Iterator
from itertools import product
from pathlib import Path

import pytest
from django.template.loader import get_template

ROOT = Path(__file__).parents[2]
STYLES = ROOT / "gallery/static/gallery/css"
GROUNDS = ("page", "card", "sunk")
WORDS = ("ink", "ink-soft", "walnut", "slate", "slate-deep", "madder", "moss", "weld")
ON_ITS_OWN = (
    ("slate", "slate-wash"),
    ("madder", "madder-wash"),
    ("moss", "moss-wash"),
    ("weld", "weld-wash"),
    ("on-slate", "slate"),
    ("on-slate", "slate-deep"),
    ("on-madder", "madder"),
    ("ink", "weld-wash"),
)


def _palette(mode: str) -> dict[str, str]:
    light, dark = (STYLES / "colours.css").read_text().split("@media", 1)
    found = dict(re.findall(r"--([\w-]+): (#[0-9a-f]{6});", light))
    return found if mode == "light" else found | dict(re.findall(r"--([\w-]+): (#\w{6});", dark))


def _luminance(colour: str) -> float:
    """Relative luminance as WCAG 2.2 defines it (sRGB, D65)."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def _contrast(one: str, other: str) -> float:
    low, high = sorted((_luminance(one), _luminance(other)))
    return (high + 0.05) / (low + 0.05)


def _templates() -> Iterator[Path]:
    return (ROOT / "templates").rglob("*.html")


def test_contrast_is_worked_out_as_wcag_does() -> None:
    assert _contrast("#000000", "#ffffff") == pytest.approx(21)
    assert _contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.01)  # WebAIM's known edge


@pytest.mark.parametrize("mode", ["light", "dark"])
def test_every_text_colour_reaches_4_5_on_every_ground(mode: str) -> None:
    palette = _palette(mode)
    pairs = [*product(WORDS, GROUNDS), *ON_ITS_OWN]
    weak = [pair for pair in pairs if _contrast(*(palette[name] for name in pair)) < 4.5]
    assert weak == []


@pytest.mark.parametrize("mode", ["light", "dark"])
def test_edges_of_controls_and_the_focus_ring_reach_3_on_every_ground(mode: str) -> None:
    palette = _palette(mode)
    pairs = list(product(("edge", "focus"), GROUNDS))
    assert [pair for pair in pairs if _contrast(*(palette[name] for name in pair)) < 3] == []


def test_colours_are_named_in_one_file_only() -> None:
    others = [
        path for path in STYLES.glob("*.css") if path.name not in ("colours.css", "paper.css")
    ]
    named = [path.name for path in others if re.search(r"#[0-9a-fA-F]{6}\b", path.read_text())]
    assert len(others) >= 5
    assert named == []


def test_no_page_carries_style_or_script_inside() -> None:
    forbidden = re.compile(
        r"<style|\sstyle=|<script(?![^>]*\ssrc=)|\son[a-z]+=|javascript:|data:image"
    )
    # Letters are read in a mail program, which knows no style sheet of ours.
    pages = [path for path in _templates() if "letters" not in path.parts]
    assert pages
    assert [path.name for path in pages if forbidden.search(path.read_text())] == []


def test_the_page_for_our_own_failure_needs_no_context() -> None:
    assert "A dropped stitch" in get_template("500.html").render()
