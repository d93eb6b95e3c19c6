"""The library from a terminal: a pattern file, a size and changes in; the numbers out.

Exit code 0, or 2 with one sentence on bad input.
"""

import argparse
import re
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import NoReturn

from alterations import terminal
from alterations.errors import AlterationsError
from alterations.fileform import form_in_words
from alterations.saying import gettext as _

LENGTHS = ("--body-length", "--sleeve-length", "--wrist")
CHANGES = ("body_length", "sleeve_length", "wrist", "yarn", "halves", "note", "alter")
OF_BED = ("needles", "by_hand", "every_second", "double_bed")
OF_SIZE = ("worksheet", "drawing", "gauge", "keep_counts", *OF_BED)
OF_YARN = ("ball", "swatch")


def main(arguments: list[str] | None = None) -> int:
    """Answer one question; the exit code."""
    given = sys.argv[1:] if arguments is None else arguments
    asked = _parser().parse_args(list(_joined(given)))
    try:
        print(_answer(asked), flush=True)
    except BrokenPipeError:  # whoever reads has read enough
        sys.stdout = None
    except (AlterationsError, OSError) as error:
        print(str(error), file=sys.stderr)
        return 2
    return 0


def _joined(given: list[str]) -> Iterator[str]:
    """ "--body-length -2in" as "--body-length=-2in": argparse takes "-2in" for an option."""
    rest = iter(given)
    for one in rest:
        following = next(rest, None) if one in LENGTHS else None
        if following is None:
            yield one
        elif re.match(r"-\s*[\d.,]", following):
            yield f"{one}={following}"
        else:
            yield from (one, following)


class _Parser(argparse.ArgumentParser):
    """Refuses in one sentence."""

    def error(self, message: str) -> NoReturn:
        refused = _("%(message)s; --help names what there is.")
        self.exit(2, refused % {"message": f"{message[:1].upper()}{message[1:]}"} + "\n")


def _parser() -> argparse.ArgumentParser:
    parser = _Parser(
        prog="python -m alterations", description=_("Recalculate a garment of a base pattern.")
    )
    add = parser.add_argument
    add("file", type=Path, nargs="?", help=_("the pattern file (TOML)"))
    add("--size", help=_("the size's name; without it the table of all sizes"))
    add("--body-length", metavar="LENGTH", help=_("longer or shorter, as +5cm"))
    add("--sleeve-length", metavar="LENGTH", help=_("longer or shorter, as -1.5in"))
    add("--wrist", metavar="WIDTH", help=_("new width round the wrist, as 20cm"))
    add("--yarn", metavar="NAME", help=_("another yarn"))
    add("--ball", metavar="G/M", help=_("its ball: grams/metres, as 50/95"))
    add("--swatch", metavar="S/R", help=_("its stitches/rows in 10 cm, as 19/26"))
    add("--keep-counts", action="store_true", help=_("keep the counts, not the size"))
    add("--halves", action="store_true", help=_("work back and front in halves"))
    add("--note", help=_("anything else, in words"))
    add(
        "--alter",
        action="append",
        metavar="'KIND FIELD=VALUE …'",
        help=_("any kind of alteration, as 'other_edge where=hem depth=10cm'; may be repeated"),
    )
    add("--kinds", action="store_true", help=_("name the kinds of --alter and their fields"))
    add("--gauge", metavar="S/R", help=_("your stitches/rows in 10 cm with the pattern's yarn"))
    add("--needles", type=int, metavar="N", help=_("needles on your bed"))
    add("--every-second", action="store_true", help=_("thick yarn on every second needle"))
    add("--double-bed", action="store_true", help=_("ribs on two beds"))
    add("--by-hand", action="store_true", help=_("on hand needles, which hold any width"))
    add("--worksheet", action="store_true", help=_("the garment as instructions"))
    add("--drawing", metavar="PIECE", help=_("one piece as SVG"))
    add("--json", action="store_true", help=_("JSON instead of lines"))
    add("--format", action="store_true", help=_("explain the pattern file"))
    return parser


def _answer(asked: argparse.Namespace) -> str:
    if asked.format:
        return form_in_words()
    if asked.kinds:
        return terminal.kinds_in_words()
    if asked.file is None:
        raise AlterationsError(_("Name a pattern file, or ask for --format or --kinds."))
    _refuse_lonely(asked)
    if asked.size is None:
        return terminal.sizes_of(asked)
    return terminal.garment_of(asked)


def _refuse_lonely(asked: argparse.Namespace) -> None:
    """Refuses what would be passed over: a change without a size, a ball without its yarn."""
    if asked.size is None and _given(asked, (*CHANGES, *OF_YARN, *OF_SIZE)):
        raise AlterationsError(_("Say with --size which size was changed."))
    if asked.yarn is None and _given(asked, OF_YARN):
        raise AlterationsError(_("Name the other yarn with --yarn."))
    if asked.keep_counts and asked.yarn is None and asked.gauge is None:
        raise AlterationsError(_("Say with --yarn or --gauge at which gauge the counts are kept."))


def _given(asked: argparse.Namespace, names: tuple[str, ...]) -> bool:
    return any(getattr(asked, name) not in (None, False) for name in names)


if __name__ == "__main__":
    sys.exit(main())
