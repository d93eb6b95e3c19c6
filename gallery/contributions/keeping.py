"""Keeping pictures: the file first, made safe in a process of its own, then the rows about it."""

import tempfile
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from django.conf import settings
from django.core.files.uploadedfile import TemporaryUploadedFile, UploadedFile
from django.db import transaction
from django.db.models import Max
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
from gallery.contributions.pictures import SIZES, original_path, originals, safe_pictures
from gallery.vault import VaultError

LONGEST_NAME = 255


class NotKeptError(Exception):
    """A picture that is not kept; its text is the reason and says what to do."""


class AlreadyKeptError(Exception):
    """The same picture is already with this garment."""


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
            small = _kept_size(received.small)
        except PictureRefused as refused:
            raise NotKeptError(refused.sentence) from refused
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
    )


@transaction.atomic
def add(contribution: Contribution, file: KeptFile) -> Photo:
    """Write the rows of a picture whose files are kept; raises AlreadyKeptError or NotKeptError."""
    draft = Contribution.objects.select_for_update().get(pk=contribution.pk)
    if draft.photos.filter(original_sha256=file.sha256).exists():
        raise AlreadyKeptError
    if draft.sent_at is not None:
        raise NotKeptError(_("This garment was sent already, so nothing more can be added to it."))
    if draft.photos.count() >= settings.UPLOAD_MAX_PICTURES:
        raise NotKeptError(_("There is no room for another picture with this garment."))
    return write_photo(draft, file)


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
    )
    _write_size(photo, file.small)
    return photo


def kept_photos(contribution: Contribution | None) -> Sequence[Photo]:
    """The pictures of a garment in their order, with their sizes."""
    return list(contribution.photos.prefetch_related("renditions")) if contribution else []


def describe(photo: Photo, description: str, stage: str, people: PeopleSaid | None = None) -> None:
    """Keep what was said about a picture of a draft, and about the people in it."""
    open_ones = Photo.objects.filter(pk=photo.pk, contribution__sent_at__isnull=True)
    facts = people.facts if people else {}
    open_ones.update(description=description, stage=stage, **facts)


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
        Photo.objects.filter(pk=photo_id).update(trouble=refused.sentence)
        return
    _write_sizes(photo, made)


def _remade(photo: Photo) -> list[MadeSize]:
    with tempfile.TemporaryDirectory(dir=settings.FILE_UPLOAD_TEMP_DIR) as folder:
        return [_kept_size(one) for one in remake_safely(original_path(photo), Path(folder), SIZES)]


@transaction.atomic
def _write_sizes(photo: Photo, made: Sequence[MadeSize]) -> None:
    for size in made:
        _write_size(photo, size)
    Photo.objects.filter(pk=photo.pk).update(safe_at=timezone.now())


def _kept_size(made: Remade) -> MadeSize:
    kept = safe_pictures().put_file(made.path)
    return MadeSize(made.size_name, kept.sha256, made.width, made.height, kept.size)


def _write_size(photo: Photo, made: MadeSize) -> None:
    facts = {
        "sha256": made.sha256,
        "width": made.width,
        "height": made.height,
        "bytes": made.bytes,
    }
    Rendition.objects.update_or_create(photo=photo, size=made.size, defaults=facts)
