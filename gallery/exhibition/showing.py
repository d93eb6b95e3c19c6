"""What may be shown to everybody now: permitted by the sender, approved by the teacher."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from django.db.models import Prefetch, Q, QuerySet

from gallery.consent import gate
from gallery.consent.purposes import NAME, NOTES, PUBLIC_PAGES
from gallery.contributions.models import Contribution, Photo
from gallery.contributions.people.cleared import (
    cleared_but_for_objections,
    cleared_garments,
    cleared_photos,
)
from gallery.review import standing
from gallery.series.models import Series


@dataclass(frozen=True)
class ShownGarment:
    """One garment with exactly what may be shown of it; credit is empty where no name may be."""

    contribution: Contribution
    photos: Sequence[Photo]
    words_are_shown: bool
    credit: str
    described: frozenset[int] = frozenset()

    def is_described(self, photo: Photo) -> bool:
        """Whether her own description of that photo may be told as it stands now."""
        return bool(photo.description) and photo.pk in self.described


def shown_photos() -> QuerySet[Photo]:
    """Photos that are approved, allowed on the public pages, cleared and made safe."""
    return _allowed_photos().filter(pk__in=cleared_photos(PUBLIC_PAGES).values("pk"))


def known_photos() -> QuerySet[Photo]:
    """Shown photos, and those that only an objection hides: they answer an objector alike."""
    return _allowed_photos().filter(pk__in=cleared_but_for_objections(PUBLIC_PAGES).values("pk"))


def _allowed_photos() -> QuerySet[Photo]:
    return standing.approved_photos().filter(
        contribution__agreement__in=gate.agreements_allowing(PUBLIC_PAGES),
        safe_at__isnull=False,
    )


def shown_words() -> QuerySet[Contribution]:
    """Garments whose numbers and notes are approved, allowed and cleared."""
    return standing.approved_words().filter(
        agreement__in=gate.agreements_allowing(NOTES),
        pk__in=cleared_garments(NOTES).values("pk"),
    )


def may_show_name(garment: Contribution) -> bool:
    """Whether its knitter may be named now."""
    named = cleared_garments(NAME).filter(agreement__in=gate.agreements_allowing(NAME))
    return named.filter(pk=garment.pk).exists()


def shown_garments(series: Series | None = None) -> QuerySet[Contribution]:
    """Garments of which something may be shown, the latest first."""
    garments = Contribution.objects.filter(
        Q(pk__in=shown_photos().values("contribution")) | Q(pk__in=shown_words().values("pk"))
    )
    if series is not None:
        garments = garments.filter(series=series)
    return garments.order_by("-sent_at", "-pk")


def may_show_photo(photo: Photo) -> bool:
    """Whether everybody may see that photo now."""
    return shown_photos().filter(pk=photo.pk).exists()


def may_show_words(contribution: Contribution) -> bool:
    """Whether everybody may read that garment's numbers and notes now."""
    return shown_words().filter(pk=contribution.pk).exists()


def gathered(garments: QuerySet[Contribution]) -> list[ShownGarment]:
    """The garments with what may be shown of each, in a constant number of queries."""
    pictures = Prefetch(
        "photos", shown_photos().prefetch_related("renditions"), to_attr="shown_pictures"
    )
    rows = list(
        garments.select_related(
            "series", "sheet__version", "sheet__version__pattern"
        ).prefetch_related(pictures, "sheet__lines")
    )
    with_words = set(shown_words().filter(pk__in=_keys(rows)).values_list("pk", flat=True))
    named = set(
        cleared_garments(NAME)
        .filter(pk__in=_keys(rows), agreement__in=gate.agreements_allowing(NAME))
        .filter(pk__in=standing.named_garments().values("pk"))
        .values_list("pk", flat=True)
    )
    pictures_shown = [photo.pk for row in rows for photo in row.shown_pictures]
    described = standing.described_photos().filter(pk__in=pictures_shown)
    described_now = frozenset(described.values_list("pk", flat=True))
    return [
        ShownGarment(
            contribution=row,
            photos=row.shown_pictures,
            words_are_shown=row.pk in with_words,
            credit=row.credit_name if row.pk in named else "",
            described=described_now,
        )
        for row in rows
    ]


def _keys(rows: Iterable[Contribution]) -> list[int]:
    return [row.pk for row in rows]
