"""A private link sent again to who lost it, without telling anybody whether an address is known."""

from django import forms
from django.db import transaction
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from gallery import jobs, letters
from gallery.contributions import limits
from gallery.contributions.forms import SendingForm
from gallery.contributions.links import open_link
from gallery.contributions.models import Contribution
from gallery.contributions.tokens import new_token
from gallery.speaking import the_language


class LostLinkForm(SendingForm):
    """The address the garment was sent with."""

    email = forms.EmailField(
        label=gettext_lazy("The e-mail address you gave with your garment"),
        max_length=254,
        widget=forms.EmailInput(attrs={"autocomplete": "email"}),
        error_messages={
            "required": gettext_lazy("Please write the address you gave."),
            "invalid": gettext_lazy(
                "This e-mail address is not complete; it needs an @ and a dot, like "
                "anna@example.org."
            ),
        },
    )


def may_ask(place: str) -> bool:
    """Count one more request from a connection; False where its hour's share is used up."""
    return limits.may_ask_for_lost_link(place)


def ask_for(email: str) -> None:
    """Queue the letter; known and unknown addresses take the same time and leave the same trace."""
    jobs.later(send_links, email)


@transaction.atomic
def send_links(email: str) -> None:
    """Job: one letter with a fresh link to each garment of that address, if there is any.

    At most a few letters a day go to one address, so that nobody can be flooded by it.
    """
    garments = list(
        Contribution.objects.filter(email__iexact=email, sent_at__isnull=False).select_related(
            "series"
        )
    )
    if not garments or not limits.may_write_to(email):
        return
    with the_language(garments[0].language):
        links = [(garment, _fresh_link(garment)) for garment in garments]
        words = render_to_string("letters/lost_link.txt", {"links": links})
        letters.post(_("Your private link"), words, garments[0].email)


def _fresh_link(garment: Contribution) -> str:
    token = new_token()
    open_link(garment, token)
    return letters.address(reverse("private_link", args=[token]))
