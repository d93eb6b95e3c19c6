"""Whether two pictures show the same, although their files differ: by their perceptual hashes."""

from gallery.contributions.models import Photo

# Of 64 bits. 19 pictures saved anew, at half and a third of their size, lighter, or with a narrow
# edge cut off stayed within 6 of themselves; different ones were 19 or more apart.
ALIKE_WITHIN = 8


def alike(photo: Photo) -> Photo | None:
    """An earlier picture of the same garment that shows the same."""
    if not photo.fingerprint:
        return None
    for other in photo.contribution.photos.exclude(pk=photo.pk).exclude(fingerprint=""):
        is_earlier = (other.position, other.pk) < (photo.position, photo.pk)
        if is_earlier and _bits_apart(photo.fingerprint, other.fingerprint) <= ALIKE_WITHIN:
            return other
    return None


def _bits_apart(one: str, other: str) -> int:
    return (int(one, 16) ^ int(other, 16)).bit_count()
