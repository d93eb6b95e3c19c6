"""Every worked example in the library's docstrings is run."""

import doctest
import importlib
import pkgutil

import pytest

import alterations

MODULES = [
    found.name
    for found in pkgutil.walk_packages(alterations.__path__, "alterations.")
    if not found.name.startswith("alterations.records") and not found.name.endswith("__main__")
]
# The modules of formulas: each shows at least one worked example.
OF_FORMULAS = ["gauge", "rounding", "shaping", "units", "yarn", "yarncounts", "panels", "follows"]


@pytest.mark.parametrize("name", MODULES)
def test_the_examples_in_the_docstrings_are_true(name: str) -> None:
    found = doctest.testmod(importlib.import_module(name))
    assert found.failed == 0


@pytest.mark.parametrize("name", OF_FORMULAS)
def test_a_module_of_formulas_shows_a_worked_example(name: str) -> None:
    found = doctest.testmod(importlib.import_module(f"alterations.{name}"))
    assert found.attempted > 0
