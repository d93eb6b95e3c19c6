"""What is wrong with a pattern file, said in the words of the page instead of those of the file."""

import re

from django.utils.translation import gettext as _


def in_page_words(sentence: str) -> str:
    """The sentence as someone needs it who sees fields and no file; others stay as they are."""
    for found, words in _known():
        if re.search(found, sentence):
            return re.sub(f".*{found}", words, sentence, count=1)
    return sentence


def _known() -> tuple[tuple[str, str], ...]:
    return (
        (r"^is (-?\d+); it cannot be below (\d+)\.", _(r"\1 is too small; \2 is the least.")),
        (r"^is (\d+); more than (\d+) cannot be right\.", _(r"\1 is too large; \2 is the most.")),
        (r"^must be between (\S+) and 1000000\.", _(r"Write a number from \1 upwards.")),
        (r"^must be between (\S+) and (\S+)\.", _(r"Write a number between \1 and \2.")),
        (
            r"^(“.+”) stands there twice; each must be different\.",
            _(r"\1 stands there twice; give each one a name of its own."),
        ),
        (r"^must be one of .*", _("Choose one of the list.")),
        (
            r"must be a list of whole numbers like \[7, 6, 6\]\.",
            _("Write whole numbers with dashes between, like 7-6-6."),
        ),
        (r"must hold between 1 and (\d+) texts\.", _(r"Give between 1 and \1, each one once.")),
        (r"must be a text of at most (\d+) letters, in quotes\.", _(r"Write at most \1 letters.")),
        (r"like \[3, 2\]\.", _("Choose an edge, or write its repeat like 3n + 2.")),
        (
            r"has (\d+) values, and (\d+) are needed\.",
            _(r"Here are \1, and \2 are needed; an empty place counts as none."),
        ),
        (
            r"^hold (\d+) stitches, but (\d+) go from (\d+)\.",
            _(r"The groups hold \1 stitches, but \2 of the \3 are to go."),
        ),
        (
            r"^with the centre take (\d+) stitches, but (\d+) go from (\d+)\.",
            _(r"With the centre these take \1 stitches, but \2 of the \3 are to go."),
        ),
        (r"leads nowhere\..*", _("This place is not there; please choose another one.")),
        (r"^fabrics: is missing.*", _("Add a fabric with its gauge.")),
        (r"^pieces: is missing.*", _("Add a piece.")),
        (r"a piece needs at least one section\.", _("Add a section to this piece.")),
        (
            r"“.*” must be unique in its piece, without a dot\.",
            _("Two sections of this piece have the same short name; take one out and add it anew."),
        ),
        (
            r"is (?:missing; please add it|empty; please write something)\.",
            _("Please fill this in."),
        ),
    )
