"""A garment as the public pages show it: its title, its pictures, its numbers in words."""

from dataclasses import dataclass, replace

from django.utils.translation import gettext as _

from alterations.records import store
from gallery.contributions.models import Photo
from gallery.contributions.shown import ShownPicture, shown
from gallery.exhibition.showing import ShownGarment


@dataclass(frozen=True)
class Card:
    """What a page shows of one garment; `picture` is None where none may be shown.

    photo_id names the photo of the picture, for somebody in it who objects.
    """

    public_id: str
    title: str
    picture: ShownPicture | None
    credit: str
    is_in_progress: bool
    photo_id: str = ""


def card_of(garment: ShownGarment) -> Card:
    """A garment for the page of pictures."""
    title = title_of(garment)
    picture, photo = next(iter(with_objections(garment)), (None, None))
    return Card(
        public_id=garment.contribution.public_id,
        title=title,
        picture=picture,
        credit=garment.credit,
        is_in_progress=garment.contribution.stage == "in_progress",
        photo_id=photo.public_id if photo else "",
    )


def title_of(garment: ShownGarment) -> str:
    """The line of the record where numbers may be shown, else the pattern's name alone."""
    sheet = garment.contribution.sheet
    if sheet is None:
        return _("A garment")
    if not garment.words_are_shown:
        return sheet.version.pattern.name
    caption = store.caption_of(sheet)
    if store.gauge_of(sheet) is None and not sheet.lines.all():
        return _("%(caption)s, as the pattern says") % {"caption": caption}
    return caption


def pictures_of(garment: ShownGarment) -> list[ShownPicture]:
    """Its pictures, each with the words that stand for it."""
    return [replace(shown(photo), alt=alt_of(garment, photo)) for photo in _in_order(garment)]


def alt_of(garment: ShownGarment, photo: Photo) -> str:
    """What is read out in place of a public picture: nothing where its sender calls it decorative,
    else her own words where they may be told, else what the record says; never a file's name.
    """
    if photo.is_decorative:
        return ""
    if garment.is_described(photo):
        return photo.description
    return _from_record(garment, photo)


def with_objections(garment: ShownGarment) -> list[tuple[ShownPicture, Photo]]:
    """Its pictures, each with the photo that somebody may object to."""
    return list(zip(pictures_of(garment), _in_order(garment), strict=True))


def _in_order(garment: ShownGarment) -> list[Photo]:
    """The finished view first."""
    return sorted(garment.photos, key=lambda photo: photo.stage != Photo.Stage.FINISHED)


def _from_record(garment: ShownGarment, photo: Photo) -> str:
    """The garment's line, which view it is, and which of several pictures."""
    sheet = garment.contribution.sheet
    name = sheet.version.pattern.name if sheet else _("A garment")
    line = f"{name}: {title_of(garment)}" if garment.words_are_shown else name
    said = f"{line}, {Photo.Stage(photo.stage).label}"
    if len(garment.photos) == 1:
        return said
    place = {"number": _in_order(garment).index(photo) + 1, "total": len(garment.photos)}
    return _("%(said)s, picture %(number)s of %(total)s") % {"said": said, **place}
