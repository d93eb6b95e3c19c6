"""The letter to a sender whose photo or words were asked about or not taken."""

from django.conf import settings
from django.template.loader import render_to_string
from django.utils.translation import gettext as _

from gallery.letters import post
from gallery.review.models import Verdict
from gallery.speaking import the_language

LETTERS = {
    Verdict.Decision.ASK: "letters/asked.txt",
    Verdict.Decision.DECLINE: "letters/declined.txt",
}


def write_letter(verdict: Verdict) -> None:
    """Post the teacher's answer where the sender left an address.

    Only the hash of her private link is kept, so the letter can name that link but not hold it.
    """
    garment = verdict.contribution
    if not garment.email:
        return
    facts = {
        "garment": garment,
        "photo": verdict.photo,
        "of_name": verdict.of_name,
        "note": verdict.note,
        "contact_email": settings.CONTACT_EMAIL,
    }
    with the_language(garment.language):
        words = render_to_string(LETTERS[Verdict.Decision(verdict.decision)], facts)
        post(_subject(verdict), words.strip() + "\n", garment.email)


def _subject(verdict: Verdict) -> str:
    title = verdict.contribution.series.title
    if verdict.decision == Verdict.Decision.ASK:
        return _("A question about your garment for “%(title)s”") % {"title": title}
    return _("About your garment for “%(title)s”") % {"title": title}
