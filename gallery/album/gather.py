"""An album as a film plan: asks of every slide what is allowed and whether it is ready."""

from collections.abc import Sequence
from dataclasses import dataclass

from django.conf import settings
from django.utils.translation import gettext as _

from gallery.album.asking import Allowed, allowed_in_film
from gallery.album.film import plan as film
from gallery.album.models import Album, Slide
from gallery.contributions.models import Photo
from gallery.contributions.pictures import FILM, safe_pictures
from gallery.contributions.shown import alt_of
from gallery.vault import Vault

CARD_SECONDS = 4.0


@dataclass(frozen=True)
class Placed:
    """One slide of the album with what it becomes in the film, or why it stays out."""

    row: Slide
    planned: film.Slide | None
    why_not: str = ""
    generated: str = ""

    @property
    def has_own_words(self) -> bool:
        """Whether the teacher's words stand in place of the generated caption."""
        return self.row.kind == Slide.Kind.GARMENT and bool(self.row.words)


def music_vault() -> Vault:
    """Where the teacher's music files lie."""
    return Vault(settings.MEDIA_ROOT / "music")


def placed(album: Album) -> list[Placed]:
    """Every slide in order, each as it may be shown at this moment."""
    rows = list(album.slides.select_related("photo").prefetch_related("photo__renditions"))
    allowed = allowed_in_film([row.photo for row in rows if row.photo])
    seconds = float(album.seconds_per_slide)
    return [_placed(row, allowed, seconds) for row in rows]


def _placed(row: Slide, allowed: dict[str, Allowed], seconds: float) -> Placed:
    if row.kind != Slide.Kind.GARMENT:
        return Placed(row, _card(row))
    if row.photo is None:
        return Placed(row, None, _("This photo is not here any more."))
    return _garment(row, row.photo, allowed[row.photo.public_id], seconds)


def _card(row: Slide) -> film.Card:
    lines = tuple(line.strip() for line in row.words.splitlines() if line.strip())
    kind = "thanks" if row.kind == Slide.Kind.THANKS else "title"
    return film.Card(row.title, lines, kind=kind, seconds=CARD_SECONDS, ref=row.public_id)


def _garment(row: Slide, photo: Photo, allowed: Allowed, seconds: float) -> Placed:
    master = next((made for made in photo.renditions.all() if made.size == FILM), None)
    if not allowed.is_shown:
        return Placed(row, None, _why_not(photo), allowed.caption)
    if master is None:
        reason = photo.trouble or _("Its picture is still being made ready for the film.")
        return Placed(row, None, reason, allowed.caption)
    planned = film.PhotoSlide(
        photo=safe_pictures().path(master.sha256),
        photo_sha256=master.sha256,
        caption=row.words.strip() or allowed.caption,
        credit=allowed.credit,
        description=alt_of(photo),
        seconds=seconds,
        ref=photo.public_id,
    )
    return Placed(row, planned, generated=allowed.caption)


def _why_not(photo: Photo) -> str:
    return _("Not allowed in the film any more, or no longer approved: it is left out.")


def plan_of(album: Album, slides: Sequence[Placed] | None = None) -> film.FilmPlan:
    """The film the album makes now, with nothing in it that is not allowed now."""
    chosen = placed(album) if slides is None else slides
    music = None
    if album.music_sha256:
        music = film.Music(music_vault().path(album.music_sha256), album.music_licence)
    return film.FilmPlan(
        slides=tuple(one.planned for one in chosen if one.planned is not None),
        width=settings.FILM_WIDTH,
        height=settings.FILM_HEIGHT,
        fps=settings.FILM_FPS,
        music=music,
        credit_words=_("Made by"),
        neutral_credit=_("Made by a knitter of this series"),
    )
