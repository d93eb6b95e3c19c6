"""A base pattern from its text file; every mistake is collected and named by its place."""

import re
import tomllib
from collections.abc import Sequence
from fractions import Fraction
from pathlib import Path
from typing import Any, get_args

from alterations.errors import PatternFileError
from alterations.gauge import BASIS_CM, FEWEST, MOST, Gauge
from alterations.pattern import (
    EDGES,
    Edge,
    Fabric,
    Follow,
    Machine,
    MeasureOf,
    MeasureRule,
    Pattern,
    Piece,
    Rhythm,
    Rule,
    Section,
    Shape,
    Size,
    Where,
    Yarn,
)
from alterations.patterncheck import problems_of
from alterations.reading import NoNumber, Notes, Table
from alterations.saying import gettext as _

FORMAT = 1
LARGEST_BYTES = 200_000
MOST_SIZES = 40
MOST_STITCHES = 2000
MOST_ROWS = 3000
_DECIMAL = re.compile(r"[+-]?[0-9_]{1,20}\.[0-9_]{1,20}")


def read_pattern(path: Path) -> Pattern:
    """The pattern in a file; refuses (PatternFileError) what load_pattern refuses, and no file."""
    try:
        with path.open("rb") as stream:
            data = stream.read(LARGEST_BYTES + 1)
    except OSError as trouble:
        sentence = _("%(path)s cannot be opened: %(reason)s.")
        told = sentence % {"path": path, "reason": trouble.strerror}
        raise PatternFileError((told,)) from trouble
    return load_pattern(data)


def load_pattern(data: bytes | str) -> Pattern:
    """The pattern in a text. Refuses with every mistake found, each with its place.

    More than 200 kB, text that is not UTF-8 or not TOML are refused at once.
    """
    notes = Notes()
    pattern = _pattern(Table(_toml(data), "", notes))
    problems = notes.problems or problems_of(pattern)
    if problems:
        raise PatternFileError(tuple(problems))
    return pattern


def _toml(data: bytes | str) -> dict[str, Any]:
    if len(data) > LARGEST_BYTES:
        sentence = _("The file is larger than %(most)s kB; no pattern's numbers are.")
        raise PatternFileError((sentence % {"most": LARGEST_BYTES // 1000},))
    try:
        text = data.decode("utf-8-sig") if isinstance(data, bytes) else data.removeprefix("\ufeff")
        return tomllib.loads(text, parse_float=_decimal)
    except UnicodeDecodeError as trouble:
        sentence = _("The file is not plain text in UTF-8; save it again as UTF-8 text.")
        raise PatternFileError((sentence,)) from trouble
    except (tomllib.TOMLDecodeError, ValueError, RecursionError) as trouble:
        sentence = _("The file cannot be read as TOML: %(reason)s.") % {"reason": trouble}
        raise PatternFileError((sentence,)) from trouble


def _decimal(text: str) -> Fraction | NoNumber:
    """A decimal as an exact fraction; what is no plain decimal is left to whoever asks for it,
    since only there its place is known."""
    return Fraction(text.replace("_", "")) if _DECIMAL.fullmatch(text) else NoNumber(text)


def _pattern(top: Table) -> Pattern:
    if top.count("format", default=FORMAT, most=99) != FORMAT:
        sentence = _("this program reads format %(format)s; write format = %(format)s.")
        top.problem("format", sentence % {"format": FORMAT})
    head = top.table("pattern")
    names = head.texts("sizes", most=MOST_SIZES)
    top.notes.sizes = tuple(names)
    fabrics = tuple(_fabric(key, table) for key, table in top.named_tables("fabrics"))
    yarn, metres = _yarn(top.table("yarn"), len(names))
    rows_of_pieces = [_piece(key, table, len(names)) for key, table in top.named_tables("pieces")]
    to_fit = head.fractions("to_fit_cm", len(names))
    sizes = tuple(
        Size(name, tuple(pieces[i] for pieces in rows_of_pieces), metres[i], to_fit[i])
        for i, name in enumerate(names)
    )
    machine = top.table("machine", needed=False)
    pattern = Pattern(
        name=head.text("name"),
        designer=head.text("designer"),
        series=head.text("series", default=""),
        note=head.text("note", default=""),
        audience=head.choice("audience", ("adult", "child"), "adult"),
        garment=head.text("garment", default=""),
        even_rows=head.truth("even_rows", default=True),
        making_up=head.text("making_up", default=""),
        fabrics=fabrics,
        yarn=yarn,
        sizes=sizes,
        machine=_machine(machine) if machine.given else None,
        follows=tuple(_follow(table) for table in top.list_of_tables("follows")),
        measures=tuple(_measure(table) for table in top.list_of_tables("measures")),
    )
    head.done()
    top.done()
    return pattern


def _fabric(key: str, table: Table) -> Fabric:
    # The bounds of a Gauge itself: a figure outside is said once, beside its own field.
    stitches = table.fraction("stitches", least=FEWEST, most=MOST)
    rows = table.fraction("rows", least=FEWEST, most=MOST)
    basis = table.choice("basis", tuple(BASIS_CM), "10cm")
    title = table.text("title", default=key)
    loop = table.fraction("loop_percent", default=Fraction(100), least=Fraction(10)) / 100
    table.done()
    return Fabric(key, title, Gauge(stitches, rows, basis), loop)  # type: ignore[arg-type]


def _yarn(table: Table, sizes: int) -> tuple[Yarn, Sequence[int]]:
    yarn = Yarn(
        name=table.text("name"),
        fibre=table.text("fibre", default=""),
        ball_grams=table.fraction("ball_grams", least=Fraction(1)),
        ball_metres=table.fraction("ball_metres", least=Fraction(1)),
        allowance_percent=table.fraction("allowance_percent", default=Fraction(8)),
    )
    metres = table.counts("metres", sizes, least=1, most=100_000)
    table.done()
    return yarn, metres


def _machine(table: Table) -> Machine:
    machine = Machine(
        needles=table.count("needles", least=1, most=2000),
        pitch_mm=table.fraction("pitch_mm", default=None, least=Fraction(1)),
    )
    table.done()
    return machine


def _piece(key: str, table: Table, sizes: int) -> tuple[Piece, ...]:
    """One piece in every size."""
    make = table.counts("make", sizes, default=1, least=1, most=40)
    panels = table.counts("panels", sizes, default=1, least=1, most=3)
    title = table.text("title")
    words = table.text("words", default="")
    halved = table.truth("may_be_halved", default=False)
    edge = _edge(table)
    seams = table.counts("seams", 2, default=1, most=10)
    columns = _columns(table, sizes, seams)
    table.done()
    return tuple(
        Piece(key, title, columns[i], make[i], edge, panels[i], halved, words) for i in range(sizes)
    )


def _edge(table: Table) -> Edge:
    value = table.take("edge", "none")
    if isinstance(value, str) and value in EDGES:
        return EDGES[value]
    whole = isinstance(value, list) and all(type(part) is int for part in value)
    if whole and len(value) == 2 and value[0] >= 1 and value[1] >= 0:
        return Edge(f"{value[0]}·n + {value[1]}", value[0], value[1])
    known = ", ".join(f"“{name}”" for name in EDGES)
    sentence = _("give one of %(known)s, or a repeat and remainder like [3, 2].")
    table.problem("edge", sentence % {"known": known})
    return EDGES["none"]


def _columns(table: Table, sizes: int, seams: Sequence[int]) -> list[tuple[Section, ...]]:
    """The sections of a piece, size by size; each starts where the one before ended."""
    ends: list[list[int]] = []
    columns: list[list[Section]] = [[] for _size in range(sizes)]
    parted = [1] * sizes
    for part in table.list_of_tables("sections"):
        start = ends[-1] if ends else None
        sections = _section(part, sizes, start, parted, seams)
        ends.append([section.end for section in sections])
        for i, section in enumerate(sections):
            columns[i].append(section)
            parted[i] = 2 if section.shape == "neck" and section.where == "both" else parted[i]
    if not ends:
        table.problem("sections", _("a piece needs at least one section."))
    return [tuple(column) for column in columns]


def _section(
    table: Table, sizes: int, start: list[int] | None, sides: list[int], seams: Sequence[int]
) -> list[Section]:
    shape: Shape = table.choice("shape", get_args(Shape), "straight")  # type: ignore[assignment]
    step = shape in ("across", "edges")
    rows = (
        table.counts("rows", sizes, default=0, most=0)
        if step
        else table.counts("rows", sizes, least=1, most=MOST_ROWS)
    )
    if start is not None and shape == "straight":
        end = table.counts("stitches", sizes, default=None, most=MOST_STITCHES) or start
    else:
        end = table.counts("stitches", sizes, least=1 if start is None else 0, most=MOST_STITCHES)
    before = list(end) if start is None else start
    texts = {"key": table.text("key"), "fabric": table.text("fabric")}
    title = table.text("title", default=texts["key"])
    where: Where = table.choice("where", get_args(Where), "both")  # type: ignore[assignment]
    rhythm: Rhythm = table.choice("every", get_args(Rhythm), "even rows")  # type: ignore[assignment]
    plain = table.counts("plain_end", sizes, default=0, most=MOST_ROWS)
    groups = table.lists("groups", sizes) if shape == "held" else [()] * sizes
    centre = table.counts("centre", sizes, default=0, most=MOST_STITCHES)
    steps = table.lists("steps", sizes) if shape == "neck" else [()] * sizes
    own = table.counts("seams", 2, default=None, most=10) or seams
    part = table.text("part", default="")
    folded = table.truth("folded", default=False)
    table.done()
    return [
        Section(
            key=texts["key"],
            title=title,
            fabric=texts["fabric"],
            start=before[i],
            end=end[i],
            rows=rows[i],
            shape=shape,
            where=where,
            rhythm=rhythm,
            plain_end=plain[i],
            groups=groups[i],
            centre=centre[i],
            steps=steps[i],
            seam_left=own[0],
            seam_right=own[1],
            sides=sides[i],
            part=part,
            folded=folded,
        )
        for i in range(sizes)
    ]


def _follow(table: Table) -> Follow:
    rule: Rule = table.choice("rule", get_args(Rule), None)  # type: ignore[assignment]
    follow = Follow(table.text("what"), rule, tuple(table.texts("of", may_repeat=True)))
    table.done()
    return follow


def _measure(table: Table) -> MeasureRule:
    kind: MeasureOf = table.choice("of", get_args(MeasureOf), None)  # type: ignore[assignment]
    at = tuple(table.texts("at", may_repeat=True))
    rule = MeasureRule(table.text("key"), table.text("title"), kind, at)
    table.done()
    return rule
