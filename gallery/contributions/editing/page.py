"""The forms of the sending page around a garment that was sent, filled with what is kept."""

from collections.abc import Iterator
from dataclasses import asdict, dataclass
from typing import Any

from django import forms
from django.http import QueryDict
from django.utils.translation import gettext as _

from alterations.kinds import AnyAlteration
from alterations.records import store
from gallery.consent import gate
from gallery.consent.purposes import FILM, PUBLIC_PAGES
from gallery.contributions.doubts import doubts_of
from gallery.contributions.editing.change_values import as_typed
from gallery.contributions.editing.keep import Edited, EditedPicture, people_are_settled
from gallery.contributions.forms import NameForm, PictureForm
from gallery.contributions.garment_told import as_typed_garment
from gallery.contributions.keeping import PictureWords, kept_photos, words_of
from gallery.contributions.models import Contribution, Photo
from gallery.contributions.people.said import said_of
from gallery.contributions.sending import NOTHING, KeptPicture, Sending, prefix_of, tools_of
from gallery.contributions.shown import small

EVERYTHING = frozenset({"garment", "changes", "words", "sender"})


@dataclass(frozen=True)
class KeptPictureOfSent(KeptPicture):
    """One picture on the page; `is_settled`: somebody's answer rests on who is in it."""

    is_settled: bool = False


class Editing(Sending):
    """The parts of the page for a sent garment: without permissions, which have their own page."""

    def __init__(
        self,
        row: Contribution,
        posted: QueryDict | None = None,
        check: frozenset[str] = NOTHING,
    ) -> None:
        self.row = row
        typed, self.left_over = kept_as_typed(row)
        version = row.sheet.version if row.sheet else None
        super().__init__(row.series, typed, posted, check, version)
        self._show_kept_pictures()

    def _make_forms_of_sender(self) -> None:
        self.name = NameForm(**self._data("sender"))
        words = _("Shown only where you allow it. May be left empty.")
        self.name.fields["credit_name"].help_text = words

    def _show_kept_pictures(self) -> None:
        self.photos = [
            KeptPictureOfSent(
                photo,
                small(photo),
                _picture_form(photo, self.posted),
                self.hint_for(photo),
                doubts_of(photo),
                is_settled=people_are_settled(photo),
            )
            for photo in kept_photos(self.row)
        ]

    def __iter__(self) -> Iterator[forms.Form]:
        yield self.pictures
        yield from (picture.form for picture in self.photos)
        yield from (self.garment, self.changes, self.words, self.name)

    @property
    def alterations(self) -> tuple[AnyAlteration, ...]:
        """What was changed: what the fields say, and what came with it that no field can hold."""
        return (*self.changes.alterations, *self.left_over)

    def ask_about_people(self) -> None:
        """Where pictures may be shown, each needs an answer about the people in it."""
        page = self.row.agreement
        if page is None or not any(gate.may_use(page, one) for one in (FILM, PUBLIC_PAGES)):
            return
        for picture in self.photos:
            if not people_are_settled(picture.photo):
                picture.form.require_answers(sender_is_younger=self.row.is_younger)

    def edited(self) -> Edited:
        """Everything as plain values, ready to be kept."""
        garment = self.garment.cleaned_data
        return Edited(
            version=self.version,
            size_name=garment["size"],
            stage=garment["stage"],
            tools=tools_of(garment),
            alterations=self.alterations,
            notes=self.words.cleaned_data["notes"],
            credit_name=self.name.cleaned_data["credit_name"],
            pictures=[_edited(one) for one in self.photos],
        )


def _edited(one: KeptPicture) -> EditedPicture:
    given = one.form.cleaned_data
    people = said_of(one.photo) if people_are_settled(one.photo) else one.form.said
    words = PictureWords(given["description"], given["stage"], given["is_decorative"])
    return EditedPicture(one.photo, words, people)


def _picture_form(photo: Photo, posted: QueryDict | None) -> PictureForm:
    """What was posted for a picture, else what is kept; her yes as a guardian is kept too."""
    prefix = prefix_of(photo)
    kept = {**asdict(words_of(photo)), **said_of(photo).facts}
    if posted is None:
        return PictureForm(prefix=prefix, initial=kept)
    if f"{prefix}-description" in posted:
        return PictureForm(posted, prefix=prefix, initial=kept)
    return PictureForm({f"{prefix}-{name}": kept[name] for name in kept}, prefix=prefix)


def kept_as_typed(row: Contribution) -> tuple[dict[str, Any], tuple[AnyAlteration, ...]]:
    """What is kept, as the texts of the fields by name."""
    typed = {"stage": row.stage, "notes": row.notes, "credit_name": row.credit_name}
    sheet = row.sheet
    if sheet is None:
        return typed, ()
    pattern = store.pattern_of(sheet.version)
    changes, left_over = as_typed(store.alterations_of(sheet), pattern, sheet.size_name)
    return {**typed, **as_typed_garment(sheet), **changes}, left_over
