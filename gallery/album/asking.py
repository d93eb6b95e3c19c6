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
from gallery.contributions.shown import alt_of, neutral_alt
from gallery.review import standing
from gallery.speaking import the_sites

# How a plan's slide says that its caption is the teacher's own, and whether the numbers might be
# told when she wrote it.
_OWN_WORDS, _OWN_WITH_NUMBERS = " own", " own, may tell numbers"
# And, once its knitter changed something, which editions of her words the slide was made from.
_EDITIONS = " #"


@dataclass(frozen=True)
class Allowed:
    """What may be done with one photo in the film now; is_shown False: nothing at all."""

    garment: Contribution
    photo: Photo
    is_shown: bool
    is_named: bool
    numbers_are_shown: bool
    is_described: bool = True
    changed: frozenset[str] = frozenset()

    @property
    def credit(self) -> str:
        """The name exactly as written where it may be shown, else an empty string."""
        return self.garment.credit_name if self.is_named else ""

    @property
    def description(self) -> str:
        """Her own words for the picture where they are approved as they stand, else neutral."""
        with the_sites():
            return alt_of(self.photo) if self.is_described else neutral_alt(self.photo)

    @property
    def neutral(self) -> str:
        """The caption that tells nothing of the garment: the pattern's name."""
        return self.garment.series.pattern_version.pattern.name

    @cached_property
    def caption(self) -> str:
        """The caption made from the record, or the neutral one where its numbers stay private."""
        sheet = self.garment.sheet
        if sheet is None or not self.numbers_are_shown:
            return self.neutral
        with the_sites():
            return store.caption_of(sheet)


def ref_of(
    photo: Photo, garment: Contribution, *, has_own_words: bool, may_tell_numbers: bool
) -> str:
    """How a plan's slide names its photo, whether its caption is the teacher's own, and which
    editions of her words it was made from."""
    own = _OWN_WITH_NUMBERS if may_tell_numbers else _OWN_WORDS
    return photo.public_id + (own if has_own_words else "") + _editions(photo, garment)


def _editions(photo: Photo, garment: Contribution) -> str:
    """Nothing while all is as it was sent."""
    both = (garment.words_edition, photo.words_edition)
    return f"{_EDITIONS}{both[0]}.{both[1]}" if max(both) > 1 else ""


def photo_behind(slide: PhotoSlide) -> str:
    """The public id of the photo a plan's slide shows."""
    return slide.ref.partition(" ")[0]


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
    named = standing.named_garments().filter(agreement__in=yes[NAME])
    yes[NAME] = set(named.values_list("agreement", flat=True))
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
    described = set(
        standing.described_photos()
        .filter(pk__in=[row.pk for row in rows])
        .values_list("pk", flat=True)
    )
    changed = _changed(row.contribution_id for row in rows)
    return {
        row.public_id: Allowed(
            garment=row.contribution,
            photo=row,
            is_shown=row.pk in approved and row.contribution.agreement_id in yes[FILM],
            is_named=row.contribution.agreement_id in yes[NAME],
            numbers_are_shown=row.contribution_id in with_words
            and row.contribution.agreement_id in yes[NOTES],
            is_described=row.pk in described,
            changed=_about(row, changed),
        )
        for row in rows
    }


def _changed(garments: Iterable[int]) -> list[tuple[int, str, str]]:
    """What their knitters changed and the teacher has not looked at: garment, what, which photo."""
    lines = standing.changes_to_look_at().filter(contribution__in=list(garments))
    return list(lines.values_list("contribution", "what", "photo_id_then"))


def _about(photo: Photo, changed: Iterable[tuple[int, str, str]]) -> frozenset[str]:
    """What of it concerns this photo's slide."""
    return frozenset(
        what
        for garment, what, about in changed
        if garment == photo.contribution_id and about in ("", photo.public_id)
    )


def as_allowed(plan: FilmPlan) -> FilmPlan:
    """The plan with exactly what is allowed now; equal to the plan where nothing was taken back.

    A photo no longer allowed or approved leaves; a name or numbers no longer allowed give way to
    neutral words. The teacher's own words stay, unless they were written while the numbers might
    still be told and now they may not. What tells of words or numbers that were changed since is
    made anew.
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
    credit = slide.credit if slide.credit == now.credit else ""
    if _editions_in(slide) != _editions(now.photo, now.garment):
        return replace(_made_anew(slide, now), credit=credit)
    keeps_caption = _is_own(slide, _OWN_WORDS) or now.numbers_are_shown
    return replace(slide, credit=credit, caption=slide.caption if keeps_caption else now.neutral)


def _made_anew(slide: PhotoSlide, now: Allowed) -> PhotoSlide:
    """A slide made before its knitter changed her words or numbers, with what may be told now;
    the very same slide where it tells nothing else."""
    keeps_caption = _is_own(slide, _OWN_WORDS)
    told = slide.caption if keeps_caption else now.caption
    if (told, now.description) == (slide.caption, slide.description):
        return slide
    return replace(
        slide,
        caption=told,
        description=now.description,
        ref=ref_of(now.photo, now.garment, has_own_words=keeps_caption, may_tell_numbers=False),
    )


def _editions_in(slide: PhotoSlide) -> str:
    _, mark, editions = slide.ref.partition(_EDITIONS)
    return mark + editions


def _is_own(slide: PhotoSlide, own: str) -> bool:
    """Whether the slide's caption is the teacher's own, of that sort."""
    return slide.ref.partition(_EDITIONS)[0] == photo_behind(slide) + own
