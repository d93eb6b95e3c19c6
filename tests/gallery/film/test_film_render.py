"""The film as a file: frames counted, parts joined, resumed, cancelled, verified."""

import os
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace

import av
import numpy as np
import pytest

from gallery.album.film import planes, planfile
from gallery.album.film.compose import Cast, draw_frame
from gallery.album.film.errors import Cancelled, FilmError
from gallery.album.film.make import encode_missing
from gallery.album.film.paint import painted
from gallery.album.film.render import finish, render
from gallery.album.film.segments import forget_photo, missing, parts, place
from gallery.album.film.verify import top_boxes, verify

PARTS_OF_FOUR = 9  # four slides with an in and a hold part each, and the fade to dark


def test_a_film_has_exactly_the_planned_frames(plan, cache, tmp_path, decoded):
    film = render(plan, cache, tmp_path / "film.mp4")
    assert film.frames == len(decoded(film.path)) == 69


def test_the_index_stands_before_the_pictures(plan, cache, tmp_path):
    film = render(plan, cache, tmp_path / "film.mp4")
    names = [name for name, _ in top_boxes(film.path)]
    assert names.index(b"moov") < names.index(b"mdat")


def test_a_second_render_makes_no_part(four, cache, tmp_path):
    render(four, cache, tmp_path / "film.mp4")
    steps = []
    again = render(four, cache, tmp_path / "b.mp4", progress=lambda *step: steps.append(step))
    assert steps == [(PARTS_OF_FOUR, PARTS_OF_FOUR)]
    assert again.sha256 == render(four, cache, tmp_path / "film.mp4").sha256


def test_another_caption_makes_three_parts_at_most(four, cache):
    encode_missing(four, cache)
    changed = replace(four.slides[1], caption="Size 2 after all")
    new = replace(four, slides=(four.slides[0], changed, *four.slides[2:]))
    assert [(p.kind, p.index) for p in missing(new, cache)] == [("in", 1), ("hold", 1), ("in", 2)]


def test_a_slide_that_leaves_makes_one_part(four, cache):
    encode_missing(four, cache)
    shorter = replace(four, slides=four.slides[:1] + four.slides[2:])
    assert [(p.kind, p.index) for p in missing(shorter, cache)] == [("in", 1)]


def test_what_is_not_seen_makes_no_part(four, cache):
    encode_missing(four, cache)
    told = replace(four.slides[1], description="A green tunic on a chair.", ref="garment 7")
    assert missing(replace(four, slides=(four.slides[0], told, *four.slides[2:])), cache) == []


def test_a_forgotten_photo_leaves_no_part_behind(four, cache):
    encode_missing(four, cache)
    assert forget_photo(cache, four.slides[1].photo_sha256) == 3
    assert {(p.kind, p.index) for p in missing(four, cache)} == {("in", 1), ("hold", 1), ("in", 2)}


def test_cancelling_leaves_no_file_and_the_next_call_goes_on(four, cache, tmp_path):
    done = []
    with pytest.raises(Cancelled):
        render(
            four,
            cache,
            tmp_path / "film.mp4",
            workers=1,
            progress=lambda made, _: done.append(made),
            should_stop=lambda: bool(done) and done[-1] >= 2,
        )
    assert not list(tmp_path.glob("*.mp4*")) + list(tmp_path.glob(".*"))
    steps = []
    film = render(four, cache, tmp_path / "film.mp4", progress=lambda made, _: steps.append(made))
    assert steps[0] >= 2
    assert verify(film.path, four) == []


def test_a_killed_render_is_taken_up_by_the_next(four, cache, tmp_path):
    (tmp_path / "plan.json").write_text(planfile.to_text(four), encoding="utf-8")
    code = (
        "import pathlib, sys; from gallery.album.film import make, planfile\n"
        "plan = planfile.from_text(pathlib.Path(sys.argv[1]).read_text('utf-8'))\n"
        "make.encode_missing(plan, pathlib.Path(sys.argv[2]), workers=1,"
        " progress=lambda done, total: print(done, flush=True))"
    )
    asked = [sys.executable, "-c", code, str(tmp_path / "plan.json"), str(cache)]
    with subprocess.Popen(asked, stdout=subprocess.PIPE, text=True) as worker:
        for line in worker.stdout:
            if int(line) >= 1:
                worker.kill()
                break
    left = missing(four, cache)
    assert len(left) <= PARTS_OF_FOUR - 1
    assert verify(render(four, cache, tmp_path / "film.mp4").path, four) == []


def test_no_part_is_begun_after_the_time_is_up(four, cache):
    assert encode_missing(four, cache, until=0.0) == PARTS_OF_FOUR
    assert encode_missing(four, cache) == 0


def test_a_part_cut_short_on_the_disk_is_made_again(four, cache):
    encode_missing(four, cache)
    path = place(cache, parts(four)[0].key)
    path.write_bytes(path.read_bytes()[:-1])
    assert [part.key for part in missing(four, cache)] == [parts(four)[0].key]


def test_a_part_with_a_flipped_bit_is_refused_and_removed(four, cache, tmp_path):
    encode_missing(four, cache)
    path = place(cache, parts(four)[0].key)
    data = bytearray(path.read_bytes())
    data[-3] ^= 1
    path.write_bytes(data)
    with pytest.raises(FilmError, match="start the film again"):
        finish(four, cache, tmp_path / "film.mp4")
    assert len(missing(four, cache)) == 1


def test_a_photo_changed_behind_the_plans_back_is_refused(plan, slide, cache):
    other = slide(9).photo.read_bytes()
    plan.slides[1].photo.write_bytes(other)
    with pytest.raises(FilmError, match="not the one"):
        encode_missing(plan, cache)


def test_a_store_that_cannot_be_written_is_told_in_a_sentence(plan, cache):
    cache.write_text("a file where a folder should be", encoding="utf-8")
    with pytest.raises(FilmError, match="disk full"):
        encode_missing(plan, cache)


def test_a_film_stopped_before_publishing_keeps_the_old_one(plan, cache, tmp_path):
    film = render(plan, cache, tmp_path / "film.mp4")

    def withdrawn() -> None:
        raise Cancelled

    with pytest.raises(Cancelled):
        finish(plan, cache, film.path, before_publishing=withdrawn)
    assert [p.name for p in tmp_path.iterdir() if "film" in p.name] == ["film.mp4"]


def test_every_part_begins_with_a_picture_that_stands_alone(four, cache, tmp_path):
    film = render(four, cache, tmp_path / "film.mp4")
    starts = np.cumsum([0, *(part.frames for part in parts(four))])[:-1]
    with av.open(str(film.path)) as container:
        base = container.streams.video[0].time_base
        keys = [p for p in container.demux(video=0) if p.size and nal_types(bytes(p)) & {5}]
        assert [round(p.pts * base * 30) for p in keys] == starts.tolist()


def nal_types(packet: bytes) -> set[int]:
    """The kinds of NAL units in an MP4 sample; 5 is a picture that resets the decoder (IDR)."""
    kinds, at = set(), 0
    while at < len(packet):
        kinds.add(packet[at + 4] & 31)
        at += 4 + int.from_bytes(packet[at : at + 4])
    return kinds


def test_pictures_at_the_joints_are_as_good_as_elsewhere(four, cache, tmp_path, decoded):
    film = render(four, cache, tmp_path / "film.mp4")
    quality = [psnr(a, b) for a, b in zip(decoded(film.path), intended(four), strict=True)]
    starts = np.cumsum([0, *(part.frames for part in parts(four))])[:-1]
    joints = {int(at) + step for at in starts for step in (-1, 0)} - {-1}
    elsewhere = np.median([q for at, q in enumerate(quality) if at not in joints])
    assert min(quality[at] for at in joints) >= elsewhere - 6


def psnr(one, other) -> float:
    """Peak signal-to-noise ratio in decibels, 60 at most (flat dark frames would be endless)."""
    error = np.mean((one.astype(float) - other) ** 2)
    return 60.0 if error < 0.065 else 10 * np.log10(255**2 / error)


def intended(plan):
    for part in parts(plan):
        before = painted(plan, part.before) if part.before else None
        spare, into = (planes.empty(plan.width, plan.height) for _ in range(2))
        cast = Cast(part, painted(plan, part.slide), before, spare)
        for number in range(part.frames):
            draw_frame(cast, number, into)
            yield into.y.copy()


def test_a_truncated_film_fails_its_verification(plan, cache, tmp_path):
    film = render(plan, cache, tmp_path / "film.mp4")
    film.path.write_bytes(film.path.read_bytes()[: film.size * 2 // 3])
    assert verify(film.path, plan)


def test_the_film_of_another_plan_fails_verification_by_its_frames(plan, four, cache, tmp_path):
    film = render(plan, cache, tmp_path / "film.mp4")
    assert "It has 69 frames, not 129." in verify(film.path, four)


def test_an_upright_film_can_be_made(four, cache, tmp_path, decoded):
    upright = replace(four, width=180, height=320)
    film = render(upright, cache, tmp_path / "film.mp4")
    assert decoded(film.path)[0].shape == (320, 180)


def test_a_temporary_file_left_by_a_killed_worker_is_swept(plan, cache, tmp_path):
    left = tmp_path / ".film.mp4.0123.tmp"
    left.write_bytes(b"half a film")
    os.utime(left, (0, 0))
    render(plan, cache, tmp_path / "film.mp4")
    assert not left.exists()


def test_two_renders_of_one_album_at_once_both_end_well(four, cache, tmp_path):
    names = [tmp_path / f"film-{n}.mp4" for n in range(2)]
    with ThreadPoolExecutor(2) as pool:
        films = list(pool.map(lambda name: render(four, cache, name), names))
    assert [film.frames for film in films] == [129, 129]


def test_a_folder_that_is_not_there_is_told_in_a_sentence(plan, cache, tmp_path):
    with pytest.raises(FilmError, match="cannot be written"):
        render(plan, cache, tmp_path / "nowhere" / "film.mp4")


def test_a_problem_is_raised_before_anything_is_made(plan, slide, cache, tmp_path):
    with pytest.raises(FilmError, match="Slide 1"):
        render(replace(plan, slides=(slide(1, caption="x " * 1000),)), cache, tmp_path / "f.mp4")
    assert not cache.exists()
