"""Decoding happens in a process of its own: whatever ends it, only that picture is refused."""

import os
import subprocess
import sys
import threading

import pytest
from PIL import Image

from gallery.contributions.photos import safely
from gallery.contributions.photos.errors import CANNOT, LATER
from gallery.contributions.photos.safely import inspect_safely, remake_safely

SIZES = {"small": 400, "medium": 1200, "large": 2000, "film": 2560}


@pytest.fixture
def front(written, scene):
    return written("front.jpg", scene, "JPEG")


def ending(program: str) -> tuple[str, ...]:
    return (sys.executable, "-c", program)


@pytest.mark.skipif(sys.platform == "win32", reason="Windows knows no signals of this kind")
@pytest.mark.parametrize("name", ["SIGKILL", "SIGSEGV", "SIGXCPU"])
def test_a_killed_process_refuses_its_picture_and_the_next_works(
    front, take, refusal, monkeypatch, name
):
    with monkeypatch.context() as patched:
        program = f"import os, signal; os.kill(os.getpid(), signal.{name})"
        patched.setattr(safely, "CHILD", ending(program))
        assert refusal(front).sentence == CANNOT
    assert take(front).inspected.width == 480


@pytest.mark.skipif(sys.platform == "win32", reason="Windows knows no signals of this kind")
@pytest.mark.parametrize("name", ["SIGINT", "SIGTERM", "SIGHUP"])
def test_a_picture_is_not_blamed_when_the_site_is_stopped(front, tmp_path, monkeypatch, name):
    # A signal that was ignored around the tests (nohup does so) would be ignored in the child too.
    program = (
        f"import os, signal; signal.signal(signal.{name}, signal.SIG_DFL); "
        f"os.kill(os.getpid(), signal.{name})"
    )
    monkeypatch.setattr(safely, "CHILD", ending(program))
    with pytest.raises(OSError, match="was stopped"):
        remake_safely(front, tmp_path, SIZES)


def test_a_picture_is_not_blamed_when_its_process_cannot_start(front, tmp_path, monkeypatch):
    monkeypatch.setattr(safely, "CHILD", ending("import no_such_module"))
    with pytest.raises(OSError, match="was stopped"):
        remake_safely(front, tmp_path, SIZES)


def test_who_sends_a_picture_meanwhile_is_asked_to_try_later(front, refusal, monkeypatch):
    monkeypatch.setattr(safely, "CHILD", ("/no/such/program",))
    assert refusal(front).sentence == LATER


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no sessions of this kind")
def test_the_process_does_not_hear_ctrl_c_of_the_terminal(front, refusal, monkeypatch, tmp_path):
    program = f"import os; open({str(tmp_path / 'leader')!r}, 'w').write(str(os.getsid(0)))"
    monkeypatch.setattr(safely, "CHILD", ending(program))
    refusal(front)
    assert int((tmp_path / "leader").read_text()) != os.getsid(0)


def test_the_process_learns_none_of_the_site_s_secrets(front, refusal, monkeypatch, tmp_path):
    monkeypatch.setenv("GALLERY_SECRET_KEY", "knit one")
    program = f"import os; open({str(tmp_path / 'seen')!r}, 'w').write(str(dict(os.environ)))"
    monkeypatch.setattr(safely, "CHILD", ending(program))
    refusal(front)
    assert "PATH" in (tmp_path / "seen").read_text()
    assert "GALLERY" not in (tmp_path / "seen").read_text()


def test_only_so_many_processes_decode_beside_one_another(front, take, monkeypatch):
    taken, run = [], safely._run
    monkeypatch.setattr(safely, "places", threading.BoundedSemaphore(1))

    def watched(request: str) -> subprocess.CompletedProcess[str]:
        taken.append(not safely.places.acquire(blocking=False))
        return run(request)

    monkeypatch.setattr(safely, "_run", watched)
    take(front)
    assert taken == [True]
    assert safely.places.acquire(blocking=False)  # and it is given back


def test_a_process_that_never_answers_is_given_up(front, refusal, monkeypatch):
    monkeypatch.setattr(safely, "CHILD", ending("import threading; threading.Event().wait()"))
    monkeypatch.setattr(safely, "CHILD_WALL_SECONDS", 0.3)
    assert refusal(front).sentence == CANNOT


def test_a_process_that_answers_nonsense_refuses_its_picture(front, refusal, monkeypatch):
    monkeypatch.setattr(safely, "CHILD", ending("print('nonsense')"))
    assert refusal(front).sentence == CANNOT


@pytest.mark.skipif(sys.platform != "linux", reason="limits of memory are Linux's here")
def test_the_process_may_not_take_more_memory_than_it_is_given(front, monkeypatch):
    program = (
        "from gallery.contributions.photos.child import _limit_all, resource; _limit_all();"
        "print(resource.getrlimit(resource.RLIMIT_AS)[0])"
    )
    told = subprocess.run(ending(program), capture_output=True, text=True, check=True)
    assert int(told.stdout) == 1536 * 1024 * 1024


def test_where_nothing_can_be_written_the_picture_is_not_blamed(front, tmp_path):
    with pytest.raises(OSError, match="nowhere"):
        remake_safely(front, tmp_path / "nowhere", SIZES)


def test_the_site_s_own_process_loads_no_decoder():
    program = (
        "import sys, gallery.contributions.photos.safely;"
        "print([name for name in sys.modules if name.startswith(('PIL', 'pillow_heif', 'django'))])"
    )
    told = subprocess.run(
        ending(program), cwd=safely.CHECKOUT, capture_output=True, text=True, check=True
    )
    assert told.stdout == "[]\n"


def test_it_is_found_from_whatever_folder_the_site_was_started(front, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert inspect_safely(front.relative_to(tmp_path), "front.jpg").kind == "jpeg"


def test_all_sizes_are_made_largest_first_and_none_enlarged(written, tmp_path):
    made = remake_safely(
        written("front.jpg", Image.new("RGB", (2400, 1800), "sienna"), "JPEG"), tmp_path, SIZES
    )
    assert [(one.size_name, one.width, one.height) for one in made] == [
        ("film", 2400, 1800),
        ("large", 2000, 1500),
        ("medium", 1200, 900),
        ("small", 400, 300),
    ]
    for one in made:
        with Image.open(one.path, formats=("JPEG",)) as picture:
            assert picture.size == (one.width, one.height)
            assert bool(picture.info.get("progressive")) == (one.size_name != "film")


def test_the_same_picture_gives_the_same_files(front, tmp_path):
    folders = [tmp_path / "one", tmp_path / "other"]
    for folder in folders:
        folder.mkdir()
    one, other = (remake_safely(front, folder, SIZES)[0].path.read_bytes() for folder in folders)
    assert one == other


def test_nothing_is_left_lying_about(front, tmp_path, monkeypatch):
    monkeypatch.setenv("TMPDIR", str(tmp_path))
    before = sorted(tmp_path.iterdir())
    inspect_safely(front, "front.jpg")
    assert sorted(tmp_path.iterdir()) == before
