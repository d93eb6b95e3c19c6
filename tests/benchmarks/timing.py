"""Times of several pieces of work, taken by turns in one run beside a fixed yardstick."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from statistics import median
from time import perf_counter

from tests.benchmarks.cases import Case

ADDITIONS = 100_000
ENOUGH_SECONDS = 3.0  # slow work is repeated less often: about so long in all, at least thrice


@dataclass(frozen=True)
class Figure:
    """The times of one case in ms; ratio: its shortest time to the yardstick's."""

    name: str
    repeats: int
    min_ms: float
    median_ms: float
    ratio: float
    target_ms: float | None = None

    @property
    def is_within(self) -> bool | None:
        """Whether the shortest time keeps to the target; None without one."""
        return None if self.target_ms is None else self.min_ms <= self.target_ms


def yardstick() -> int:
    """A plain loop over so many additions."""
    total = 0
    for number in range(ADDITIONS):
        total += number
    return total


def measured(cases: Sequence[Case], repeats: int) -> list[Figure]:
    """The yardstick first, then each case. They take turns, so that a slow moment of the machine
    falls on all alike."""
    ruler = Case(f"yardstick: a loop of {ADDITIONS} additions", yardstick)
    taken: dict[str, list[float]] = {case.name: [] for case in (ruler, *cases)}
    for _ in range(repeats):
        for case in (ruler, *cases):
            if _goes_on(taken[case.name]):
                taken[case.name].append(_seconds(case.work))
    shortest = min(taken[ruler.name])
    return [_figure(case, taken[case.name], shortest) for case in (ruler, *cases)]


def _goes_on(taken: list[float]) -> bool:
    return len(taken) < 3 or sum(taken) < ENOUGH_SECONDS


def _seconds(work: Callable[[], object]) -> float:
    begun = perf_counter()
    work()
    return perf_counter() - begun


def _figure(case: Case, taken: list[float], yardstick_seconds: float) -> Figure:
    return Figure(
        name=case.name,
        repeats=len(taken),
        min_ms=1000 * min(taken),
        median_ms=1000 * median(taken),
        ratio=min(taken) / yardstick_seconds,
        target_ms=case.target_ms,
    )
