"""A base pattern written as the text of a pattern file, which reads back to the same pattern."""

import json
import re
from collections.abc import Iterator, Sequence
from fractions import Fraction

from alterations.errors import PatternError
from alterations.pattern import EDGES, Edge, Fabric, Pattern, Piece, Section, Yarn
from alterations.saying import gettext as _

FORMAT = 1
_BARE = re.compile(r"[A-Za-z0-9_-]+")


def write_pattern(pattern: Pattern) -> str:
    """The text of the pattern: one number where all sizes agree, otherwise one for each size.

    Refuses (PatternError) a number that no decimal can write exactly, such as a third of a metre.
    """
    parts = [
        f"format = {FORMAT}",
        *_head(pattern),
        *(line for fabric in pattern.fabrics for line in _fabric(fabric)),
        *_machine(pattern),
        *_yarn(pattern.yarn, [size.metres for size in pattern.sizes]),
        *(line for pieces in _across(pattern) for line in _piece(pieces)),
        *_relations(pattern),
    ]
    return "\n".join(parts) + "\n"


def _across(pattern: Pattern) -> Iterator[tuple[Piece, ...]]:
    """Each piece in all sizes."""
    return zip(*(size.pieces for size in pattern.sizes), strict=True)


def _head(pattern: Pattern) -> Iterator[str]:
    yield "\n[pattern]"
    yield f"name = {text(pattern.name)}"
    yield f"designer = {text(pattern.designer)}"
    yield from _given("series", pattern.series)
    yield f"audience = {text(pattern.audience)}"
    yield from _given("garment", pattern.garment)
    yield f"sizes = [{', '.join(text(size.name) for size in pattern.sizes)}]"
    fits = [size.to_fit_cm for size in pattern.sizes if size.to_fit_cm is not None]
    if len(fits) == len(pattern.sizes):
        yield f"to_fit_cm = [{', '.join(decimal(cm) for cm in fits)}]"
    yield f"even_rows = {'true' if pattern.even_rows else 'false'}"
    yield from _given("note", pattern.note)
    yield from _given("making_up", pattern.making_up)


def _fabric(fabric: Fabric) -> Iterator[str]:
    yield f"\n[fabrics.{_key(fabric.key)}]"
    yield f"title = {text(fabric.title)}"
    yield f"stitches = {decimal(fabric.gauge.stitches)}"
    yield f"rows = {decimal(fabric.gauge.rows)}"
    yield f"basis = {text(fabric.gauge.basis)}"
    if fabric.loop != 1:
        yield f"loop_percent = {decimal(fabric.loop * 100)}"


def _machine(pattern: Pattern) -> Iterator[str]:
    if pattern.machine is None:
        return
    yield "\n[machine]"
    yield f"needles = {pattern.machine.needles}"
    if pattern.machine.pitch_mm is not None:
        yield f"pitch_mm = {decimal(pattern.machine.pitch_mm)}"


def _yarn(yarn: Yarn, metres: Sequence[int]) -> Iterator[str]:
    yield "\n[yarn]"
    yield f"name = {text(yarn.name)}"
    yield from _given("fibre", yarn.fibre)
    yield f"ball_grams = {decimal(yarn.ball_grams)}"
    yield f"ball_metres = {decimal(yarn.ball_metres)}"
    yield f"metres = {_counts(metres)}"
    yield f"allowance_percent = {decimal(yarn.allowance_percent)}"


def _piece(pieces: Sequence[Piece]) -> Iterator[str]:
    first = pieces[0]
    place = f"pieces.{_key(first.key)}"
    yield f"\n[{place}]"
    yield f"title = {text(first.title)}"
    yield from _unless_one("make", [piece.make for piece in pieces])
    yield f"edge = {_edge(first.edge)}"
    yield from _unless_one("panels", [piece.panels for piece in pieces])
    if first.may_be_halved:
        yield "may_be_halved = true"
    yield from _given("words", first.words)
    for i, row in enumerate(zip(*(piece.sections for piece in pieces), strict=True)):
        yield f"\n[[{place}.sections]]"
        yield from _section(row, is_first=i == 0)


def _section(row: Sequence[Section], *, is_first: bool) -> Iterator[str]:
    one = row[0]
    yield f"key = {text(one.key)}"
    yield f"title = {text(one.title)}"
    yield f"fabric = {text(one.fabric)}"
    for name, value, usual in (
        ("shape", one.shape, "straight"),
        ("where", one.where, "both"),
        ("every", one.rhythm, "even rows"),
        ("part", one.part, ""),
    ):
        if value != usual:
            yield f"{name} = {text(value)}"
    if is_first or one.shape != "straight":
        yield f"stitches = {_counts([section.end for section in row])}"
    if any(section.rows for section in row):
        yield f"rows = {_counts([section.rows for section in row])}"
    if any(section.plain_end for section in row):
        yield f"plain_end = {_counts([section.plain_end for section in row])}"
    if one.folded:
        yield "folded = true"
    yield from _shaped(row)
    if (one.seam_left, one.seam_right) != (1, 1):
        yield f"seams = [{one.seam_left}, {one.seam_right}]"


def _shaped(row: Sequence[Section]) -> Iterator[str]:
    if row[0].shape == "held":
        yield f"groups = {_lists([section.groups for section in row])}"
    if row[0].shape == "neck":
        yield f"centre = {_counts([section.centre for section in row])}"
        yield f"steps = {_lists([section.steps for section in row])}"


def _relations(pattern: Pattern) -> Iterator[str]:
    for follow in pattern.follows:
        yield f"\n[[follows]]\nwhat = {text(follow.what)}\nrule = {text(follow.rule)}"
        yield f"of = [{', '.join(map(text, follow.of))}]"
    for rule in pattern.measures:
        yield f"\n[[measures]]\nkey = {text(rule.key)}\ntitle = {text(rule.title)}"
        yield f"of = {text(rule.of)}\nat = [{', '.join(map(text, rule.at))}]"


def text(value: str) -> str:
    """A text in quotes. JSON's escapes are TOML's, but for the delete sign."""
    return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")


def decimal(value: Fraction) -> str:
    """A fraction written out exactly as a decimal; refuses one that never ends.

    >>> decimal(Fraction(13, 2)), decimal(Fraction(150))
    ('6.5', '150')
    """
    for places in range(19):
        digits = abs(value) * 10**places
        if digits.denominator == 1:
            whole, rest = divmod(digits.numerator, 10**places)
            sign = "-" if value < 0 else ""
            return f"{sign}{whole}.{rest:0{places}d}" if places else f"{sign}{whole}"
    raise PatternError(
        _("%(number)s cannot be written as a decimal; round it first.") % {"number": value}
    )


def _key(key: str) -> str:
    return key if _BARE.fullmatch(key) else text(key)


def _given(name: str, value: str) -> Iterator[str]:
    if value:
        yield f"{name} = {text(value)}"


def _unless_one(name: str, counts: Sequence[int]) -> Iterator[str]:
    if set(counts) != {1}:
        yield f"{name} = {_counts(counts)}"


def _counts(counts: Sequence[int]) -> str:
    return str(counts[0]) if len(set(counts)) == 1 else f"[{', '.join(map(str, counts))}]"


def _lists(lists: Sequence[tuple[int, ...]]) -> str:
    rows = [f"[{', '.join(map(str, one))}]" for one in lists]
    # A single empty list would be taken for "no sizes", so it is written for each size.
    return rows[0] if len(set(rows)) == 1 and lists[0] else f"[{', '.join(rows)}]"


def _edge(edge: Edge) -> str:
    if EDGES.get(edge.name) == edge:
        return text(edge.name)
    return f"[{edge.multiple}, {edge.remainder}]"
