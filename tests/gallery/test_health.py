"""How the site is: each sign turns red for its own reason, in words; nothing private is told."""

import datetime
import shutil
from types import SimpleNamespace
from typing import Any

import pytest
from django.db import OperationalError, connection
from django.test import Client
from django.utils import timezone
from django_q.models import Failure, OrmQ

from gallery import health, jobs, proof
from gallery.consent.models import Check
from gallery.consent.purposes import PURPOSES

pytestmark = pytest.mark.django_db


def seen(client: Client) -> tuple[int, dict[str, bool]]:
    answer = client.get("/healthz")
    return answer.status_code, answer.json()


@pytest.fixture(autouse=True)
def letters_leave(settings: Any) -> None:
    settings.POSTS_LETTERS = True


def test_a_site_that_is_well_says_so(client: Client, garment: Any) -> None:
    garment(allows=PURPOSES)
    proof.check()
    status, signs = seen(client)
    assert status == 200 and all(signs.values())
    assert set(signs) == {"well", "database", "space", "letters", "jobs", "failed", "ledger"}


def test_the_teacher_reads_it_in_words_and_nobody_else(
    client: Client, desk_of: Any, teacher: Any, garment: Any
) -> None:
    garment(allows=PURPOSES)
    proof.check()
    page = desk_of(teacher).get("/desk/health/").content.decode()
    assert "All is well." in page and "All 4 answers are what was written." in page
    assert client.get("/desk/health/").status_code == 302


def red(client: Client, name: str) -> bool:
    status, signs = seen(client)
    others = {one for one, is_well in signs.items() if not is_well} - {"well"}
    return status == 503 and others == {name}


def test_a_full_disk_is_told(client: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    full = SimpleNamespace(total=100 * health.GIB, free=1 * health.GIB)
    monkeypatch.setattr(shutil, "disk_usage", lambda path: full)
    assert red(client, "space")
    assert "Only 1.0 GiB are free" in " ".join(one.words for one in health.signs())


def test_a_database_that_keeps_nothing_is_told(
    client: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(**facts: Any) -> None:
        raise OperationalError("database or disk is full")

    monkeypatch.setattr(Check.objects, "create", refuse)
    status, signs = seen(client)
    assert status == 503 and not signs["database"] and "ledger" not in signs


def test_work_that_nobody_does_is_told(client: Client) -> None:
    jobs.later(proof.check)
    fresh = seen(client)[0]
    OrmQ.objects.update(lock=timezone.now() - datetime.timedelta(minutes=6))
    assert fresh == 200 and red(client, "jobs")
    assert "6 minutes" in " ".join(one.words for one in health.signs())


def test_work_that_is_being_done_does_not_wait(client: Client) -> None:
    proof.check()
    jobs.later(proof.check)
    OrmQ.objects.update(lock=timezone.now() + datetime.timedelta(minutes=2))
    assert seen(client)[0] == 200


def test_work_that_broke_is_told_for_a_day(client: Client) -> None:
    now = timezone.now()
    facts = {"name": "step", "func": "gallery.x", "success": False, "started": now}
    broken = Failure.objects.create(id="1" * 32, stopped=now, **facts)
    was_red = red(client, "failed")
    Failure.objects.filter(pk=broken.pk).update(stopped=now - datetime.timedelta(days=2))
    assert was_red and seen(client)[0] == 200


@pytest.mark.skipif(connection.vendor != "sqlite", reason="takes a trigger off by hand")
def test_a_changed_ledger_is_told_with_what_was_found(
    client: Client, garment: Any, desk_of: Any, teacher: Any
) -> None:
    garment(allows=[])
    with connection.cursor() as cursor:
        cursor.execute("DROP TRIGGER consent_entry_no_update")
        cursor.execute("UPDATE consent_entry SET answer = 'given' WHERE seq = 2")
    proof.check()
    assert red(client, "ledger")
    page = desk_of(teacher).get("/desk/health/").content.decode()
    assert "entry 2: its own words were changed" in page and "Needs a look" in page


def test_a_site_that_posts_no_letters_is_told(client: Client, settings: Any) -> None:
    settings.POSTS_LETTERS = False
    assert red(client, "letters")


def test_looking_never_checks_the_ledger_itself_but_asks_for_it_once_an_hour(
    client: Client,
) -> None:
    for _ in range(3):
        seen(client)
    waiting, looked = OrmQ.objects.count(), Check.objects.count()
    jobs.work_off()
    seen(client)
    after = OrmQ.objects.count()
    Check.objects.update(at=timezone.now() - datetime.timedelta(hours=2))
    seen(client)
    assert (waiting, looked, Check.objects.count(), after) == (3, 0, 1, 0)
    assert OrmQ.objects.count() == 1


def test_it_tells_nothing_private(client: Client, garment: Any) -> None:
    garment(allows=PURPOSES, credit_name="Wrenna Quist", email="wrenna@example.org")
    text = client.get("/healthz").content.decode()
    assert not any(word in text for word in ("Wrenna", "example.org", "media", "sqlite"))
