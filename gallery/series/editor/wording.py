"""What is wrong with a pattern file, said in the words of the page instead of those of the file.

The file reader's sentences are known by how they are written; they are recognised in whichever
language they are said.
"""

import re

from django.utils.translation import gettext as _

from alterations.reading import HIGHEST
from alterations.saying import gettext as said

# A place in a sentence, with the quotation marks round it.
_PLACE = re.compile(r"[“„]?%\((\w+)\)s[”“]?")
MISSING = "is missing; please add it."
BETWEEN = "must be between %(least)s and %(most)s."
Pairs = tuple[tuple[str, str], ...]  # a sentence as it is written there, and the page's words


def shape_of(written: str) -> str:
    """A sentence of the file reader as an expression, with groups named as its places are."""
    parts = _PLACE.split(said(written))
    texts, names = map(re.escape, parts[::2]), [f"(?P<{name}>.+?)" for name in parts[1::2]]
    return "".join(text + name for text, name in zip(texts, [*names, ""], strict=True))


def in_page_words(sentence: str) -> str:
    """The sentence as someone needs it who sees fields and no file; others stay as they are."""
    for table, words in (
        ("fabrics", _("Add a fabric with its gauge.")),
        ("pieces", _("Add a piece.")),
    ):
        if sentence == f"{table}: {said(MISSING)}":
            return words
    for written, words in _of_a_field():
        found = re.fullmatch(shape_of(written), sentence)
        if found:
            return _filled(words, written, found)
    for written, words in _anywhere():
        found = re.search(f"(?:^|: ){shape_of(written)}$", sentence)
        if found:
            return _filled(words, written, found)
    return sentence


def _filled(words: str, written: str, found: re.Match[str]) -> str:
    r"""The page's words, with \1 as what stands in the first place of the sentence as written."""
    values = [found[name] for name in _PLACE.findall(written)]
    if written == BETWEEN and values[1] == str(HIGHEST):
        words = _(r"Write a number from \1 upwards.")
    return re.sub(r"\\(\d)", lambda number: values[int(number[1]) - 1], words)


def _of_a_field() -> Pairs:
    """Sentences of which the place in the file was taken off, or that name a whole table."""
    return (
        ("is %(value)s; it cannot be below %(least)s.", _(r"\1 is too small; \2 is the least.")),
        (
            "is %(value)s; more than %(most)s cannot be right.",
            _(r"\1 is too large; \2 is the most."),
        ),
        (BETWEEN, _(r"Write a number between \1 and \2.")),
        (
            "“%(text)s” stands there twice; each must be different.",
            _(r"\1 stands there twice; give each one a name of its own."),
        ),
        ("must be one of %(known)s.", _("Choose one of the list.")),
        ("must be one of %(known)s (did you mean “%(near)s”?).", _("Choose one of the list.")),
        (
            "hold %(held)s stitches, but %(lost)s go from %(start)s.",
            _(r"The groups hold \1 stitches, but \2 of the \3 are to go."),
        ),
        (
            "with the centre take %(gone)s stitches, but %(lost)s go from %(start)s.",
            _(r"With the centre these take \1 stitches, but \2 of the \3 are to go."),
        ),
    )


def _anywhere() -> Pairs:
    """Sentences that are said so even where their place has no field of its own."""
    return (
        (
            "must be a list of whole numbers like [7, 6, 6].",
            _("Write whole numbers with dashes between, like 7-6-6."),
        ),
        ("must hold between 1 and %(most)s texts.", _(r"Give between 1 and \1, each one once.")),
        ("must be a text of at most %(most)s letters, in quotes.", _(r"Write at most \1 letters.")),
        (
            "give one of %(known)s, or a repeat and remainder like [3, 2].",
            _("Choose an edge, or write its repeat like 3n + 2."),
        ),
        (
            "has %(count)s values, and %(needed)s are needed.",
            _(r"Here are \1, and \2 are needed; an empty place counts as none."),
        ),
        (
            "“%(shown)s” leads nowhere. %(trouble)s",
            _("This place is not there; please choose another one."),
        ),
        ("a piece needs at least one section.", _("Add a section to this piece.")),
        (
            "“%(key)s” must be unique in its piece, without a dot.",
            _("Two sections of this piece have the same short name; take one out and add it anew."),
        ),
        (MISSING, _("Please fill this in.")),
        ("is empty; please write something.", _("Please fill this in.")),
    )
