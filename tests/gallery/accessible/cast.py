"""Who and what the browser finds: garments in every state, films, patterns; all made of rows."""

import datetime
from typing import Any

from django.conf import settings
from django.contrib.auth.models import User
from django.utils import timezone
from PIL import Image

from alterations.records.load import load_pattern
from gallery import jobs
from gallery.album.collect import begin as begin_album
from gallery.album.copies import keep_copy
from gallery.album.making import ask_for_film
from gallery.album.models import Album, CopyGiven, Film, Render
from gallery.contributions.models import Change, Contribution, Photo, PrivateLink
from gallery.contributions.pictures import FILM, safe_pictures
from gallery.contributions.tokens import kept_of, new_token
from gallery.review.models import Verdict
from gallery.review.questions.words import keep_words
from gallery.series.editor.drafts import begin as begin_pattern
from gallery.series.models import Series
from tests.gallery.conftest import EVERYTHING, PATTERN, Garment

OPEN, CLOSED, LATER = "ostrimane-evenings", "an-old-series", "a-later-series"
A_PAGE_AND_MORE = 25
GUARDIAN = "guardian@example.org"
Names = dict[str, str]


def series_of(teacher: User, slug: str, opens: int, closes: int) -> Series:
    """A series open between two days, counted from today."""
    today = timezone.localdate()
    return Series.objects.create(
        slug=slug,
        short_code=slug[:5],
        title=f"Carriage and Comb: {slug.replace('-', ' ').capitalize()}",
        teacher=teacher,
        teacher_name="Odalys Brimworth",
        introduction="Twelve evenings, one tunic.",
        pattern_version=load_pattern(PATTERN.read_text(encoding="utf-8")),
        opens_on=today + datetime.timedelta(days=opens),
        closes_on=today + datetime.timedelta(days=closes),
    )


def fill(teacher: User) -> tuple[Names, Names]:
    """Everything at once; the public ids by name, and the tokens of those who come by a link."""
    series = series_of(teacher, OPEN, -10, 10)
    series_of(teacher, LATER, 5, 20)
    public = shown_garments(series)
    hers = decided_on(series)
    young, guardians_token = young_garment(series)
    filmed = series_of(teacher, CLOSED, -40, -10)
    begin_pattern(teacher)
    pattern = begin_pattern(teacher, PATTERN.read_text(encoding="utf-8"))
    keep_words(filmed, "film", "May it be in the film?", "Everybody may see it there.")
    names = {
        "shown": public[0].row.public_id,
        "shown photo": public[0].photo.public_id,
        "hers": hers.row.public_id,
        "young": young.row.public_id,
        "waiting": Garment(series, allows=EVERYTHING, photos=2).row.public_id,
        "unnamed": Garment(series, photos=0, credit_name="", notes="").row.public_id,
        "pattern draft": pattern.public_id,
    }
    draft = Garment(series, sent_at=None, photos=2)
    tokens = {
        "sender": hers.token,
        "young sender": young.token,
        "guardian": guardians_token,
        "somebody with a draft": draft.token,
    }
    return {**names, **films(filmed, teacher)}, tokens


def shown_garments(series: Series) -> list[Garment]:
    """A page of pictures and more; every other photo is without words of its own."""
    return [
        Garment(
            series,
            allows=EVERYTHING,
            description="" if number % 2 else "Front, worn over a shirt",
            sent_at=timezone.now() - datetime.timedelta(days=number),
        ).decide()
        for number in range(A_PAGE_AND_MORE)
    ]


def decided_on(series: Series) -> Garment:
    """Four photos: asked about, declined, objected to, in trouble; its words changed since."""
    garment = Garment(series, allows=EVERYTHING, photos=4)
    photos = list(garment.row.photos.all())
    garment.decide_on(None)
    garment.decide_on(photos[0], Verdict.Decision.ASK, "How did you finish the neckband?")
    garment.decide_on(photos[1], Verdict.Decision.DECLINE, "It cannot be seen.")
    garment.decide_on(photos[2])
    photos[2].objections.create(words="That is me at the left.")
    Photo.objects.filter(pk=photos[1].pk).update(people="others", others_agree=True)
    Photo.objects.filter(pk=photos[3].pk).update(trouble="It cannot be read.", safe_at=None)
    Change.objects.create(
        contribution=garment.row, edition=2, what=Change.What.NOTES, before="It wears well."
    )
    Contribution.objects.filter(pk=garment.row.pk).update(edition=2, words_edition=2)
    return garment


def young_garment(series: Series) -> tuple[Garment, str]:
    """Of a young sender, one picture with a child and one nobody has answered for."""
    garment = Garment(series, allows=EVERYTHING, photos=3, is_younger=True, guardian_email=GUARDIAN)
    ids = list(garment.row.photos.values_list("pk", flat=True))
    Photo.objects.filter(pk=ids[1]).update(people="child", guardian_email=GUARDIAN)
    Photo.objects.filter(pk=ids[2]).update(people="")
    token = new_token()
    garment.row.links.create(
        purpose=PrivateLink.Purpose.GUARDIAN,
        for_address=GUARDIAN,
        token_sha256=kept_of(token),
        expires_at=timezone.now() + datetime.timedelta(days=7),
    )
    return garment, token


def films(series: Series, teacher: User) -> Names:
    """An album with its open film, one whose film is closed, renders under way and failed."""
    for _ in range(2):
        filmable(Garment(series, allows=EVERYTHING, photos=2).decide())
    album = begin_album(series, "The closing film")
    leaves = filmable(Garment(series, allows=EVERYTHING).decide())
    other = begin_album(series, "An older film")
    film, closed = film_of(album, teacher), film_of(other, teacher)
    leaves.take_back(*EVERYTHING)
    wish = {"album": other, "plan": closed.render.plan, "requested_by": teacher}
    # Touched in an hour from now, so that no test finds it silent.
    touched = timezone.now() + datetime.timedelta(hours=1)
    begun = {"parts_total": 9, "parts_done": 4, "started_at": touched, "touched_at": touched}
    making = Render.objects.create(**wish, **begun, album_version=1)
    failed = Render.objects.create(
        **wish, album_version=1, failed_at=timezone.now(), trouble="The disk is full."
    )
    return {
        "album": album.public_id,
        "older album": other.public_id,
        "film": film.render.public_id,
        "closed film": closed.render.public_id,
        "film under way": making.public_id,
        "failed film": failed.public_id,
    }


def filmable(garment: Garment) -> Garment:
    """Give its photos a film size that is large enough for a slide."""
    for photo in garment.row.photos.all():
        path = settings.FILE_UPLOAD_TEMP_DIR / "master.jpg"
        Image.new("RGB", (480, 270), (37 * photo.pk % 200, 90, 120)).save(path, "JPEG")
        kept = safe_pictures().put_file(path)
        made = {"sha256": kept.sha256, "width": 480, "height": 270, "bytes": kept.size}
        photo.renditions.filter(size=FILM).update(**made)
    return garment


def film_of(album: Album, teacher: User) -> Film:
    """The album's film, made here and now, with a copy that was handed on."""
    Album.objects.filter(pk=album.pk).update(seconds_per_slide=2)
    wish = ask_for_film(album, teacher)
    jobs.work_off()
    film = Film.objects.get(render=wish)
    given: dict[str, Any] = {
        "to": "The Tuesday Carriage Circle",
        "email": "circle@example.org",
        "what": CopyGiven.What.FILM,
        "given_on": timezone.localdate(),
        "note": "on a memory stick",
    }
    keep_copy(film, given, teacher)
    return film
