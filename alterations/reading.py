"""One table of a pattern file: its values, checked, with every mistake noted by its place."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from difflib import get_close_matches
from fractions import Fraction
from typing import Any

from alterations.saying import gettext as _
from alterations.signs import hidden_at

LONGEST_TEXT = 10_000
HIGHEST = Fraction(1_000_000)
_NEEDED: Any = object()


@dataclass(frozen=True)
class NoNumber:
    """A number as TOML may write it that nobody can count with: nan, inf, a power of ten. It is
    carried to its place in the file, so that the place can be named."""

    typed: str


@dataclass
class Notes:
    """What all tables of one file share: the mistakes found and the names of the sizes."""

    problems: list[str] = field(default_factory=list)
    sizes: tuple[str, ...] = ()


class Table:
    """Takes values out of a table; what is wrong or left over becomes a problem, never a crash.

    A problem is one sentence that begins with its place: "pieces.back.sections[2].rows, size 4: …".
    """

    def __init__(self, values: dict[str, Any], place: str, notes: Notes) -> None:
        self.values = values
        self.place = place
        self.notes = notes
        self.asked: set[str] = set()
        self.given = True

    def problem(self, key: str, sentence: str, column: str = "") -> None:
        """Notes a mistake at a key and, where there is one value a size, at which size."""
        place = ".".join(part for part in (self.place, key) if part) or _("the file")
        self.notes.problems.append(f"{place}{column}: {sentence}")

    def take(self, key: str, default: Any = _NEEDED) -> Any:
        """The raw value, or the default; a needed one that is missing is a problem."""
        self.asked.add(key)
        if key in self.values:
            return self.values[key]
        if default is _NEEDED:
            if self.given:
                self.problem(key, _("is missing; please add it."))
            return None
        return default

    def done(self) -> None:
        """Notes every key nobody asked for, with the nearest known name."""
        for key in self.values:
            if key in self.asked:
                continue
            near = get_close_matches(key, self.asked, 1)
            self.problem(key, _unknown(near[0] if near else ""))

    def text(self, key: str, default: Any = _NEEDED) -> str:
        """A text; empty ones count as missing when the text is needed."""
        value = self.take(key, default)
        if value is None:
            return ""
        if not isinstance(value, str) or len(value) > LONGEST_TEXT:
            sentence = _("must be a text of at most %(most)s letters, in quotes.")
            self.problem(key, sentence % {"most": LONGEST_TEXT})
            return ""
        self._refuse_hidden(key, value)
        if default is _NEEDED and not value.strip():
            self.problem(key, _("is empty; please write something."))
        return value.strip()

    def _refuse_hidden(self, key: str, value: str) -> None:
        place = hidden_at(value)
        if place:
            self.problem(
                key,
                _(
                    "character number %(place)s is an invisible control character; please delete "
                    "it and type the text again."
                )
                % {"place": place},
            )

    def texts(self, key: str, most: int = 100, *, may_repeat: bool = False) -> list[str]:
        """A list of texts, different ones unless a place may count twice (both fronts)."""
        value = self.take(key)
        if value is None:
            return []
        if not isinstance(value, list) or not all(isinstance(v, str) and v.strip() for v in value):
            self.problem(key, _('must be a list of texts like ["1", "2"].'))
            return []
        if not 1 <= len(value) <= most:
            self.problem(key, _("must hold between 1 and %(most)s texts.") % {"most": most})
            return []
        found = [text.strip() for text in value]
        twice = next((text for at, text in enumerate(found) if text in found[:at]), None)
        if twice is not None and not may_repeat:
            sentence = _("“%(text)s” stands there twice; each must be different.")
            self.problem(key, sentence % {"text": twice})
            return []
        for text in found:
            self._refuse_hidden(key, text)
        return found

    def truth(self, key: str, default: bool) -> bool:
        """true or false."""
        value = self.take(key, default)
        if not isinstance(value, bool):
            self.problem(key, _("must be true or false, without quotes."))
            return default
        return value

    def choice(self, key: str, known: tuple[str, ...], default: str | None) -> str:
        """One of the known words."""
        value = self.take(key) if default is None else self.take(key, default)
        if isinstance(value, str) and value in known:
            return value
        if value is not None:
            near = get_close_matches(str(value), known, 1)
            self.problem(key, _not_known(known, near[0] if near else ""))
        return default or known[0]

    def fraction(
        self,
        key: str,
        default: Any = _NEEDED,
        least: Fraction = Fraction(0),
        most: Fraction = HIGHEST,
    ) -> Fraction | Any:
        """One number, decimals allowed."""
        value = self.take(key, default)
        if value is None:
            return least or Fraction(1) if default is _NEEDED else None
        if isinstance(value, bool) or not isinstance(value, int | Fraction):
            sentence = _("must be a number without quotes, like 21 or 6.5.")
            self.problem(key, _no_number(value, sentence))
            return least or Fraction(1)
        if not least <= value <= most:
            sentence = _("must be between %(least)s and %(most)s.")
            self.problem(key, sentence % {"least": least, "most": most})
            return least or Fraction(1)
        return Fraction(value)

    def count(self, key: str, default: Any = _NEEDED, least: int = 0, most: int = 0) -> int:
        """One whole number."""
        value = self.take(key, default)
        if value is None or not self._whole(key, value, least, most, ""):
            return least
        return int(value)

    def counts(
        self, key: str, many: int, default: Any = _NEEDED, least: int = 0, most: int = 0
    ) -> Any:
        """Whole numbers, one for each size; a single number stands for all sizes."""
        value = self.take(key, default)
        if value is None:
            return [least] * many if default is _NEEDED else None
        listed = self._across(key, value, many)
        good = [
            self._whole(key, one, least, most, self._column(value, i))
            for i, one in enumerate(listed if isinstance(value, list) else listed[:1])
        ]
        return list(listed) if all(good) and listed else [least] * many

    def fractions(self, key: str, many: int) -> Sequence[Fraction | None]:
        """Numbers of any kind, one for each size; nothing at all when the key is not there."""
        value = self.take(key, None)
        if value is None:
            return [None] * many
        listed = self._across(key, value, many)
        for i, one in enumerate(listed if isinstance(value, list) else listed[:1]):
            if isinstance(one, bool) or not isinstance(one, int | Fraction) or one <= 0:
                sentence = _no_number(one, _("must be a number above zero."))
                self.problem(key, sentence, self._column(value, i))
                listed = []
        return [Fraction(v) for v in listed] or [None] * many

    def lists(self, key: str, many: int) -> list[tuple[int, ...]]:
        """One list of whole numbers for each size; a single list stands for all sizes."""
        value = self.take(key)
        if value is None:
            return [()] * many
        single = isinstance(value, list) and not any(isinstance(one, list) for one in value)
        listed = [value] * many if single else self._across(key, value, many)
        for i, one in enumerate(listed):
            whole = isinstance(one, list) and all(type(v) is int and 0 <= v < 2000 for v in one)
            if not whole:
                sentence = _("must be a list of whole numbers like [7, 6, 6].")
                self.problem(key, sentence, self._column(listed, i))
                return [()] * many
        return [tuple(one) for one in listed] or [()] * many

    def table(self, key: str, needed: bool = True) -> "Table":
        """A table inside this one; an empty one when it is missing."""
        value = self.take(key, _NEEDED if needed else None)
        if value is not None and not isinstance(value, dict):
            sentence = _("must be a table, begun with [%(name)s].")
            self.problem(key, sentence % {"name": self._inside(key)})
            value = None
        inner = Table(value or {}, self._inside(key), self.notes)
        inner.given = value is not None
        return inner

    def named_tables(self, key: str) -> Iterator[tuple[str, "Table"]]:
        """The tables inside a table, by their names; there must be at least one."""
        outer = self.table(key)
        if outer.given and not outer.values:
            self.problem(key, _("holds nothing; please add at least one."))
        for name in outer.values:
            inner = outer.table(name)
            self._refuse_hidden(key, name)
            if inner.given:
                yield name, inner

    def list_of_tables(self, key: str) -> Iterator["Table"]:
        """The tables of a list, each begun with [[key]]."""
        value = self.take(key, [])
        if not isinstance(value, list) or not all(isinstance(one, dict) for one in value):
            sentence = _("must be tables, each begun with [[%(name)s]].")
            self.problem(key, sentence % {"name": self._inside(key)})
            return
        for i, one in enumerate(value):
            yield Table(one, f"{self._inside(key)}[{i + 1}]", self.notes)

    def _inside(self, key: str) -> str:
        return f"{self.place}.{key}" if self.place else key

    def _across(self, key: str, value: Any, many: int) -> list[Any]:
        if not isinstance(value, list):
            return [value] * many
        if many == 0:
            return []  # the sizes cannot be read, which is said there; no row is measured by them
        if len(value) != many:
            sentence = _("has %(count)s values, and %(needed)s are needed.")
            self.problem(key, sentence % {"count": len(value), "needed": many})
            return []
        return value

    def _column(self, value: Any, i: int) -> str:
        """Which size the i-th of several values belongs to."""
        if not isinstance(value, list):
            return ""
        if len(value) == len(self.notes.sizes):
            return of_size(self.notes.sizes[i])
        return _(", value %(number)s") % {"number": i + 1}

    def _whole(self, key: str, value: Any, least: int, most: int, column: str) -> bool:
        if type(value) is not int:
            sentence = _no_number(value, _("must be a whole number without quotes."))
            self.problem(key, sentence, column)
            return False
        if value < least:
            sentence = _("is %(value)s; it cannot be below %(least)s.")
            self.problem(key, sentence % {"value": value, "least": least}, column)
            return False
        if value > most:
            sentence = _("is %(value)s; more than %(most)s cannot be right.")
            self.problem(key, sentence % {"value": value, "most": most}, column)
            return False
        return True


def of_size(size: str) -> str:
    """Which size a problem is about, behind its place."""
    return _(", size %(size)s") % {"size": size}


def _unknown(near: str) -> str:
    if near:
        return _("is not a name this format knows; did you mean “%(near)s”?") % {"near": near}
    return _("is not a name this format knows; please take it out.")


def _not_known(known: tuple[str, ...], near: str) -> str:
    listed = ", ".join(known)
    if not near:
        return _("must be one of %(known)s.") % {"known": listed}
    return _("must be one of %(known)s (did you mean “%(near)s”?).") % {
        "known": listed,
        "near": near,
    }


def _no_number(value: Any, sentence: str) -> str:
    """What is wrong with a value that is no number; one of TOML's own is shown as it is written."""
    if isinstance(value, NoNumber):
        return _("is %(typed)s; write the number out in digits, like 21 or 6.5.") % {
            "typed": value.typed[:20]
        }
    return sentence
