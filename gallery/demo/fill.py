"""Fills an empty site with the demo: teacher, series, garments in every state, the album."""

import datetime
import secrets
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from django.conf import settings
from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone
from django.utils.crypto import salted_hmac

from alterations.records.load import load_pattern
from alterations.records.models import BasePattern
from gallery.album.collect import collect
from gallery.album.models import Album
from gallery.consent import ledger
from gallery.consent.models import Entry
from gallery.consent.texts import current_texts
from gallery.contributions.intake import Garment, Tools, take_in
from gallery.contributions.keeping import PictureWords, add, describe, receive_file
from gallery.contributions.models import Contribution
from gallery.contributions.people.objecting import confirm_seen
from gallery.contributions.people.said import PeopleSaid
from gallery.contributions.tokens import kept_of
from gallery.demo.people import Knitted
from gallery.demo.shots import Wanted
from gallery.review.decide import Ruling, decide
from gallery.review.models import Verdict
from gallery.series.models import Series

PATTERN_FILE = Path(__file__).with_name("ostrimane_tunic.toml")
SLUG, CODE, TEACHER = "ostrimane-evenings", "ostri", "odalys"
INTRODUCTION = (
    "Twelve evenings, one tunic. Now I would love to see yours: as the pattern says, longer, "
    "shorter, in another yarn or in two halves. At the end of the series we look at them all "
    "together in a closing film."
)
Each = Callable[[Iterable[Wanted]], Iterable[Wanted]]


@dataclass(frozen=True)
class Stage:
    """What the demo stands on: its teacher with a fresh password, and its series."""

    teacher: User
    password: str
    series: Series


def is_foreign() -> str:
    """What the site holds that is not the demo's; empty where the demo may fill it."""
    if User.objects.exclude(username=TEACHER).exists():
        return "accounts"
    if Series.objects.exclude(slug=SLUG).exists():
        return "series"
    series_is_missing = not Series.objects.exists()
    if series_is_missing and (BasePattern.objects.exists() or User.objects.exists()):
        return "patterns or accounts"
    return ""


@transaction.atomic
def set_the_stage(today: datetime.date) -> Stage:
    """Teacher, pattern and series; the password is new at every start."""
    password = secrets.token_urlsafe(9)
    teacher, _ = User.objects.get_or_create(username=TEACHER, defaults={"first_name": "Odalys"})
    teacher.set_password(password)
    teacher.save()
    series, _ = Series.objects.get_or_create(
        slug=SLUG,
        defaults={
            "short_code": CODE,
            "title": "Carriage and Comb: The Ostrimane Evenings",
            "teacher": teacher,
            "teacher_name": "Odalys Brimworth",
            "pattern_version": load_pattern(PATTERN_FILE.read_text(encoding="utf-8")),
            "introduction": INTRODUCTION,
            "opens_on": today - datetime.timedelta(days=60),
            "closes_on": today + datetime.timedelta(days=45),
        },
    )
    return Stage(teacher, password, series)


def token_of(index: int) -> str:
    """The draft token of a demo garment: the same at every start, and no one else can guess it."""
    return salted_hmac(
        "demo", str(index), secret=settings.SECRET_KEY, algorithm="sha256"
    ).hexdigest()


def is_there(index: int) -> bool:
    """Whether a garment was filled in already by an earlier start."""
    return Contribution.objects.filter(
        draft_sha256=kept_of(token_of(index)), sent_at__isnull=False
    ).exists()


def send(stage: Stage, index: int, one: Knitted, pictures: Sequence[Wanted]) -> Contribution:
    """Send one garment the way a knitter does: pictures into a draft, then the form."""
    draft, _ = Contribution.objects.get_or_create(
        draft_sha256=kept_of(token_of(index)), defaults={"series": stage.series}
    )
    draft.photos.all().delete()  # of a start that was broken off
    for picture in pictures:
        photo = add(draft, receive_file(picture.path, picture.path.name))
        said = PeopleSaid(picture.picture.people, picture.picture.others_agree)
        words = PictureWords(picture.picture.description, picture.picture.stage)
        describe(photo, words, said)
    take_in(draft, _garment(stage.series, one), token_of(index))
    _take_back(draft, one)
    return draft


def _garment(series: Series, one: Knitted) -> Garment:
    by_machine = Tools(tool="machine", machine_pitch_mm=None, machine_needles=150)
    return Garment(
        version=series.pattern_version,
        size_name=one.size,
        answers={text: text.purpose in one.allows for text in current_texts(scope=series.slug)},
        stage=one.stage,
        tools=by_machine if one.machine else Tools(tool="needles"),
        alterations=one.alterations,
        notes=one.notes,
        credit_name=one.name,
    )


def _take_back(garment: Contribution, one: Knitted) -> None:
    for text in current_texts(scope=garment.series.slug):
        if text.purpose in one.taken_back and garment.agreement:
            ledger.add_entry(
                garment.agreement,
                text,
                Entry.Answer.WITHDRAWN,
                actor=Entry.Actor.SENDER,
                way=Entry.Way.PRIVATE_PAGE,
            )


def judge(stage: Stage, index: int, one: Knitted) -> None:
    """Let the teacher decide on every photo and on the words, as the scenario says; once."""
    garment = Contribution.objects.get(draft_sha256=kept_of(token_of(index)))
    if not one.verdict or garment.verdicts.exists():
        return
    if one.people_are_seen:
        for seen in garment.photos.all():
            confirm_seen(seen, stage.teacher)
    for photo in (*garment.photos.all(), None):
        ruling = Ruling(photo, Verdict.Decision(one.verdict), one.verdict_note)
        decide(garment, ruling, stage.teacher)


def album_of(stage: Stage) -> Album:
    """The album of the demo, with everything that is approved and allowed."""
    album, _ = Album.objects.get_or_create(series=stage.series, title=stage.series.title)
    collect(album)
    return album


def spread_arrivals(garments: Sequence[Contribution]) -> None:
    """Let the garments arrive over the weeks before, not all in one minute."""
    now = timezone.now()
    for place, garment in enumerate(reversed(garments)):
        arrived = now - datetime.timedelta(days=1 + 2 * place, minutes=37 * place)
        Contribution.objects.filter(pk=garment.pk).update(sent_at=arrived)
