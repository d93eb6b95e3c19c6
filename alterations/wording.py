"""Names of parts and edges as they stand within a sentence."""

from collections.abc import Sequence

from alterations.saying import gettext as _
from alterations.saying import gettext_noop

# Translators: leave this as it is where a name begins with a small letter within a sentence ("the
# armhole"); translate it as "capital" where it keeps its capital, as German nouns do.
_FIRST_LETTER = gettext_noop("small first letter within a sentence")
# Names that are stored or written in files under these very words; only what is shown changes.
_NAMES = frozenset(
    (
        gettext_noop("body length"),
        gettext_noop("sleeve length"),
        gettext_noop("wrist"),
        gettext_noop("body width"),
        gettext_noop("armhole depth"),
        gettext_noop("neck depth"),
        gettext_noop("neck width"),
        gettext_noop("hem"),
        gettext_noop("cuff"),
        gettext_noop("neckband"),
        gettext_noop("hung hem"),
        gettext_noop("K1P1"),
        gettext_noop("K2P1"),
        gettext_noop("K2P2"),
        gettext_noop("K3P3"),
        gettext_noop("K1P1 free"),
        gettext_noop("K2P2 free"),
        gettext_noop("pocket added"),
        gettext_noop("pocket left out"),
        gettext_noop("band added"),
        gettext_noop("band left out"),
        gettext_noop("hood added"),
        gettext_noop("hood left out"),
        gettext_noop("cord added"),
        gettext_noop("cord left out"),
        gettext_noop("buttons added"),
        gettext_noop("buttons left out"),
        gettext_noop("other part added"),
        gettext_noop("other part left out"),
    )
)


def inside(title: str) -> str:
    """A title within a sentence: its first word without its capital, single letters as they are;
    unchanged in a language whose nouns keep their capital.

    >>> inside("Armhole to the V"), inside("V-neck"), inside("Hem")
    ('armhole to the V', 'V-neck', 'hem')
    """
    is_word = title[1:2].islower()
    return title[:1].lower() + title[1:] if is_word and _begins_small() else title


def all_small(title: str) -> str:
    """A title within a sentence, all of it in small letters where names are written so."""
    return title.lower() if _begins_small() else title


def _begins_small() -> bool:
    return _(_FIRST_LETTER) == _FIRST_LETTER


def name_in_words(name: str) -> str:
    """One of the library's own names as it is shown; a name of the pattern's as it is.

    >>> name_in_words("neck depth"), name_in_words("left side")
    ('neck depth', 'left side')
    """
    return _(name) if name in _NAMES else name


def edge_in_words(name: str) -> str:
    """An edge's name as a knitter reads it.

    >>> edge_in_words("K2P2 free"), edge_in_words("K2P1")
    ('K2P2 with free edges', 'K2P1')
    """
    if name.endswith(" free"):
        rib = name_in_words(name.removesuffix(" free"))
        return _("%(rib)s with free edges") % {"rib": rib}
    return name_in_words(name)


def listed(words: Sequence[str]) -> str:
    """Several words in a row: "a, b and c".

    >>> listed(["Back"]), listed(["back", "front"]), listed(["82", "84", "82"])
    ('Back', 'back and front', '82, 84 and 82')
    """
    *before, last = words
    if not before:
        return last
    return _("%(before)s and %(last)s") % {"before": ", ".join(before), "last": last}
