"""Names of parts and edges as they stand within a sentence."""


def inside(title: str) -> str:
    """A title within a sentence: its first word without its capital, single letters as they are.

    >>> inside("Armhole to the V"), inside("V-neck"), inside("Hem")
    ('armhole to the V', 'V-neck', 'hem')
    """
    is_word = title[1:2].islower()
    return title[:1].lower() + title[1:] if is_word else title


def edge_in_words(name: str) -> str:
    """An edge's name as a knitter reads it.

    >>> edge_in_words("K2P2 free"), edge_in_words("K2P1")
    ('K2P2 with free edges', 'K2P1')
    """
    return name.removesuffix(" free") + " with free edges" if name.endswith(" free") else name
