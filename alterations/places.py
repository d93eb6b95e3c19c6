"""Where in a garment an alteration belongs: from a knitter's word for a part to its sections."""

from collections.abc import Iterator
from fractions import Fraction

from alterations.errors import KindError
from alterations.gauges import Gauges
from alterations.pattern import Pattern, Piece, Section, Size
from alterations.saying import gettext as _
from alterations.wording import inside, name_in_words

# What a pattern file calls the stretches a person alters.
BODY, SLEEVE, WRIST = "body length", "sleeve length", "wrist"
BODY_WIDTH, ARMHOLE = "body width", "armhole depth"
NECK_DEPTH, NECK_WIDTH = "neck depth", "neck width"
PARTS = (BODY, SLEEVE, WRIST, BODY_WIDTH, ARMHOLE, NECK_DEPTH, NECK_WIDTH)

Place = tuple[str, Piece, Section]  # "piece.section" and what stands there


def parts_of(size: Size) -> dict[str, tuple[Piece, Section]]:
    """The parts a person can name in this size, each with the first section it stands for."""
    found: dict[str, tuple[Piece, Section]] = {}
    for _address, piece, section in sections_of(size):
        if section.part:
            found.setdefault(section.part, (piece, section))
    return found


def sections_of(size: Size) -> Iterator[Place]:
    """Every section with its address."""
    for piece in size.pieces:
        for section in piece.sections:
            yield f"{piece.key}.{section.key}", piece, section


def places_of(pattern: Pattern, size: Size, part: str) -> list[Place]:
    """All sections that stand for a part; refuses a part the pattern does not have."""
    found = [place for place in sections_of(size) if place[2].part == part]
    if not found:
        known = ", ".join(map(name_in_words, parts_of(size))) or _("none that is named")
        raise KindError(
            _("%(pattern)s has no %(part)s that could be changed; it has %(known)s.")
            % {"pattern": pattern.name, "part": name_in_words(part), "known": known}
        )
    return found


def length_places(pattern: Pattern, size: Size, where: str) -> list[Place]:
    """The sections that grow when "where" grows: a part, a "piece.section", or a whole piece.

    A number that follows another by the rule "same" is changed where it follows from, so that front
    and back stay alike; refuses one that follows in another way, and what has no rows.
    """
    where = where.strip()
    if where in PARTS or any(place[2].part == where for place in sections_of(size)):
        return places_of(pattern, size, where)
    for piece in size.pieces:
        if piece.key == where:
            return [_led(pattern, size, _stretch_of(piece))]
    place = _place(pattern, size, where)
    if not place[2].rows:
        raise KindError(
            _("%(piece)s, %(section)s is worked within one row; it has no length to change.")
            % {"piece": place[1].title, "section": inside(place[2].title)}
        )
    return [_led(pattern, size, place)]


def _place(pattern: Pattern, size: Size, address: str) -> Place:
    for place in sections_of(size):
        if place[0] == address:
            return place
    known = ", ".join(place[0] for place in sections_of(size) if place[2].rows)
    raise KindError(
        _("%(pattern)s has no part “%(part)s”; choose one of %(known)s.")
        % {"pattern": pattern.name, "part": address[:60], "known": known}
    )


def stretch_above(piece: Piece) -> Place | None:
    """The stretch of a piece that takes a change of its length: the one named so, or its tallest
    straight or spread one above the cast-on edge; None where there is nothing above the edge."""
    above = [one for one in piece.sections[1:] if one.shape in ("straight", "spread") and one.rows]
    if not above:
        return None
    named = [one for one in above if one.part in (BODY, SLEEVE)]
    chosen = named[0] if named else max(above, key=lambda one: one.rows)
    return f"{piece.key}.{chosen.key}", piece, chosen


def _stretch_of(piece: Piece) -> Place:
    found = stretch_above(piece)
    if found is not None:
        return found
    only = piece.sections[0]
    return f"{piece.key}.{only.key}", piece, only


def _led(pattern: Pattern, size: Size, place: Place) -> Place:
    """The section whose rows these follow, as often as they follow "same"."""
    rules = {follow.what: follow for follow in pattern.follows}
    rule = rules.get(f"{place[0]}.rows")
    if rule is None:
        return place
    leader = rule.of[0].rsplit(".", 1)[0]
    if rule.rule != "same":
        sources = ", ".join(address.rsplit(".", 1)[0] for address in rule.of)
        raise KindError(
            _(
                "%(piece)s, %(section)s follows from other numbers (%(sources)s); change those "
                "instead."
            )
            % {
                "piece": place[1].title,
                "section": inside(place[2].title),
                "sources": sources,
            }
        )
    return _led(pattern, size, _place(pattern, size, leader))


def led_place(pattern: Pattern, size: Size, place: Place) -> Place:
    """The place itself, or the one its rows follow by the rule "same"."""
    return _led(pattern, size, place)


def width_shares(
    pattern: Pattern, size: Size, part: str, gauges: Gauges
) -> list[tuple[Place, Fraction]]:
    """The sections that share a change of width all round, each with its share (together 1).

    Each share is the visible width of the section; pieces that follow it and pieces made twice
    count with it.
    """
    places = places_of(pattern, size, part)
    weights = [_all_round(pattern, size, place, gauges) for place in places]
    total = sum((count * width for count, width in weights), Fraction(0))
    return [
        (place, width / total) for place, (_, width) in zip(places, weights, strict=True) if total
    ]


def _all_round(pattern: Pattern, size: Size, place: Place, gauges: Gauges) -> tuple[int, Fraction]:
    """How many pieces go round with this one, and its visible width in cm."""
    address, piece, section = place
    count = piece.make
    for follow in pattern.follows:
        if follow.rule == "same" and follow.of == (f"{address}.stitches",):
            count += size.piece(follow.what.split(".")[0]).make
    width = (section.end - section.seams_at_end) / gauges.stitches_per_cm(section.fabric)[0]
    return count, width
