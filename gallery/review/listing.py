"""What lies on the desk as lists: what waits, each series with its counts, its garments."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from django.contrib.auth.models import AbstractBaseUser, AnonymousUser
from django.db.models import QuerySet
from django.urls import reverse
from django.utils import timezone

from gallery.contributions.arrived import arrived
from gallery.contributions.models import Contribution
from gallery.contributions.shown import ShownPicture, small
from gallery.letters import address
from gallery.review.state import Standing, State, standings_of
from gallery.review.whose import series_of
from gallery.series.models import Series

ALL = "all"
GROUPS: Mapping[str, frozenset[State]] = {
    "changed": frozenset({State.CHANGED}),
    "waiting": frozenset({State.WAITING, State.PARTLY}),
    "approved": frozenset({State.APPROVED}),
    "asked": frozenset({State.ASKED}),
    "declined": frozenset({State.DECLINED}),
    ALL: frozenset(State),
}


@dataclass(frozen=True)
class Listed:
    """One garment as a list shows it; the picture is None where there is no photo."""

    garment: Contribution
    standing: Standing
    picture: ShownPicture | None
    photos: int


@dataclass(frozen=True)
class SeriesOnDesk:
    """One series with its short address and how many garments stand where."""

    series: Series
    is_open: bool
    short_address: str
    counts: Mapping[str, int]


def sent_in(series: Series) -> QuerySet[Contribution]:
    """The garments that were sent for a series."""
    return Contribution.objects.filter(arrived(), series=series)


def sent_to(user: AbstractBaseUser | AnonymousUser) -> QuerySet[Contribution]:
    """The garments that were sent for any series of that person."""
    return Contribution.objects.filter(arrived(), series__in=series_of(user))


def group_of(standings: Mapping[int, Standing], group: str) -> list[int]:
    """The keys of the garments in one group, oldest first; an unknown group holds nothing."""
    wanted = GROUPS.get(group, frozenset())
    return [key for key, standing in standings.items() if standing.state in wanted]


def counts_of(standings: Mapping[int, Standing]) -> dict[str, int]:
    """How many garments each group holds."""
    return {group: len(group_of(standings, group)) for group in GROUPS}


def listed(keys: Sequence[int], standings: Mapping[int, Standing]) -> list[Listed]:
    """These garments in this order, in a constant number of queries."""
    rows = (
        Contribution.objects.filter(pk__in=keys)
        .select_related("series", "sheet")
        .prefetch_related("photos__renditions")
        .in_bulk()
    )
    return [_listed(rows[key], standings[key]) for key in keys if key in rows]


def _listed(garment: Contribution, standing: Standing) -> Listed:
    photos = list(garment.photos.all())
    picture = small(photos[0]) if photos else None
    return Listed(garment, standing, picture, len(photos))


def series_on_desk(
    user: AbstractBaseUser | AnonymousUser, standings: Mapping[int, Standing]
) -> list[SeriesOnDesk]:
    """Each series of that person, the open ones first; `standings` are those of all of them."""
    today = timezone.localdate()
    counts = _counts_in_series(user, standings)
    cards = [
        SeriesOnDesk(
            series=series,
            is_open=series.is_open(today),
            short_address=address(reverse("short_address", args=[series.short_code])),
            counts={group: counts[series.pk, group] for group in GROUPS},
        )
        for series in series_of(user)
    ]
    return sorted(cards, key=lambda card: not card.is_open)


def _counts_in_series(
    user: AbstractBaseUser | AnonymousUser, standings: Mapping[int, Standing]
) -> Counter[tuple[int, str]]:
    series_by_garment = dict(sent_to(user).values_list("pk", "series"))
    return Counter(
        (series_by_garment[key], group)
        for key, standing in standings.items()
        for group, states in GROUPS.items()
        if standing.state in states
    )


def next_waiting(
    user: AbstractBaseUser | AnonymousUser, besides: Contribution
) -> Contribution | None:
    """A changed garment, else the one that waits longest; another than the one on the table."""
    standings = standings_of(sent_to(user))
    keys = [*group_of(standings, "changed"), *group_of(standings, "waiting")]
    others = [key for key in keys if key != besides.pk]
    return Contribution.objects.filter(pk=others[0]).first() if others else None
