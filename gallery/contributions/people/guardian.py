"""Parents and guardians: asked by a link of their own, their answers kept as proof."""

import datetime
from collections.abc import Mapping, Sequence

from django.conf import settings
from django.db import transaction
from django.db.models import QuerySet
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _

from gallery import letters
from gallery.consent.models import ConsentText
from gallery.contributions.models import Contribution, GuardianAnswer, Photo, PrivateLink
from gallery.contributions.people.answers import add_answer
from gallery.contributions.people.cares import (
    PHOTO_PURPOSES,
    Asked,
    Care,
    addressed,
    cares_of,
    newest,
)
from gallery.contributions.tokens import is_token, kept_of, new_token
from gallery.speaking import the_language

LIFE = datetime.timedelta(days=7)
# Taking a yes back must be as easy as giving it, so the link of a guardian who answered lives on.
LIFE_ONCE_ANSWERED = datetime.timedelta(days=400)
AT_MOST_EVERY = datetime.timedelta(hours=1)  # a letter to one guardian about one garment
MOST_CORRECTIONS = 3  # of the guardians' addresses of one garment, in a day
DAY = datetime.timedelta(days=1)
Way = GuardianAnswer.Way


class TooManyCorrectionsError(Exception):
    """Other addresses were given too often today: the site must not write to strangers."""


def link_behind(token: str) -> PrivateLink | None:
    """The guardian's link of a token; None alike for a wrong, expired, revoked or other one."""
    return _good_links().filter(token_sha256=kept_of(token)).first() if is_token(token) else None


def good_link(pk: int, garment_id: str) -> PrivateLink | None:
    """The guardian's link with that number if it is still good and leads to that garment."""
    return _good_links().filter(pk=pk, contribution__public_id=garment_id).first()


def _good_links() -> QuerySet[PrivateLink]:
    return PrivateLink.objects.filter(
        purpose=PrivateLink.Purpose.GUARDIAN,
        revoked_at__isnull=True,
        expires_at__gt=timezone.now(),
        contribution__sent_at__isnull=False,
    ).select_related("contribution__series", "contribution__agreement")


@transaction.atomic
def ask_guardians(garment: Contribution) -> int:
    """Write to each guardian who has something to answer; give how many letters left.

    A guardian is asked only once the sender allows something: before that nothing is used.
    """
    if garment.held_because and garment.released_at is None:
        return 0
    addresses = {
        address
        for address, care in addressed(garment)
        if care.is_open and not _was_asked(garment, address, care)
    }
    for address in sorted(addresses):
        ask(garment, address)
    return len(addresses)


@transaction.atomic
def ask(garment: Contribution, address: str) -> PrivateLink:
    """Open a link for one guardian and post it.

    A link she has already stays good for its time: she was told to keep it to change her answer.
    """
    token = new_token()
    link = garment.links.create(
        purpose=PrivateLink.Purpose.GUARDIAN,
        for_address=address,
        token_sha256=kept_of(token),
        expires_at=timezone.now() + LIFE,
    )
    with the_language(garment.language):
        path = reverse("guardian_link", args=[token])
        facts = {"garment": garment, "link": letters.address(path), "days": LIFE.days}
        facts["contact_email"] = settings.CONTACT_EMAIL
        words = render_to_string("letters/guardian.txt", facts)
        letters.post(_("Your answer is needed as a parent or guardian"), words, address)
    return link


def address_for(garment: Contribution, about: str) -> str:
    """The guardian's address that was given for a photo, or for the whole garment."""
    if about == garment.public_id:
        return garment.guardian_email if garment.is_younger else ""
    photo = garment.photos.filter(public_id=about, people=Photo.People.CHILD).first()
    return photo.guardian_email if photo else ""


def may_correct(garment: Contribution, about: str) -> bool:
    """Whether that address may still be corrected: nobody has answered for it yet."""
    answered = GuardianAnswer.objects.filter(about=about).exists()
    return bool(address_for(garment, about)) and not answered


@transaction.atomic
def correct_address(garment: Contribution, about: str, address: str) -> bool:
    """Ask at another address; links of the old one end where nothing else was given for it.

    False, and nothing changes, once a guardian has answered: her answer could be got rid of so.
    TooManyCorrectionsError where the day's share of other addresses is used up.
    """
    garment = Contribution.objects.select_for_update().get(pk=garment.pk)
    if not may_correct(garment, about):
        return False
    old = address_for(garment, about)
    if old != address and _links_ended_since(garment, timezone.now() - DAY) >= MOST_CORRECTIONS:
        raise TooManyCorrectionsError
    if about == garment.public_id:
        Contribution.objects.filter(pk=garment.pk).update(guardian_email=address)
        garment.guardian_email = address
    else:
        garment.photos.filter(public_id=about).update(guardian_email=address)
    if old not in {one for one, _care in addressed(garment)}:
        links = garment.links.filter(purpose=PrivateLink.Purpose.GUARDIAN, for_address=old)
        links.filter(revoked_at__isnull=True).update(revoked_at=timezone.now())
    ask_guardians(garment)
    return True


@transaction.atomic
def answer(
    link: PrivateLink, about: str, said: Mapping[str, bool], edition: int | None = None
) -> bool:
    """Keep a guardian's answers about one thing; False where nothing of it is asked, or where the
    garment is not any more what she saw (`edition`).

    `said` holds her answers by the number of the wording she read: an answer to other words than
    those in force is no answer. The same answer to the same words is not kept twice.
    """
    PrivateLink.objects.select_for_update().get(pk=link.pk)
    garment = Contribution.objects.select_for_update().get(pk=link.contribution_id)
    if (edition or 1) < garment.guardian_edition:
        return False
    care = next((one for one in cares_of(link) if one.about == about), None)
    answered = [one for one in care.questions if str(one.text.pk) in said] if care else []
    if care is None or not answered:
        return False
    for one in answered:
        add_answer(care, one, is_yes=said[str(one.text.pk)], way=Way.LINK)
    PrivateLink.objects.filter(pk=link.pk).update(expires_at=timezone.now() + LIFE_ONCE_ANSWERED)
    return True


def answer_as_sender(garment: Contribution, photo: Photo, texts: Sequence[ConsentText]) -> None:
    """The sender says she is the parent or guardian: yes to whatever she allows of this photo."""
    care = Care(garment, photo, ())
    for text in texts:
        if text.purpose in PHOTO_PURPOSES:
            known = newest(photo.public_id, text.purpose)
            asked = Asked(text.purpose, text, timezone.now(), known)
            add_answer(care, asked, is_yes=True, way=Way.SENDER)


def _links_ended_since(garment: Contribution, since: datetime.datetime) -> int:
    links = garment.links.filter(purpose=PrivateLink.Purpose.GUARDIAN, revoked_at__gte=since)
    return links.count()


def _was_asked(garment: Contribution, address: str, care: Care) -> bool:
    """Whether that guardian was written to since the newest open question, or just now."""
    newest_question = max(one.since for one in care.questions if one.answer is None)
    since = min(newest_question, timezone.now() - AT_MOST_EVERY)
    return letters_since(garment, address, since)


def letters_since(garment: Contribution, address: str, since: datetime.datetime) -> bool:
    """Whether a letter to that guardian left since then, with a link that is still good."""
    links = _good_links().filter(contribution=garment, for_address=address)
    return links.filter(created_at__gte=since).exists()
