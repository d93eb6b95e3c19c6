"""The library's cast: the demo pattern, read once."""

from pathlib import Path

import pytest
from hypothesis import settings

from alterations.pattern import Pattern
from alterations.patternfile import read_pattern

GILET = Path(__file__).parent / "patterns" / "ostrimane_gilet.toml"
TUNIC = Path(__file__).parents[2] / "gallery" / "demo" / "ostrimane_tunic.toml"

# The same examples each time, and no clock: a slow machine breaks no rule.
settings.register_profile("calm", deadline=None, derandomize=True)
settings.load_profile("calm")


@pytest.fixture(scope="session")
def tunic() -> Pattern:
    return read_pattern(TUNIC)


@pytest.fixture(scope="session")
def tunic_text() -> str:
    return TUNIC.read_text(encoding="utf-8")


@pytest.fixture(scope="session")
def gilet() -> Pattern:
    """By hand, tapered to the waist, fronts with a V-neck, picked-up bands: another build."""
    return read_pattern(GILET)
