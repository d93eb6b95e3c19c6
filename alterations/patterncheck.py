"""What in a pattern contradicts itself: problems that make a file unusable, each with its place."""

from collections.abc import Iterator

from alterations.errors import PatternError, ShapingError
from alterations.follows import SOURCES, in_order
from alterations.panels import panels_of
from alterations.pattern import Follow, Pattern, Piece, Section, number_at
from alterations.reading import of_size
from alterations.saying import gettext as _
from alterations.stitches import neck_sides, schedule_of
from alterations.wording import name_in_words


def problems_of(pattern: Pattern) -> list[str]:
    """Every contradiction in the pattern's own numbers, as sentences that begin with a place."""
    problems = list(_in_names(pattern))
    for size in pattern.sizes:
        for piece in size.pieces:
            problems += _in_piece(piece, size.name)
    problems += _in_follows(pattern)
    for i, rule in enumerate(pattern.measures):
        for address in rule.at:
            problems += _unknown(pattern, f"{address}.rows", f"measures[{i + 1}].at", address)
    return list(dict.fromkeys(problems))


def _in_names(pattern: Pattern) -> Iterator[str]:
    fabrics = {fabric.key for fabric in pattern.fabrics}
    for piece in pattern.sizes[0].pieces:
        seen: set[str] = set()
        for i, section in enumerate(piece.sections):
            place = f"pieces.{piece.key}.sections[{i + 1}]"
            if section.fabric not in fabrics:
                known = ", ".join(sorted(fabrics))
                sentence = _("there is no fabric “%(fabric)s”; choose one of %(known)s.")
                yield f"{place}.fabric: {sentence % {'fabric': section.fabric, 'known': known}}"
            if section.key in seen or "." in section.key:
                sentence = _("“%(key)s” must be unique in its piece, without a dot.")
                yield f"{place}.key: {sentence % {'key': section.key}}"
            seen.add(section.key)


def _in_piece(piece: Piece, size: str) -> Iterator[str]:
    place = f"pieces.{piece.key}"
    edge = piece.edge
    if piece.panels == 1 and piece.cast_on % edge.multiple != edge.remainder % edge.multiple:
        sentence = _(
            "%(stitches)s does not fit the edge %(edge)s (%(multiple)s·n + %(remainder)s)."
        ) % {
            "stitches": piece.cast_on,
            "edge": name_in_words(edge.name),
            "multiple": edge.multiple,
            "remainder": edge.remainder,
        }
        yield f"{place}.sections[1].stitches{of_size(size)}: {sentence}"
    halved = "panels" if piece.panels > 1 else "may_be_halved" if piece.may_be_halved else ""
    if halved and any(section.where != "both" for section in piece.sections):
        sentence = _("a piece shaped at one edge cannot be halved.")
        yield f"{place}.{halved}{of_size(size)}: {sentence}"
    elif not any(section.start < 1 for section in piece.sections):
        yield from _in_panels(piece, f"{place}.panels{of_size(size)}")
    for i, section in enumerate(piece.sections):
        for key, sentence in _in_section(section):
            yield f"{place}.sections[{i + 1}].{key}{of_size(size)}: {sentence}"


def _in_panels(piece: Piece, place: str) -> Iterator[str]:
    try:
        panels_of(piece)
    except ShapingError as trouble:
        yield f"{place}: {trouble}"


def _in_section(section: Section) -> Iterator[tuple[str, str]]:
    lost = section.start - section.end
    if section.start < 1:
        yield (
            "stitches",
            _("the section below leaves no stitches to go on with; give it some."),
        )
        return
    if section.shape == "straight" and lost:
        sentence = _("is %(end)s, but the section before ends with %(start)s.")
        yield "stitches", sentence % {"end": section.end, "start": section.start}
    if section.shape == "edges" and lost % section.edges:
        sentence = _("%(stitches)s stitches cannot be shared between both edges.")
        yield "stitches", sentence % {"stitches": abs(lost)}
    if section.shape == "held":
        yield from _in_held(section, lost)
    if section.shape == "neck":
        yield from _in_neck(section, lost)
    if section.shape == "spread":
        yield from _in_spread(section)


def _in_held(section: Section, lost: int) -> Iterator[tuple[str, str]]:
    held = section.edges * sum(section.groups)
    if held != lost:
        sentence = _("hold %(held)s stitches, but %(lost)s go from %(start)s.")
        yield "groups", sentence % {"held": held, "lost": lost, "start": section.start}
    if section.rows != 2 * len(section.groups):
        sentence = _("is %(rows)s; %(groups)s groups take 2 rows each.")
        yield "rows", sentence % {"rows": section.rows, "groups": len(section.groups)}


def _in_neck(section: Section, lost: int) -> Iterator[tuple[str, str]]:
    gone = section.centre + neck_sides(section) * sum(section.steps)
    if gone != lost:
        sentence = _("with the centre take %(gone)s stitches, but %(lost)s go from %(start)s.")
        yield "steps", sentence % {"gone": gone, "lost": lost, "start": section.start}
    if section.rows < 2 * (1 + len(section.steps)):
        sentence = _("is %(rows)s; these bind-offs need %(needed)s.")
        yield "rows", sentence % {"rows": section.rows, "needed": 2 * (1 + len(section.steps))}
    if section.where == "both" and (section.start - section.centre) % 2:
        yield "centre", _("leaves an odd count beside it; take one stitch more or fewer.")
    if section.sides > 1:
        yield "shape", _("a neck can only be begun once in a piece.")


def _in_spread(section: Section) -> Iterator[tuple[str, str]]:
    try:
        schedule_of(section)
    except ShapingError as trouble:
        yield "stitches", str(trouble)


def _in_follows(pattern: Pattern) -> Iterator[str]:
    problems: list[str] = []
    targets: set[str] = set()
    for i, follow in enumerate(pattern.follows):
        place = f"follows[{i + 1}]"
        problems += _in_follow(pattern, follow, place)
        if follow.what in targets:
            sentence = _("“%(what)s” already follows something else.")
            problems.append(f"{place}.what: {sentence % {'what': follow.what}}")
        targets.add(follow.what)
    if not problems:
        try:
            in_order(pattern)
        except PatternError as loop:
            problems.append(f"follows: {loop}")
    yield from problems


def _in_follow(pattern: Pattern, follow: Follow, place: str) -> Iterator[str]:
    fewest, most = SOURCES[follow.rule]
    if not fewest <= len(follow.of) <= most:
        needed = str(fewest)
        if fewest != most:
            needed = _("%(fewest)s to %(most)s") % {"fewest": fewest, "most": most}
        sentence = _("the rule “%(rule)s” needs %(needed)s numbers to follow.")
        yield f"{place}.of: {sentence % {'rule': follow.rule, 'needed': needed}}"
    yield from _unknown(pattern, follow.what, f"{place}.what", follow.what)
    for address in follow.of:
        yield from _unknown(pattern, address, f"{place}.of", address)


def _unknown(pattern: Pattern, address: str, place: str, shown: str) -> Iterator[str]:
    try:
        number_at(pattern.sizes[0], address)
    except PatternError as trouble:
        sentence = _("“%(shown)s” leads nowhere. %(trouble)s")
        yield f"{place}: {sentence % {'shown': shown, 'trouble': trouble}}"
