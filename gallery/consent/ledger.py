"""The only writer of the ledger: opens a page, adds entries, checks the chain."""

import hashlib
import json
import uuid
from collections.abc import Iterator, Mapping

from django.db import connection, transaction
from django.utils import timezone

from gallery.consent.models import Agreement, ConsentText, Entry
from gallery.consent.texts import FORM_VERSION

GENESIS = "0" * 64
_LEDGER_LOCK = 7_233_001  # any constant: names the ledger among PostgreSQL's advisory locks


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
    _take_turn()
    last = Entry.objects.order_by("-seq").first()
    entry = Entry(
        uuid=uuid.uuid4(),
        seq=last.seq + 1 if last else 1,
        agreement=agreement,
        purpose=text.purpose,
        answer=answer,
        at=timezone.now(),
        actor=actor,
        way=way,
        text=text,
        text_sha256=text.sha256,
        form_version=FORM_VERSION,
        prev_hash=last.hash if last else GENESIS,
    )
    entry.hash = entry_hash(entry)
    entry.save(force_insert=True)
    return entry


def _take_turn() -> None:
    """Let one writer at a time extend the chain (SQLite's write lock does so by itself)."""
    if connection.vendor == "postgresql":
        with connection.cursor() as cursor:
            cursor.execute("SELECT pg_advisory_xact_lock(%s)", [_LEDGER_LOCK])


def entry_hash(entry: Entry) -> str:
    """SHA-256 over everything an entry says and over the hash of the entry before it."""
    said = {
        "uuid": str(entry.uuid),
        "seq": entry.seq,
        "agreement": str(entry.agreement.uuid),
        "purpose": entry.purpose,
        "answer": str(entry.answer),
        "at": entry.at.isoformat(),
        "actor": str(entry.actor),
        "way": str(entry.way),
        "text": entry.text_id,
        "text_sha256": entry.text_sha256,
        "form_version": entry.form_version,
        "prev_hash": entry.prev_hash,
    }
    return hashlib.sha256(json.dumps(said, sort_keys=True).encode()).hexdigest()


def missing_guards(*others: str) -> list[str]:
    """Guards of the ledger's tables, and of others kept like it, that the database no longer has.

    A later change of these tables can drop them unseen on SQLite, which rebuilds a table.
    """
    tables = (Entry._meta.db_table, ConsentText._meta.db_table, *others)
    guards = {
        "sqlite": ("no_update", "no_delete", "no_replace"),
        "postgresql": ("append_only",),
    }[connection.vendor]
    asked = {
        "sqlite": "SELECT name FROM sqlite_master WHERE type = 'trigger'",
        "postgresql": "SELECT tgname FROM pg_trigger",
    }[connection.vendor]
    with connection.cursor() as cursor:
        cursor.execute(asked)
        there = {name for (name,) in cursor.fetchall()}
    wanted = [f"{table}_{guard}" for table in tables for guard in guards]
    return [name for name in wanted if name not in there]


def broken_entries() -> Iterator[tuple[int, str]]:
    """Number and fault of each entry that is not what was written; nothing where all is well."""
    before = GENESIS
    expected_seq = 1
    for entry in Entry.objects.select_related("agreement", "text").order_by("seq").iterator():
        if entry.seq != expected_seq:
            yield entry.seq, f"entry {expected_seq} is missing"
        if entry.prev_hash != before:
            yield entry.seq, "it does not follow the entry before it"
        if entry_hash(entry) != entry.hash:
            yield entry.seq, "its own words were changed"
        before, expected_seq = entry.hash, entry.seq + 1
