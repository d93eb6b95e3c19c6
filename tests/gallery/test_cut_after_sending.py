"""A picture that was sent is turned or cut: the old one is gone everywhere, the new one waits."""

from collections.abc import Callable
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from gallery import jobs
from gallery.consent.texts import current_texts
from gallery.contributions import limits
from gallery.contributions.models import Change, Photo
from gallery.contributions.people.guardian import answer_as_sender
from gallery.contributions.pictures import safe_pictures
from gallery.exhibition.showing import may_show_photo
from gallery.review.models import Verdict

from .conftest import EVERYTHING, jpeg

pytestmark = pytest.mark.django_db


@pytest.fixture
def sent(garment: Callable[..., Any]) -> Any:
    return garment(allows=EVERYTHING).decide()


def page_of(sent: Any) -> str:
    return f"/mine/{sent.row.public_id}/pictures/{sent.photo.public_id}/"


def turn(sent: Any, browser: Client | None = None) -> Any:
    return (browser or sent.sender()).post(page_of(sent), {"turn": "yes"})


def test_it_waits_for_the_teacher_and_the_old_picture_is_gone_at_once(sent: Any) -> None:
    old = {made.sha256 for made in sent.photo.renditions.all()}
    assert Client().get(sent.picture()).status_code == 200
    assert turn(sent).status_code == 302
    assert Client().get(sent.picture()).status_code == 404
    assert not may_show_photo(sent.photo)
    assert not any(safe_pictures().path(sha256).exists() for sha256 in old)


def test_once_approved_again_the_turned_picture_is_shown(sent: Any) -> None:
    turn(sent)
    jobs.work_off()
    sent.row.refresh_from_db()
    sent.decide()
    Verdict.objects.update(edition=sent.row.edition)  # she saw it as it is now
    made = sent.photo.renditions.get(size="medium")
    assert (made.width, made.height) == (50, 40)  # it was 40 by 50
    assert Client().get(sent.picture()).status_code == 200


def test_it_is_a_line_of_the_history(sent: Any) -> None:
    turn(sent)
    [line] = sent.row.history.all()
    assert line.what == Change.What.FRAMED


def test_a_picture_a_guardian_answered_for_stays_as_it_is(sent: Any) -> None:
    photo = sent.photo
    Photo.objects.filter(pk=photo.pk).update(people="child", sender_is_guardian=True)
    photo.refresh_from_db()
    answer_as_sender(sent.row, photo, current_texts())
    answer = turn(sent)
    assert "answer rests on this picture" in answer.content.decode()
    assert sent.photo.turn == 0


@pytest.mark.parametrize("who", ["anybody", "another sender"])
def test_only_its_sender_finds_the_page(sent: Any, garment: Callable[..., Any], who: str) -> None:
    browser = Client() if who == "anybody" else garment().sender()
    assert browser.get(page_of(sent)).status_code == 404
    assert browser.get(page_of(sent) + "whole.jpg").status_code == 404
    assert turn(sent, browser).status_code == 404
    assert sent.photo.turn == 0


def test_one_more_picture_of_a_sent_garment_arrives_by_itself(
    sent: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(limits, "has_room", lambda _: True)
    file = SimpleUploadedFile("new.jpg", jpeg(), "image/jpeg")
    address = f"/mine/{sent.row.public_id}/change/picture/"
    answer = sent.sender().post(address, {"pictures": file}).json()
    sent.row.refresh_from_db()
    assert answer["edition"] == sent.row.edition == 2
    assert "Take out" in answer["html"]
    assert sent.row.photos.count() == 2
