"""The benchmarks run and give their figures as data; how fast this machine is, no test asks."""

import json
import shutil

import pytest

from tests.benchmarks import pictures
from tests.benchmarks.__main__ import main

TINY = ["--repeats", "1", "--garments", "3"]


def test_the_benchmarks_give_a_figure_for_everything_promised() -> None:
    names = " ".join(figure.name for figure in main(TINY))
    promised = ("yardstick", "tunic, size 8", "largest, size 40", "statistics", "worksheet", "file")
    assert [word for word in promised if word not in names] == []


def test_each_figure_is_a_time_and_its_ratio_to_the_yardstick() -> None:
    ruler, *others = main(TINY)
    assert ruler.ratio == 1
    assert all(one.ratio == pytest.approx(one.min_ms / ruler.min_ms) for one in others)


def test_the_figures_can_be_had_as_json(capsys: pytest.CaptureFixture[str]) -> None:
    figures = main([*TINY, "--json"])
    told = json.loads(capsys.readouterr().out)
    assert [one["name"] for one in told] == [figure.name for figure in figures]


def test_the_sizes_of_a_photo_are_measured_beside_another_program(
    capsys: pytest.CaptureFixture[str],
) -> None:
    if shutil.which(pictures.YARDSTICK) is None:
        with pytest.raises(SystemExit):
            pictures.main(["--repeats", "1", "--largest", "12"])
        assert "libvips-tools" in capsys.readouterr().err
        return
    found = pictures.main(["--repeats", "1", "--largest", "12", "--json"])
    told = json.loads(capsys.readouterr().out)
    assert [one.kind for one in found] == ["JPEG", "WEBP"]
    assert all(one["ratio"] == one["ours_ms"] / one["theirs_ms"] for one in told["sizes"])
    assert told["process"][0]["peak_mb"] > 1
