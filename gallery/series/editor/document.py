"""A pattern as it is typed: texts by their names, to and from the text of a pattern file.

Whatever was typed is kept, right or wrong; reading it as a pattern names every mistake by its
place.
"""

import re
import tomllib
import unicodedata
from collections.abc import Iterator
from typing import Any

from alterations.patterntext import text as quoted

Texts = dict[str, str]
Document = dict[str, Any]

HEAD = ("name", "designer", "series", "garment", "audience", "even_rows", "note", "making_up")
ACROSS = ("sizes", "to_fit_cm")
MACHINE = ("needles", "pitch_mm")
YARN = ("name", "fibre", "ball_grams", "ball_metres", "allowance_percent", "metres")
FABRIC = ("key", "title", "stitches", "rows", "basis", "loop_percent")
PIECE = ("key", "title", "make", "edge", "panels", "may_be_halved", "seams", "words")
SECTION = ("key", "title", "fabric", "shape", "where", "every", "part", "folded", "seams")
NUMBERS = ("stitches", "rows", "plain_end", "groups", "centre", "steps")
FOLLOW = ("what", "rule", "of")
MEASURE = ("key", "title", "of", "at")

LISTS = {"fabrics": FABRIC, "follows": FOLLOW, "measures": MEASURE}
# Which numbers a section of each shape has.
NUMBERS_OF: dict[str, tuple[str, ...]] = {
    "straight": ("rows",),
    "across": ("stitches",),
    "edges": ("stitches",),
    "spread": ("stitches", "rows", "plain_end"),
    "held": ("stitches", "rows", "groups"),
    "neck": ("stitches", "rows", "centre", "steps"),
}
_NUMBER = re.compile(r"(-?)([0-9]+)(\.[0-9]+)?")
# A comma before a blank only parts; one inside a word is a decimal comma.
_BETWEEN = re.compile(r",?[\s;]+|,$")
_REPEAT = re.compile(r"([0-9]+)\s*[·*x]?\s*n\s*\+\s*([0-9]+)")
_NO_KEY = re.compile(r"[\s;\x00-\x1f\x7f-\x9f]+")
ADDRESSES = ("key", "fabric", "what", "at")
LONGEST_NUMBER = 15  # digits; nothing in a garment has more
_YES = ("yes", "true", "1", "on")


def blank() -> Document:
    """A pattern to begin with: one size, one fabric, one piece with a hem and a body."""
    hem = {"key": "hem", "title": "Hem", "fabric": "plain", "shape": "straight", "part": "hem"}
    body = {"key": "body", "title": "Body", "fabric": "plain", "shape": "straight"}
    piece = {"key": "back", "title": "Back", "edge": "none"}
    sections = [texts(hem, SECTION + NUMBERS), texts(body, SECTION + NUMBERS)]
    return {
        "pattern": texts({"audience": "adult", "sizes": "1"}, HEAD + ACROSS),
        "machine": texts({}, MACHINE),
        "yarn": texts({"allowance_percent": "8"}, YARN),
        "fabrics": [texts({"key": "plain", "title": "plain knitting"}, FABRIC)],
        "pieces": [{**texts(piece, PIECE), "sections": sections}],
        "follows": [],
        "measures": [],
    }


def texts(values: dict[str, Any], names: tuple[str, ...]) -> Texts:
    """Those names of a table as texts, what is not there as nothing."""
    return {name: without_nul(_as_text(name, values.get(name))) for name in names}


def without_nul(text: str) -> str:
    """The text without the one sign that cannot be kept in every database."""
    return text.replace("\0", "")


def words(text: str) -> list[str]:
    """What stands in one row: separated by blanks, tabs or semicolons; commas are decimal."""
    return [word.replace(",", ".") for word in words_as_typed(_plain(text))]


def words_as_typed(text: str) -> list[str]:
    """The same, each as it was typed."""
    return [word for word in _BETWEEN.split(text.strip()) if word]


def _plain(text: str) -> str:
    """The text with its digits and dashes as a keyboard has them: full-width ones, those of other
    scripts."""
    plain = unicodedata.normalize("NFKC", text).replace("\u2013", "-").replace("\u2212", "-")
    return "".join(str(unicodedata.decimal(sign, sign)) for sign in plain)


def size_names(document: Document) -> list[str]:
    """The names of the sizes; a semicolon after them lets a name hold a blank."""
    typed = document["pattern"]["sizes"]
    if ";" in typed:
        return [name.strip() for name in typed.split(";") if name.strip()]
    return typed.split()


def joined_names(names: list[str]) -> str:
    """Names of sizes as one row, which size_names takes apart again."""
    if not any(re.search(r"\s", name) for name in names):
        return " ".join(names)
    return f"{names[0]};" if len(names) == 1 else "; ".join(names)


def from_toml(text: str) -> Document:
    """The document of a pattern file's text; raises ValueError where it is no TOML at all."""
    try:
        top = tomllib.loads(text, parse_float=str)
    except RecursionError as trouble:
        raise ValueError("its tables are nested too deeply") from trouble
    document = blank()
    for name, names in (("pattern", HEAD + ACROSS), ("machine", MACHINE), ("yarn", YARN)):
        document[name] = texts(_table(top.get(name)), names)
    sizes = _table(top.get("pattern")).get("sizes")
    document["pattern"]["sizes"] = without_nul(_joined_names(sizes))
    document["fabrics"] = _named(top.get("fabrics"), FABRIC)
    document["pieces"] = [_piece(key, one) for key, one in _table(top.get("pieces")).items()]
    for name in ("follows", "measures"):
        document[name] = [texts(one, LISTS[name]) for one in _tables(top.get(name))]
    return document


def _table(value: Any) -> dict[str, Any]:
    return value if isinstance(value, dict) else {}


def _tables(value: Any) -> list[dict[str, Any]]:
    return [one for one in value if isinstance(one, dict)] if isinstance(value, list) else []


def _named(value: Any, names: tuple[str, ...]) -> list[Texts]:
    return [texts({**_table(one), "key": key}, names) for key, one in _table(value).items()]


def _piece(key: str, values: Any) -> dict[str, Any]:
    table = _table(values)
    sections = [texts(one, SECTION + NUMBERS) for one in _tables(table.get("sections"))]
    return {**texts({**table, "key": key}, PIECE), "sections": sections}


def _joined_names(sizes: Any) -> str:
    names = [str(name) for name in sizes] if isinstance(sizes, list) else [str(sizes or "")]
    return joined_names(names)


def _as_text(name: str, value: Any) -> str:
    if value is None:
        return ""
    if name in ADDRESSES or (
        name == "of" and isinstance(value, list)
    ):  # they stand in one row with blanks between
        parts = value if isinstance(value, list) else [value]
        return " ".join(_NO_KEY.sub("_", str(part).strip()) for part in parts)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if name == "edge" and isinstance(value, list) and len(value) == 2:
        return f"{value[0]}n + {value[1]}"
    if name in ("groups", "steps") and isinstance(value, list):
        rows = value if any(isinstance(one, list) for one in value) else [value]
        return " ".join("-".join(map(str, one)) or "none" for one in rows if isinstance(one, list))
    return " ".join(map(str, value)) if isinstance(value, list) else str(value)


def to_toml(document: Document) -> str:
    """The text of a pattern file; what is no number stands in quotes: reading it says so."""
    lines = ["format = 1", "", "[pattern]", *_head(document["pattern"])]
    lines += [f"sizes = [{', '.join(map(quoted, size_names(document)))}]"]
    for key, one in _keyed(document["fabrics"]):
        lines += ["", f"[fabrics.{quoted(key)}]", *_fields(one, FABRIC[1:])]
    if any(document["machine"].values()):
        lines += ["", "[machine]", *_fields(document["machine"], MACHINE)]
    lines += ["", "[yarn]", *_fields(document["yarn"], YARN)]
    for key, piece in _keyed(document["pieces"]):
        lines += ["", f"[pieces.{quoted(key)}]", *_fields(piece, PIECE[1:])]
        for at, section in enumerate(piece["sections"]):
            lines += [
                "",
                f"[[pieces.{quoted(key)}.sections]]",
                *_section(section, is_first=at == 0),
            ]
    for name in ("follows", "measures"):
        for one in document[name]:
            lines += ["", f"[[{name}]]", *_fields(one, LISTS[name])]
    return "\n".join(lines) + "\n"


def _keyed(tables: list[dict[str, Any]]) -> Iterator[tuple[str, dict[str, Any]]]:
    """Each table with a name of its own; one that has none, or another's, gets one."""
    seen: set[str] = set()
    for at, one in enumerate(tables, start=1):
        key = one["key"].strip() or key_of(one["title"]) or f"part{at}"
        while key in seen:
            key += "_"
        seen.add(key)
        yield key, one


def key_of(title: str) -> str:
    """A short name from a title: "Hem to armhole" as "hem_to_armhole"."""
    return re.sub(r"[^a-z0-9]+", "_", title.lower()).strip("_")


def numbers_of(section: Texts, *, is_first: bool) -> tuple[str, ...]:
    """Which numbers a section has by its shape; the first one is cast on."""
    wanted = NUMBERS_OF.get(section["shape"] or "straight", NUMBERS)
    return ("stitches", *wanted) if is_first and "stitches" not in wanted else wanted


def _head(pattern: Texts) -> Iterator[str]:
    yield from _fields(pattern, (*HEAD, "to_fit_cm"))


def _section(section: Texts, *, is_first: bool) -> Iterator[str]:
    wanted = numbers_of(section, is_first=is_first)
    named = {**section, "key": section["key"].strip() or key_of(section["title"])}
    yield from _fields(named, (*SECTION, *wanted))


_PLAIN_TEXTS = {
    *("name", "designer", "series", "garment", "audience", "note", "making_up", "fibre", "basis"),
    *("key", "title", "words", "fabric", "shape", "where", "every", "part", "what", "rule"),
}
_TRUTHS = {"even_rows", "may_be_halved", "folded"}


def _fields(values: dict[str, Any], names: tuple[str, ...]) -> Iterator[str]:
    for name in names:
        typed = str(values.get(name, "")).strip()
        if typed:
            yield f"{name} = {_value(name, typed, values)}"


def _value(name: str, typed: str, values: dict[str, Any]) -> str:
    if name in _PLAIN_TEXTS or (name == "of" and "key" in values):
        return quoted(typed)
    if name in ("of", "at"):
        return f"[{', '.join(map(quoted, words(typed)))}]"
    if name in _TRUTHS:
        return "true" if typed.lower() in _YES else "false"
    if name == "edge":
        repeat = _REPEAT.fullmatch(_plain(typed))
        return f"[{_number(repeat[1])}, {_number(repeat[2])}]" if repeat else quoted(typed)
    if name in ("groups", "steps"):
        lists = [_list(word) for word in words(typed)]
        return lists[0] if len(lists) == 1 and lists[0] != "[]" else f"[{', '.join(lists)}]"
    found = [_number(word) for word in words(typed)]
    return found[0] if len(found) == 1 else f"[{', '.join(found)}]"


def _number(word: str) -> str:
    found = _NUMBER.fullmatch(word)
    if found is None or len(word) > LONGEST_NUMBER:
        return quoted(word)
    # TOML refuses a leading nought.
    return f"{found[1]}{int(found[2])}{found[3] or ''}"


def _list(word: str) -> str:
    if word.lower() in ("none", "-", "0"):
        return "[]"
    # Two dashes, or one in front, are no list: the empty part between is quoted and told.
    return f"[{', '.join(map(_number, word.split('-')))}]"
