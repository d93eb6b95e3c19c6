"""The keeper's commands: the demo keeps off other data, garments can be erased, dust is swept."""

from argparse import ArgumentTypeError
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.core.management import CommandError, call_command
from django.db import connection, transaction
from django.utils import timezone

from gallery import jobs
from gallery.consent.models import Entry
from gallery.consent.purposes import PURPOSES
from gallery.contributions.models import Contribution
from gallery.contributions.pictures import originals, safe_pictures
from gallery.demo import fill
from gallery.demo.people import KNITTED
from gallery.management.ports import port
from gallery.series.models import Series


def test_the_demo_may_fill_an_empty_site_and_go_on_with_its_own(db: None) -> None:
    assert fill.is_foreign() == ""
    fill.set_the_stage(timezone.localdate())
    assert fill.is_foreign() == ""


def test_the_demo_keeps_off_a_site_with_other_accounts(db: None) -> None:
    User.objects.create_user("somebody")
    with pytest.raises(CommandError, match="does not touch it"):
        call_command("demo", "--no-serve")
    assert not Series.objects.exists()


def test_the_demo_keeps_off_a_site_with_another_series(series: Series) -> None:
    Series.objects.filter(pk=series.pk).update(slug="my-own-evenings")
    with pytest.raises(CommandError, match="series of its own"):
        call_command("demo", "--no-serve")


@pytest.mark.parametrize("number", ["0", "-3", "99"])
def test_the_demo_refuses_numbers_of_garments_it_does_not_have(db: None, number: str) -> None:
    with pytest.raises(CommandError, match="between 1 and 24"):
        call_command("demo", f"--garments={number}")


def test_every_start_of_the_demo_gives_another_password(db: None) -> None:
    today = timezone.localdate()
    first, second = fill.set_the_stage(today), fill.set_the_stage(today)
    assert first.password != second.password
    assert User.objects.get(username=fill.TEACHER).check_password(second.password)


def test_the_demo_s_garments_are_in_every_state() -> None:
    assert {one.verdict for one in KNITTED} == {"approve", "ask", "decline", ""}
    assert any(one.taken_back for one in KNITTED) and any(not one.allows for one in KNITTED)
    assert {one.stage for one in KNITTED} == {"finished", "in_progress"}


def test_an_erased_garment_leaves_no_file_and_its_proof_stays(garment: Any) -> None:
    sent = garment(allows=PURPOSES, photos=2)
    photos = list(sent.row.photos.prefetch_related("renditions"))
    call_command("erase_garment", sent.row.public_id, "--yes")
    assert not Contribution.objects.exists()
    assert not any(originals().holds(photo.original_sha256) for photo in photos)
    made = [one.sha256 for photo in photos for one in photo.renditions.all()]
    assert made and not any(safe_pictures().holds(sha256) for sha256 in made)
    # Each was given, and taken back before the files went.
    answers = Entry.objects.order_by("seq").values_list("answer", flat=True)
    assert list(answers) == ["given"] * len(PURPOSES) + ["withdrawn"] * len(PURPOSES)


def test_erasing_asks_first(garment: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    sent = garment()
    monkeypatch.setattr("builtins.input", lambda _: "no")
    with pytest.raises(CommandError, match="Nothing was erased"):
        call_command("erase_garment", sent.row.public_id)
    assert Contribution.objects.count() == 1


@pytest.mark.parametrize("text", ["0", "99999", "80000000000", "http"])
def test_what_is_no_port_is_refused_in_words(text: str) -> None:
    with pytest.raises(ArgumentTypeError, match="is no port"):
        port(text)


def test_erasing_what_is_not_there_is_said_in_words(db: None) -> None:
    with pytest.raises(CommandError, match="no garment with that id"):
        call_command("erase_garment", "nothing")


def test_the_sweep_removes_what_nobody_refers_to_and_keeps_the_rest(
    garment: Any, capsys: pytest.CaptureFixture[str]
) -> None:
    sent = garment()
    forgotten = originals().put([b"of a broken-off upload"])
    call_command("sweep", "--older-than=-5")
    assert not originals().holds(forgotten.sha256)
    assert originals().holds(sent.photo.original_sha256)
    assert "1 forgotten files" in capsys.readouterr().out


@pytest.mark.skipif(connection.vendor != "sqlite", reason="takes the triggers off by hand")
def test_verifying_says_that_all_is_well_or_which_entry_is_not(
    garment: Any, capsys: pytest.CaptureFixture[str]
) -> None:
    garment(allows=PURPOSES)
    call_command("verify_ledger")
    assert "All 4 entries are what was written." in capsys.readouterr().out
    with connection.cursor() as cursor:
        cursor.execute("DROP TRIGGER consent_entry_no_update")
        cursor.execute("UPDATE consent_entry SET answer = 'refused' WHERE seq = 3")
    with pytest.raises(
        CommandError, match=r"entry 3.*\n.*guard consent_entry_no_update is missing"
    ):
        call_command("verify_ledger")


@pytest.mark.skipif(connection.vendor != "sqlite", reason="takes the triggers off by hand")
@pytest.mark.django_db
def test_a_guard_of_the_guardians_answers_is_missed_too() -> None:
    with connection.cursor() as cursor:
        cursor.execute("DROP TRIGGER contributions_guardiananswer_no_delete")
    with pytest.raises(CommandError, match="guard contributions_guardiananswer_no_delete is miss"):
        call_command("verify_ledger")


DONE: list[int] = []


def step(number: int) -> None:
    """A job of this test: counts down, asking for itself."""
    DONE.append(number)
    if number:
        jobs.later(step, number - 1)


def test_queued_steps_are_worked_off_in_order(db: None) -> None:
    DONE.clear()
    jobs.later(step, 2)
    assert (jobs.work_off(), DONE) == (3, [2, 1, 0])


def test_a_step_queued_in_a_broken_off_transaction_is_never_done(db: None) -> None:
    with pytest.raises(RuntimeError), transaction.atomic():
        jobs.later(step, 0)
        raise RuntimeError
    assert jobs.work_off() == 0
