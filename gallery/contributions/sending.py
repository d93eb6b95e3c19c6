"""The sending page's forms together: what was typed so far, what is wrong, what is ready to go."""

from collections.abc import Iterator, Mapping
from dataclasses import asdict, dataclass
from typing import Any

from django import forms
from django.http import QueryDict
from django.utils.datastructures import MultiValueDict

from alterations.kinds import AnyAlteration
from alterations.pattern import Pattern
from alterations.records import store
from alterations.records.models import PatternVersion
from gallery.consent.purposes import FILM, PUBLIC_PAGES
from gallery.consent.texts import current_texts
from gallery.contributions.change_form import SHOWN_IN, ChangesForm, Section, ShownGroup
from gallery.contributions.doubts import doubts_of
from gallery.contributions.drafts import Draft
from gallery.contributions.forms import (
    PictureForm,
    PicturesForm,
    SenderForm,
    WordsForm,
)
from gallery.contributions.garment_form import GarmentForm
from gallery.contributions.garment_parts import GarmentParts, unit_of
from gallery.contributions.hints import hint
from gallery.contributions.intake import Garment, Tools
from gallery.contributions.keeping import kept_photos, words_of
from gallery.contributions.models import Photo
from gallery.contributions.overview import Overview, SeenPicture, overview_of
from gallery.contributions.people.said import said_of
from gallery.contributions.permission_form import PermissionsForm
from gallery.contributions.shown import ShownPicture, small
from gallery.contributions.worked_out import RefusedError, WorkedOut, work_out
from gallery.series.models import Series

NEVER_KEPT = {"is_old_enough", "is_younger"}  # given anew with each sending, like the permissions
NOTHING: frozenset[str] = frozenset()
NUMBERS = frozenset({"garment", "changes"})
EVERYTHING = frozenset({"garment", "changes", "words", "permissions", "sender"})


@dataclass(frozen=True)
class KeptPicture:
    """One picture of the draft as the page shows it."""

    photo: Photo
    shown: ShownPicture
    form: PictureForm
    hint: str = ""
    doubts: tuple[str, ...] = ()


class Sending:
    """All parts of the page. What is checked shows its mistakes; the rest only what was typed."""

    def __init__(
        self,
        series: Series,
        typed: Mapping[str, Any],
        posted: QueryDict | None = None,
        check: frozenset[str] = NOTHING,
        version: PatternVersion | None = None,
    ) -> None:
        self.series = series
        self.version = version or series.pattern_version
        self.pattern: Pattern = store.pattern_of(self.version)
        self.posted = posted
        self.said = posted or typed
        self.check = check
        self.photos: list[KeptPicture] = []
        self.worked_out: WorkedOut | None = None
        self.overview: Overview | None = None
        self._make_forms()
        self._make_forms_of_sender()

    def _make_forms(self) -> None:
        pattern = self.pattern
        size = str(self.said.get("size", ""))
        self.pictures = PicturesForm(self.posted, MultiValueDict() if self.posted else None)
        self.garment = GarmentForm(
            **self._data("garment"), pattern=pattern, unit=unit_of(self.said)
        )
        self.changes = ChangesForm(**self._data("changes"), pattern=pattern, size_name=size)
        self.words = WordsForm(**self._data("words"))

    def _make_forms_of_sender(self) -> None:
        texts = current_texts(scope=self.series.slug)
        self.permissions = PermissionsForm(**self._data("permissions"), texts=texts)
        self.sender = SenderForm(**self._data("sender"), series=self.series)

    def _data(self, part: str) -> dict[str, Any]:
        """What a part is made with: the posted values to check, or the same only to show."""
        if part in self.check:
            return {"data": self.posted}
        return {"initial": {name: self.said[name] for name in self.said if name != "asked"}}

    def show_pictures(self, draft: Draft) -> None:
        """Set the kept pictures of the draft on the page, each with its own small form."""
        self.photos = [
            KeptPicture(
                photo,
                small(photo),
                picture_form(photo, self.posted),
                self.hint_for(photo),
                doubts_of(photo),
            )
            for photo in kept_photos(draft.row)
        ]

    def hint_for(self, photo: Photo) -> str:
        """How a description of that picture may begin, made from what is known of the garment."""
        return hint(photo.stage, self.pattern.name, str(self.said.get("size", "")))

    def __iter__(self) -> Iterator[forms.Form]:
        """All forms in the order of the page, as the list of mistakes needs them."""
        yield self.pictures
        yield from (picture.form for picture in self.photos)
        yield from (self.garment, self.changes, self.words, self.permissions, self.sender)

    @property
    def is_bound(self) -> bool:
        """Whether something was posted."""
        return self.posted is not None

    def is_valid(self) -> bool:
        """Whether nothing that was checked has a mistake."""
        return not any(form.errors for form in self)

    def ask_about_people(self) -> None:
        """Where pictures may be shown, each needs an answer about the people in it."""
        if self.permissions.is_valid() and self.permissions.allows(FILM, PUBLIC_PAGES):
            is_younger = bool(self.said.get("is_younger"))
            for picture in self.photos:
                picture.form.require_answers(sender_is_younger=is_younger)

    def work_out(self) -> bool:
        """Recalculate size and changes; what the library refuses is said beside its field."""
        if self.garment.errors or self.changes.errors:
            return False
        given, told = self.garment.cleaned_data, self.alterations
        try:
            self.worked_out = work_out(
                self.pattern,
                given["size"],
                told,
                self.garment.knitter,
                self.changes.cleaned_data[SHOWN_IN],
            )
        except RefusedError as refused:
            self.changes.add_error(self.changes.field_of(refused.alteration), str(refused))
        return self.worked_out is not None

    @property
    def alterations(self) -> tuple[AnyAlteration, ...]:
        """What was changed, as far as it can be read."""
        return self.changes.alterations

    def look_over(self) -> None:
        """Set everything once more in words, as far as it could be read."""
        for part in (self.garment, self.words, self.permissions, self.sender):
            part.is_valid()  # what can be read is shown, whatever is wrong elsewhere
        seen = [SeenPicture(one.shown, _words_of(one.photo)) for one in self.photos]
        typed = {**self.words.cleaned_data, **self.sender.cleaned_data}
        caption = self.worked_out.caption if self.worked_out else ""
        self.overview = overview_of(seen, self.garment, self.permissions, typed, caption)

    @property
    def tells_guardian(self) -> bool:
        """Whether the folded fields of a young sender hold something, and so stay open."""
        names = ("is_younger", "guardian_name", "guardian_email")
        return any(self.said.get(name) or name in self.sender.errors for name in names)

    def typed_so_far(self) -> dict[str, str]:
        """What a draft remembers: the typed texts by field name, no permission and no tick."""
        parts = (self.garment, self.changes, self.words, self.sender)
        names = [name for part in parts for name in part.fields if name not in NEVER_KEPT]
        return {name: str(self.said[name]) for name in names if self.said.get(name)}

    def garment_as_sent(self) -> Garment:
        """Everything as plain values, ready for the intake."""
        garment, sender = self.garment.cleaned_data, self.sender.cleaned_data
        return Garment(
            version=self.version,
            size_name=garment["size"],
            stage=garment["stage"],
            tools=tools_of(garment),
            alterations=self.alterations,
            notes=self.words.cleaned_data["notes"],
            credit_name=sender["credit_name"],
            email=sender["email"],
            is_younger=sender["is_younger"],
            guardian_email=self.sender.guardian,
            guardian_name=self.sender.guardians_name,
            answers=self.permissions.answers,
        )

    @property
    def open_groups(self) -> set[str]:
        """The folded groups of changes that hold something, and so stay open."""
        return self.changes.open_groups(self._told)

    @property
    def change_sections(self) -> list[Section]:
        """The changes as the page shows them."""
        return self.changes.sections(self._told, self.worked_out.of_each if self.worked_out else ())

    @property
    def _told(self) -> set[str]:
        return {name for name in self.changes.fields if self.said.get(name)}

    @property
    def yarns(self) -> list[ShownGroup]:
        """Another yarn and strands held together, as the page shows them."""
        return self.changes.yarns(self._told, self.worked_out.of_each if self.worked_out else ())

    @property
    def parts(self) -> GarmentParts:
        """What stands in the section of the garment besides its fields."""
        return GarmentParts(self.garment, self.changes, self.said)


def picture_form(photo: Photo, posted: QueryDict | None) -> PictureForm:
    """The small form of one kept picture; what was posted for it, else what is kept."""
    prefix = prefix_of(photo)
    kept = {**asdict(words_of(photo)), **said_of(photo).facts}
    kept["sender_is_guardian"] = False  # a yes, so it is given anew with each sending
    if posted is None:
        return PictureForm(prefix=prefix, initial=kept)
    if f"{prefix}-description" in posted:
        return PictureForm(posted, prefix=prefix, initial=kept)
    return PictureForm({f"{prefix}-{name}": kept[name] for name in kept}, prefix=prefix)


def _words_of(photo: Photo) -> str:
    """A picture in words: its kind, and its description where it has one."""
    kind = str(Photo.Stage(photo.stage).label)
    return f"{kind}: {photo.description}" if photo.description else kind


def prefix_of(photo: Photo) -> str:
    """What the field names of one kept picture begin with."""
    return f"picture-{photo.public_id}"


def tools_of(garment: Mapping[str, Any]) -> Tools:
    """Tools and swatch as the intake takes them."""
    return Tools(**{name: garment[name] for name in store.TOLD})
