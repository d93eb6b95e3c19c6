"""Prints how long the library's work takes, beside a yardstick: `python -m tests.benchmarks`."""

import json
from argparse import ArgumentParser
from collections.abc import Sequence
from dataclasses import asdict

from tests.benchmarks.cases import cases
from tests.benchmarks.timing import Figure, measured


def main(arguments: Sequence[str] | None = None) -> list[Figure]:
    """Measures, prints, and gives the figures."""
    parser = ArgumentParser(prog="python -m tests.benchmarks", description=__doc__)
    parser.add_argument("--repeats", type=int, default=100, help="how often each is done at most")
    parser.add_argument("--garments", type=int, default=10_000, help="for the statistics")
    parser.add_argument("--json", action="store_true", help="the figures as JSON")
    given = parser.parse_args(arguments)
    figures = measured(cases(max(1, given.garments)), max(1, given.repeats))
    print(as_json(figures) if given.json else as_table(figures))
    return figures


def as_json(figures: Sequence[Figure]) -> str:
    """The figures for other programs."""
    return json.dumps([asdict(one) | {"is_within": one.is_within} for one in figures], indent=2)


def as_table(figures: Sequence[Figure]) -> str:
    """One line for each figure."""
    head = f"{'':54}{'min ms':>10}{'median ms':>11}{'× yardstick':>13}{'times':>7}  target"
    return "\n".join([head, *map(_line, figures)])


def _line(one: Figure) -> str:
    times = f"{one.min_ms:10.3f}{one.median_ms:11.3f}{one.ratio:13.3f}{one.repeats:7}"
    if one.target_ms is None:
        return f"{one.name:54}{times}"
    kept = "kept" if one.is_within else "missed"
    return f"{one.name:54}{times}  ≤ {one.target_ms:g} ms: {kept}"


if __name__ == "__main__":
    main()
