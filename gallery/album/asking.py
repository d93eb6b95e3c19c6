"""What the ledger and the desk say of a film plan at this moment: dropped, unnamed, or as it is."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cached_property

from alterations.records import store
from gallery.album.film.plan import Card, FilmPlan, PhotoSlide, Slide
from gallery.consent import gate
from gallery.consent.purposes import FILM, NAME, NOTES
from gallery.contributions.models import Contribution, Photo
from gallery.contributions.people.cleared import cleared_garments, cleared_photos
from gallery.review import standing

# How a plan's slide says that its caption is the teacher's own, and whether the numbers might be
# told when she wrote it.
_OWN_WORDS, _OWN_WITH_NUMBERS = " own", " own, may tell numbers"


@dataclass(frozen=True)
class Allowed:
    """What may be done with one photo in the film now; is_shown False: nothing at all."""

    garment: Contribution
    is_shown: bool
    is_named: bool
    numbers_are_shown: bool

    @property
    def credit(self) -> str:
        """The name exactly as written where it may be shown, else an empty string."""
        return self.garment.credit_name if self.is_named else ""

    @property
    def neutral(self) -> str:
        """The caption that tells nothing of the garment: the pattern's name."""
        return self.garment.series.pattern_version.pattern.name

    @cached_property
    def caption(self) -> str:
        """The caption made from the record, or the neutral one where its numbers stay private."""
        sheet = self.garment.sheet
        return store.caption_of(sheet) if sheet and self.numbers_are_shown else self.neutral


def ref_of(photo: Photo, *, has_own_words: bool, may_tell_numbers: bool) -> str:
    """How a plan's slide names its photo, and whether its caption is the teacher's own."""
    if not has_own_words:
        return photo.public_id
    return photo.public_id + (_OWN_WITH_NUMBERS if may_tell_numbers else _OWN_WORDS)


def photo_behind(slide: PhotoSlide) -> str:
    """The public id of the photo a plan's slide shows."""
    return slide.ref.removesuffix(_OWN_WITH_NUMBERS).removesuffix(_OWN_WORDS)


def allowed_in_film(photos: Iterable[Photo]) -> dict[str, Allowed]:
    """For each photo's public id what is allowed, in a constant number of queries."""
    rows = list(
        Photo.objects.filter(pk__in=[photo.pk for photo in photos])
        .select_related(
            "contribution__agreement",
            "contribution__sheet__version",
            "contribution__series__pattern_version__pattern",
        )
        .prefetch_related("contribution__sheet__lines")
    )
    agreements = [row.contribution.agreement for row in rows if row.contribution.agreement]
    yes = {
        purpose: set(
            gate.agreements_allowing(purpose)
            .filter(pk__in=[agreement.pk for agreement in agreements])
            .filter(contribution__in=cleared_garments(purpose).values("pk"))
            .values_list("pk", flat=True)
        )
        for purpose in (FILM, NOTES, NAME)
    }
    approved = set(
        standing.approved_photos()
        .filter(pk__in=[row.pk for row in rows])
        .filter(pk__in=cleared_photos(FILM).values("pk"))
        .values_list("pk", flat=True)
    )
    with_words = set(
        standing.approved_words()
        .filter(pk__in=[row.contribution_id for row in rows])
        .filter(pk__in=cleared_garments(NOTES).values("pk"))
        .values_list("pk", flat=True)
    )
    return {
        row.public_id: _allowed(
            row.contribution, row.pk in approved, row.contribution_id in with_words, yes
        )
        for row in rows
    }


def _allowed(
    garment: Contribution, is_approved: bool, words_are_approved: bool, yes: dict[str, set[int]]
) -> Allowed:
    agreement = garment.agreement_id
    return Allowed(
        garment=garment,
        is_shown=is_approved and agreement in yes[FILM],
        is_named=agreement in yes[NAME],
        numbers_are_shown=words_are_approved and agreement in yes[NOTES],
    )


def as_allowed(plan: FilmPlan) -> FilmPlan:
    """The plan with exactly what is allowed now; equal to the plan where nothing was taken back.

    A photo no longer allowed or approved leaves; a name or numbers no longer allowed give way to
    neutral words. The teacher's own words stay, unless they were written while the numbers might
    still be told and now they may not.
    """
    shown = [photo_behind(slide) for slide in plan.slides if isinstance(slide, PhotoSlide)]
    allowed = allowed_in_film(Photo.objects.filter(public_id__in=shown))
    slides = (_as_allowed(slide, allowed) for slide in plan.slides)
    return replace(plan, slides=tuple(slide for slide in slides if slide is not None))


def _as_allowed(slide: Slide, allowed: dict[str, Allowed]) -> Slide | None:
    if isinstance(slide, Card):
        return slide
    now = allowed.get(photo_behind(slide))
    if now is None or not now.is_shown:
        return None
    keeps_caption = slide.ref.endswith(_OWN_WORDS) or now.numbers_are_shown
    return replace(
        slide,
        credit=slide.credit if slide.credit == now.credit else "",
        caption=slide.caption if keeps_caption else now.neutral,
    )
