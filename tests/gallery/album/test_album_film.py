"""From album to film: made in steps, asked again before publishing, cancelled, resumed, once."""

from pathlib import Path

import pytest
from django.conf import settings

from gallery import jobs
from gallery.album import making
from gallery.album.film import make, planfile, segmentfile
from gallery.album.film.captions import captions_vtt
from gallery.album.film.errors import FilmError
from gallery.album.film.segments import parts
from gallery.album.film.verify import verify
from gallery.album.forget import forget, forget_all_not_allowed
from gallery.album.models import Film, Render
from gallery.album.publish import films
from gallery.album.strike import strike
from gallery.consent.models import Entry
from gallery.consent.purposes import FILM, NAME, NOTES
from gallery.contributions.models import Photo
from gallery.review.models import Verdict

pytestmark = pytest.mark.django_db
FADE = 19  # 0.8 s at 24 frames a second, the nearest whole number


def plan(wish: Render):
    return planfile.from_text(Render.objects.get(pk=wish.pk).plan)


def cached() -> list[Path]:
    return sorted(settings.SEGMENTS_DIR.glob("*/*.part"))


def master(photo: Photo) -> str:
    return photo.renditions.get().sha256


def test_an_album_becomes_a_verified_film_with_the_planned_frames(garment, album, filmed):
    garment()
    film = filmed(album()).film
    # two cards of 4 s, one photo of 2 s, the fade to dark
    assert film.frames == (4 + 4 + 2) * 24 + FADE
    assert verify(films().path(film.sha256), plan(film.render)) == []
    assert films().holds(film.poster_sha256)


def test_each_slide_of_a_film_names_the_entries_it_rests_on(garment, album, filmed):
    photo = garment(allowed=(FILM, NAME))
    item = filmed(album()).film.items.get()
    entries = Entry.objects.filter(agreement=photo.contribution.agreement, answer="given")
    assert item.entry_seqs == [entry.seq for entry in entries]
    assert item.agreement_uuid == photo.contribution.agreement.uuid


def test_a_photo_withdrawn_between_render_and_publishing_is_not_in_the_film(
    garment, album, filmed, take_back, monkeypatch
):
    stays, leaves = garment("Wrenna Quist"), garment("Ilka Vandermoot")
    real_finish = making.render.finish

    def finish_and_withdraw(*args, **kwargs):
        made = real_finish(*args, **kwargs)
        monkeypatch.setattr(making.render, "finish", real_finish)
        take_back(leaves, FILM)
        return made

    monkeypatch.setattr(making.render, "finish", finish_and_withdraw)
    wish = filmed(album())
    shown = plan(wish)
    assert [slide.ref for slide in shown.slides[1:-1]] == [stays.public_id]
    assert "Ilka Vandermoot" not in captions_vtt(shown)
    assert [item.photo for item in wish.film.items.all()] == [stays]
    assert verify(films().path(wish.film.sha256), shown) == []
    assert wish.replanned_at is not None


def test_no_file_of_a_film_that_was_not_published_stays(garment, album, odalys, take_back):
    photo = garment()
    garment()
    wish = making.ask_for_film(album(), odalys)
    asked = plan(wish)
    make.encode_missing(asked, settings.SEGMENTS_DIR)
    made = making.render.finish(asked, settings.SEGMENTS_DIR, settings.MEDIA_ROOT / "made.mp4")
    take_back(photo, FILM)
    assert making.publish(wish, asked, made) is False
    assert not films().holds(made.sha256)


@pytest.mark.parametrize("purpose", [NAME, NOTES])
def test_a_name_or_numbers_withdrawn_while_the_film_is_made_give_way_to_neutral_words(
    garment, album, odalys, take_back, purpose
):
    photo = garment("Wrenna Quist")
    wish = making.ask_for_film(album(), odalys)
    take_back(photo, purpose)
    jobs.work_off()
    item = Film.objects.get(render=wish).items.get()
    said = {NAME: item.credit, NOTES: item.caption}
    assert said[purpose] == {NAME: "", NOTES: "Ostrimane Tunic"}[purpose]


def test_an_approval_taken_back_keeps_a_photo_out_as_well(garment, album, odalys):
    photo = garment()
    garment()
    wish = making.ask_for_film(album(), odalys)
    Verdict.objects.create(
        contribution=photo.contribution, photo=photo, decision="decline", by=odalys
    )
    jobs.work_off()
    assert photo not in [item.photo for item in Film.objects.get(render=wish).items.all()]


def test_where_everything_is_taken_back_the_render_fails_with_a_sentence(
    garment, album, odalys, take_back
):
    photo = garment()
    wish = making.ask_for_film(album(), odalys)
    take_back(photo, FILM)
    jobs.work_off()
    wish.refresh_from_db()
    assert wish.failed_at
    assert wish.trouble == "Nothing that this film should show is allowed any more."


def test_without_a_photo_a_film_is_refused_in_words(album, odalys):
    with pytest.raises(FilmError, match="no photo in the film yet"):
        making.ask_for_film(album(), odalys)


def test_asked_twice_the_same_film_is_made_once(garment, album, odalys):
    garment()
    made = album()
    wish = making.ask_for_film(made, odalys)
    assert making.ask_for_film(made, odalys) == wish
    jobs.work_off()
    assert Film.objects.count() == 1


def test_a_step_that_runs_twice_publishes_once(garment, album, filmed):
    garment()
    wish = filmed(album())
    making.render_step(wish.pk)
    making.render_step(wish.pk)
    assert Film.objects.filter(render=wish).count() == 1


def test_two_steps_that_finish_together_publish_once(garment, album, odalys):
    garment()
    wish = making.ask_for_film(album(), odalys)
    asked = plan(wish)
    make.encode_missing(asked, settings.SEGMENTS_DIR)
    made = making.render.finish(asked, settings.SEGMENTS_DIR, settings.MEDIA_ROOT / "made.mp4")
    assert [making.publish(wish, asked, made) for _ in range(2)] == [True, True]
    assert Film.objects.count() == 1
    assert films().holds(Film.objects.get().sha256)


def test_a_wish_for_another_film_of_the_album_stops_the_older_one(garment, album, odalys):
    garment()
    made = album()
    older = making.ask_for_film(made, odalys)
    made.seconds_per_slide = 3
    made.save()
    newer = making.ask_for_film(made, odalys)
    jobs.work_off()
    older.refresh_from_db()
    assert older.cancelled_at
    assert [film.render for film in Film.objects.all()] == [newer]


def test_a_cancelled_render_stops_and_keeps_its_parts(garment, album, odalys, monkeypatch):
    garment()
    wish = making.ask_for_film(album(), odalys)
    real_note = making._note

    def cancel_after_two_parts(render_id, done, total):
        real_note(render_id, done, total)
        if done >= 2:
            making.cancel(wish)

    monkeypatch.setattr(making, "_note", cancel_after_two_parts)
    jobs.work_off()
    assert not Film.objects.exists()
    assert 2 <= len(cached()) < len(parts(plan(wish)))


def test_a_cancelled_render_goes_on_with_the_parts_it_has(garment, album, odalys):
    garment()
    wish = making.ask_for_film(album(), odalys)
    make.encode_missing(plan(wish), settings.SEGMENTS_DIR)
    made_before = {path: path.stat().st_mtime_ns for path in cached()}
    making.cancel(wish)
    jobs.work_off()
    making.go_on(wish)
    jobs.work_off()
    assert Film.objects.filter(render=wish).exists()
    assert {path: path.stat().st_mtime_ns for path in cached()} == made_before


def test_a_step_leaves_off_after_its_time_and_asks_for_the_next(
    garment, album, odalys, monkeypatch
):
    garment()
    monkeypatch.setattr(making, "STEP_SECONDS", -1)
    wish = making.ask_for_film(album(), odalys)
    making.render_step(wish.pk)
    assert (len(cached()), Film.objects.count()) == (0, 0)
    monkeypatch.setattr(making, "STEP_SECONDS", 20)
    jobs.work_off()
    assert Film.objects.filter(render=wish).exists()


def test_after_three_failures_a_render_says_why_and_can_be_tried_again(
    garment, album, odalys, monkeypatch
):
    garment()
    wish = making.ask_for_film(album(), odalys)
    with monkeypatch.context() as broken:
        broken.setattr(making.make, "encode_missing", _full_disk)
        jobs.work_off()
    wish.refresh_from_db()
    assert (wish.tries, wish.trouble) == (3, "The disk is full: make room.")
    making.go_on(wish)
    jobs.work_off()
    assert Film.objects.filter(render=wish).exists()


def _full_disk(*args, **kwargs):
    raise FilmError("The disk is full: make room.")


def test_a_render_whose_worker_was_killed_three_times_ends_with_a_sentence(garment, album, odalys):
    garment()
    wish = making.ask_for_film(album(), odalys)
    for _ in range(3):
        assert making._begun(wish.pk) is not None  # begun, and never heard of again
    making.render_step(wish.pk)
    wish.refresh_from_db()
    assert "broken off three times" in wish.trouble


def test_progress_is_kept_in_parts(garment, album, filmed):
    garment()
    wish = filmed(album())
    assert wish.parts_done == wish.parts_total == len(parts(plan(wish)))
    assert wish.touched_at >= wish.started_at


def test_a_withdrawn_photo_leaves_the_cache(garment, album, filmed, take_back):
    stays, leaves = garment(), garment()
    filmed(album())
    take_back(leaves, FILM)
    assert forget_all_not_allowed() > 0
    shown = {sha256 for path in cached() for sha256 in segmentfile.photos_in(path)}
    assert shown == {master(stays)}


def test_one_photo_can_be_forgotten_by_itself(garment, album, filmed):
    photo = garment()
    filmed(album())
    forget(photo)
    assert all(master(photo) not in segmentfile.photos_in(path) for path in cached())


def test_an_erased_photo_leaves_the_cache_and_what_is_allowed_stays(garment, album, filmed):
    stays, erased = garment(), garment()
    filmed(album())
    Film.objects.all().delete()
    Verdict.objects.filter(photo=erased).delete()
    erased.delete()
    forget_all_not_allowed()
    shown = {sha256 for path in cached() for sha256 in segmentfile.photos_in(path)}
    assert shown == {master(stays)}


def test_a_step_of_a_cancelled_render_makes_nothing(garment, album, odalys):
    garment()
    wish = making.ask_for_film(album(), odalys)
    making.cancel(wish)
    making.render_step(wish.pk)
    assert cached() == []


def test_an_erased_photo_is_struck_out_of_every_film(garment, album, filmed):
    stays, erased = garment("Wrenna Quist"), garment("Ilka Vandermoot")
    film = filmed(album()).film
    assert strike([erased.public_id]) == 1
    assert not films().holds(film.sha256)
    told = [(item.photo, item.credit) for item in film.items.all()]
    assert told == [(stays, "Wrenna Quist"), (erased, "")]
    assert "Ilka Vandermoot" not in Render.objects.get().plan
    assert all(master(erased) not in segmentfile.photos_in(path) for path in cached())


def test_striking_a_photo_leaves_the_files_of_other_films(garment, album, filmed):
    erased = garment()
    older = filmed(album()).film
    Verdict.objects.create(
        contribution=erased.contribution,
        photo=erased,
        decision="decline",
        by=older.render.requested_by,
    )
    garment()
    newer = filmed(album()).film
    strike([erased.public_id])
    assert [films().holds(film.sha256) for film in (older, newer)] == [False, True]
    assert films().holds(newer.poster_sha256)
