"""The only writer of guardians' answers, chained as the ledger is, and the check of that chain."""

from collections.abc import Iterator
from typing import Any

from django.db import transaction
from django.utils import timezone

from gallery.consent import chain
from gallery.consent.ledger import text_facts
from gallery.contributions.models import GuardianAnswer
from gallery.contributions.people.cares import Asked, Care


@transaction.atomic
def add_answer(care: Care, asked: Asked, *, is_yes: bool, way: GuardianAnswer.Way) -> None:
    """Add one answer at the end; the same answer to the same words is not kept twice."""
    known = asked.answer
    if known is not None and known.is_yes == is_yes and not asked.is_to_older_words:
        return
    if care.garment.agreement is None:
        raise TypeError("A garment that was not sent has nobody to ask about.")
    chain.take_turn()
    seq, before = chain.after(GuardianAnswer.objects.order_by("-seq").first())
    answer = GuardianAnswer(
        agreement=care.garment.agreement,
        scope=care.scope,
        about=care.about,
        purpose=asked.purpose,
        is_yes=is_yes,
        at=timezone.now(),
        way=way,
        edition=care.garment.edition,
        text=asked.text,
        text_sha256=asked.text.sha256,
        seq=seq,
        prev_hash=before,
    )
    answer.hash = chain.sealed(said_by(answer))
    answer.save(force_insert=True)


def said_by(answer: GuardianAnswer) -> dict[str, Any]:
    """Everything an answer says."""
    return {
        "seq": answer.seq,
        "agreement": str(answer.agreement.uuid),
        "scope": str(answer.scope),
        "about": answer.about,
        "purpose": answer.purpose,
        "is_yes": answer.is_yes,
        "at": answer.at.isoformat(),
        "way": str(answer.way),
        "edition": answer.edition,
        "text": text_facts(answer.text),
        "text_sha256": answer.text_sha256,
        "prev_hash": answer.prev_hash,
    }


def broken_answers() -> Iterator[tuple[int, str]]:
    """Number and fault of each answer that is not what was written."""
    answers = GuardianAnswer.objects.select_related("agreement", "text").order_by("seq")
    return chain.broken_links(answers.iterator(), said_by)


def missing_guards() -> list[str]:
    """Guards of the answers that the database no longer has."""
    return chain.missing_guards(GuardianAnswer._meta.db_table)
