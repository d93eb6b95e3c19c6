"""A photo as a page shows it: addresses of its safe sizes, its measure and its words."""

from dataclasses import dataclass

from django.urls import reverse
from django.utils.translation import gettext as _

from gallery.contributions.models import Photo, Rendition
from gallery.contributions.pictures import FILM, SMALL


@dataclass(frozen=True)
class ShownPicture:
    """What parts/picture.html asks for; src is empty while no size is made yet."""

    alt: str
    src: str = ""
    srcset: str = ""
    width: int = 0
    height: int = 0


def shown(photo: Photo, size: str = "medium") -> ShownPicture:
    """The photo in the wanted size, or in the largest smaller one that is made."""
    made = [one for one in photo.renditions.all() if one.size != FILM]
    made.sort(key=lambda one: one.width)
    if not made:
        return ShownPicture(alt=alt_of(photo))
    fitting = next((one for one in made if one.size == size), made[-1])
    return ShownPicture(
        alt=alt_of(photo),
        src=address_of(photo, fitting.size),
        srcset=", ".join(f"{address_of(photo, one.size)} {one.width}w" for one in made),
        width=fitting.width,
        height=fitting.height,
    )


def small(photo: Photo) -> ShownPicture:
    """The small size alone, for thumbnails."""
    made: Rendition | None = next((r for r in photo.renditions.all() if r.size == SMALL), None)
    if made is None:
        return ShownPicture(alt=alt_of(photo))
    src = address_of(photo, SMALL)
    return ShownPicture(alt=alt_of(photo), src=src, width=made.width, height=made.height)


def address_of(photo: Photo, size: str) -> str:
    """The address at which a size is shown to whoever may see it."""
    return reverse("picture", args=[photo.public_id, size])


def alt_of(photo: Photo) -> str:
    """Her own description, else neutral words; never the file's name, never what needs a yes."""
    return photo.description or neutral_alt(photo)


def neutral_alt(photo: Photo) -> str:
    """Words for a picture whose own description is not there, or may not be told."""
    stage = Photo.Stage(photo.stage).label
    return _("Picture %(number)s of this garment: %(stage)s") % {
        "number": photo.position,
        "stage": stage,
    }
