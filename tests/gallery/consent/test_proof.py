"""Whatever proves a permission: any single change in it is found, and the database refuses it."""

from typing import Any

import pytest
from django.db import DatabaseError, connection, transaction
from django.utils import timezone

from gallery.consent import ledger
from gallery.consent.models import ConsentText, Entry
from gallery.consent.purposes import FILM, PURPOSES
from gallery.consent.texts import add_text
from gallery.contributions.models import GuardianAnswer, Photo
from gallery.contributions.people.answers import add_answer
from gallery.contributions.people.cares import Asked, Care
from gallery.proof import faults

pytestmark = pytest.mark.django_db
ENTRY, TEXT = "consent_entry", "consent_consenttext"
AGREEMENT, ANSWER = "consent_agreement", "contributions_guardiananswer"
ON_SQLITE = pytest.mark.skipif(connection.vendor != "sqlite", reason="takes triggers off by hand")


@pytest.fixture
def proof(garment: Any) -> Any:
    """Two garments with answers of a sender and of a guardian."""
    for sent in (garment(allows=[FILM]), garment(allows=PURPOSES)):
        sent.photo.people = Photo.People.CHILD
        entry = sent.row.agreement.entries.get(purpose=FILM)
        for is_yes in (True, False):
            asked = Asked(FILM, entry.text, timezone.now(), None)
            care = Care(sent.row, sent.photo, ())
            add_answer(care, asked, is_yes=is_yes, way=GuardianAnswer.Way.LINK)
    return sent


def test_untouched_proof_has_no_faults(proof: Any) -> None:
    assert faults() == [] and GuardianAnswer.objects.count() == 4


def columns(table: str) -> list[str]:
    with connection.cursor() as cursor:
        described = connection.introspection.get_table_description(cursor, table)
    return [one.name for one in described if one.name != "id"]


# Another value that the column takes; what is not named here gets one more letter.
OTHER = {
    "seq": "900",
    "version": "version + 7",
    "is_yes": "NOT is_yes",
    "edition": "70",
    "agreement_id": "(SELECT MAX(id) FROM consent_agreement)",
    "text_id": "(SELECT MAX(id) FROM consent_consenttext)",
    "at": "'2001-01-01 00:00:00'",
    "valid_from": "'2001-01-01 00:00:00'",
    "opened_at": "'2001-01-01 00:00:00'",
    "uuid": "'0123456789abcdef0123456789abcdef'",
}
EVERY_COLUMN = [
    (ENTRY, "uuid seq purpose answer at actor way text_sha256 form_version prev_hash hash"),
    (ENTRY, "agreement_id text_id"),
    (TEXT, "purpose version language scope sentence meaning sha256 valid_from"),
    (AGREEMENT, "uuid opened_at"),
    (ANSWER, "scope about purpose is_yes at way edition text_sha256 seq prev_hash hash"),
    (ANSWER, "agreement_id text_id"),
]
CHANGES = [(table, column) for table, names in EVERY_COLUMN for column in names.split()]


def test_no_column_is_forgotten() -> None:
    for table in (ENTRY, TEXT, AGREEMENT, ANSWER):
        assert {column for one, column in CHANGES if one == table} == set(columns(table))


@ON_SQLITE
@pytest.mark.parametrize(("table", "column"), CHANGES)
def test_one_changed_value_is_found_and_named(proof: Any, table: str, column: str) -> None:
    add_text(FILM, "A wording nobody answered", "It only stands there.", scope="other")
    other = OTHER.get(column, f"{column} || 'x'")
    with connection.cursor() as cursor:
        for name in ("no_update", "no_delete"):
            cursor.execute(f"DROP TRIGGER IF EXISTS {table}_{name}")
        first = f"WHERE id = (SELECT MIN(id) FROM {table})"  # noqa: S608 - names of this file
        change = f"UPDATE {table} SET {column} = {other} {first}"  # noqa: S608
        cursor.execute(change)
    found = [fault for fault in faults() if not fault.startswith("the guard")]
    kind = "guardian's answer" if table == ANSWER else "entry"
    named = (kind, "the wording") if table == TEXT else (kind,)
    assert found and any(fault.startswith(named) for fault in found)


ATTACKS = [
    "UPDATE {table} SET id = id",
    "DELETE FROM {table}",
    "DELETE FROM {table} WHERE id = (SELECT MAX(id) FROM {table})",
    "INSERT INTO {table} SELECT * FROM {table} WHERE true ON CONFLICT (id) DO UPDATE SET id = 1",
]
SQLITE_ONLY = [
    "INSERT OR REPLACE INTO {table} SELECT * FROM {table}",
    "REPLACE INTO {table} SELECT * FROM {table} LIMIT 1",
]
POSTGRESQL_ONLY = ["TRUNCATE {table} CASCADE"]
ATTACKS += SQLITE_ONLY if connection.vendor == "sqlite" else POSTGRESQL_ONLY


@pytest.mark.parametrize("table", [ENTRY, TEXT, ANSWER])
@pytest.mark.parametrize("attack", ATTACKS)
def test_the_database_itself_refuses_every_attack(proof: Any, table: str, attack: str) -> None:
    with pytest.raises(DatabaseError), transaction.atomic(), connection.cursor() as cursor:
        cursor.execute(attack.format(table=table))
    assert faults() == []


@ON_SQLITE
@pytest.mark.parametrize("table", [ENTRY, TEXT, ANSWER])
def test_a_guard_that_is_gone_is_missed(table: str) -> None:
    with connection.cursor() as cursor:
        cursor.execute(f"DROP TRIGGER {table}_no_delete")
    assert faults() == [f"the guard {table}_no_delete is missing"]


def test_a_row_taken_out_of_the_middle_is_missed(proof: Any) -> None:
    if connection.vendor != "sqlite":
        pytest.skip("takes triggers off by hand")
    with connection.cursor() as cursor:
        for table in (ENTRY, ANSWER):
            cursor.execute(f"DROP TRIGGER {table}_no_delete")
            cursor.execute(f"DELETE FROM {table} WHERE seq = 2")  # noqa: S608
    found = " ".join(faults())
    assert found.count("entry 2 is missing") == 2 and "guardian's answer 3" in found


def test_entries_and_texts_agree_with_what_was_shown(proof: Any) -> None:
    for entry in Entry.objects.select_related("text"):
        assert entry.text_sha256 == entry.text.sha256
    assert ConsentText.objects.exists() and ledger.missing_guards() == []
