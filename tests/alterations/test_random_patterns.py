"""What holds for any pattern that can be described: pieces of random sections."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from alterations.caption import caption
from alterations.changes import changes
from alterations.drawing import drawing
from alterations.errors import AlterationsError, ShapingError
from alterations.findings import findings
from alterations.gauge import Gauge
from alterations.kinds import AnyAlteration, BodyLength, BodyWidth, OtherEdge, WorkedInHalves
from alterations.lines import lines
from alterations.pattern import EDGES, Fabric, Pattern, Piece, Section, Size, Yarn
from alterations.patterncheck import problems_of
from alterations.patternfile import load_pattern
from alterations.patterntext import write_pattern
from alterations.recalculate import recalculate
from alterations.shaping import held_groups, neck_curve
from alterations.tables import size_table
from alterations.worksheet import as_text, worksheet

from .anything import cms, plausible_gauges, sizes_of_rib

RHYTHMS = ("even rows", "any row", "carriage side")


@st.composite
def sections_above(draw: st.DrawFn, count: int, sides: int) -> Section:
    """One section that begins with so many stitches."""
    shape = draw(st.sampled_from(["straight", "spread", "edges", "held", "neck"]))
    groups: tuple[int, ...] = ()
    steps: tuple[int, ...] = ()
    centre, rows, end = 0, draw(st.integers(1, 60)), count
    if shape == "spread" and sides == 1:
        end = max(1, count + draw(st.integers(-12, 12)))
    elif shape == "edges" and sides == 1:
        rows, end = 0, count - 2 * draw(st.integers(-6, max(-6, count // 2 - 1)))
    elif shape == "held" and count > 4:
        groups = held_groups(draw(st.integers(1, count // 2)), draw(st.integers(1, 4)))
        rows, end = 2 * len(groups), count - 2 * sum(groups)
    elif shape == "neck" and sides == 1 and count > 6 and not count % 2:
        doubles, half = draw(st.integers(1, 5)), draw(st.integers(1, count // 2 - 1))
        first, *rest = neck_curve(half, doubles)
        rows, end, centre, steps = 2 * doubles, count - 2 * half, 2 * first, tuple(rest)
    else:
        shape = "straight"
    return Section(
        f"{shape}{draw(st.integers(0, 10**6))}",
        shape.title(),
        draw(st.sampled_from(["plain", "rib"])),
        count,
        end,
        rows,
        shape=shape,  # type: ignore[arg-type]
        rhythm=draw(st.sampled_from(RHYTHMS)),
        groups=groups,
        centre=centre,
        steps=steps,
        sides=sides,
        part=draw(st.sampled_from(["", "", "armhole depth", "neck width"])),
    )


@st.composite
def pieces(draw: st.DrawFn, key: str) -> Piece:
    """An edge, the row that corrects it, and up to five sections above."""
    edge = draw(st.sampled_from([*EDGES.values()]))
    cast_on = edge.remainder + edge.multiple * draw(st.integers(1, 40))
    count = cast_on + draw(st.integers(0, edge.multiple - 1))
    body = draw(st.integers(1, 90))
    found = [
        Section("hem", "Hem", "rib", cast_on, cast_on, draw(st.integers(1, 30)), part="hem"),
        Section("above", "Above", "plain", cast_on, count, 0, "across", part="body width"),
        Section("body", "Body", "plain", count, count, body, part="body length"),
    ]
    sides = 1
    for _ in range(draw(st.integers(0, 5))):
        one = draw(sections_above(found[-1].end, sides))
        found.append(one)
        sides = 2 if one.shape == "neck" else sides
        if one.shape == "held" or not one.end:
            break
    make, halved = draw(st.integers(1, 3)), draw(st.booleans())
    return Piece(key, key.title(), tuple(found), make, edge, may_be_halved=halved)


@st.composite
def patterns(draw: st.DrawFn) -> Pattern:
    gauge = Gauge(Fraction(draw(st.integers(12, 34))), Fraction(draw(st.integers(16, 48))))
    rib = Gauge(gauge.stitches, gauge.rows + 2)
    made = tuple(draw(pieces(key)) for key in ("back", "front")[: draw(st.integers(1, 2))])
    return Pattern(
        name="Any Garment",
        designer="Odalys Brimworth",
        fabrics=(Fabric("plain", "plain", gauge), Fabric("rib", "rib", rib, Fraction(9, 10))),
        yarn=Yarn("Fennimoor Plain", Fraction(50), Fraction(120)),
        sizes=(Size("1", made, draw(st.integers(10, 3000))),),
        even_rows=draw(st.booleans()),
    )


sound = patterns().filter(lambda one: not problems_of(one))
some_changes: st.SearchStrategy[list[AnyAlteration]] = st.lists(
    st.one_of(
        st.builds(BodyLength, cms),
        st.builds(BodyWidth, cms),
        st.builds(OtherEdge, st.just("hem"), st.sampled_from([*EDGES]), st.none() | sizes_of_rib),
        st.just(WorkedInHalves()),
    ),
    max_size=3,
)


@given(sound)
def test_any_pattern_is_written_and_read_back(pattern: Pattern) -> None:
    assert load_pattern(write_pattern(pattern)) == pattern
    assert len(size_table(pattern)) == 3


@given(sound)
def test_any_pattern_is_itself_where_nothing_is_changed(pattern: Pattern) -> None:
    result = recalculate(pattern, "1")
    assert result.after == result.before and not changes(result)


@given(sound, some_changes, st.none() | plausible_gauges())
def test_any_garment_of_any_pattern_is_told_or_refused_in_a_sentence(
    pattern: Pattern, alterations: list[AnyAlteration], gauge: Gauge | None
) -> None:
    try:
        result = recalculate(pattern, "1", alterations, gauge)
    except AlterationsError as refusal:
        assert str(refusal).endswith(".")
        return
    assert caption(result) and all(one.sentence for one in findings(result))
    assert all(line.what for line in lines(result))
    assert all(drawing(result, piece.key) for piece in result.after.size.pieces)
    assert "FINISHED MEASUREMENTS" in as_text(worksheet(result))


def alone(piece: Piece) -> Pattern:
    """A pattern of one piece at 20 stitches x 28 rows."""
    plain = Fabric("plain", "plain", Gauge(Fraction(20), Fraction(28)))
    yarn = Yarn("Fennimoor Plain", Fraction(50), Fraction(120))
    return Pattern("Any Garment", "Odalys Brimworth", (plain,), yarn, (Size("1", (piece,), 100),))


# 6 stitches at a quarter of the gauge: (6 − 2) / 4 + 2 = 3, even 4: no panel is left between seams.
def test_a_piece_grown_too_narrow_for_its_panels_is_refused_in_a_sentence() -> None:
    body = Section("body", "Body", "plain", 6, 6, 10)
    pattern = alone(Piece("back", "Back", (body,), panels=3, may_be_halved=True))
    with pytest.raises(ShapingError, match="too narrow for three panels"):
        recalculate(pattern, "1", [], Gauge(Fraction(5), Fraction(7)))


# Two sides of a neck, each shaped at both edges: 30 to 24 stitches are no multiple of four.
def test_a_slope_that_two_sides_cannot_share_is_told_on_the_worksheet() -> None:
    sections = (
        Section("body", "Body", "plain", 60, 60, 10),
        Section("neck", "Neck", "plain", 60, 40, 4, "neck", centre=16, steps=(2,)),
        Section("slope", "Slope", "plain", 40, 32, 20, "spread", rhythm="any row", sides=2),
    )
    gauge = Gauge(Fraction("14.8"), Fraction(28))
    result = recalculate(alone(Piece("front", "Front", sections)), "1", [], gauge)
    assert "shaping" in {one.code for one in findings(result)}
    assert "FINISHED MEASUREMENTS" in as_text(worksheet(result))
