"""The lines of a garment's history: what its sender changed after sending, and when."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from django.db.models import QuerySet
from django.utils import timezone

from alterations.records.models import Sheet
from gallery.contributions.models import Change, Contribution, Photo

What = Change.What
OF_WORDS = (What.NUMBERS, What.NOTES, What.STAGE)
OF_PHOTO = (What.DESCRIPTION, What.PHOTO_STAGE, What.PEOPLE, What.ADDED, What.FRAMED)
# Another order takes nothing away and adds nothing: a line is enough, nobody has to look.
NEVER_LOOKED_AT = (What.ORDER,)


@dataclass
class Turn:
    """One edition of a garment in the making, and how many lines it has."""

    garment: Contribution
    edition: int
    lines: int = 0

    def note(
        self,
        what: Change.What,
        photo: Photo | None = None,
        *,
        before: str = "",
        sheet: Sheet | None = None,
    ) -> None:
        """Add a line. What stood before is kept once: with the first line nobody has looked at."""
        about = photo.public_id if photo else ""
        is_first = not _open(self.garment, (what,), about).exists()
        self.garment.history.create(
            edition=self.edition,
            what=what,
            photo_id_then=about,
            photo_number=photo.position if photo else 0,
            before=before if is_first else "",
            sheet_before=sheet if is_first else None,
            seen_at=timezone.now() if what in NEVER_LOOKED_AT else None,
        )
        self.lines += 1
        if sheet is not None and not is_first:
            sheet.delete()  # one in between, which the teacher never saw


def forget_picture(garment: Contribution, photo: Photo) -> bool:
    """Forget what stood before in lines about a photo that leaves; True where the teacher had not
    looked at it since it was added, so that nobody needs to be told that it is gone."""
    lines = _open(garment, OF_PHOTO, photo.public_id)
    was_new = lines.filter(what=What.ADDED).exists()
    lines.update(seen_at=timezone.now(), before="")
    return was_new


def close(garment: Contribution, whats: Iterable[Change.What], photo: Photo | None = None) -> None:
    """The teacher has looked: the lines stay, what stood before them is forgotten."""
    lines = _open(garment, whats, photo.public_id if photo else None)
    sheets = [line.sheet_before for line in lines.select_related("sheet_before")]
    lines.update(seen_at=timezone.now(), before="", sheet_before=None)
    for sheet in sheets:
        if sheet is not None:
            sheet.delete()


def sheets_before(garment: Contribution) -> Sequence[Sheet]:
    """The sheets that stood before and are still kept."""
    return list(Sheet.objects.filter(pk__in=garment.history.values("sheet_before")))


def since(garment: Contribution, edition: int) -> Sequence[Change]:
    """What was changed after that edition."""
    return list(garment.history.filter(edition__gt=edition))


def _open(
    garment: Contribution, whats: Iterable[Change.What], about: str | None
) -> QuerySet[Change]:
    lines = garment.history.filter(what__in=list(whats), seen_at__isnull=True)
    return lines if about is None else lines.filter(photo_id_then=about)
