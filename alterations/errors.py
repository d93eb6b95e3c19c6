"""What can go wrong in the library, each with a whole sentence for the person who caused it."""


class AlterationsError(Exception):
    """Any refusal of this library; its text is a sentence that says what to do."""


class UnitError(AlterationsError):
    """A length, count or amount that cannot be read or makes no sense."""


class GaugeError(AlterationsError):
    """A gauge that no fabric can have."""


class ShapingError(AlterationsError):
    """A shaping that cannot be worked over the rows there are."""


class PatternError(AlterationsError):
    """A question to a pattern that this pattern cannot answer."""


class KindError(AlterationsError):
    """An alteration that cannot be read, or two that contradict each other."""


class PatternFileError(AlterationsError):
    """All mistakes of a pattern file, each named by its place."""

    def __init__(self, problems: tuple[str, ...]) -> None:
        self.problems = problems
        super().__init__("\n".join(problems))
