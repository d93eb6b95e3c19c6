"""An album as a film plan: asks of every slide what is allowed and whether it is ready."""

from collections.abc import Sequence
from dataclasses import dataclass

from django.conf import settings
from django.utils.translation import gettext as _

from gallery.album.asking import Allowed, allowed_in_film, ref_of
from gallery.album.film import plan as film
from gallery.album.models import Album, Slide
from gallery.contributions.models import Photo
from gallery.contributions.pictures import FILM, safe_pictures
from gallery.speaking import the_sites
from gallery.vault import Vault

CARD_SECONDS = 4.0
NOT_ALLOWED, NOT_READY, TAKEN_OUT = "withdrawn", "making", "no"


@dataclass(frozen=True)
class Placed:
    """One slide of the album: how it looks, and why it stays out of the film if it does.

    `drawn` is None where nothing may or can be shown; `sign` and `why_not` say why it stays out;
    `name` is the name that may be shown, whether or not the teacher leaves it out.
    """

    row: Slide
    drawn: film.Slide | None
    sign: str = ""
    why_not: str = ""
    generated: str = ""
    name: str = ""
    numbers_are_shown: bool = False
    changed: frozenset[str] = frozenset()
    own_words_are_old: bool = False

    @property
    def planned(self) -> film.Slide | None:
        """The slide as the film shows it, or None where it stays out."""
        return None if self.sign else self.drawn

    @property
    def is_card(self) -> bool:
        """Whether it is a page of words."""
        return self.row.kind != Slide.Kind.GARMENT

    @property
    def has_own_words(self) -> bool:
        """Whether the teacher's words stand in place of the generated caption."""
        return not self.is_card and bool(self.row.words)


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
    out = (TAKEN_OUT, _("Taken out of the film.")) if row.taken_out_at else ("", "")
    if row.kind != Slide.Kind.GARMENT or row.photo is None:
        return Placed(row, _card(row), *out)
    may = allowed[row.photo.public_id]
    if not may.is_shown:
        words = _("No longer allowed in the film, or no longer approved: it is left out.")
        return Placed(row, None, NOT_ALLOWED, words)
    drawn = None
    if master := next((made for made in row.photo.renditions.all() if made.size == FILM), None):
        drawn = _garment(row, row.photo, may, master.sha256, seconds)
    else:
        out = (NOT_READY, row.photo.trouble or _not_ready())
    return Placed(
        row,
        drawn,
        *out,
        generated=may.caption,
        name=may.credit,
        numbers_are_shown=may.numbers_are_shown,
        changed=may.changed,
        own_words_are_old=may.numbers_are_shown and bool(row.words) and not own_words(row, may),
    )


def _not_ready() -> str:
    return _("Its picture is still being made ready; until then the film leaves it out.")


def _card(row: Slide) -> film.Card:
    lines = tuple(line.strip() for line in row.words.splitlines() if line.strip())
    kind = "thanks" if row.kind == Slide.Kind.THANKS else "title"
    return film.Card(row.title, lines, kind=kind, seconds=CARD_SECONDS, ref=row.public_id)


def _garment(
    row: Slide, photo: Photo, may: Allowed, sha256: str, seconds: float
) -> film.PhotoSlide:
    own = own_words(row, may)
    return film.PhotoSlide(
        photo=safe_pictures().path(sha256),
        photo_sha256=sha256,
        caption=own or may.caption,
        credit="" if row.names_nobody else may.credit,
        description=may.description,
        seconds=seconds,
        ref=ref_of(
            photo,
            may.garment,
            has_own_words=bool(own),
            may_tell_numbers=row.words_may_tell_numbers,
        ),
    )


def own_words(row: Slide, may: Allowed) -> str:
    """The teacher's own caption; none where it may tell numbers that may no longer be told, or
    that are others now."""
    are_old = row.words_edition < may.garment.words_edition
    if row.words_may_tell_numbers and (are_old or not may.numbers_are_shown):
        return ""
    return row.words.strip()


def plan_of(album: Album, slides: Sequence[Placed] | None = None) -> film.FilmPlan:
    """The film the album makes now, with nothing in it that is not allowed now."""
    chosen = placed(album) if slides is None else slides
    return bare_plan(album, [one.planned for one in chosen if one.planned is not None])


def bare_plan(album: Album, slides: Sequence[film.Slide]) -> film.FilmPlan:
    """A film of exactly these slides in the album's look, with its music."""
    music = None
    if album.music_sha256:
        music = film.Music(music_vault().path(album.music_sha256), album.music_licence)
    with the_sites():
        return film.FilmPlan(
            slides=tuple(slides),
            width=settings.FILM_WIDTH,
            height=settings.FILM_HEIGHT,
            fps=settings.FILM_FPS,
            look=album.look,
            music=music,
            credit_words=_("Knitted by"),
            neutral_credit=_("Knitted by a follower of the series"),
        )
