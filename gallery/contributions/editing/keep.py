"""Keeps what a sender changed after sending, each kind of change by a rule of its own.

Before the teacher has looked, a change simply stands. Afterwards the rule is: what she takes away
or corrects is gone from everything public at once; what she adds or writes anew is public only
when the teacher has approved it; what she did not touch stays as approved. Thing by thing:

- A picture taken out is gone for good, with its files. A picture added waits for the teacher.
- A picture's description: the old one is gone, the new one waits; the picture stays.
- A picture turned or cut: the old one is gone, the new one waits, like one added.
- Who can be recognised in a picture: a changed answer sends the picture back to the teacher, and
  her having seen that others agree counts no more. Once a guardian has answered it stays.
- Numbers (size, tools, changes) and notes are one thing: both wait, unless the notes were only
  emptied. The teacher's old and new numbers are two sheets until she has looked.
- The name: the old one is gone, the new one waits, everything else stays.
- Of a sender below the age limit: with anything added or written her guardian's yes counts no
  more, and the guardian is asked again. A guardian's no stands.
- How far the garment or a picture is (a choice of a list) and the order of the pictures: at once.

"The teacher has looked" is a verdict with the number of an edition; `edition` fields say in which
edition each thing became what it is.
"""

from collections.abc import Sequence
from dataclasses import asdict, dataclass

from django.conf import settings
from django.db import transaction
from django.utils.translation import gettext as _

from alterations.kinds import AnyAlteration, to_plain
from alterations.records import store
from alterations.records.models import PatternVersion, Sheet
from gallery import jobs
from gallery.consent.texts import current_texts
from gallery.contributions.editing.history import Turn, What, close, forget_picture
from gallery.contributions.framing import CannotFrameError, Framed, write_framed
from gallery.contributions.intake import Tools
from gallery.contributions.keeping import (
    AlreadyKeptError,
    KeptFile,
    NotKeptError,
    PictureWords,
    make_sizes,
    write_photo,
)
from gallery.contributions.models import Contribution, GuardianAnswer, Photo
from gallery.contributions.people.guardian import answer_as_sender, ask_guardians
from gallery.contributions.people.said import PeopleSaid, is_complete, said_of

FOR_GUARDIANS = (
    What.NUMBERS,
    What.NOTES,
    What.NAME,
    What.DESCRIPTION,
    What.PEOPLE,
    What.ADDED,
    What.FRAMED,
)


class ChangedMeanwhileError(Exception):
    """The garment is not any more what the page showed; nothing was kept."""


@dataclass(frozen=True)
class EditedPicture:
    """What is said about one picture now."""

    photo: Photo
    words: PictureWords
    people: PeopleSaid


@dataclass(frozen=True)
class Edited:
    """Everything of the page besides new pictures, as plain values already checked."""

    version: PatternVersion
    size_name: str
    stage: str
    tools: Tools
    alterations: Sequence[AnyAlteration]
    notes: str
    credit_name: str
    pictures: Sequence[EditedPicture]


@transaction.atomic
def save(garment: Contribution, edited: Edited, seen: int) -> int:
    """Keep what is different; give how many things were. `seen` is the edition the page showed.

    Raises ChangedMeanwhileError where another edition stands, or a guardian answered meanwhile.
    """
    row = _locked(garment)
    if row.edition != seen:
        raise ChangedMeanwhileError
    turn = Turn(row, row.edition + 1)
    _keep_numbers(turn, edited)
    _keep_words(turn, edited)
    _keep_name(turn, edited)
    for one in edited.pictures:
        _keep_picture(turn, one)
    _finish(turn)
    return turn.lines


@transaction.atomic
def add(garment: Contribution, file: KeptFile) -> Photo:
    """Add a picture to a sent garment; raises AlreadyKeptError or NotKeptError."""
    row = _locked(garment)
    if known := row.photos.filter(original_sha256=file.sha256).first():
        raise AlreadyKeptError(known)
    if row.photos.count() >= settings.UPLOAD_MAX_PICTURES:
        raise NotKeptError(_("There is no room for another picture with this garment."))
    photo = write_photo(row, file)
    turn = Turn(row, row.edition + 1)
    turn.note(What.ADDED, photo)
    _finish(turn)
    jobs.later(make_sizes, photo.pk)
    return photo


@transaction.atomic
def frame(garment: Contribution, photo: Photo, made: Framed) -> None:
    """Show a picture turned or cut; it goes back to the teacher, since more may be seen now.

    Raises CannotFrameError where somebody's answer rests on it.
    """
    row = _locked(garment)
    if people_are_settled(photo):
        words = _("A parent's or guardian's answer rests on this picture, so it stays as it is.")
        raise CannotFrameError(words)
    turn = Turn(row, row.edition + 1)
    turn.note(What.FRAMED, photo)
    write_framed(photo, made)
    photo.edition = turn.edition
    photo.people_seen_at = photo.people_seen_by = None
    photo.save()
    _finish(turn)
    jobs.later(make_sizes, photo.pk)


@transaction.atomic
def take_out(garment: Contribution, public_id: str) -> bool:
    """Take a picture out for good; False where it is not there (any more).

    Its files are left to the caller: a file without a row is nothing, the other way a lie.
    """
    row = _locked(garment)
    photo = row.photos.filter(public_id=public_id).first()
    if photo is None:
        return False
    turn = Turn(row, row.edition + 1)
    was_new = forget_picture(row, photo)
    turn.note(What.REMOVED, photo)
    if was_new:  # she never saw it
        close(row, (What.REMOVED,), photo)
    photo.delete()
    _set_in_order(list(row.photos.all()))
    _finish(turn)
    return True


@transaction.atomic
def move(garment: Contribution, public_id: str, places: int) -> bool:
    """Move a picture by so many places (below zero: forward); False where it cannot be moved."""
    row = _locked(garment)
    photos = list(row.photos.all())
    here = next((at for at, one in enumerate(photos) if one.public_id == public_id), None)
    if here is None or not 0 <= here + places < len(photos):
        return False
    photos.insert(here + places, photos.pop(here))
    _set_in_order(photos)
    turn = Turn(row, row.edition + 1)
    turn.note(What.ORDER)
    _finish(turn)
    return True


def people_are_settled(photo: Photo) -> bool:
    """Whether somebody's yes or no rests on what was said about the people in a picture."""
    return GuardianAnswer.objects.filter(about=photo.public_id).exists()


def _locked(garment: Contribution) -> Contribution:
    sent = Contribution.objects.filter(sent_at__isnull=False)
    return sent.select_for_update().get(pk=garment.pk)


def _finish(turn: Turn) -> None:
    """Write the new edition; of what a young sender adds or writes her guardian has to know."""
    row = turn.garment
    if not turn.lines:
        return
    row.edition = turn.edition
    new = row.history.filter(edition=turn.edition, what__in=FOR_GUARDIANS)
    if row.is_younger and new.exists():
        row.guardian_edition = turn.edition
    row.save()
    ask_guardians(row)


def _set_in_order(photos: Sequence[Photo]) -> None:
    for position, photo in enumerate(photos, start=1):
        if photo.position != position:
            Photo.objects.filter(pk=photo.pk).update(position=position)


def _keep_numbers(turn: Turn, edited: Edited) -> None:
    row, old = turn.garment, turn.garment.sheet
    if old is not None and _says_the_same(old, edited):
        return
    row.sheet = store.keep_sheet(
        edited.version, edited.size_name, edited.alterations, **asdict(edited.tools)
    )
    row.words_edition = turn.edition
    row.save()  # before the old sheet may leave
    turn.note(What.NUMBERS, sheet=old)


def _says_the_same(sheet: Sheet, edited: Edited) -> bool:
    kept = sorted((line.kind, sorted(line.entered.items())) for line in sheet.lines.all())
    told = [to_plain(one) for one in edited.alterations]
    tools = asdict(edited.tools)
    return (
        sheet.size_name == edited.size_name
        and all(getattr(sheet, name) == value for name, value in tools.items())
        and kept == sorted((kind, sorted(entered.items())) for kind, entered in told)
    )


def _keep_words(turn: Turn, edited: Edited) -> None:
    row = turn.garment
    if row.notes != edited.notes:
        turn.note(What.NOTES, before=row.notes)
        row.notes = edited.notes
        if edited.notes:  # emptied notes leave nothing to approve
            row.words_edition = turn.edition
    if row.stage != edited.stage:
        turn.note(What.STAGE, before=row.stage)
        row.stage = edited.stage


def _keep_name(turn: Turn, edited: Edited) -> None:
    row = turn.garment
    if row.credit_name != edited.credit_name:
        turn.note(What.NAME, before=row.credit_name)
        row.credit_name = edited.credit_name
        row.name_edition = turn.edition


def _keep_picture(turn: Turn, one: EditedPicture) -> None:
    photo = turn.garment.photos.filter(pk=one.photo.pk).first()
    if photo is None:
        raise ChangedMeanwhileError
    words = one.words
    if photo.description != words.description:
        turn.note(What.DESCRIPTION, photo, before=photo.description)
        photo.description, photo.words_edition = words.description, turn.edition
    elif photo.is_decorative != words.is_decorative:
        turn.note(What.DESCRIPTION, photo, before=photo.description)
    photo.is_decorative = words.is_decorative
    if photo.stage != words.stage:
        turn.note(What.PHOTO_STAGE, photo, before=photo.stage)
        photo.stage = words.stage
    _keep_people(turn, photo, one.people)
    photo.save()


def _keep_people(turn: Turn, photo: Photo, said: PeopleSaid) -> None:
    if said.facts == said_of(photo).facts:
        return
    if people_are_settled(photo):
        raise ChangedMeanwhileError
    turn.note(What.PEOPLE, photo, before=photo.people)
    if is_complete(photo):  # else it was shown nowhere, and a first answer is no correction
        photo.edition = turn.edition
    photo.people_seen_at = photo.people_seen_by = None
    for name, value in said.facts.items():
        setattr(photo, name, value)
    if photo.sender_is_guardian:
        answer_as_sender(turn.garment, photo, current_texts(scope=turn.garment.series.slug))
