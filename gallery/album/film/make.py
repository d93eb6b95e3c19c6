"""Makes the parts that are missing, several at a time; safe to be killed and called again.

Threads are enough: OpenCV and the encoder both let Python go on while they work, so two threads
keep two cores busy, and the prepared slides are shared between them.
"""

import threading
import time
from collections.abc import Callable, Iterator
from concurrent.futures import FIRST_COMPLETED, ThreadPoolExecutor, wait
from functools import lru_cache, partial
from pathlib import Path

import cv2

from gallery.album.film import planes, segmentfile
from gallery.album.film.compose import Cast, draw_frame
from gallery.album.film.encode import Encoding, Shape, encoded
from gallery.album.film.errors import Cancelled
from gallery.album.film.paint import Painted, painted
from gallery.album.film.plan import FilmPlan, Slide
from gallery.album.film.segments import Part, missing, parts, place

KEPT_SLIDES = 4
ASK_EVERY_SECONDS = 0.25

Progress = Callable[[int, int], None]
Ask = Callable[[], bool]


def never() -> bool:
    return False


def silent(done: int, total: int) -> None:
    """Progress that nobody follows."""


def encode_missing(
    plan: FilmPlan,
    cache_dir: Path,
    *,
    workers: int = 2,
    until: float | None = None,
    should_stop: Ask = never,
    progress: Progress = silent,
    encoding: Encoding | None = None,
) -> int:
    """Make the missing parts; give how many are still missing.

    `until` is a reading of time.monotonic(): no part is begun after it. `should_stop` is asked
    a few times a second; a yes raises Cancelled and leaves finished parts in the cache. `progress`
    is told finished and all parts. Both are called in the caller's thread.
    """
    encoding = encoding or Encoding()
    segmentfile.sweep(cache_dir)
    todo = missing(plan, cache_dir, encoding)
    left, total = len(todo), len({part.key for part in parts(plan, encoding)})
    progress(total - left, total)
    bench = _Bench(plan, cache_dir, encoding, until)
    for finished in bench.work(todo, workers, should_stop):
        left -= finished
        progress(total - left, total)
    return left


class _Bench:
    """Where several workers make the parts of one film and share the prepared slides."""

    def __init__(
        self, plan: FilmPlan, cache_dir: Path, encoding: Encoding, until: float | None
    ) -> None:
        self._plan, self._cache_dir, self._encoding = plan, cache_dir, encoding
        self._until = until
        self._stopped = threading.Event()
        self._prepared = lru_cache(maxsize=KEPT_SLIDES)(lambda slide: _Prepared(plan, slide))

    def work(self, todo: list[Part], workers: int, should_stop: Ask) -> Iterator[int]:
        """Make the parts; each time some are finished, give their number."""
        # The workers already fill the processors; OpenCV's own threads would only get in the way.
        cv2.setNumThreads(1)
        with ThreadPoolExecutor(workers, "film") as pool:
            try:
                waiting = {pool.submit(self._make, part) for part in todo}
                while waiting:
                    # Asked here, in the caller's thread: the answer may come from a database.
                    if should_stop():
                        raise Cancelled
                    done, waiting = wait(waiting, ASK_EVERY_SECONDS, FIRST_COMPLETED)
                    yield sum(future.result() for future in done)
            finally:
                self._stopped.set()
                pool.shutdown(cancel_futures=True)

    def _make(self, part: Part) -> int:
        """Make one part; 1 when it was made, 0 when there was no time left to begin it."""
        if self._until is not None and time.monotonic() >= self._until:
            return 0
        own = self._prepared(part.slide).get()
        before = self._prepared(part.before).get() if part.before else None
        size = (self._plan.width, self._plan.height)
        draw = partial(draw_frame, Cast(part, own, before, planes.empty(*size)))
        shape = Shape(part.frames, *size, self._plan.fps)
        result = encoded(draw, shape, self._encoding, self._look_up)
        segmentfile.write(place(self._cache_dir, part.key), result, part.photos)
        return 1

    def _look_up(self) -> None:
        if self._stopped.is_set():
            raise Cancelled


class _Prepared:
    """A slide that is prepared once, by whichever worker needs it first."""

    def __init__(self, plan: FilmPlan, slide: Slide) -> None:
        self._plan, self._slide = plan, slide
        self._lock = threading.Lock()
        self._painted: Painted | None = None

    def get(self) -> Painted:
        with self._lock:
            if self._painted is None:
                self._painted = painted(self._plan, self._slide)
            return self._painted
