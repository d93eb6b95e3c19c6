"""What the fields of the pattern editor may hold, in words."""

from collections.abc import Iterator

from django.utils.translation import gettext as _

from alterations.places import PARTS
from alterations.wording import all_small, name_in_words
from gallery.series.editor.document import Document, key_of, numbers_of

Choices = tuple[tuple[str, str], ...]


def choices_of(document: Document) -> dict[str, Choices]:
    """The choices of each field that has some, by the field's name."""
    names = [(one["key"] or key_of(one["title"]), one["title"]) for one in document["fabrics"]]
    parts = ((name, name_in_words(name)) for name in (*PARTS, "hem", "cuff", "neckband"))
    return {
        "audience": (("adult", _("an adult")), ("child", _("a child"))),
        "even_rows": (("yes", _("must be even")), ("no", _("may be odd"))),
        "may_be_halved": (("no", _("no")), ("yes", _("yes"))),
        "folded": (("no", _("no")), ("yes", _("yes, a hung hem"))),
        "basis": (("10cm", "10 cm"), ("4in", _("4 inches")), ("nominal", _("10 cm or 4 inches"))),
        "shape": shapes(),
        "where": (("both", _("both edges")), ("left", _("left")), ("right", _("right"))),
        "every": rhythms(),
        "part": (("", _("nothing of its own")), *parts),
        "fabric": tuple(names),
        "rule": (("", _("please choose")), *rules()),
        "measure": (("", _("please choose")), *measures()),
        "number": (("", _("please choose")), *numbers(document)),
        "section": (("", _("please choose")), *sections(document)),
    }


def shapes() -> Choices:
    """How a section gets from one count to the other."""
    return (
        ("straight", _("straight")),
        ("across", _("more or fewer within one row")),
        ("edges", _("bound off or cast on at the edges")),
        ("spread", _("increased or decreased along the edges")),
        ("held", _("held in short rows")),
        ("neck", _("a neck: centre bound off, then steps")),
    )


def rhythms() -> Choices:
    """In which rows a section is shaped along its edges."""
    return (
        ("even rows", _("every even row")),
        ("any row", _("any row")),
        ("carriage side", _("each edge at the carriage's side")),
    )


def rules() -> Choices:
    """How a number is worked out from others."""
    return (
        ("same", _("the same as one number")),
        ("rest", _("the first number less the others")),
        ("sleeve top", _("a sleeve top along these armhole rows")),
        ("notch", _("straight rows along this notch")),
        ("shoulders", _("both shoulders of this slope")),
        ("one shoulder", _("one shoulder of this slope")),
        ("neck edge", _("round the neck: back neck, front neck, front shoulder rows")),
        ("picked up", _("picked up along these rows and bound-off stitches")),
    )


def measures() -> Choices:
    """How a finished measurement is taken."""
    return (
        ("width", _("across, added up")),
        ("height", _("along the rows, added up")),
        ("notch", _("across the notch")),
        ("shoulder", _("across one shoulder")),
        ("neck depth", _("depth of the neck: neck, shoulders")),
    )


def numbers(document: Document) -> Iterator[tuple[str, str]]:
    """Every number of the grid by its address, as back.body.rows, with its name."""
    words = {"rows": _("rows"), "stitches": _("stitches")}
    for place, name, shown in _sections(document):
        for what, word in words.items():
            if what in shown:
                yield f"{place}.{what}", f"{name}, {word}"


def sections(document: Document) -> Iterator[tuple[str, str]]:
    """Every section by its address, as back.body, with its name."""
    for place, name, _shown in _sections(document):
        yield place, name


def _sections(document: Document) -> Iterator[tuple[str, str, tuple[str, ...]]]:
    for piece in document["pieces"]:
        title = piece["title"] or piece["key"]
        for at, section in enumerate(piece["sections"]):
            place = f"{piece['key']}.{section['key']}"
            name = f"{title}, {all_small(section['title'] or section['key'])}"
            yield place, name, numbers_of(section, is_first=at == 0)
