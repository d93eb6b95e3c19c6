"""Sizes, pieces and sections added, taken out and moved in a typed pattern."""

from collections.abc import Callable, Mapping
from copy import deepcopy

from alterations.reading import LONGEST_TEXT
from gallery.series.editor.document import (
    ACROSS,
    FABRIC,
    FOLLOW,
    HEAD,
    LISTS,
    MACHINE,
    MEASURE,
    NUMBERS,
    PIECE,
    SECTION,
    YARN,
    Document,
    joined_names,
    key_of,
    size_names,
    texts,
    without_nul,
    words,
)

MOST_SIZES, MOST_PIECES, MOST_SECTIONS, MOST_LINES, MOST_SOURCES = 40, 30, 40, 100, 21
LONGEST = LONGEST_TEXT + 1  # so that a longer text is refused, not cut in silence
_ROWS = (("pattern", "to_fit_cm"), ("yarn", "metres"))


def from_post(posted: Mapping[str, str]) -> Document:
    """The document of a posted form: "pieces.0.sections.2.rows" and so on; a name that is not
    there is empty, and nothing is judged here."""

    def read(place: str, names: tuple[str, ...]) -> dict[str, str]:
        return {name: _typed(posted, f"{place}.{name}") for name in names}

    def many(place: str, most: int) -> range:
        known = (at for at in range(most) if f"{place}.{at}.key" in posted)
        return range(max(known, default=-1) + 1)

    pieces = []
    for at in many("pieces", MOST_PIECES):
        place = f"pieces.{at}"
        sections = [
            read(f"{place}.sections.{row}", SECTION + NUMBERS)
            for row in many(f"{place}.sections", MOST_SECTIONS)
        ]
        pieces.append({**read(place, PIECE), "sections": sections})
    document = {
        "pattern": read("pattern", HEAD + ACROSS),
        "machine": read("machine", MACHINE),
        "yarn": read("yarn", YARN),
        "fabrics": [read(f"fabrics.{at}", FABRIC) for at in many("fabrics", MOST_LINES)],
        "pieces": pieces,
        "follows": [
            read(f"follows.{at}", FOLLOW)
            for at in range(MOST_LINES)
            if f"follows.{at}.what" in posted
        ],
        "measures": [read(f"measures.{at}", MEASURE) for at in many("measures", MOST_LINES)],
    }
    give_keys(document)
    return document


def _typed(posted: Mapping[str, str], name: str) -> str:
    """One field as typed; the parts of a list of places, each chosen by itself, stand together."""
    parts = [posted[f"{name}.{at}"] for at in range(MOST_SOURCES) if f"{name}.{at}" in posted]
    typed = " ".join(part for part in parts if part) if parts else posted.get(name, "")
    # A browser ends its lines with two signs.
    return without_nul(typed.replace("\r\n", "\n"))[:LONGEST].strip()


def give_keys(document: Document) -> None:
    """A short name for everything that has none yet, from its title; rules hold on to it when the
    title changes later."""
    lists = [document["fabrics"], document["pieces"], document["measures"]]
    for tables in (*lists, *(piece["sections"] for piece in document["pieces"])):
        taken = {one["key"] for one in tables}
        for one in tables:
            wanted = key_of(one["title"]) or "part"
            if not one["key"] and one["title"]:
                one["key"] = _free(wanted, taken)
                taken.add(one["key"])


def _free(wanted: str, taken: set[str]) -> str:
    key, number = wanted, 2
    while key in taken:
        key, number = f"{wanted}_{number}", number + 1
    return key


def changed(document: Document, deed: str) -> Document:
    """The document after one deed such as "add-section:0:2"; an unknown one changes nothing."""
    name, *numbers = deed.split(":")
    made = deepcopy(document)
    if name in _DEEDS and all(one.isdigit() for one in numbers):
        try:
            _DEEDS[name](made, *map(int, numbers))
        except (IndexError, TypeError):
            return document
    return made


def _add_size(document: Document) -> None:
    """A size more at the end, beginning with the numbers of the last one."""
    names = size_names(document)
    if len(names) >= MOST_SIZES:
        return
    fresh = str(len(names) + 1)
    while fresh in names:
        fresh += "+"
    document["pattern"]["sizes"] = joined_names([*names, fresh])
    _every_row(document, lambda row: [*row, row[-1]] if len(row) == len(names) else row)


def _remove_size(document: Document, at: int) -> None:
    names = size_names(document)
    if len(names) < 2 or at >= len(names):
        return
    document["pattern"]["sizes"] = joined_names(names[:at] + names[at + 1 :])
    many = len(names)
    _every_row(document, lambda row: row[:at] + row[at + 1 :] if len(row) == many else row)


def _every_row(document: Document, way: Callable[[list[str]], list[str]]) -> None:
    """Goes through every number that has a value for each size; single ones stand for all."""
    places = [(document[table], name) for table, name in _ROWS]
    for piece in document["pieces"]:
        places += [(piece, name) for name in ("make", "panels")]
        places += [(section, name) for section in piece["sections"] for name in NUMBERS]
    for table, name in places:
        row = words(table[name])
        if len(row) > 1 or (row and len(size_names(document)) == 1):
            table[name] = " ".join(way(row))


def _add_piece(document: Document) -> None:
    if len(document["pieces"]) < MOST_PIECES:
        piece = {**texts({"edge": "none"}, PIECE), "sections": []}
        document["pieces"].append(piece)
        _add_section(document, len(document["pieces"]) - 1, 0)


def _copy_piece(document: Document, at: int) -> None:
    if len(document["pieces"]) < MOST_PIECES:
        piece = deepcopy(document["pieces"][at])
        piece["key"] = ""
        document["pieces"].insert(at + 1, piece)


def _remove_piece(document: Document, at: int) -> None:
    del document["pieces"][at]


def _add_section(document: Document, piece: int, at: int) -> None:
    sections = document["pieces"][piece]["sections"]
    if len(sections) < MOST_SECTIONS:
        fabric = document["fabrics"][0]["key"] if document["fabrics"] else ""
        fresh = texts({"shape": "straight", "fabric": fabric}, SECTION + NUMBERS)
        sections.insert(at, fresh)


def _remove_section(document: Document, piece: int, at: int) -> None:
    del document["pieces"][piece]["sections"][at]


def _move_section(document: Document, piece: int, at: int) -> None:
    """One place nearer to the cast-on."""
    sections = document["pieces"][piece]["sections"]
    if 0 < at < len(sections):
        sections[at - 1], sections[at] = sections[at], sections[at - 1]


def _adder(name: str) -> Callable[[Document], None]:
    def add(document: Document) -> None:
        if len(document[name]) < MOST_LINES:
            document[name].append(texts({}, LISTS[name]))

    return add


def _remover(name: str) -> Callable[[Document, int], None]:
    def remove(document: Document, at: int) -> None:
        del document[name][at]

    return remove


_DEEDS: dict[str, Callable[..., None]] = {
    "add-size": _add_size,
    "remove-size": _remove_size,
    "add-piece": _add_piece,
    "copy-piece": _copy_piece,
    "remove-piece": _remove_piece,
    "add-section": _add_section,
    "remove-section": _remove_section,
    "move-section": _move_section,
    **{f"add-{name}": _adder(name) for name in LISTS},
    **{f"remove-{name}": _remover(name) for name in LISTS},
}
