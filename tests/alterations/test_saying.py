"""What the library says to people can be said in another language; what it stores stays."""

import ast
import re
from collections.abc import Callable, Iterator
from fractions import Fraction
from pathlib import Path

import polib
import pytest

from alterations import errors, saying
from alterations.caption import caption
from alterations.compositions import read_composition
from alterations.entries import entries_of, what_in_words
from alterations.errors import AlterationsError
from alterations.fibrenames import fibres_named
from alterations.findings import findings
from alterations.gauge import Gauge
from alterations.instructions import Instruction
from alterations.kinds import AnyAlteration, BodyLength, Extra, OtherEdge, YarnSwap, to_plain
from alterations.lines import lines
from alterations.pattern import Pattern
from alterations.patternfile import load_pattern
from alterations.patterntext import write_pattern
from alterations.recalculate import Result, recalculate
from alterations.saying import speak_english, speak_through
from alterations.units import parse_length, show_cm, show_length
from alterations.worksheet import as_text, worksheet

LIBRARY = Path(saying.__file__).parent
CATALOGUE = LIBRARY.parent / "gallery" / "locale" / "de" / "LC_MESSAGES" / "django.po"
COTTON = YarnSwap(
    "Kelvarrick Cotton", Fraction(50), Fraction(95), Gauge(Fraction(19), Fraction(26))
)
_NAMED = re.compile(r"%\((\w+)\)s")


@pytest.fixture(autouse=True)
def as_it_was() -> Iterator[None]:
    before = saying._speaking[0]
    speak_english()
    yield
    saying._speaking[0] = before


def in_marks() -> None:
    """Every sentence as it is written, in marks that no sentence has."""
    speak_through(
        lambda text: f"«{text}»",
        lambda one, many, number: f"«{one if number == 1 else many}»",
        lambda: ",",
    )


def in_german() -> None:
    known = {entry.msgid: entry for entry in polib.pofile(str(CATALOGUE))}

    def one_or_many(one: str, _many: str, number: int) -> str:
        return known[one].msgstr_plural[0 if number == 1 else 1]

    speak_through(lambda text: known[text].msgstr, one_or_many, lambda: ",")


def made(pattern: Pattern, *given: AnyAlteration) -> Result:
    return recalculate(pattern, "4", given)


# ---- until it is told otherwise ----


def test_english_is_spoken_until_told_otherwise(tunic: Pattern) -> None:
    told = made(tunic, BodyLength(parse_length("5 cm")))
    assert caption(told) == "Size 4 · body 5 cm longer (+14 rows)"
    assert saying.ngettext("%(count)s row", "%(count)s rows", 1) == "%(count)s row"


def test_an_empty_text_is_not_looked_up() -> None:
    speak_through(lambda _text: "the head of a catalogue", lambda *_: "", lambda: ",")
    assert saying.gettext("") == ""


# ---- through somebody else's words ----


def test_a_refusal_is_said_through_the_translator() -> None:
    in_marks()
    with pytest.raises(AlterationsError, match=r"^«“five” cannot be read as a length; .*»$"):
        parse_length("five")


def test_captions_lines_and_findings_are_said_through_the_translator(tunic: Pattern) -> None:
    in_marks()
    told = made(tunic, BodyLength(parse_length("5 cm")), COTTON)
    assert caption(told) == ("«Size 4» · ««body «5 cm» longer» (+14 rows)» · Kelvarrick Cotton")
    body = next(line for line in lines(told) if "Hem to armhole" in line.what)
    assert body.numbers[0].base == "«104 rows»" and body.numbers[0].change == "+«6 rows»"
    assert findings(told) and all(found.sentence.startswith("«") for found in findings(told))


def test_steps_and_rows_of_a_worksheet_are_said_through_the_translator(tunic: Pattern) -> None:
    in_marks()
    back = worksheet(made(tunic)).pieces[0]
    assert back.instructions[0] == Instruction("«Cast on «122 stitches».»")
    assert back.rows[0].words == "«cast on «122 stitches»»"


def test_mistakes_of_a_pattern_file_are_said_through_the_translator(tunic_text: str) -> None:
    in_marks()
    with pytest.raises(AlterationsError) as refused:
        load_pattern(tunic_text.replace('designer = "', 'desinger = "'))
    assert "«is missing; please add it.»" in str(refused.value)
    assert "«is not a name this format knows; did you mean “designer”?»" in str(refused.value)


def test_numbers_for_the_eye_have_the_readers_decimal_mark() -> None:
    in_german()
    assert show_cm(Fraction("12.5")) == "12,5"
    assert show_length(Fraction("63.14"), "both") == "63,1 cm (24¾ Zoll)"
    assert str(Gauge(Fraction("19.5"), Fraction(26))) == "19,5 Maschen × 26 Reihen = 10 cm"
    assert str(read_composition("62.5 % wool, 37.5 % nylon")) == "62,5 % Wolle, 37,5 % Polyamid"


# ---- what stays ----


def test_what_is_stored_and_compared_stays_as_it_is(tunic: Pattern) -> None:
    given = (OtherEdge("hem", "K1P1", parse_length("12.5 cm")), Extra("pocket"))
    as_stored = [to_plain(one) for one in given]
    as_written, entries = write_pattern(tunic), entries_of(made(tunic, *given))
    in_german()
    assert [to_plain(one) for one in given] == as_stored
    assert write_pattern(tunic) == as_written and load_pattern(as_written) == tunic
    assert entries_of(made(tunic, *given)) == entries
    assert [what_in_words(one.what) for one in entries] == ["Saum, 1re/1li", "Tasche hinzugefügt"]


@pytest.mark.parametrize("typed", ["12,5 cm", "5¾ Zoll", "14 Reihen", "1 Reihe", "−4 cm"])
def test_a_length_reads_as_it_is_shown_in_german(typed: str) -> None:
    in_german()
    assert str(parse_length(typed)) == typed


# ---- German ----


def test_a_caption_in_german(tunic: Pattern) -> None:
    in_german()
    given = (BodyLength(parse_length("5 cm")), OtherEdge("hem", "K1P1", parse_length("10 cm")))
    assert caption(made(tunic, *given)) == (
        "Größe 4 · Rumpf 5 cm länger (+14 Reihen) · Saum 10 cm hoch in 1re/1li"
    )
    assert caption(made(tunic, BodyLength(parse_length("-2 cm")))).count("kürzer") == 1


def test_a_step_in_german_tells_only_the_number_that_was_another(tunic: Pattern) -> None:
    in_german()
    back = worksheet(made(tunic, BodyLength(parse_length("5 cm")))).pieces[0]
    step = next(one for one in back.instructions if one.was)
    assert step.text.startswith("Hem to armhole: 118 Reihen gerade über 124 Maschen stricken.")
    assert step.was == "104 Reihen"


def test_a_worksheet_in_german_has_no_english_words_of_ours(tunic: Pattern) -> None:
    in_german()
    told = as_text(worksheet(made(tunic, BodyLength(parse_length("5 cm")), COTTON)))
    ours = {"stitches", "rows", "bind", "knit", "decrease", "increase", "each", "then", "long"}
    theirs = " ".join([tunic.note, tunic.making_up, *(p.words for p in tunic.sizes[0].pieces)])
    words = set(re.findall(r"[a-z]+", told)) - set(re.findall(r"[a-z]+", theirs))
    titles = " ".join(one.title for piece in tunic.sizes[0].pieces for one in piece.sections)
    assert not ours & (words - set(re.findall(r"[a-z]+", titles.lower())))


def test_fibres_may_be_typed_in_german_so_that_no_caution_is_missed() -> None:
    assert str(read_composition("80 % Wolle und 20 Prozent Polyamid")) == (
        "80 % wool, 20 % polyamide"
    )
    assert [fibre.name for fibre in fibres_named("weiche Schurwolle mit Bambus")] == [
        "wool",
        "viscose",
    ]


# ---- the catalogue ----


def entries_of_catalogue() -> list[polib.POEntry]:
    return [entry for entry in polib.pofile(str(CATALOGUE)) if not entry.obsolete]


def test_every_place_of_a_sentence_is_in_its_translation() -> None:
    wrong = [
        entry.msgid
        for entry in entries_of_catalogue()
        for at, told in (entry.msgstr_plural or {0: entry.msgstr}).items()
        if told and places(entry.msgid_plural if at else entry.msgid) != places(told)
    ]
    assert wrong == []


def places(text: str) -> set[str]:
    return set(_NAMED.findall(text))


def test_every_sentence_of_the_library_is_translated() -> None:
    known = {entry.msgid: entry for entry in entries_of_catalogue() if entry.translated()}
    assert [text for text in sorted(texts_of_the_library()) if text not in known] == []


def texts_of_the_library() -> set[str]:
    """The first text of each call that says something, as the source has it."""
    return {
        call.args[0].value
        for _name, tree in sources()
        for call in calls_of(tree, lambda name: name in ("_", "gettext_noop", "ngettext"))
        if isinstance(call.args[0], ast.Constant)
    }


# ---- nothing is said past the translator ----


def sources() -> Iterator[tuple[str, ast.Module]]:
    for path in sorted(LIBRARY.glob("*.py")):
        yield path.name, ast.parse(path.read_text(encoding="utf-8"))


def calls_of(tree: ast.AST, wanted: Callable[[str], bool]) -> Iterator[ast.Call]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and wanted(node.func.id):
            yield node


def bare(node: ast.AST) -> bool:
    """A text or an f-string with words, not said through the translator; also in a tuple."""
    if isinstance(node, ast.Tuple):
        return any(bare(one) for one in node.elts)
    if isinstance(node, ast.JoinedStr):
        return any(words_in(one) for one in node.values)
    return words_in(node)


def words_in(node: ast.AST) -> bool:
    is_text = isinstance(node, ast.Constant) and isinstance(node.value, str)
    return is_text and bool(re.search(r"[A-Za-z]{2}", node.value))


def test_no_refusal_is_a_bare_text() -> None:
    refusals = {
        name
        for name, one in vars(errors).items()
        if isinstance(one, type) and issubclass(one, AlterationsError)
    }
    wrong = [
        f"{name}:{call.lineno}"
        for name, tree in sources()
        for call in calls_of(tree, refusals.__contains__)
        if any(map(bare, call.args))
    ]
    assert wrong == []


def test_no_finding_and_no_line_is_a_bare_text() -> None:
    # Where in the call the sentence stands: a finding's code and severity are keys.
    places = {"Finding": 2, "Identity": 3, "Line": 0, "Row": 0, "Instruction": 0}
    wrong = [
        f"{name}:{call.lineno}"
        for name, tree in sources()
        for call in calls_of(tree, places.__contains__)
        if isinstance(call.func, ast.Name)
        and len(call.args) > places[call.func.id]
        and bare(call.args[places[call.func.id]])
    ]
    assert wrong == []


def test_no_sentence_hides_in_an_f_string() -> None:
    # The pattern file's own lines and the marks of a drawing are no sentences.
    allowed = {"patterntext.py", "drawing.py", "sizedrawing.py"}
    wrong = [
        f"{name}:{node.lineno}"
        for name, tree in sources()
        for node in ast.walk(tree)
        if name not in allowed and isinstance(node, ast.JoinedStr) and says_words(node)
        if node not in told_to_programmers(tree)
    ]
    assert wrong == []


def told_to_programmers(tree: ast.Module) -> list[ast.AST]:
    calls = calls_of(tree, {"TypeError", "ValueError"}.__contains__)
    return [inner for call in calls for inner in ast.walk(call)]


def says_words(node: ast.JoinedStr) -> bool:
    texts = [one.value for one in node.values if isinstance(one, ast.Constant)]
    return any(re.search(r"[A-Za-z]{2,} [A-Za-z]{2,}", str(text)) for text in texts)
