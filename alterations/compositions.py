"""What a label's composition says: the fibres of a yarn and their shares."""

import re
import unicodedata
from dataclasses import dataclass
from fractions import Fraction

from alterations.errors import KindError
from alterations.fibrenames import Fibre, is_low_recovery, known_fibre, without_superwash
from alterations.fibrewords import fibre_in_words
from alterations.saying import decimal_mark
from alterations.saying import gettext as _

LONGEST_TEXT = 200
HALF = Fraction(50)  # our own line: a blend behaves like the fibre it holds half or more of


@dataclass(frozen=True)
class Part:
    """One fibre of a yarn and its share in per cent of the mass."""

    fibre: Fibre
    percent: Fraction
    is_superwash: bool = False

    @property
    def name(self) -> str:
        """The fibre's name, with its treatment."""
        return f"superwash {self.fibre.name}" if self.is_superwash else self.fibre.name

    @property
    def shown(self) -> str:
        """Its share and its name as a reader is told them."""
        name = fibre_in_words(self.fibre.name)
        told = {"percent": _percent(self.percent), "fibre": name}
        if self.is_superwash:
            return _("%(percent)s %% superwash %(fibre)s") % told
        return _("%(percent)s %% %(fibre)s") % told


@dataclass(frozen=True)
class Composition:
    """The fibres of a yarn in per cent of its mass, together exactly 100; refuses anything else."""

    parts: tuple[Part, ...]

    def __post_init__(self) -> None:
        names = [part.fibre.name for part in self.parts]
        for name in names:
            if names.count(name) > 1:
                raise KindError(
                    _("%(fibre)s is named twice; add its shares together.")
                    % {"fibre": fibre_in_words(name).capitalize()}
                )
        if any(part.percent <= 0 for part in self.parts):
            raise KindError(
                _("Each fibre has a share above 0 %; leave out what is not in the yarn.")
            )
        total = sum((part.percent for part in self.parts), Fraction(0))
        if total != 100:
            raise KindError(
                _("The parts add up to %(total)s %%, not to 100 %%; look at the label again.")
                % {"total": _percent(total)}
            )

    @property
    def low_recovery_percent(self) -> Fraction:
        """The share of fibres that recover little, in per cent."""
        return sum(
            (part.percent for part in self.parts if is_low_recovery(part.fibre.name)), Fraction(0)
        )

    @property
    def is_low_recovery(self) -> bool:
        """Whether half or more of it recovers little."""
        return self.low_recovery_percent >= HALF

    def __str__(self) -> str:
        return ", ".join(part.shown for part in self.parts)


_SHARE = re.compile(r"(\d+(?:[.,]\d+)?)\s*(?:%|per\s*cent|prozent)", re.IGNORECASE | re.ASCII)
_BETWEEN = re.compile(
    r"^(?:[\s,;:/+&.–—-]|and\b|und\b)+|(?:[\s,;:/+&.–—-]|\band|\bund)+$", re.IGNORECASE
)


def read_composition(text: str) -> Composition:
    """Reads "80 % wool, 20 % polyamide" or "wool 80 %, nylon 20 %"; refuses in a sentence fibres
    without a share, unknown names and parts that do not add up to 100.

    >>> str(read_composition("80% Wool 20% nylon"))
    '80 % wool, 20 % polyamide'
    """
    if len(text) > LONGEST_TEXT:
        raise KindError(_("That is too long for a composition; write 80 % wool, 20 % polyamide."))
    lead, *rest = _SHARE.split(unicodedata.normalize("NFKC", text))
    shares, after = rest[::2], [_trimmed(name) for name in rest[1::2]]
    if not shares:
        raise KindError(
            _("Say how many per cent of each fibre it is, for example 80 % wool, 20 % polyamide.")
        )
    before = [_trimmed(lead), *after]
    if before[0] and before[-1]:
        raise KindError(
            _(
                "“%(text)s” cannot be read as a composition; give each fibre its share, for "
                "example 80 %% wool, 20 %% polyamide."
            )
            % {"text": text.strip()}
        )
    names = before[:-1] if before[0] else after
    return Composition(tuple(map(_part, names, shares)))


def _part(name: str, share: str) -> Part:
    plain, is_superwash = without_superwash(name)
    return Part(known_fibre(plain), Fraction(share.replace(",", ".")), is_superwash)


def _trimmed(name: str) -> str:
    return _BETWEEN.sub("", name)


def _percent(value: Fraction) -> str:
    text = f"{float(value):.2f}".rstrip("0").rstrip(".")  # for the eye only
    return text.replace(".", decimal_mark())
