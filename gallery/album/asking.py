"""What the ledger and the desk say of a film plan at this moment: dropped, unnamed, or as it is."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from alterations.records import store
from gallery.album.film.plan import Card, FilmPlan, PhotoSlide, Slide
from gallery.consent import gate
from gallery.consent.purposes import FILM, NAME, NOTES
from gallery.contributions.models import Photo
from gallery.review import standing


@dataclass(frozen=True)
class Allowed:
    """What may be done with one photo in the film now; is_shown False: nothing at all."""

    is_shown: bool
    credit: str
    numbers_are_shown: bool
    generated: str
    neutral: str

    @property
    def caption(self) -> str:
        """The generated caption, or the pattern's name where the numbers may not be told."""
        return self.generated if self.numbers_are_shown else self.neutral


def allowed_in_film(photos: Iterable[Photo]) -> dict[str, Allowed]:
    """For each photo's public id what is allowed, in a constant number of queries."""
    rows = list(
        Photo.objects.filter(pk__in=[photo.pk for photo in photos])
        .select_related("contribution__sheet__version__pattern")
        .prefetch_related("contribution__sheet__lines")
    )
    agreements = [row.contribution.agreement_id for row in rows]
    saying_yes = {
        purpose: set(
            gate.agreements_allowing(purpose).filter(pk__in=agreements).values_list("pk", flat=True)
        )
        for purpose in (FILM, NOTES, NAME)
    }
    approved = set(
        standing.approved_photos()
        .filter(pk__in=[row.pk for row in rows])
        .values_list("pk", flat=True)
    )
    return {row.public_id: _allowed(row, row.pk in approved, saying_yes) for row in rows}


def _allowed(photo: Photo, is_approved: bool, saying_yes: dict[str, set[int]]) -> Allowed:
    garment = photo.contribution
    agreement = garment.agreement_id
    sheet = garment.sheet
    return Allowed(
        is_shown=is_approved and agreement in saying_yes[FILM],
        credit=garment.credit_name if agreement in saying_yes[NAME] else "",
        numbers_are_shown=agreement in saying_yes[NOTES],
        generated=store.caption_of(sheet) if sheet else "",
        neutral=sheet.version.pattern.name if sheet else "",
    )


def as_allowed(plan: FilmPlan) -> FilmPlan:
    """The plan with exactly what is allowed now; equal to the plan where nothing was taken back.

    A photo no longer allowed or approved leaves; a name or numbers no longer allowed give way to
    neutral words. The teacher's own words stay.
    """
    refs = [slide.ref for slide in plan.slides if isinstance(slide, PhotoSlide)]
    allowed = allowed_in_film(Photo.objects.filter(public_id__in=refs))
    slides = (_as_allowed(slide, allowed) for slide in plan.slides)
    return replace(plan, slides=tuple(slide for slide in slides if slide is not None))


def _as_allowed(slide: Slide, allowed: dict[str, Allowed]) -> Slide | None:
    if isinstance(slide, Card):
        return slide
    now = allowed.get(slide.ref)
    if now is None or not now.is_shown:
        return None
    tells_numbers = slide.caption == now.generated and not now.numbers_are_shown
    return replace(
        slide,
        credit=slide.credit if slide.credit == now.credit else "",
        caption=now.neutral if tells_numbers else slide.caption,
    )
