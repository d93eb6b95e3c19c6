"""How much may be sent: pictures a garment, pictures an hour, room on the disk."""

import datetime
import shutil

from django.conf import settings
from django.db import transaction
from django.utils import timezone

from gallery.contributions.models import Arrival
from gallery.contributions.tokens import place_of

MOST_AN_HOUR = 60
LEAST_FREE_BYTES = 2 * 1024**3
LEAST_FREE_SHARE = 0.05
HOUR = datetime.timedelta(hours=1)


def has_room() -> bool:
    """Whether the disk may take more pictures: 2 GiB and 5 % of it must stay free."""
    disk = shutil.disk_usage(
        settings.MEDIA_ROOT if settings.MEDIA_ROOT.exists() else settings.DATA_DIR
    )
    return disk.free >= max(LEAST_FREE_BYTES, LEAST_FREE_SHARE * disk.total)


@transaction.atomic
def may_arrive(address: str) -> bool:
    """Count one more picture from that connection; False where its hour's share is used up."""
    now = timezone.now()
    Arrival.objects.filter(at__lte=now - HOUR).delete()
    arrived = Arrival.objects.filter(came_from=place_of(address))
    if arrived.count() >= MOST_AN_HOUR:
        return False
    Arrival.objects.create(came_from=place_of(address), at=now)
    return True
