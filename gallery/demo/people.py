"""Who knitted what in the demo: invented people and their garments, as plain data."""

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from alterations.gauge import Gauge
from alterations.kinds import (
    AnyAlteration,
    BodyLength,
    BodyWidth,
    Extra,
    FreeNote,
    NeckDepth,
    OtherEdge,
    OwnFigure,
    SleeveGirth,
    SleeveLength,
    SleeveWidth,
    WorkedInHalves,
    YarnSwap,
)
from alterations.units import parse_length

FILM, PAGES, NOTES, NAME = "film", "public_pages", "notes", "name"
ALL = frozenset({FILM, PAGES, NOTES, NAME})
APPROVE, ASK, DECLINE, WAITING = "approve", "ask", "decline", ""

Kind = Literal["jpeg", "heic", "png", "webp"]


@dataclass(frozen=True)
class Picture:
    """One photo to be drawn: scene, orientation, kind of file."""

    scene: str
    portrait: bool = False
    megapixels: int = 3
    kind: Kind = "jpeg"
    orientation: int = 1
    description: str = ""
    stage: str = "finished"
    has_place: bool = True
    people: str = "nobody"
    others_agree: bool = False


@dataclass(frozen=True)
class Knitted:
    """One garment of the demo with its sender's answers and the teacher's verdict."""

    name: str
    size: str
    colour: str
    pictures: tuple[Picture, ...]
    alterations: tuple[AnyAlteration, ...] = ()
    allows: frozenset[str] = ALL
    verdict: str = APPROVE
    verdict_note: str = ""
    notes: str = ""
    email: str = ""
    stage: str = "finished"
    machine: bool = True
    taken_back: frozenset[str] = frozenset()
    people_are_seen: bool = False


def longer(text: str) -> BodyLength:
    return BodyLength(parse_length(text))


def sleeves(text: str) -> SleeveLength:
    return SleeveLength(parse_length(text))


def wrist(text: str) -> SleeveWidth:
    return SleeveWidth(parse_length(text))


COTTON = YarnSwap(
    "Kelvarrick Cotton", Fraction(50), Fraction(95), Gauge(Fraction(19), Fraction(26))
)
FLAT = Picture("flat", megapixels=12, description="The whole tunic, laid out flat by a window")
FLAT_TALL = Picture("flat", portrait=True, orientation=6, megapixels=12)
HANGER = Picture("hanger", portrait=True, megapixels=12, description="On a hanger at the wall")
HANGER_3 = Picture("hanger", portrait=True, orientation=8)
CHAIR = Picture("chair", description="Over the back of a chair")
# What their senders answered about people is the scenario's: nobody is drawn in any picture.
CHAIR_WITH_OTHERS = replace(CHAIR, people="others", others_agree=True)
HANGER_WITH_OTHERS = replace(HANGER_3, people="others", others_agree=True)
DETAIL = Picture("detail", stage="detail", description="The hem, close up")
NEEDLES = Picture("needles", stage="in_progress", description="The back, growing on the needles")
BED = Picture("needles", portrait=True, orientation=3, stage="in_progress")

KNITTED = (
    Knitted(
        "Wendeline Oakmarsh",
        "4",
        "madder",
        (FLAT, DETAIL),
        (longer("5 cm"), COTTON),
        notes="I am tall, so the body had to be longer. It hangs beautifully.",
        email="wendeline@example.org",
    ),
    Knitted(
        "Hesper Quillane",
        "3",
        "indigo",
        (HANGER,),
        (longer("5 cm"), NeckDepth(parse_length("3 cm"))),
    ),
    Knitted(
        "Marit Øslunde", "2", "undyed cream", (FLAT_TALL, CHAIR), (sleeves("-4 cm"),), email=""
    ),
    Knitted(
        "Bérénice Vaulorme-Dûbois",
        "5",
        "woad",
        (HANGER_3, DETAIL),
        (WorkedInHalves(), sleeves("4 cm")),
        notes="My bed has 130 needles, so back and front are in two halves each.",
    ),
    Knitted("", "3", "moss", (CHAIR,), allows=ALL - {NAME}),
    Knitted("Ottoline Drewgarth", "6", "weld", (FLAT,), (longer("2 in"),), allows=ALL - {NAME}),
    Knitted(
        "Yevka Mirandole",
        "1",
        "rose hip",
        (Picture("flat", megapixels=12, kind="heic"),),
        (wrist("20 cm"),),
        notes="A narrower wrist keeps the cuff out of the soup.",
    ),
    Knitted(
        "Kjersti Hollvang",
        "4",
        "pine",
        (NEEDLES, BED),
        stage="in_progress",
        notes="Half way up the back.",
    ),
    Knitted("Pim van der Wolk", "7", "walnut", (HANGER, CHAIR), (longer("-3 cm"),)),
    Knitted(
        "Tamsin Brakewell",
        "3",
        "heather",
        (Picture("flat", kind="png"),),
        (
            sleeves("-8 cm"),
            Extra("pocket", words="in the left side seam, garter at its top"),
        ),
    ),
    Knitted("Anneke Rietdorn", "8", "slate", (FLAT,), (longer("4 cm"), sleeves("2 cm"))),
    Knitted(
        "Ludmila Varenkowa",
        "2",
        "apricot",
        (HANGER_3,),
        (COTTON,),
        notes="The cotton is heavier, but cool to wear.",
    ),
    Knitted("Zsófi Kelemvár", "5", "sea marl", (CHAIR, DETAIL), (longer("14 rows"),)),
    Knitted("Ingibjörg Fannarsdal", "4", "oat marl", (FLAT_TALL,), allows=frozenset({FILM, NAME})),
    Knitted(
        "Dorothea M. Penhallick",
        "6",
        "lichen",
        (HANGER,),
        (BodyWidth(parse_length("6 cm")),),
        allows=frozenset({PAGES, NOTES}),
    ),
    Knitted(
        "Quenby Ashgrove",
        "3",
        "ember marl",
        (Picture("chair", kind="webp"),),
        (wrist("27 cm"),),
        allows=frozenset({NOTES}),
        notes="Numbers only, please; I am shy of cameras.",
    ),
    Knitted(
        "The Tuesday Carriage Circle",
        "7",
        "oatmeal",
        (FLAT, CHAIR_WITH_OTHERS),
        (longer("6 cm"), OwnFigure("back.body", rows=126), FreeNote("Knitted in turns.")),
        people_are_seen=True,
    ),
    Knitted(
        "Saoirse Dunvale",
        "4",
        "woad",
        (HANGER,),
        (longer("3 cm"),),
        taken_back=ALL,
        notes="I changed my mind about the pictures.",
    ),
    Knitted(
        "Carmela Fiordalba",
        "2",
        "madder",
        (FLAT,),
        (OtherEdge("hem", "K1P1", parse_length("10 cm"), keeps_length=True),),
        taken_back=frozenset({FILM}),
    ),
    Knitted(
        "Li-Wen Sohrenberg",
        "5",
        "indigo",
        (CHAIR,),
        (sleeves("-1.5 in"),),
        verdict=ASK,
        verdict_note="How did you finish the neckband? I would like to know that roll.",
        email="liwen@example.org",
    ),
    Knitted(
        "Faramond Teasel",
        "3",
        "slate",
        (DETAIL,),
        verdict=DECLINE,
        verdict_note="A lovely stitch, but the garment cannot be seen. Another photo?",
    ),
    Knitted(
        "Nkechi Obalorwe",
        "6",
        "rose hip",
        (FLAT, DETAIL),
        (longer("5 cm"), SleeveGirth(parse_length("4 cm"), "gathers")),
        verdict=WAITING,
    ),
    Knitted(
        "Elowen Sandiver",
        "1",
        "weld",
        (HANGER_WITH_OTHERS,),
        (sleeves("3 cm"),),
        verdict=WAITING,
    ),
    Knitted(
        "", "4", "walnut", (NEEDLES,), stage="in_progress", allows=frozenset(), verdict=WAITING
    ),
)
