"""What to look at in yarn and fabric: weight, firmness, swatch, ball, fibre, amount."""

from collections.abc import Iterator
from fractions import Fraction

from alterations.amounts import factor_of, trusts_swatch, weighed_loop_cm
from alterations.errors import AlterationsError
from alterations.fibres import advice_for, read_composition
from alterations.finding import Finding
from alterations.kinds import StrandsTogether, YarnSwap
from alterations.pattern import EDGES
from alterations.recalculate import Result
from alterations.rounding import round_half_up
from alterations.saying import gettext as _
from alterations.units import show_cm
from alterations.wording import edge_in_words
from alterations.yarn import TIGHTNESS_BAND, loop_length_cm, tightness

MUCH_HEAVIER = Fraction(6, 5)  # 20 % more: common practice, no source
# Published amount against the stitch model, waste included: common practice, no source.
AMOUNT_BAND = (Fraction(9, 10), Fraction(13, 10))
# A gauge printed as "10 cm (4 in)" may be either: 10.16 / 10.
NOMINAL_PERCENT = Fraction("1.6")


def yarn_findings(result: Result) -> Iterator[Finding]:
    """Everything about yarn and fabric that deserves a second look."""
    yield from _weight(result)
    yield from _fabric(result)
    yield from _ball(result)
    yield from _swatch(result)
    yield from _basis(result)
    yield from _edges(result)
    yield from _fibre(result)
    yield from _published(result)


def _weight(result: Result) -> Iterator[Finding]:
    before, after = result.before.amount.grams, result.after.amount.grams
    if not result.after.amount.is_ball_known:
        return
    if before and after > MUCH_HEAVIER * before:
        more = round_half_up((after / before - 1) * 100)
        yield Finding(
            "heavy",
            "warning",
            _(
                "The garment becomes %(percent)s %% heavier (%(made)s g instead of %(base)s g) and "
                "may grow in length when worn."
            )
            % {
                "percent": more,
                "made": round_half_up(after),
                "base": round_half_up(before),
            },
        )


def _fabric(result: Result) -> Iterator[Finding]:
    gauge = result.after.gauge
    if not gauge.looks_relaxed:
        yield Finding(
            "swatch",
            "note",
            _(
                "%(gauge)s: rows and stitches are far from the usual ratio of plain knitting (1.2 "
                "to 1.5). Was the swatch washed and rested?"
            )
            % {"gauge": gauge},
        )
    if result.swap is None or result.swap.tex is None:
        return
    k = tightness(result.swap.tex, loop_length_cm(gauge))
    low, high = TIGHTNESS_BAND
    if not low <= k <= high:
        sentence = (
            _("This yarn at this gauge gives a fabric that is net-like.")
            if k < low
            else _("This yarn at this gauge gives a fabric that is very firm and hard to knit.")
        )
        yield Finding("tightness", "warning", sentence)


def _ball(result: Result) -> Iterator[Finding]:
    swap = result.swap
    if not isinstance(swap, YarnSwap) or swap.tex is not None:
        return
    yield Finding("ball", "note", _ball_missing(swap) % {"yarn": swap.name})


def _ball_missing(swap: YarnSwap) -> str:
    if swap.ball_grams is None and swap.ball_metres is None:
        return _(
            "Only the metres of %(yarn)s can be told; give the grams and metres of a ball for "
            "balls and weight."
        )
    if swap.ball_grams is None:
        return _(
            "Only the metres of %(yarn)s can be told; give the grams of a ball too for balls and "
            "weight."
        )
    return _(
        "Only the metres of %(yarn)s can be told; give the metres of a ball too for balls and "
        "weight."
    )


def _swatch(result: Result) -> Iterator[Finding]:
    swap = result.swap
    if isinstance(swap, StrandsTogether) and swap.worked is None:
        yield Finding(
            "no swatch",
            "warning",
            _(
                "Strands held together make another fabric: knit and wash a swatch and give its "
                "gauge. Until then the pattern's gauge counts (%(gauge)s)."
            )
            % {"gauge": result.pattern.gauge},
        )
    weighed, formula = weighed_loop_cm(swap), loop_length_cm(result.after.gauge)
    if weighed is not None and trusts_swatch(weighed, formula):
        percent = round_half_up(abs(weighed / formula - 1) * 100)
        sentence = _(
            "The weighed swatch takes %(percent)s %% less yarn a stitch than the formula says; the "
            "amount follows the swatch."
        )
        if weighed > formula:
            sentence = _(
                "The weighed swatch takes %(percent)s %% more yarn a stitch than the formula says; "
                "the amount follows the swatch."
            )
        yield Finding("weighed", "note", sentence % {"percent": percent})


def _basis(result: Result) -> Iterator[Finding]:
    """A nominal gauge beside a measured one leaves 1.6 % open."""
    before, after = result.before.gauge.basis, result.after.gauge.basis
    if before == after or "nominal" not in (before, after):
        return
    chest = result.before.measures[0].cm if result.before.measures else Fraction(100)
    open_cm = show_cm(chest * NOMINAL_PERCENT / 100, Fraction(1, 10))
    yield Finding(
        "basis",
        "note",
        _(
            "One gauge was counted over a stated length, the other one is nominal (“10 cm or 4 "
            "in”): widths are open by ±%(percent)s %%, here ±%(cm)s cm."
        )
        % {"percent": show_cm(NOMINAL_PERCENT, Fraction(1, 10)), "cm": open_cm},
    )


def _edges(result: Result) -> Iterator[Finding]:
    ribs = {
        wish.edge.name
        for key, wish in result.wish.edges.items()
        if wish.edge.multiple > 1 and wish.edge != result.before.size.piece(key).edge
    }
    for name in sorted(ribs):
        of = next(wish.fabric for wish in result.wish.edges.values() if wish.edge.name == name)
        sentence = _(
            "The edge is taken to have the gauge of the pattern's %(fabric)s; measure a swatch of "
            "your own edge and give its depth in rows if it differs."
        )
        if name in EDGES:
            sentence = _(
                "%(edge)s is taken to have the gauge of the pattern's %(fabric)s; measure a swatch "
                "of your own edge and give its depth in rows if it differs."
            )
        told = {"edge": edge_in_words(name), "fabric": result.pattern.fabric(of).title}
        yield Finding("edge", "note", sentence % told)


def _fibre(result: Result) -> Iterator[Finding]:
    swap = result.swap
    if not isinstance(swap, YarnSwap) or not swap.fibre:
        return
    try:
        composition = read_composition(swap.fibre)
    except AlterationsError:
        return  # a label in words of its own; nothing can be said about it
    ways = advice_for(composition)
    if ways:
        yield Finding(
            "fibre",
            "note",
            _(
                "%(composition)s recovers little, so the garment may grow: plan its length 2 to 5 "
                "%% shorter, knit at a firmer gauge, or choose a lighter yarn."
            )
            % {"composition": composition},
            ways_out=ways,
        )


def _published(result: Result) -> Iterator[Finding]:
    """The pattern's own amount against its stitches: outside the band one of them is wrong."""
    if result.after.size == result.before.size:
        return
    low, high = AMOUNT_BAND
    factor = factor_of(result.pattern, result.before.size)
    if not low <= factor <= high:
        yield Finding(
            "published",
            "note",
            _(
                "The published %(metres)s m are %(factor)s times what the stitches take; the "
                "amount of this garment is as uncertain."
            )
            % {
                "metres": result.before.amount.metres,
                "factor": show_cm(factor, Fraction(1, 100)),
            },
        )
