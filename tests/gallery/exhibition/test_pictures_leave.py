"""The door of the pictures: who gets which size, and with which headers."""

from collections.abc import Callable
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.test import Client

from gallery.consent.purposes import NAME, PUBLIC_PAGES
from gallery.contributions.models import Photo
from gallery.contributions.pictures import originals, safe_pictures

Maker = Callable[..., Any]
Desk = Callable[[User], Client]


def body(answer: Any) -> bytes:
    """Everything an answer sends; read to its end, so that its file is closed."""
    return b"".join(answer)


def status(answer: Any) -> int:
    body(answer)
    return answer.status_code


def test_a_public_picture_is_the_kept_file_and_may_be_kept_for_a_minute(
    client: Client, shown: Any
) -> None:
    shown.take_back(NAME)  # with a name the file holds the credit (test_photo_fields.py)
    kept = shown.photo.renditions.get(size="medium").sha256
    answer = client.get(shown.picture())
    assert body(answer) == safe_pictures().path(kept).read_bytes()
    assert answer["Content-Type"] == "image/jpeg"
    assert answer["Cache-Control"] == "public, max-age=60, must-revalidate"
    assert answer["ETag"] == f'"{kept}"'
    assert answer["X-Content-Type-Options"] == "nosniff"
    assert answer["Cross-Origin-Resource-Policy"] == "same-origin"
    assert "Cookie" not in answer.get("Vary", "")
    assert not answer.cookies


@pytest.mark.parametrize("form", ['"{0}"', 'W/"{0}"', '"else", "{0}"', "*"])
def test_a_picture_that_is_known_already_is_not_sent_again(
    client: Client, shown: Any, form: str
) -> None:
    shown.take_back(NAME)
    kept = shown.photo.renditions.get(size="medium").sha256
    answer = client.get(shown.picture(), headers={"If-None-Match": form.format(kept)})
    assert (answer.status_code, body(answer)) == (304, b"")
    assert answer["ETag"] == f'"{kept}"'
    assert answer["Cache-Control"] == "public, max-age=60, must-revalidate"


def test_a_known_picture_that_was_taken_back_is_gone_all_the_same(
    client: Client, shown: Any
) -> None:
    known = client.get(shown.picture())
    mark = known["ETag"]
    assert status(known) == 200
    shown.take_back(PUBLIC_PAGES)
    assert client.get(shown.picture(), headers={"If-None-Match": mark}).status_code == 404


@pytest.mark.parametrize("size", ["original", "huge", "..", "film.jpg", "Medium"])
def test_other_sizes_do_not_exist_for_anybody(
    shown: Any, teacher: User, desk_of: Desk, size: str
) -> None:
    assert desk_of(teacher).get(shown.picture(size)).status_code == 404


def test_the_films_size_is_not_for_everybody(
    client: Client, shown: Any, teacher: User, desk_of: Desk
) -> None:
    assert client.get(shown.picture("film")).status_code == 404
    assert status(desk_of(teacher).get(shown.picture("film"))) == 200


def test_a_private_picture_goes_to_its_teacher_and_its_sender_and_into_no_cache(
    garment: Maker, teacher: User, desk_of: Desk
) -> None:
    made = garment()
    for browser in (desk_of(teacher), made.sender()):
        answer = browser.get(made.picture())
        assert status(answer) == 200
        assert answer["Cache-Control"] == "private, no-store"
        assert "ETag" not in answer


def test_a_refused_picture_is_answered_like_one_that_is_not_there(
    client: Client, garment: Maker
) -> None:
    refused = client.get(garment().picture())
    missing = client.get("/pictures/AAAAAAAAAAAAAAAA/medium.jpg")
    assert refused.status_code == missing.status_code == 404
    assert refused.content == missing.content
    assert dict(refused.items()) == dict(missing.items())


def test_a_refused_original_is_answered_like_one_that_is_not_there(
    client: Client, shown: Any
) -> None:
    refused = client.get(f"/pictures/{shown.photo.public_id}/original")
    missing = client.get("/pictures/AAAAAAAAAAAAAAAA/original")
    assert refused.status_code == missing.status_code == 404
    assert refused.content == missing.content
    assert dict(refused.items()) == dict(missing.items())


def test_an_original_is_handed_over_to_be_kept_never_to_be_opened(
    shown: Any, teacher: User, desk_of: Desk
) -> None:
    photo = shown.photo
    answer = desk_of(teacher).get(f"/pictures/{photo.public_id}/original")
    assert body(answer) == originals().path(photo.original_sha256).read_bytes()
    name = f'attachment; filename="photo-{photo.public_id}.jpg"'
    assert answer["Content-Disposition"] == name
    assert answer["Content-Type"] == "application/octet-stream"
    assert answer["X-Content-Type-Options"] == "nosniff"
    assert answer["Cross-Origin-Resource-Policy"] == "same-origin"
    assert answer["Cache-Control"] == "private, no-store"
    policy = {part.strip() for part in answer["Content-Security-Policy"].split(";")}
    assert {"sandbox", "default-src 'none'"} <= policy


def test_whoever_keeps_the_site_sees_the_pictures_of_every_desk(
    garment: Maker, other_teacher: User, desk_of: Desk
) -> None:
    made = garment()
    assert status(desk_of(other_teacher).get(made.picture())) == 404
    User.objects.filter(pk=other_teacher.pk).update(is_superuser=True)
    assert status(desk_of(other_teacher).get(made.picture())) == 200


def test_of_a_draft_the_teacher_sees_nothing_yet(
    garment: Maker, teacher: User, desk_of: Desk
) -> None:
    draft = garment(sent_at=None)
    desk = desk_of(teacher)
    assert desk.get(draft.picture()).status_code == 404
    assert desk.get(f"/pictures/{draft.photo.public_id}/original").status_code == 404


def test_a_file_that_is_lost_is_a_missing_picture_not_a_broken_page(
    client: Client, shown: Any
) -> None:
    safe_pictures().remove(shown.photo.renditions.get(size="medium").sha256)
    assert client.get(shown.picture()).status_code == 404


def test_pictures_are_only_looked_at(client: Client, shown: Any) -> None:
    assert client.post(shown.picture()).status_code == 405
    assert status(client.head(shown.picture())) == 200
    assert Photo.objects.count() == 1
