"""A plan to and from JSON text, so that a job can be started with exactly what was decided."""

import json
from dataclasses import asdict
from pathlib import Path
from typing import Any

from gallery.album.film.errors import FilmError
from gallery.album.film.plan import Card, FilmPlan, Music, PhotoSlide, Slide
from gallery.album.film.saying import gettext as _

VERSION = 1


def to_text(plan: FilmPlan) -> str:
    """The plan as JSON; paths as text."""
    told = asdict(plan)
    told["slides"] = [{"card": isinstance(s, Card), **asdict(s)} for s in plan.slides]
    return json.dumps({"version": VERSION, "film": told}, default=str, ensure_ascii=False, indent=1)


def from_text(text: str) -> FilmPlan:
    """The plan this text holds; refuses, as FilmError, other versions and anything unreadable."""
    try:
        told: dict[str, Any] = json.loads(text)
        version, film = told["version"], dict(told["film"])
        if version != VERSION:
            raise FilmError(
                _(
                    "This plan has version %(version)s, but this program reads %(known)s: make it "
                    "anew from the album."
                )
                % {"version": version, "known": VERSION}
            )
        film["slides"] = tuple(_slide(dict(slide)) for slide in film["slides"])
        film["music"] = _music(film["music"])
        return FilmPlan(**film)
    except (ValueError, KeyError, TypeError) as trouble:
        raise FilmError(_("This is not a readable plan: make it anew from the album.")) from trouble


def _slide(told: dict[str, Any]) -> Slide:
    if told.pop("card"):
        return Card(**{**told, "lines": tuple(told["lines"])})
    told["photo"], told["focus"] = Path(told["photo"]), tuple(told["focus"])
    return PhotoSlide(**told)


def _music(told: dict[str, str] | None) -> Music | None:
    return Music(Path(told["path"]), told["licence_note"]) if told else None
