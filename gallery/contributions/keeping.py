"""Keeping pictures: the file first, made safe in a process of its own, then the rows about it."""

import tempfile
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from pathlib import Path

from django.conf import settings
from django.core.files.uploadedfile import TemporaryUploadedFile, UploadedFile
from django.db import transaction
from django.db.models import Max, Sum
from django.utils import timezone
from django.utils.translation import gettext as _

from gallery.contributions.models import Contribution, Photo, Rendition
from gallery.contributions.people.said import PeopleSaid
from gallery.contributions.photos.safely import (
    PictureRefused,
    Remade,
    receive_safely,
    remake_safely,
)
from gallery.contributions.picture_words import said
from gallery.contributions.pictures import (
    SIZES,
    framing_of,
    original_path,
    originals,
    safe_pictures,
)
from gallery.vault import VaultError

LONGEST_NAME = 255


class NotKeptError(Exception):
    """A picture that is not kept; its text is the reason and says what to do."""


class AlreadyKeptError(Exception):
    """The same picture is already with this garment."""

    def __init__(self, photo: Photo) -> None:
        super().__init__(photo.public_id)
        self.photo = photo


@dataclass(frozen=True)
class PictureWords:
    """What is said about one picture: its description, its kind, whether it needs none."""

    description: str = ""
    stage: str = Photo.Stage.FINISHED
    is_decorative: bool = False


def words_of(photo: Photo) -> PictureWords:
    """What is kept about a picture."""
    return PictureWords(photo.description, photo.stage, photo.is_decorative)


@dataclass(frozen=True)
class MadeSize:
    """One safe size, its file kept already."""

    size: str
    sha256: str
    width: int
    height: int
    bytes: int


@dataclass(frozen=True)
class KeptFile:
    """A picture whose files are kept and whose rows are not written yet."""

    name: str
    sha256: str
    kind: str
    bytes: int
    width: int
    height: int
    small: MadeSize
    notes: tuple[str, ...] = ()
    doubts: tuple[str, ...] = ()
    fingerprint: str = ""


def receive(uploaded: UploadedFile) -> KeptFile:
    """Keep an uploaded file and its small size; raises NotKeptError with the reason."""
    if (uploaded.size or 0) > settings.UPLOAD_MAX_PICTURE_BYTES:
        most = settings.UPLOAD_MAX_PICTURE_BYTES // (1024 * 1024)
        raise NotKeptError(
            _("It is larger than %(most)s MB. Please send a smaller copy of it.") % {"most": most}
        )
    if not isinstance(uploaded, TemporaryUploadedFile):
        raise TypeError("Uploads arrive on the disk; see FILE_UPLOAD_HANDLERS.")
    return receive_file(Path(uploaded.temporary_file_path()), uploaded.name or "")


def receive_file(path: Path, sent_name: str) -> KeptFile:
    """As above, for a file that lies on the disk; it is copied, never moved."""
    with tempfile.TemporaryDirectory(dir=settings.FILE_UPLOAD_TEMP_DIR) as folder:
        try:
            received = receive_safely(path, sent_name, Path(folder))
            original = originals().put_file(path)
            small = kept_size(received.small)
        except PictureRefused as refused:
            raise NotKeptError(said(refused)) from refused
        except VaultError as trouble:
            raise NotKeptError(str(trouble)) from trouble
    return KeptFile(
        name=sent_name[:LONGEST_NAME],
        sha256=original.sha256,
        kind=received.inspected.kind,
        bytes=original.size,
        width=received.inspected.width,
        height=received.inspected.height,
        small=small,
        notes=received.inspected.notes,
        doubts=received.inspected.doubts,
        fingerprint=received.inspected.fingerprint,
    )


@transaction.atomic
def add(contribution: Contribution, file: KeptFile) -> Photo:
    """Write the rows of a picture whose files are kept; raises AlreadyKeptError or NotKeptError."""
    draft = Contribution.objects.select_for_update().get(pk=contribution.pk)
    if known := draft.photos.filter(original_sha256=file.sha256).first():
        raise AlreadyKeptError(known)
    if draft.sent_at is not None:
        raise NotKeptError(_("This garment was sent already, so nothing more can be added to it."))
    if draft.photos.count() >= settings.UPLOAD_MAX_PICTURES:
        raise NotKeptError(_("There is no room for another picture with this garment."))
    _refuse_too_much(draft, file)
    Contribution.objects.filter(pk=draft.pk).update(touched_at=timezone.now())
    return write_photo(draft, file)


def _refuse_too_much(draft: Contribution, file: KeptFile) -> None:
    """All pictures of one garment together have a limit too."""
    kept = draft.photos.aggregate(all=Sum("bytes"))["all"] or 0
    if kept + file.bytes > settings.UPLOAD_MAX_GARMENT_BYTES:
        most = settings.UPLOAD_MAX_GARMENT_BYTES // (1024 * 1024)
        words = _(
            "With it, the pictures of this garment would be more than %(most)s MB together. Please "
            "send a smaller copy of it, or take another picture out."
        )
        raise NotKeptError(words % {"most": most})


def write_photo(garment: Contribution, file: KeptFile) -> Photo:
    """The rows of a picture, behind the others; the caller asked whether it may be added."""
    last = garment.photos.aggregate(last=Max("position"))["last"] or 0
    photo = garment.photos.create(
        position=last + 1,
        original_sha256=file.sha256,
        original_name=file.name,
        kind=file.kind,
        bytes=file.bytes,
        width=file.width,
        height=file.height,
        doubts=list(file.doubts),
        fingerprint=file.fingerprint,
    )
    write_size(photo, file.small)
    return photo


def kept_photos(contribution: Contribution | None) -> Sequence[Photo]:
    """The pictures of a garment in their order, with their sizes."""
    return list(contribution.photos.prefetch_related("renditions")) if contribution else []


def describe(photo: Photo, words: PictureWords, people: PeopleSaid | None = None) -> None:
    """Keep what was said about a picture of a draft, and about the people in it."""
    open_ones = Photo.objects.filter(pk=photo.pk, contribution__sent_at__isnull=True)
    facts = people.facts if people else {}
    open_ones.update(**asdict(words), **facts)


@transaction.atomic
def set_order(contribution: Contribution, wanted: Sequence[str]) -> None:
    """Put a draft's pictures in the order of those public ids; unknown ones count for nothing, and
    what is not named stays behind the others."""
    draft = Contribution.objects.select_for_update().get(pk=contribution.pk)
    if draft.sent_at is not None or not wanted:
        return
    places = {public_id: at for at, public_id in enumerate(wanted)}
    photos = sorted(draft.photos.all(), key=lambda one: places.get(one.public_id, len(places)))
    _write_order(photos)


@transaction.atomic
def move(contribution: Contribution, public_id: str, places: int) -> None:
    """Move one picture of a draft so many places later, or earlier where it is below zero."""
    draft = Contribution.objects.select_for_update().get(pk=contribution.pk)
    photos = list(draft.photos.all())
    at = next((at for at, one in enumerate(photos) if one.public_id == public_id), None)
    if draft.sent_at is not None or at is None:
        return
    photos.insert(max(0, at + places), photos.pop(at))
    _write_order(photos)


def _write_order(photos: Sequence[Photo]) -> None:
    for at, photo in enumerate(photos, 1):
        if photo.position != at:
            Photo.objects.filter(pk=photo.pk).update(position=at)


def take_out(contribution: Contribution, public_id: str) -> None:
    """Take a picture out of a draft; its files go when the store is swept."""
    contribution.photos.filter(public_id=public_id, contribution__sent_at__isnull=True).delete()


def make_sizes(photo_id: int) -> None:
    """Job: make all safe sizes of a photo from its original; may run twice."""
    photo = Photo.objects.filter(pk=photo_id, safe_at__isnull=True, trouble="").first()
    if photo is None:
        return
    try:
        made = _remade(photo)
    except PictureRefused as refused:
        Photo.objects.filter(pk=photo_id).update(trouble=said(refused))
        return
    if not _write_sizes(photo, made):
        make_sizes(photo_id)  # turned or cut meanwhile


def _remade(photo: Photo) -> list[MadeSize]:
    with tempfile.TemporaryDirectory(dir=settings.FILE_UPLOAD_TEMP_DIR) as folder:
        path, framing = original_path(photo), framing_of(photo)
        return [kept_size(one) for one in remake_safely(path, Path(folder), SIZES, framing)]


@transaction.atomic
def _write_sizes(photo: Photo, made: Sequence[MadeSize]) -> bool:
    """False where the picture is turned or cut otherwise by now: then nothing is written."""
    now = Photo.objects.select_for_update().filter(pk=photo.pk).first()
    if now is None:
        return True
    if framing_of(now) != framing_of(photo):
        return False
    for size in made:
        write_size(photo, size)
    Photo.objects.filter(pk=photo.pk).update(safe_at=timezone.now())
    return True


def kept_size(made: Remade) -> MadeSize:
    """Keep the file of one size; its row is written later."""
    kept = safe_pictures().put_file(made.path)
    return MadeSize(made.size_name, kept.sha256, made.width, made.height, kept.size)


def write_size(photo: Photo, made: MadeSize) -> None:
    """Write the row of one size, in place of the one that was there."""
    facts = {
        "sha256": made.sha256,
        "width": made.width,
        "height": made.height,
        "bytes": made.bytes,
    }
    Rendition.objects.update_or_create(photo=photo, size=made.size, defaults=facts)
