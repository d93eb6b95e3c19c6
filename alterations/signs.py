"""Which signs of a text nobody can see, and where they stand."""

import unicodedata

_LINE = {"\n", "\r", "\t"}
_HIDDEN = {"Cc", "Zl", "Zp"}
# Embeddings, overrides and isolates (Unicode Annex 9): they could turn round what stands beside.
_TURNERS = set("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")


def hidden_at(text: str) -> int:
    """The place of the first control character, counted from 1; 0 where there is none. Line ends
    and tabs are none.

    >>> hidden_at("Tunic"), hidden_at("Tu\\x01nic")
    (0, 3)
    """
    for place, sign in enumerate(text, start=1):
        if sign in _TURNERS or (unicodedata.category(sign) in _HIDDEN and sign not in _LINE):
            return place
    return 0
