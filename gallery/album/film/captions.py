"""What stands beside the film: captions and chapters as WebVTT, a text account, the credits."""

import re
import unicodedata
from collections.abc import Iterator

from gallery.album.film.plan import Card, FilmPlan, Slide, credit_line
from gallery.album.film.saying import gettext as _
from gallery.album.film.timing import (
    Shot,
    caption_frames,
    short_time,
    shots,
    time_code,
    total_frames,
)

FIRST_STRONG_ISOLATE, POP_ISOLATE = "\u2068", "\u2069"
_OPENS_ISOLATE = "\u2066\u2067\u2068"
_OPENS_EMBEDDING, _POP_EMBEDDING = "\u202a\u202b\u202d\u202e", "\u202c"
_CUE_TIMES = re.compile(r"(\d\d):(\d\d):(\d\d\.\d{3}) --> (\d\d):(\d\d):(\d\d\.\d{3})")


def captions_vtt(plan: FilmPlan) -> str:
    """The words of every slide as WebVTT (W3C), each while it is to be seen."""
    return _vtt(plan, _caption_cues(plan))


def chapters_vtt(plan: FilmPlan) -> str:
    """A chapter for every slide as WebVTT, gapless over the whole film."""
    return _vtt(plan, ((s.start, end, [_heading(sl)]) for s, sl, end in _chapters(plan)))


def chapters_text(plan: FilmPlan) -> str:
    """The chapters for a video's description: a time code and a heading a line."""
    return "".join(
        f"{short_time(shot.start, plan.fps)} {isolated(_heading(slide))}\n"
        for shot, slide, _end in _chapters(plan)
    )


def account(plan: FilmPlan) -> str:
    """The film in words, for those who cannot see it: time, caption, credit, description."""
    paragraphs = []
    for shot, slide, _end in _chapters(plan):
        said = [*_spoken(plan, slide)]
        if not isinstance(slide, Card) and slide.description.strip():
            said.append(slide.description)
        lines = "\n".join(isolated(line) for line in said)
        paragraphs.append(f"{short_time(shot.start, plan.fps)}\n{lines}\n")
    return "\n".join(paragraphs)


def credits(plan: FilmPlan) -> tuple[str, ...]:
    """The names the film shows as credits, exactly as written, each once, in order."""
    named = (slide.credit for slide in plan.slides if not isinstance(slide, Card))
    return tuple(dict.fromkeys(name for name in named if name))


def isolated(text: str) -> str:
    """The text so that its direction cannot reach what stands around it (Unicode Annex 9).

    What it opens is closed, and what it closes without having opened is left out: neither is
    ever seen.
    """
    kept: list[str] = []
    opened: list[str] = []
    for sign in " ".join(text.split()):
        if sign in _OPENS_ISOLATE:
            opened.append(POP_ISOLATE)
        elif sign in _OPENS_EMBEDDING:
            opened.append(_POP_EMBEDDING)
        elif sign in (POP_ISOLATE, _POP_EMBEDDING):
            if not opened or opened[-1] != sign:
                continue
            opened.pop()
        kept.append(sign)
    return f"{FIRST_STRONG_ISOLATE}{''.join(kept)}{''.join(reversed(opened))}{POP_ISOLATE}"


def escaped(text: str) -> str:
    """The text as WebVTT cue text: nothing in it is markup, a line break or an arrow."""
    seen = "".join(sign for sign in text if unicodedata.category(sign) != "Cc" or sign.isspace())
    plain = " ".join(seen.split())
    return plain.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def faults_in_vtt(text: str) -> list[str]:
    """What makes this no readable WebVTT file, as sentences: head, times, order, bare signs."""
    head, *blocks = text.rstrip("\n").split("\n\n")
    faults = [] if head == "WEBVTT" else [_("The captions do not begin with WEBVTT.")]
    last_begin = ""
    for block in blocks:
        lines = block.split("\n")
        times = _CUE_TIMES.fullmatch(lines[1]) if len(lines) > 2 else None
        if not times or any("-->" in line or "<" in line for line in lines[2:]):
            faults.append(
                _("The captions hold a block that is no cue: %(line)s.") % {"line": lines[0]}
            )
            continue
        begin, end = lines[1].split(" --> ")
        if not last_begin <= begin < end:
            faults.append(_("The captions' times do not go forward at %(time)s.") % {"time": begin})
        last_begin = begin
    return faults


def _vtt(plan: FilmPlan, cues: Iterator[tuple[int, int, list[str]]]) -> str:
    blocks = ["WEBVTT\n"]
    for number, (begin, end, lines) in enumerate(cues, start=1):
        times = f"{time_code(begin, plan.fps)} --> {time_code(end, plan.fps)}"
        said = "\n".join(escaped(isolated(line)) for line in lines)
        blocks.append(f"{number}\n{times}\n{said}\n")
    return "\n".join(blocks)


def _caption_cues(plan: FilmPlan) -> Iterator[tuple[int, int, list[str]]]:
    for shot, slide in zip(shots(plan), plan.slides, strict=True):
        lines = list(_spoken(plan, slide))
        if lines:
            yield (*caption_frames(shot), lines)


def _spoken(plan: FilmPlan, slide: Slide) -> Iterator[str]:
    """The words on the slide, line by line, none empty."""
    if isinstance(slide, Card):
        lines: tuple[str, ...] = (slide.title, *slide.lines)
    else:
        label, name = credit_line(plan, slide)
        credit = f"{label} {isolated(name)}" if name else label
        lines = (slide.caption, credit)
    yield from (line for line in lines if line.strip())


def _heading(slide: Slide) -> str:
    first = slide.title if isinstance(slide, Card) else slide.caption
    return " ".join(first.split()) or "·"


def _chapters(plan: FilmPlan) -> Iterator[tuple[Shot, Slide, int]]:
    for shot, slide in zip(shots(plan), plan.slides, strict=True):
        last = shot.index == len(plan.slides) - 1
        yield shot, slide, total_frames(plan) if last else shot.end
