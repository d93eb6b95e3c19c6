"""Everything a sender gave, to take away: originals as they came, her data, her permissions."""

import json
import zipfile
from tempfile import TemporaryFile
from typing import IO, Any

from django.db.models import QuerySet

from alterations.records import store
from alterations.records.models import Sheet
from gallery.contributions.garment_told import text_of
from gallery.contributions.models import Change, Contribution, GuardianAnswer, Photo
from gallery.contributions.pictures import originals
from gallery.contributions.receipt import receipt_of

ENDINGS = {"jpeg": "jpg", "png": "png", "webp": "webp", "heif": "heic", "avif": "avif"}
A_READ = 1024 * 1024


def pack_of(garment: Contribution) -> IO[bytes]:
    """A ZIP of the originals, byte for byte, data.json and consents.jsonld; nothing about others.

    Raises VaultError where an original cannot be read: half a pack would look like a whole one.
    """
    file = TemporaryFile()  # noqa: SIM115 - the answer closes it
    with zipfile.ZipFile(file, "w", zipfile.ZIP_STORED) as pack:
        for photo in garment.photos.all():
            _add(pack, photo)
        pack.writestr("data.json", _text(data_of(garment)))
        pack.writestr("consents.jsonld", _text(receipt_of(garment, whole=True)))
    file.seek(0)
    return file


def _add(pack: zipfile.ZipFile, photo: Photo) -> None:
    with (
        originals().open(photo.original_sha256) as original,
        pack.open(name_of(photo), "w", force_zip64=True) as copy,
    ):
        while piece := original.read(A_READ):
            copy.write(piece)


def name_of(photo: Photo) -> str:
    """The name of an original in the pack: made here, never the name it was sent under."""
    return f"photos/photo-{photo.position}-{photo.public_id}.{ENDINGS.get(photo.kind, 'bin')}"


def data_of(garment: Contribution) -> dict[str, Any]:
    """Her data as plain values: what she typed, what was worked out from it, what is kept."""
    return {
        "garment": garment.public_id,
        "series": garment.series.title,
        "sent_at": garment.sent_at.isoformat() if garment.sent_at else None,
        "stage": garment.stage,
        "name": garment.credit_name,
        "email": garment.email,
        "notes": garment.notes,
        "numbers": _numbers(garment),
        "is_younger": garment.is_younger,
        "guardian_email": garment.guardian_email,
        "guardian_name": garment.guardian_name,
        "guardian_answers": [_answered(one) for one in _guardian_answers(garment)],
        "photos": [_photo(photo) for photo in garment.photos.all()],
        "history": [_changed(line) for line in garment.history.select_related("sheet_before")],
    }


def _changed(line: Change) -> dict[str, Any]:
    """One change after sending; what stood before is there until the teacher has looked at it."""
    return {
        "what": line.what,
        "photo": line.photo_id_then,
        "at": line.at.isoformat(),
        "before": _changes_on(line.sheet_before) if line.sheet_before else line.before,
    }


def _photo(photo: Photo) -> dict[str, Any]:
    return {
        "file": name_of(photo),
        "sent_as": photo.original_name,
        "sha256": photo.original_sha256,
        "bytes": photo.bytes,
        "width": photo.width,
        "height": photo.height,
        "stage": photo.stage,
        "description": photo.description,
        "people": photo.people,
        "others_agree": photo.others_agree,
        "sender_is_guardian": photo.sender_is_guardian,
        "guardian_email": photo.guardian_email,
        "received_at": photo.received_at.isoformat(),
    }


def _guardian_answers(garment: Contribution) -> QuerySet[GuardianAnswer]:
    """What a guardian answered about her garment or one of its pictures."""
    about = [garment.public_id, *(photo.public_id for photo in garment.photos.all())]
    return GuardianAnswer.objects.filter(about__in=about).select_related("text")


def _answered(answer: GuardianAnswer) -> dict[str, Any]:
    return {
        "about": f"{answer.scope} {answer.about}",
        "purpose": answer.purpose,
        "words": answer.text.sentence,
        "yes": answer.is_yes,
        "at": answer.at.isoformat(),
        "way": answer.way,
    }


def _numbers(garment: Contribution) -> dict[str, Any] | None:
    sheet = garment.sheet
    if sheet is None:
        return None
    summary = store.summary_of(sheet)
    return {
        "pattern": str(sheet.version),
        "size": sheet.size_name,
        "tool": summary.tool,
        "yarn": summary.yarn,
        "told": _told_on(sheet),
        "changes": _changes_on(sheet),
        "worked_out": [
            {"what": line.what, "numbers": [vars(number) for number in line.numbers]}
            for line in summary.lines
        ],
    }


def _changes_on(sheet: Sheet) -> list[dict[str, Any]]:
    return [{"kind": line.kind, "entered": line.entered} for line in sheet.lines.all()]


def _told_on(sheet: Sheet) -> dict[str, str]:
    """Tools, swatch and how it behaved, as they were told, by the names of the columns."""
    told = {name: getattr(sheet, name) for name in store.TOLD}
    return {name: text_of(value) for name, value in told.items() if value not in (None, "")}


def _text(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False, indent=1)
