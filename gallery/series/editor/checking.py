"""What a typed pattern comes to: the pattern itself, or what keeps it from being one."""

from dataclasses import dataclass

from alterations.drawing import drawing
from alterations.errors import AlterationsError, PatternFileError
from alterations.identities import identities
from alterations.pattern import Pattern
from alterations.patternfile import load_pattern
from alterations.recalculate import recalculate
from gallery.series.editor.document import Document, to_toml
from gallery.series.editor.places import Note, note_of_identity, note_of_problem


@dataclass(frozen=True)
class Checked:
    """The text, the pattern where it is one, everything to be looked at."""

    text: str
    pattern: Pattern | None
    notes: tuple[Note, ...]

    @property
    def wrong(self) -> tuple[Note, ...]:
        """What keeps it from being used."""
        return tuple(note for note in self.notes if note.is_wrong)

    @property
    def doubtful(self) -> tuple[Note, ...]:
        """What does not agree; it may be meant so."""
        return tuple(note for note in self.notes if not note.is_wrong)


def check(document: Document) -> Checked:
    """Reads the document as a pattern; every mistake and every doubt is a note."""
    text = to_toml(document)
    try:
        pattern = load_pattern(text)
    except PatternFileError as error:
        notes = tuple(note_of_problem(document, problem) for problem in error.problems)
        return Checked(text, None, notes)
    found = tuple(note_of_identity(document, one) for one in identities(pattern))
    return Checked(text, pattern, found)


def drawings(pattern: Pattern, size: str) -> list[tuple[str, str]]:
    """Each piece with its title and its drawing, in a size or, where it is none, the first."""
    name = size if size in pattern.size_names else pattern.size_names[0]
    try:
        result = recalculate(pattern, name)
        return [(piece.title, drawing(result, piece.key)) for piece in result.after.size.pieces]
    except AlterationsError:
        return []  # what keeps it from being drawn is said in the notes
