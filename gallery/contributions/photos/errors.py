"""The one refusal of this room: a picture that cannot be taken, in a sentence."""

from collections.abc import Mapping


def gettext_noop(text: str) -> str:
    """Mark a text to be translated where it is shown; this room itself speaks English."""
    return text


CANNOT = gettext_noop("This picture cannot be read. Please send it again, or another copy of it.")
LATER = gettext_noop("The site cannot look at pictures just now. Please try again a little later.")
INCOMPLETE = gettext_noop("This picture is incomplete or damaged. Please send it again.")


class PictureRefused(Exception):  # noqa: N818 (it is an answer to a person, not a fault of ours)
    """A picture that is not taken; `sentence` says why and what to do.

    The sentence is kept as its words and the facts in them, so that it can be translated.
    """

    def __init__(self, code: str, words: str, facts: Mapping[str, str] | None = None) -> None:
        self.code, self.words, self.facts = code, words, dict(facts or {})
        super().__init__(self.sentence)

    @property
    def sentence(self) -> str:
        """The sentence in English."""
        return self.words % self.facts if self.facts else self.words
