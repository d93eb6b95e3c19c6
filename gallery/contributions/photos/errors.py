"""The one refusal of this room: a picture that cannot be taken, in a sentence."""

CANNOT = "This picture cannot be read. Please send it again, or another copy of it."
LATER = "The site cannot look at pictures just now. Please try again a little later."
INCOMPLETE = "This picture is incomplete or damaged. Please send it again."


class PictureRefused(Exception):  # noqa: N818 (it is an answer to a person, not a fault of ours)
    """A picture that is not taken; `sentence` says why and what to do."""

    def __init__(self, code: str, sentence: str) -> None:
        self.code = code
        self.sentence = sentence
        super().__init__(sentence)
