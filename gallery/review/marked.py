"""Two texts against each other, word by word: what was taken out, what was put in."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher

SAME, TAKEN_OUT, PUT_IN = "same", "out", "in"
# Words with the blanks behind them, so that the pieces put together are the text again.
_WORD = re.compile(r"\s+|\S+\s*")


@dataclass(frozen=True)
class Piece:
    """Some words and what became of them."""

    how: str
    text: str


def marked(before: str, after: str) -> tuple[Piece, ...]:
    """The pieces in their order; what was taken out stands before what came in its place.

    >>> [(piece.how, piece.text) for piece in marked("a red hat", "a blue hat")]
    [('same', 'a '), ('out', 'red '), ('in', 'blue '), ('same', 'hat')]
    """
    old, new = _WORD.findall(before), _WORD.findall(after)
    return tuple(piece for piece in _pieces(old, new) if piece.text)


def _pieces(old: Sequence[str], new: Sequence[str]) -> Iterator[Piece]:
    steps = SequenceMatcher(None, old, new, autojunk=False).get_opcodes()
    for how, old_from, old_to, new_from, new_to in steps:
        if how == "equal":
            yield Piece(SAME, "".join(new[new_from:new_to]))
        else:
            yield Piece(TAKEN_OUT, "".join(old[old_from:old_to]))
            yield Piece(PUT_IN, "".join(new[new_from:new_to]))
