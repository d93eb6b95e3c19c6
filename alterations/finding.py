"""One thing in a result that deserves a second look, as data."""

from dataclasses import dataclass
from typing import Literal

Severity = Literal["note", "warning", "problem"]
ORDER: dict[Severity, int] = {"problem": 0, "warning": 1, "note": 2}


@dataclass(frozen=True)
class Finding:
    """One thing to look at: a short code, how grave it is, a sentence, the section it is about
    ("back.body", "back" or nothing), and the ways out where there are several."""

    code: str
    severity: Severity
    sentence: str
    where: str = ""
    ways_out: tuple[str, ...] = ()
