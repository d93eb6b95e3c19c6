"""What deserves a second look in a picture, in sentences; no reason to refuse it."""

from collections.abc import Iterator

from django.utils.translation import gettext as _

from gallery.contributions.fingerprints import alike
from gallery.contributions.models import Photo
from gallery.contributions.photos.measure import BLURRED, DARK
from gallery.contributions.pictures import framing_of

FILM_NEEDS = 1080  # pixels of the shorter side: the height of the film


def doubts_of(photo: Photo) -> tuple[str, ...]:
    """Each doubt with its reason and what may be done, without blame."""
    return tuple(_sentences(photo))


def _sentences(photo: Photo) -> Iterator[str]:
    shorter = min(framing_of(photo).size_of(photo.width, photo.height))
    if shorter < FILM_NEEDS:
        yield _(
            "For the film, the shorter side should have %(needed)s pixels or more; here it has "
            "%(has)s. It may look soft there. If your phone has a larger copy, send that one."
        ) % {"needed": FILM_NEEDS, "has": shorter}
    if DARK in photo.doubts:
        yield _("This picture came out very dark. By a window, in daylight, more can be seen.")
    if BLURRED in photo.doubts:
        yield _("This picture may be blurred. If you have a sharper one, it will look better.")
    if other := alike(photo):
        yield _("It looks like picture %(number)s. If both are meant, leave them both.") % {
            "number": other.position
        }
