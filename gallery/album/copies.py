"""Copies of a film that were handed on: to whom, when, and exactly which file."""

import datetime
from dataclasses import dataclass
from typing import Any
from urllib.parse import quote

from django import forms
from django.conf import settings
from django.contrib.auth.models import User
from django.template.loader import render_to_string
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from gallery.album.models import CopyGiven, Film
from gallery.album.pack import is_open, pack_sha256
from gallery.contributions.writing import refuse_control_characters
from gallery.series.forms import PlainHelper

LONGEST_NAME, LONGEST_NOTE = 200, 400


class CopyForm(forms.Form):
    """One copy that was handed on."""

    to = forms.CharField(
        label=gettext_lazy("Who got it"),
        max_length=LONGEST_NAME,
        validators=[refuse_control_characters],
        help_text=gettext_lazy("A name, or a place such as your video channel."),
        error_messages={"required": gettext_lazy("Please write who got it.")},
    )
    what = forms.ChoiceField(label=gettext_lazy("What they got"), choices=CopyGiven.What.choices)
    given_on = forms.DateField(
        label=gettext_lazy("On which day"),
        widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
        error_messages={
            "required": gettext_lazy("Please give the day, as 2026-03-14."),
            "invalid": gettext_lazy("Please give the day as year-month-day, as 2026-03-14."),
        },
    )
    email = forms.EmailField(
        label=gettext_lazy("Their e-mail address"),
        required=False,
        help_text=gettext_lazy("If you like: only you see it, and a letter to them is then ready."),
        error_messages={
            "invalid": gettext_lazy(
                "This is no e-mail address. Please correct it, or leave it out."
            )
        },
    )
    note = forms.CharField(
        label=gettext_lazy("Note"),
        required=False,
        max_length=LONGEST_NOTE,
        validators=[refuse_control_characters],
        help_text=gettext_lazy("For you alone, for example on a memory stick."),
    )
    helper = PlainHelper()

    def clean_given_on(self) -> datetime.date:
        day: datetime.date = self.cleaned_data["given_on"]
        if day > timezone.localdate():
            raise forms.ValidationError(_("This day has not come yet."))
        return day


def keep_copy(film: Film, given: dict[str, Any], by: User) -> CopyGiven:
    """Write down a copy with the check sum of the file; of a closed film, as it was."""
    sha256 = film.sha256 if given["what"] == CopyGiven.What.FILM else pack_sha256(film)
    return CopyGiven.objects.create(
        film=film,
        to=given["to"],
        email=given["email"],
        what=given["what"],
        sha256=sha256,
        given_on=given["given_on"],
        note=given["note"],
        by=by,
    )


def strike_copy(film: Film, key: int) -> bool:
    """Strike out a copy that was written down by mistake; it stays to be read."""
    standing = film.copies.filter(pk=key, struck_at__isnull=True)
    return bool(standing.update(struck_at=timezone.now()))


def mark_told(film: Film, key: int) -> bool:
    """Keep that somebody was told now that the film is closed; False where there was nothing to."""
    if is_open(film):
        return False
    waiting = film.copies.filter(pk=key, struck_at__isnull=True, told_at__isnull=True)
    return bool(waiting.update(told_at=timezone.now()))


@dataclass(frozen=True)
class Notice:
    """The letter to those who have a film that holds something taken back."""

    subject: str
    words: str
    email: str = ""

    @property
    def mailto(self) -> str:
        """The letter as a link that opens it in a mail program (RFC 6068)."""
        words = quote(self.words.replace("\n", "\r\n"), safe="")
        subject = quote(self.subject, safe="")
        return f"mailto:{quote(self.email, safe='@')}?subject={subject}&body={words}"


@dataclass(frozen=True)
class Holder:
    """One copy on the list, with the letter to whoever has it, if there is one to write."""

    copy: CopyGiven
    letter: Notice | None


def holders_of(film: Film) -> list[Holder]:
    """Every copy written down; once the film is closed, each that stands with its own letter."""
    is_closed = not is_open(film)
    rows = film.copies.select_related("by")
    return [
        Holder(row, _letter(film, row) if is_closed and not row.struck_at else None) for row in rows
    ]


def notice_of(film: Film) -> Notice | None:
    """What to write to whoever has a copy; None while the film is open.

    It names neither who took something back nor what: that is nobody's business.
    """
    return None if is_open(film) else _letter(film, None)


def _letter(film: Film, copy: CopyGiven | None) -> Notice:
    """The letter to one holder, or to anybody."""
    album = film.render.album
    facts = {"film": film, "album": album, "copy": copy, "contact_email": settings.CONTACT_EMAIL}
    words = render_to_string("letters/copy_holder.txt", facts).strip() + "\n"
    subject = _("Please stop using the film “%s”") % album.title
    return Notice(subject, words, copy.email if copy else "")
