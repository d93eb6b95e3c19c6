"""Which size a finished garment's measures are nearest to, and what each size measures."""

from dataclasses import dataclass
from fractions import Fraction

from alterations.errors import PatternError
from alterations.measures import finished
from alterations.pattern import Pattern
from alterations.saying import gettext as _

CHEST, LENGTH = "chest", "length"


@dataclass(frozen=True)
class SizeInShort:
    """A size with its finished chest and length in cm, as far as the pattern names them."""

    name: str
    chest_cm: Fraction | None = None
    length_cm: Fraction | None = None


def sizes_in_short(pattern: Pattern) -> tuple[SizeInShort, ...]:
    """Every size of the pattern, at its own gauge."""
    found = []
    for size in pattern.sizes:
        cm = {one.key: one.cm for one in finished(pattern, size)}
        found.append(SizeInShort(size.name, cm.get(CHEST), cm.get(LENGTH)))
    return tuple(found)


def nearest_size(
    pattern: Pattern, chest_cm: Fraction | None = None, length_cm: Fraction | None = None
) -> SizeInShort | None:
    """The size nearest to the measures given, in cm; None where none of them is given or named.

    With both, the smaller sum of squared differences wins; of two as near, the larger size, since
    a garment a little wide can be worn.
    """
    wanted = (chest_cm, length_cm)
    known = [size for size in sizes_in_short(pattern) if _differences(size, wanted)]
    if not known:
        return None
    return min(reversed(known), key=lambda size: sum(d * d for d in _differences(size, wanted)))


def _differences(
    size: SizeInShort, wanted: tuple[Fraction | None, Fraction | None]
) -> list[Fraction]:
    pairs = zip((size.chest_cm, size.length_cm), wanted, strict=True)
    return [has - asked for has, asked in pairs if has is not None and asked is not None]


def body_piece(pattern: Pattern) -> str:
    """The piece on which the chest is measured, the front one where there are two; refuses
    (PatternError) a pattern that names no chest."""
    for rule in pattern.measures:
        if rule.key == CHEST and rule.of == "width":
            return rule.at[-1].partition(".")[0]
    raise PatternError(_("The pattern names no finished chest."))
