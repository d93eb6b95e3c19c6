"""Everything of the sending page once more in words, as it will be sent."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from django import forms
from django.utils.translation import gettext as _

from gallery.consent.purposes import FILM, NAME, NOTES
from gallery.contributions.permission_form import PermissionsForm
from gallery.contributions.shown import ShownPicture


@dataclass(frozen=True)
class Told:
    """One thing that was told, and its words."""

    what: str
    words: str


@dataclass(frozen=True)
class SeenPicture:
    """One picture with its words."""

    shown: ShownPicture
    words: str


@dataclass(frozen=True)
class Overview:
    """What the last step shows; the caption and the name only as far as they are allowed."""

    pictures: Sequence[SeenPicture]
    garment: tuple[Told, ...]
    permissions: tuple[Told, ...]
    notes: str
    name: str
    email: str
    in_film: bool
    caption: str
    credit: str

    @property
    def slide_words(self) -> str:
        """The slide for people who cannot see it."""
        parts = [_("Your first picture as a slide of the film"), self.caption, self.credit]
        return ". ".join(part for part in parts if part)


def overview_of(
    pictures: Sequence[SeenPicture],
    garment: forms.Form,
    permissions: PermissionsForm,
    typed: dict[str, str],
    caption: str,
) -> Overview:
    """The parts that were checked, in the words the person chose and typed.

    `typed`: her notes, name (credit_name) and address (email).
    """
    name = typed.get("credit_name", "")
    return Overview(
        pictures=pictures,
        garment=tuple(_told(garment)),
        permissions=tuple(_permissions(permissions)),
        notes=typed.get("notes", ""),
        name=name,
        email=typed.get("email", ""),
        in_film=permissions.allows(FILM),
        caption=caption if permissions.allows(NOTES) else "",
        credit=name if permissions.allows(NAME) else "",
    )


def _told(form: forms.Form) -> Iterator[Told]:
    """Every field that says something, but for what was chosen beforehand."""
    for name, field in form.fields.items():
        value = form.cleaned_data.get(name)
        if name == "keeps" and not form.cleaned_data.get("swatch_stitches"):
            continue  # without a swatch of her own it says nothing
        if value in (None, "", False, field.initial) or isinstance(field.widget, forms.HiddenInput):
            continue
        words = dict(field.choices).get(value, value) if hasattr(field, "choices") else value
        yield Told(str(field.label), str(words))


def _permissions(form: PermissionsForm) -> Iterator[Told]:
    for _wording, field in form.questions:
        answer = form.cleaned_data.get(field.name)
        words = {"yes": _("Yes"), "no": _("No")}.get(answer or "", _("No, it was left open"))
        yield Told(str(field.label), words)
