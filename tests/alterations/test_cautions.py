"""Cautions: what calls for one, how strong it is, and the sources behind it."""

import doctest

import pytest
from hypothesis import given
from hypothesis import strategies as st

from alterations import cautions
from alterations.cautions import (
    CLOSING,
    CORD,
    FLAME,
    GENERAL_CAUTIONS,
    SMALL_PARTS,
    Caution,
    cautions_for,
)
from alterations.errors import KindError

NOTHING: frozenset[str] = frozenset()


def found(
    *,
    audience: str = "adult",
    added: frozenset[str] = NOTHING,
    sleeve: frozenset[str] = NOTHING,
    garment: str = "tunic",
    raised: bool = False,
    fibres: tuple[str, ...] = ("wool",),
) -> tuple[Caution, ...]:
    return cautions_for(
        audience=audience,
        added=added,
        sleeve=sleeve,
        garment=garment,
        raised_surface=raised,
        fibres=fibres,
    )


def codes(cautions: tuple[Caution, ...]) -> list[str]:
    return [caution.code for caution in cautions]


# T11.1 (16 CFR 1120, EN 14682:2014): for a child, and any of the three.
@pytest.mark.parametrize("feature", ["drawstring", "cord", "tie", "Cords", "i-cord", "neck ties"])
def test_t11_1_a_cord_on_a_childs_garment_is_cautioned(feature: str) -> None:
    assert found(audience="child", added=frozenset({feature})) == (CORD,)


@pytest.mark.parametrize("feature", ["drawstring", "cord", "tie"])
def test_t11_1_a_cord_on_an_adults_garment_is_not(feature: str) -> None:
    assert found(added=frozenset({feature})) == ()


@pytest.mark.parametrize("feature", ["pocket", "hood", "band", "recorded", "necktied"])
def test_t11_1_another_part_on_a_childs_garment_is_no_cord(feature: str) -> None:
    assert "cord" not in codes(found(audience="child", added=frozenset({feature})))


# T11.2 (16 CFR 1610): sleeves bell or wider, or a robe or nightwear.
@pytest.mark.parametrize("variant", ["bell", "wider"])
def test_t11_2_wide_sleeves_are_cautioned(variant: str) -> None:
    assert found(sleeve=frozenset({variant})) == (FLAME,)


@pytest.mark.parametrize(
    "garment", ["robe", "Nightwear", "dressing gown", "nightdresses", "pyjamas"]
)
def test_t11_2_robes_and_nightwear_are_cautioned_with_their_rules(garment: str) -> None:
    (caution,) = found(garment=garment)
    assert (caution.code, caution.strength, caution.sentence) == ("flame", "usual", FLAME.sentence)
    assert any("SI 1985/2043" in fact for fact in caution.facts)


@pytest.mark.parametrize("variant", ["longer", "narrower", "tapered"])
def test_t11_2_other_sleeves_are_not_cautioned(variant: str) -> None:
    assert found(sleeve=frozenset({variant})) == ()


CELLULOSE = ["cotton", "rayon", "bamboo", "80 % pima cotton, 20 % nylon", "linen"]


@pytest.mark.parametrize("fibre", CELLULOSE)
def test_t11_2_a_fuzzy_cellulosic_yarn_makes_it_strong(fibre: str) -> None:
    (caution,) = found(sleeve=frozenset({"bell"}), raised=True, fibres=(fibre,))
    assert caution.strength == "strong" and "fuzzy" in caution.sentence


@pytest.mark.parametrize(("raised", "fibre"), [(False, "cotton"), (True, "wool"), (True, "nylon")])
def test_t11_2_smooth_or_not_cellulosic_it_stays_usual(raised: bool, fibre: str) -> None:
    (caution,) = found(sleeve=frozenset({"bell"}), raised=raised, fibres=(fibre,))
    assert caution.strength == "usual"


def test_a_fuzzy_cotton_alone_calls_for_none() -> None:
    assert found(raised=True, fibres=("cotton",)) == ()


# The text speaks of under-threes; 16 CFR 1501.3(d) does not forbid buttons.
def test_buttons_for_children_are_cautioned_without_a_ban() -> None:
    assert found(audience="child", added=frozenset({"buttons"})) == (SMALL_PARTS,)
    assert any("leaves out children's clothing" in fact for fact in SMALL_PARTS.facts)


@pytest.mark.parametrize("fibre", ["elastodiene", "95 % cotton, 5 % rubber"])
def test_natural_rubber_is_cautioned(fibre: str) -> None:
    assert codes(found(fibres=(fibre,))) == ["skin"]


# Elastane is not rubber; a review (Acta Derm Venereol 97, 2017) found no wool allergen.
@pytest.mark.parametrize("fibre", ["elastane", "wool"])
def test_neither_elastane_nor_wool_calls_for_a_caution_by_itself(fibre: str) -> None:
    assert found(fibres=(fibre,)) == ()


def test_the_strong_ones_come_first() -> None:
    cautions = found(
        audience="child",
        added=frozenset({"buttons", "cord"}),
        sleeve=frozenset({"wider"}),
        raised=True,
        fibres=("cotton",),
    )
    assert [(one.code, one.strength) for one in cautions] == [
        ("cord", "strong"),
        ("flame", "strong"),
        ("small parts", "usual"),
    ]


@pytest.mark.parametrize("audience", ["", "kid", "Child "])
def test_another_audience_is_refused_so_that_no_caution_is_lost(audience: str) -> None:
    with pytest.raises(KindError, match="adult or for a child"):
        found(audience=audience)


@given(st.frozensets(st.text(max_size=20)), st.text(max_size=40), st.lists(st.text(max_size=40)))
def test_no_words_at_all_bring_an_exception(
    added: frozenset[str], garment: str, fibres: list[str]
) -> None:
    told = found(added=added, sleeve=added, garment=garment, fibres=tuple(fibres))
    assert all(caution.sentence.endswith(".") for caution in told)


def every_caution() -> tuple[Caution, ...]:
    night = found(audience="child", garment="robe", added=frozenset({"cord"}))
    return (CORD, FLAME, *GENERAL_CAUTIONS, *night)


def test_every_fact_is_a_sentence_that_names_its_source() -> None:
    names = ("CFR", "EN ", "SI 1985", "Acta")
    for fact in (fact for caution in every_caution() for fact in caution.facts):
        assert fact.endswith(".") and any(name in fact for name in names)


def test_a_page_can_say_that_nothing_is_certified() -> None:
    assert "Local law governs" in CLOSING and "does not check or certify" in CLOSING
    assert {caution.code for caution in GENERAL_CAUTIONS} == {"small parts", "skin"}


def test_the_worked_examples_hold() -> None:
    assert doctest.testmod(cautions).failed == 0
