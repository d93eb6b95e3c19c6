"""How fast a photo's sizes are made, beside another program: python -m tests.benchmarks.pictures

The yardstick is libvips' own `vipsthumbnail` (Debian: libvips-tools), which makes the same three
sizes of the same 12-megapixel JPEG in three runs. Ours is everything between the file and the three
files: opening behind the gate, decoding, colours, measuring, scaling, writing; not the start of the
Python process that does it, which the last lines tell. Both take turns in one run.
"""

import json
import shutil
import subprocess
import sys
import tempfile
from argparse import ArgumentParser
from collections.abc import Callable, Mapping, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from statistics import median
from time import perf_counter

import numpy as np
from PIL import Image, ImageFilter

from gallery.contributions.photos.remake import PAGE_QUALITY, receive
from gallery.contributions.photos.safely import CHILD, receive_safely

SIZES = {"small": 400, "medium": 1200, "large": 2000}
YARDSTICK = "vipsthumbnail"
TARGETS = {"JPEG": 0.8, "WEBP": 0.85}
ENDINGS = {"JPEG": "jpg", "WEBP": "webp"}
SIDES = (4000, 3000)
LARGE = {"12": (4000, 3000), "48": (8000, 6000), "200": (16320, 12240)}


@dataclass(frozen=True)
class Pair:
    """Our median beside the yardstick's, in ms; the ratio is what counts."""

    kind: str
    ours_ms: float
    theirs_ms: float
    ratio: float
    target: float

    @property
    def is_within(self) -> bool:
        """Whether the ratio keeps to the target."""
        return self.ratio <= self.target


@dataclass(frozen=True)
class Child:
    """The whole decoding process for one photo: its time, and the most memory it held."""

    megapixels: str
    ms: float
    peak_mb: float


def photo(path: Path, sides: tuple[int, int]) -> Path:
    """A JPEG with detail at every scale, so that no encoder has it easy."""
    random = np.random.default_rng(12)
    wide, high = sides
    coarse = random.integers(0, 256, (high // 40, wide // 40, 3), dtype=np.uint8)
    picture = Image.fromarray(coarse).resize(sides, Image.Resampling.BICUBIC)
    fine = random.integers(0, 256, (high // 4, wide // 4), dtype=np.uint8)
    grain = Image.fromarray(fine).filter(ImageFilter.GaussianBlur(1)).resize(sides)
    Image.blend(picture, grain.convert("RGB"), 0.2).save(path, "JPEG", quality=90)
    return path


def measured(repeats: int, folder: Path) -> list[Pair]:
    """Each kind by turns with the yardstick; raises FileNotFoundError where that is missing."""
    if shutil.which(YARDSTICK) is None:
        raise FileNotFoundError(f"{YARDSTICK} is missing: install the Debian package libvips-tools")
    source = photo(folder / "photo.jpg", SIDES)
    return [_pair(kind, source, folder, repeats) for kind in TARGETS]


def _pair(kind: str, source: Path, folder: Path, repeats: int) -> Pair:
    ours: list[float] = []
    theirs: list[float] = []
    for _ in range(repeats):
        ours.append(_ms(lambda: receive(source, folder, SIZES, into=kind)))
        theirs.append(_ms(lambda: _vips(kind, source, folder)))
    mine, other = median(ours), median(theirs)
    return Pair(kind, mine, other, mine / other, TARGETS[kind])


def _vips(kind: str, source: Path, folder: Path) -> None:
    for name, side in SIZES.items():
        target = f"{folder}/vips-{name}.{ENDINGS[kind]}[Q={PAGE_QUALITY}]"
        subprocess.run([YARDSTICK, source, "-s", f"{side}x{side}", "-o", target], check=True)


def _ms(work: Callable[[], object]) -> float:
    begun = perf_counter()
    work()
    return 1000 * (perf_counter() - begun)


def children(sizes: Mapping[str, tuple[int, int]], folder: Path) -> list[Child]:
    """The process that looks at a new photo and makes its small size, from its start to its end."""
    return [
        _child(name, photo(folder / f"{name}.jpg", sides), folder) for name, sides in sizes.items()
    ]


def _child(megapixels: str, source: Path, folder: Path) -> Child:
    ms = _ms(lambda: receive_safely(source, source.name, folder))
    asked = {"path": str(source), "out_dir": str(folder), "sizes": {"small": 400}}
    program = (
        "import resource,subprocess,sys;"
        "subprocess.run(sys.argv[1:],stdin=sys.stdin,stdout=subprocess.DEVNULL,check=True);"
        "print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)"
    )
    told = subprocess.run(
        [sys.executable, "-c", program, *CHILD],
        input=json.dumps(asked) + "\n",
        capture_output=True,
        text=True,
        check=True,
    )
    return Child(megapixels, ms, int(told.stdout) / 1024)


def main(arguments: Sequence[str] | None = None) -> list[Pair]:
    """Measures, prints, and gives the pairs."""
    parser = ArgumentParser(prog="python -m tests.benchmarks.pictures", description=__doc__)
    parser.add_argument("--repeats", type=int, default=9, help="how often each is done")
    parser.add_argument("--largest", choices=[*LARGE], default="200", help="megapixels")
    parser.add_argument("--json", action="store_true", help="the figures as JSON")
    given = parser.parse_args(arguments)
    upto = {name: sides for name, sides in LARGE.items() if int(name) <= int(given.largest)}
    with tempfile.TemporaryDirectory() as folder:
        try:
            pairs = measured(max(1, given.repeats), Path(folder))
        except FileNotFoundError as missing:
            parser.exit(1, f"{missing}\n")
        held = children(upto, Path(folder))
    print(_as_json(pairs, held) if given.json else _as_table(pairs, held))
    return pairs


def _as_json(pairs: Sequence[Pair], held: Sequence[Child]) -> str:
    said = [asdict(one) | {"is_within": one.is_within} for one in pairs]
    return json.dumps({"sizes": said, "process": [asdict(one) for one in held]}, indent=2)


def _as_table(pairs: Sequence[Pair], held: Sequence[Child]) -> str:
    lines = [
        f"three sizes as {one.kind}: ours {one.ours_ms:.0f} ms, "
        f"{YARDSTICK} {one.theirs_ms:.0f} ms, "
        f"ratio {one.ratio:.2f}, target {one.target}: {'kept' if one.is_within else 'missed'}"
        for one in pairs
    ]
    lines += [
        f"the process for {one.megapixels} megapixels: {one.ms:.0f} ms, {one.peak_mb:.0f} MB"
        for one in held
    ]
    return "\n".join(lines)


if __name__ == "__main__":
    main()
