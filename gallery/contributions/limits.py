"""How much may be sent: pictures a garment, pictures an hour, room on the disk."""

import datetime

from django.conf import settings
from django.db import transaction
from django.utils import timezone

from gallery import vault
from gallery.contributions.models import Arrival
from gallery.contributions.tokens import place_of

MOST_AN_HOUR = 60
MOST_OBJECTIONS_AN_HOUR = 10
MOST_GARMENTS_AN_HOUR = 10
MOST_LINKS_AN_HOUR = 5
MOST_LOST_LINKS_AN_HOUR = 10
MOST_LETTERS_A_DAY = 3
HOUR = datetime.timedelta(hours=1)
DAY = datetime.timedelta(days=1)


def has_room(wanted: int) -> bool:
    """Whether the disk may take so many bytes more: 2 GiB and 5 % of it must stay free."""
    return vault.has_room(settings.MEDIA_ROOT, wanted)


def may_arrive(address: str) -> bool:
    """Count one more picture from that connection; False where its hour's share is used up."""
    return _counted(Arrival.What.PICTURE, address, MOST_AN_HOUR)


def may_send(address: str) -> bool:
    """Count one more garment from that connection; False where more came within the hour than
    people send."""
    return _counted(Arrival.What.SENDING, address, MOST_GARMENTS_AN_HOUR)


def may_ask_for_link(address: str) -> bool:
    """Count one more letter asked for from that connection; False where its share is used up."""
    return _counted(Arrival.What.LETTER, address, MOST_LINKS_AN_HOUR)


def may_ask_for_lost_link(address: str) -> bool:
    """Count one more lost link asked for; False where its hour's share is used up."""
    return _counted(Arrival.What.LETTER, f"lost link {address}", MOST_LOST_LINKS_AN_HOUR)


def may_object(address: str) -> bool:
    """Count one more objection from that connection; False where its hour's share is used up."""
    return _counted(Arrival.What.OBJECTION, address, MOST_OBJECTIONS_AN_HOUR)


def may_write_to(email: str) -> bool:
    """Count one more letter to that address; False where it had its share today, so that nobody
    can be flooded."""
    return _counted(Arrival.What.LETTER, f"letter to {email.lower()}", MOST_LETTERS_A_DAY, DAY)


@transaction.atomic
def _counted(
    what: Arrival.What, address: str, most: int, within: datetime.timedelta = HOUR
) -> bool:
    now = timezone.now()
    Arrival.objects.filter(at__lte=now - DAY).delete()
    arrived = Arrival.objects.filter(what=what, came_from=place_of(address), at__gt=now - within)
    if arrived.count() >= most:
        return False
    Arrival.objects.create(what=what, came_from=place_of(address), at=now)
    return True
