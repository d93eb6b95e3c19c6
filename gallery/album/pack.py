"""Everything a video editor needs beside the film, in one file."""

import contextlib
import hashlib
import json
import shutil
import tempfile
import zipfile
from pathlib import Path
from typing import IO

from django.conf import settings
from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop

from gallery.album.asking import as_allowed
from gallery.album.film import captions, planfile
from gallery.album.film.plan import FilmPlan
from gallery.album.models import Film
from gallery.album.publish import films
from gallery.speaking import the_sites

CHUNK = 1024 * 1024

WHAT_IS_WHAT = gettext_noop(
    "film.mp4      the film, %(width)s x %(height)s, H.264\n"
    "poster.jpg    a picture to stand for it\n"
    "captions.vtt  the words of every slide (WebVTT)\n"
    "chapters.vtt  a chapter for every slide (WebVTT)\n"
    "chapters.txt  the chapters with time codes, for the description of the video\n"
    "credits.txt   the names that may be named, exactly as they may be written; no others\n"
    "account.txt   the film in words, for those who cannot see it\n"
    "manifest.json the SHA-256 of each file\n"
    "\n"
    "Permissions can be taken back. Before you publish this film again, look on the desk "
    "whether it is still open.\n"
)


class PackClosedError(Exception):
    """The film holds something that may no longer be shown."""


def plan_behind(film: Film) -> FilmPlan:
    """The plan the film was made from."""
    return planfile.from_text(film.render.plan)


def open_plan(film: Film) -> FilmPlan:
    """The plan the film was made from; raises PackClosedError where the film is closed."""
    plan = plan_behind(film)
    if as_allowed(plan) != plan:
        raise PackClosedError
    return plan


def is_open(film: Film) -> bool:
    """Whether everything in the film is still allowed at this moment."""
    plan = plan_behind(film)
    return as_allowed(plan) == plan


def papers(plan: FilmPlan) -> dict[str, str]:
    """The texts of the pack by file name."""
    names = captions.credits(plan)
    return {
        "captions.vtt": captions.captions_vtt(plan),
        "chapters.vtt": captions.chapters_vtt(plan),
        "chapters.txt": captions.chapters_text(plan),
        "credits.txt": "".join(f"{name}\n" for name in names),
        "account.txt": captions.account(plan),
        "READ ME FIRST.txt": _what_is_what(plan),
    }


def _what_is_what(plan: FilmPlan) -> str:
    with the_sites():
        return _(WHAT_IS_WHAT) % {"width": plan.width, "height": plan.height} + _licence(plan)


def _licence(plan: FilmPlan) -> str:
    said = _("Music: %(words)s") % {"words": plan.music.licence_note} if plan.music else ""
    return f"{said}\n"


def write_pack(film: Film) -> IO[bytes]:
    """The pack as an open temporary file, at its beginning.

    Raises PackClosedError where a permission was taken back since the film was made. The pack of a
    film is the same to the byte every time; its check sum is kept with the film.
    """
    pack = _written(film, open_plan(film))
    _keep_sum(film, pack)
    return pack


def pack_sha256(film: Film) -> str:
    """The check sum of a film's pack, open or closed; empty where none was kept before its files
    were gone."""
    if not film.pack_sha256:
        with contextlib.suppress(FileNotFoundError), _written(film, plan_behind(film)) as pack:
            _keep_sum(film, pack)
    return film.pack_sha256


def _keep_sum(film: Film, pack: IO[bytes]) -> None:
    """Keep the check sum of the pack as written now; leave it at its beginning."""
    sha256 = hashlib.sha256()
    while piece := pack.read(CHUNK):
        sha256.update(piece)
    pack.seek(0)
    if film.pack_sha256 != sha256.hexdigest():  # new words of the READ ME make a new pack
        film.pack_sha256 = sha256.hexdigest()
        Film.objects.filter(pk=film.pk).update(pack_sha256=film.pack_sha256)


def _written(film: Film, plan: FilmPlan) -> IO[bytes]:
    texts = {name: text.encode() for name, text in papers(plan).items()}
    files = {
        "film.mp4": films().path(film.sha256),
        "poster.jpg": films().path(film.poster_sha256),
    }
    hashes = {name: _hash_of(path) for name, path in files.items()}
    hashes |= {name: hashlib.sha256(text).hexdigest() for name, text in texts.items()}
    texts["manifest.json"] = json.dumps(hashes, indent=1, sort_keys=True).encode()
    pack = tempfile.TemporaryFile(dir=settings.FILE_UPLOAD_TEMP_DIR)  # noqa: SIM115 (the answer closes it)
    with zipfile.ZipFile(pack, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, path in files.items():
            with path.open("rb") as file, archive.open(_entry(film, name), "w") as copy:
                shutil.copyfileobj(file, copy, CHUNK)
        for name, text in texts.items():
            archive.writestr(_entry(film, name), text, zipfile.ZIP_DEFLATED)
    pack.seek(0)
    return pack


def _entry(film: Film, name: str) -> zipfile.ZipInfo:
    """A file of the pack, dated as the film is, so that its pack never changes."""
    entry = zipfile.ZipInfo(name, film.published_at.timetuple()[:6])
    entry.external_attr = 0o644 << 16
    return entry


def _hash_of(path: Path) -> str:
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()
