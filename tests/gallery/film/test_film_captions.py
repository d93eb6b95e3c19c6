"""What stands beside the film, read by a WebVTT reader that is not ours."""

import io
from dataclasses import replace

import pytest
import webvtt

from gallery.album.film.captions import (
    account,
    captions_vtt,
    chapters_text,
    chapters_vtt,
    credits,
    escaped,
    faults_in_vtt,
    isolated,
)

FSI, PDI, RLO, PDF = "\u2068", "\u2069", "\u202e", "\u202c"


def read(text: str) -> list[webvtt.Caption]:
    return list(webvtt.from_buffer(io.StringIO(text)))


def test_captions_are_read_with_their_times(plan):
    # The photo begins to come in at frame 30, its words half a fade (4 frames) later.
    cues = read(captions_vtt(plan))
    assert [(cue.start, cue.end) for cue in cues] == [
        ("00:00:00.133", "00:00:01.133"),
        ("00:00:01.133", "00:00:02.133"),
    ]


def test_a_caption_holds_the_words_and_the_permitted_name(plan):
    lines = read(captions_vtt(plan))[1].lines
    assert [line.strip(FSI + PDI) for line in lines] == ["Size 1", f"Made by {FSI}Wrenna Quist"]


def test_chapters_cover_the_film_without_a_gap(four):
    cues = read(chapters_vtt(four))
    assert [c.start for c in cues[1:]] == [c.end for c in cues[:-1]]
    assert cues[-1].end == "00:00:04.300"  # 129 frames at 30 a second


def test_hostile_words_stay_words(plan, slide):
    words = "a --> b & <c>\n\n00:00.000 --> 00:09.000\r\nNOTE"
    cues = read(captions_vtt(replace(plan, slides=(slide(1, caption=words),))))
    assert len(cues) == 1
    assert cues[0].lines[0] == f"{FSI}{escaped(words)}{PDI}"


def test_markup_signs_are_escaped_and_lines_are_joined():
    assert escaped("a & b\n<i> -->\x07") == "a &amp; b &lt;i&gt; --&gt;"


@pytest.mark.parametrize(
    ("text", "kept"),
    [
        ("Wrenna", f"{FSI}Wrenna{PDI}"),
        (f"a{RLO}b", f"{FSI}a{RLO}b{PDF}{PDI}"),
        (f"a{PDI}b{PDF}", f"{FSI}ab{PDI}"),
        (f"{FSI}a{PDI}", f"{FSI}{FSI}a{PDI}{PDI}"),
    ],
)
def test_the_direction_of_a_name_cannot_leave_it(text, kept):
    assert isolated(text) == kept


def test_credits_are_the_permitted_names_each_once(plan, slide):
    shown = [slide(1, credit="Ødvar Łęczyń"), slide(2), slide(3, credit="Ødvar Łęczyń")]
    assert credits(replace(plan, slides=(*plan.slides, *shown))) == ("Wrenna Quist", "Ødvar Łęczyń")


def test_a_slide_without_permission_for_the_name_has_neutral_words(plan, slide):
    text = captions_vtt(replace(plan, slides=(slide(1, credit=""),)))
    assert "Made by a knitter of this series" in text


def test_the_chapter_block_begins_at_zero(four):
    first, *_, last = chapters_text(four).splitlines()
    assert first == f"0:00 {FSI}Ostrimane Tunic{PDI}"
    assert last.startswith("0:03 ")


def test_the_account_tells_what_each_photo_shows(plan, slide):
    told = slide(1, description="A green tunic lies on a wooden chair.")
    assert "A green tunic lies on a wooden chair." in account(replace(plan, slides=(told,)))


def test_our_own_check_finds_a_cue_that_ends_before_it_begins():
    assert faults_in_vtt("WEBVTT\n\n1\n00:00:02.000 --> 00:00:01.000\nwords\n")


def test_our_own_check_accepts_what_we_write(four):
    assert faults_in_vtt(captions_vtt(four)) == faults_in_vtt(chapters_vtt(four)) == []
