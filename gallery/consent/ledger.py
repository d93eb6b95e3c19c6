"""The only writer of the ledger: opens a page, adds entries, checks the chain."""

import uuid
from collections.abc import Iterator, Mapping
from typing import Any

from django.db import transaction
from django.utils import timezone

from gallery.consent import chain
from gallery.consent.models import Agreement, ConsentText, Entry
from gallery.consent.texts import FORM_VERSION, text_hash


@transaction.atomic
def open_agreement(
    answers: Mapping[ConsentText, bool], *, actor: Entry.Actor, way: Entry.Way
) -> Agreement:
    """Open a page and write one entry for each question, given or refused."""
    agreement = Agreement.objects.create()
    for text, is_given in answers.items():
        answer = Entry.Answer.GIVEN if is_given else Entry.Answer.REFUSED
        add_entry(agreement, text, answer, actor=actor, way=way)
    return agreement


@transaction.atomic
def add_entry(
    agreement: Agreement,
    text: ConsentText,
    answer: Entry.Answer,
    *,
    actor: Entry.Actor,
    way: Entry.Way,
) -> Entry:
    """Add one answer at the end of the ledger, chained to the entry before it."""
    chain.take_turn()
    seq, before = chain.after(Entry.objects.order_by("-seq").first())
    entry = Entry(
        uuid=uuid.uuid4(),
        seq=seq,
        agreement=agreement,
        purpose=text.purpose,
        answer=answer,
        at=timezone.now(),
        actor=actor,
        way=way,
        text=text,
        text_sha256=text.sha256,
        form_version=FORM_VERSION,
        prev_hash=before,
    )
    entry.hash = chain.sealed(said_by(entry))
    entry.save(force_insert=True)
    return entry


def said_by(entry: Entry) -> dict[str, Any]:
    """Everything an entry says, with the page it stands on and the wording it answers."""
    text = entry.text
    return {
        "uuid": str(entry.uuid),
        "seq": entry.seq,
        "agreement": str(entry.agreement.uuid),
        "opened_at": entry.agreement.opened_at.isoformat(),
        "purpose": entry.purpose,
        "answer": str(entry.answer),
        "at": entry.at.isoformat(),
        "actor": str(entry.actor),
        "way": str(entry.way),
        "text": text_facts(text),
        "text_sha256": entry.text_sha256,
        "form_version": entry.form_version,
        "prev_hash": entry.prev_hash,
    }


def text_facts(text: ConsentText) -> list[Any]:
    """What identifies a wording, for the hash of an answer to it."""
    version = (text.purpose, text.version, text.language, text.scope)
    return [text.pk, *version, text.sha256, text.valid_from.isoformat()]


def missing_guards() -> list[str]:
    """Guards of the ledger's tables that the database no longer has."""
    return chain.missing_guards(Entry._meta.db_table, ConsentText._meta.db_table)


def broken_entries() -> Iterator[tuple[int, str]]:
    """Number and fault of each entry that is not what was written; nothing where all is well."""
    entries = Entry.objects.select_related("agreement", "text").order_by("seq")
    return chain.broken_links(entries.iterator(), said_by)


def broken_texts() -> Iterator[str]:
    """Each wording whose words are not those its hash was made of."""
    for text in ConsentText.objects.order_by("pk").iterator():
        if text_hash(text.sentence, text.meaning) != text.sha256:
            yield f"the wording {text} ({text.scope or 'every series'}) was changed"
