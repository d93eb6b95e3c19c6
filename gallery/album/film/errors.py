"""What can go wrong with a film, said in a sentence."""


class FilmError(Exception):
    """The film cannot be made as asked; the text is a full sentence that says what to do."""


class Cancelled(Exception):  # noqa: N818 - nothing went wrong: somebody asked to stop
    """Somebody asked to stop; what is in the cache stays good."""
