"""What holds for every garment that can be made, whatever was changed."""

from collections.abc import Callable
from fractions import Fraction
from itertools import pairwise

from hypothesis import assume, given
from hypothesis import strategies as st

from alterations.caption import caption
from alterations.changes import changes
from alterations.errors import AlterationsError
from alterations.findings import findings
from alterations.gauge import Gauge
from alterations.kinds import (
    AnyAlteration,
    BodyLength,
    FreeNote,
    SleeveLength,
    SleeveWidth,
    WorkedInHalves,
    YarnSwap,
    from_plain,
    to_plain,
)
from alterations.lines import lines
from alterations.panels import panels_of
from alterations.pattern import Pattern
from alterations.recalculate import Result, recalculate
from alterations.stitches import stitches_in
from alterations.units import Length

lengths = st.builds(
    Length, st.fractions(-60, 90, max_denominator=20), st.sampled_from(["cm", "in"])
)
rows = st.builds(Length, st.integers(-120, 200).map(Fraction), st.just("rows"))
widths = st.builds(Length, st.fractions(1, 90, max_denominator=10), st.just("cm"))
gauges = st.builds(
    Gauge,
    st.integers(20, 600).map(lambda tenths: Fraction(tenths, 10)),
    st.integers(20, 900).map(lambda tenths: Fraction(tenths, 10)),
    st.sampled_from(["10cm", "4in", "nominal"]),
)
swaps = st.builds(
    YarnSwap,
    st.just("Kelvarrick Cotton"),
    st.just(Fraction(50)),
    st.just(Fraction(95)),
    st.none() | gauges,
    st.sampled_from(["measurements", "counts"]),
)
one_each: list[st.SearchStrategy[AnyAlteration]] = [
    st.builds(BodyLength, lengths | rows),
    st.builds(SleeveLength, lengths | rows),
    st.builds(SleeveWidth, widths),
    swaps,
    st.just(WorkedInHalves()),
    st.builds(FreeNote, st.text(min_size=1, max_size=9).filter(str.strip)),
]
# Each kind at most once, in any order.
garments = st.permutations(one_each).flatmap(
    lambda kinds: st.integers(0, len(kinds)).flatmap(lambda many: st.tuples(*kinds[:many]))
)
sizes = st.sampled_from("12345678")


def made(pattern: Pattern, size: str, given_changes: tuple[AnyAlteration, ...]) -> Result:
    """The result; a refusal in a sentence is an answer too, and ends the example."""
    try:
        return recalculate(pattern, size, given_changes)
    except AlterationsError as refusal:
        assert str(refusal).endswith(".")
        assume(False)
        raise


@given(sizes, garments)
def test_every_garment_can_be_told(
    tunic: Pattern, size: str, alterations: tuple[AnyAlteration, ...]
) -> None:
    result = made(tunic, size, alterations)
    told: list[Callable[[Result], object]] = [caption, lines, findings, changes]
    assert all(tell(result) is not None for tell in told)


@given(sizes, garments)
def test_each_section_goes_on_with_the_stitches_of_the_one_below(
    tunic: Pattern, size: str, alterations: tuple[AnyAlteration, ...]
) -> None:
    pieces = made(tunic, size, alterations).after.size.pieces
    panels = [panel for piece in pieces for panel in (piece, *panels_of(piece))]
    assert all(a.end == b.start for panel in panels for a, b in pairwise(panel.sections))


@given(sizes, garments)
def test_rows_come_back_to_their_side_and_no_stitch_is_negative(
    tunic: Pattern, size: str, alterations: tuple[AnyAlteration, ...]
) -> None:
    pieces = made(tunic, size, alterations).after.size.pieces
    parts = [part for piece in pieces for panel in panels_of(piece) for part in panel.sections]
    assert not [part for part in parts if part.rows % 2 or stitches_in(part) < 0]


@given(sizes, garments)
def test_every_panel_is_cast_on_to_its_rib(
    tunic: Pattern, size: str, alterations: tuple[AnyAlteration, ...]
) -> None:
    pieces = made(tunic, size, alterations).after.size.pieces
    assert {panel.cast_on % 3 for piece in pieces for panel in panels_of(piece)} == {2}


@given(sizes, garments)
def test_the_order_of_entries_changes_no_number(
    tunic: Pattern, size: str, alterations: tuple[AnyAlteration, ...]
) -> None:
    mixed = sorted(alterations, key=repr)
    assert made(tunic, size, tuple(mixed)).after == made(tunic, size, alterations).after


@given(garments)
def test_what_is_stored_is_read_back(alterations: tuple[AnyAlteration, ...]) -> None:
    stored = [to_plain(one) for one in alterations]
    read = [from_plain(kind, fields) for kind, fields in stored]
    assert tuple(read) == alterations
