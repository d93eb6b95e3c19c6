"""README and DEVELOPERS tell the truth: commands, settings, the tree, the limits in them."""

import re
from pathlib import Path

import pytest
from django.conf import settings
from django.core.management import get_commands

CHECKOUT = Path(__file__).resolve().parent.parent
README = (CHECKOUT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (CHECKOUT / "DEVELOPERS.md").read_text(encoding="utf-8")
PAPERS = README + DEVELOPERS


def sources() -> str:
    places = [*CHECKOUT.glob("gallery/**/*.py"), *CHECKOUT.glob("tests/**/*.py")]
    places += [CHECKOUT / ".ci" / "run", CHECKOUT / "manage.py"]
    return "\n".join(path.read_text(encoding="utf-8") for path in places)


def test_every_command_the_papers_name_exists() -> None:
    named = set(re.findall(r"manage\.py ([a-z_]+)", PAPERS))
    assert named - set(get_commands()) == set()


def test_every_command_of_our_own_is_named() -> None:
    own = {path.stem for path in CHECKOUT.glob("gallery/management/commands/[a-z]*.py")}
    own |= {
        path.stem for path in CHECKOUT.glob("alterations/records/management/commands/[a-z]*.py")
    }
    named = set(re.findall(r"manage\.py ([a-z_]+)", DEVELOPERS))
    assert own - named == set()


def test_every_setting_of_the_environment_is_explained_and_no_other() -> None:
    used = set(re.findall(r"GALLERY_[A-Z_]+[A-Z]", sources()))
    explained = set(re.findall(r"GALLERY_[A-Z_]+[A-Z]", DEVELOPERS))
    assert explained == used


def test_the_tree_in_developers_is_the_tree() -> None:
    drawing = DEVELOPERS.split("```tree\n")[1].split("```")[0]
    missing = [path for path in paths_in(drawing) if not (CHECKOUT / path).exists()]
    assert missing == []


def test_every_module_of_the_rooms_stands_in_the_tree() -> None:
    drawing = DEVELOPERS.split("```tree\n")[1].split("```")[0]
    drawn = set(paths_in(drawing))
    folders = [CHECKOUT / "alterations", CHECKOUT / "gallery"]
    real = {
        str(path.parent.relative_to(CHECKOUT)) + "/"
        for folder in folders
        for path in folder.rglob("*.py")
        if not {"migrations", "commands", "management", "__pycache__"} & set(path.parts)
    }
    assert real - drawn == set()


def paths_in(drawing: str) -> list[str]:
    """Paths of an indented drawing: two blanks a level, folders end in a slash."""
    way: list[str] = []
    paths = []
    for line in filter(str.strip, drawing.splitlines()):
        level = (len(line) - len(line.lstrip())) // 2
        name = line.split()[0]
        way = [*way[:level], name]
        paths.append("".join(way))
    return paths


@pytest.mark.parametrize("paper", ["README.md", "DEVELOPERS.md"])
def test_every_picture_and_file_linked_is_there(paper: str) -> None:
    text = (CHECKOUT / paper).read_text(encoding="utf-8")
    links = re.findall(r"\]\((?!https?://|#|mailto:)([^)#]+)", text)
    assert [link for link in links if not (CHECKOUT / link).exists()] == []


def test_the_two_commands_open_the_readme_and_ci_calls_the_second() -> None:
    install = "python3 -m venv .venv && .venv/bin/pip install -r requirements.txt && "
    assert f"{install}.venv/bin/python manage.py demo\n" in README
    assert f"{install}.venv/bin/python -m pytest\n" in README
    ci = (CHECKOUT / ".ci" / "run").read_text(encoding="utf-8")
    assert "grep -o 'python3 -m venv .*-m pytest' README.md" in ci


def test_the_limits_named_are_the_limits_kept() -> None:
    mebi = 1024 * 1024
    assert f"{settings.UPLOAD_MAX_PICTURE_BYTES // mebi} MiB a picture" in DEVELOPERS
    assert f"{settings.UPLOAD_MAX_PICTURES} pictures a garment" in DEVELOPERS
    assert f"{settings.UPLOAD_MAX_REQUEST_BYTES // mebi} MiB a request" in DEVELOPERS


def test_every_requirement_is_pinned_and_says_why() -> None:
    lines = (CHECKOUT / "requirements.txt").read_text(encoding="utf-8").splitlines()
    needed = [line for line in lines if line and not line.startswith("#")]
    assert [line for line in needed if not re.match(r"[\w.-]+==[\w.]+ +# \w", line)] == []
