"""How a description of a picture may begin, made from what is known of the garment."""

from django.utils.translation import gettext as _

from gallery.contributions.models import Photo


def hint(stage: str, pattern_name: str, size_name: str) -> str:
    """The first words of a description; the person writes the rest."""
    facts = {"pattern": pattern_name, "size": size_name}
    return _sentence(stage, has_size=bool(size_name)) % facts


def _sentence(stage: str, *, has_size: bool) -> str:
    if stage == Photo.Stage.DETAIL:
        return _("The cuff of the %(pattern)s, close up, in …")
    if stage == Photo.Stage.IN_PROGRESS:
        return _("The %(pattern)s while it is being made, in …")
    if has_size:
        return _("Front view of the %(pattern)s in size %(size)s, in …")
    return _("Front view of the %(pattern)s, in …")
