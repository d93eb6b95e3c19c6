"""`manage.py demo`: an empty site filled, its film made, then served until Ctrl-C."""

import tempfile
import time
from argparse import ArgumentParser
from collections.abc import Sequence
from contextlib import ExitStack
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management import call_command
from django.core.management.base import BaseCommand, CommandError
from django.urls import reverse
from django.utils import timezone
from tqdm import tqdm

from alterations.records.store import pattern_of
from gallery.album.making import ask_for_film
from gallery.album.models import Album, Film, Render
from gallery.album.publish import films
from gallery.contributions.models import Contribution, Photo
from gallery.demo import fill, shots
from gallery.demo.people import KNITTED, Knitted
from gallery.management.ports import port
from gallery.serving import Worker, web_server

LOOK_EVERY = 0.5  # seconds
PATIENCE = 15 * 60  # seconds without any progress


class Command(BaseCommand):
    """Fill an empty site with the demo scenario, make its film, and serve it."""

    help = "Fill an empty site with the demo scenario, make its film, and serve it until Ctrl-C."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--no-serve", action="store_true", help="prepare and render, then end")
        parser.add_argument("--garments", type=int, default=len(KNITTED), help="how many garments")
        parser.add_argument("--port", type=port, default=8000, help="port to serve at")

    def handle(self, *args: Any, **options: Any) -> None:
        knitted = _chosen(options["garments"])
        call_command("migrate", verbosity=0, interactive=False)
        _refuse_foreign()
        # The worker's letters and our links carry the address this demo is really served at.
        settings.BASE_URL = f"http://127.0.0.1:{options['port']}"
        try:
            self._run(knitted, options)
        except KeyboardInterrupt:
            self.stdout.write("\nStopped. Start it again and it goes on where it was.")
        else:
            self.stdout.write("Stopped.")

    def _run(self, knitted: Sequence[Knitted], options: dict[str, Any]) -> None:
        with ExitStack() as house:
            call_command("collectstatic", verbosity=0, interactive=False)
            server = None if options["no_serve"] else _bound(options["port"])
            house.enter_context(Worker())
            stage = fill.set_the_stage(timezone.localdate())
            self._fill(stage, knitted)
            film = self._film(stage)
            self._tell(stage, film)
            if server is not None:
                self.stdout.write("Serving; Ctrl-C ends it.")
                server.run()

    def _fill(self, stage: fill.Stage, knitted: Sequence[Knitted]) -> None:
        todo = [index for index in range(len(knitted)) if not fill.is_there(index)]
        with tempfile.TemporaryDirectory(dir=settings.FILE_UPLOAD_TEMP_DIR) as folder:
            pattern = pattern_of(stage.series.pattern_version)
            pictures = shots.wanted(pattern, knitted, Path(folder))
            pictures = [one for one in pictures if one.garment in todo]
            drawn = list(self._bar(shots.photographs(pictures), len(pictures), "Drawing photos"))
            sent = []
            for index in self._bar(todo, len(todo), "Sending garments"):
                mine = [one for one in drawn if one.garment == index]
                sent.append(fill.send(stage, index, knitted[index], mine))
        fill.spread_arrivals(sent)
        self._wait_for_sizes()
        for index, one in enumerate(knitted):
            fill.judge(stage, index, one)

    def _wait_for_sizes(self) -> None:
        waiting = Photo.objects.filter(safe_at__isnull=True, trouble="")
        waiting = waiting.filter(
            contribution__in=Contribution.objects.filter(sent_at__isnull=False)
        )
        total = waiting.count()
        _follow(self._bar(None, total, "Making safe sizes"), lambda: total - waiting.count(), total)

    def _film(self, stage: fill.Stage) -> Film:
        album = fill.album_of(stage)
        wish = _last_good(album) or ask_for_film(album, stage.teacher)
        total = wish.parts_total or 1
        bar = self._bar(None, total, "Making the film")
        _follow(bar, lambda: _parts(wish), total)
        return _finished(wish)

    def _bar(self, things: Any, total: int, words: str) -> Any:
        return tqdm(things, total=total, desc=f"{words:<18}", unit="", disable=total == 0)

    def _tell(self, stage: fill.Stage, film: Film) -> None:
        base = settings.BASE_URL
        garment = Contribution.objects.filter(sent_at__isnull=False).first()
        pages = [
            ("The site", reverse("front")),
            ("The call for garments", reverse("call", args=[stage.series.slug])),
            ("The page of pictures", reverse("garments", args=[stage.series.slug])),
            ("The teacher's desk", reverse("desk")),
            ("The film", reverse("film", args=[_name_of(film)])),
        ]
        self.stdout.write("")
        self.stdout.write(f"Film     {films().path(film.sha256)}")
        self.stdout.write(f"         {film.frames} frames, {film.seconds} s, {film.bytes} bytes")
        self.stdout.write(f"Teacher  name {fill.TEACHER}   password {stage.password}")
        if garment is not None:
            for words, path in pages:
                self.stdout.write(f"{words:<22} {base}{path}")
        self.stdout.write("")


def _chosen(number: int) -> Sequence[Knitted]:
    if not 1 <= number <= len(KNITTED):
        raise CommandError(f"Choose between 1 and {len(KNITTED)} garments.")
    return KNITTED[:number]


def _refuse_foreign() -> None:
    foreign = fill.is_foreign()
    if foreign:
        raise CommandError(
            f"This site holds {foreign} of its own, so the demo does not touch it. Start the "
            "site as it is with: manage.py serve. Or give the demo an empty folder: "
            "GALLERY_DATA_DIR=/some/empty/folder"
        )


def _bound(port: int) -> Any:
    try:
        return web_server("127.0.0.1", port)
    except OSError as error:
        raise CommandError(
            f"Port {port} cannot be used ({error.strerror}). Choose another one: --port 8080"
        ) from error


def _follow(bar: Any, count: Any, total: int) -> None:
    """Move the bar until all is done; give up where nothing happens any more."""
    last, since = -1, time.monotonic()
    with bar:
        while last < total:
            now = count()
            if now != last:
                bar.update(now - max(last, 0))
                last, since = now, time.monotonic()
            elif time.monotonic() - since > PATIENCE:
                raise CommandError("The worker does not get on; look at its messages above.")
            if last < total:
                time.sleep(LOOK_EVERY)


def _last_good(album: Album) -> Render | None:
    return album.renders.filter(film__isnull=False).first()


def _parts(wish: Render) -> int:
    """Parts made; the last one counts when the film is published."""
    now = Render.objects.select_related("film").get(pk=wish.pk)
    if now.failed_at:
        raise CommandError(f"The film could not be made: {now.trouble}")
    if hasattr(now, "film"):
        return wish.parts_total or 1
    return min(now.parts_done, (wish.parts_total or 1) - 1)


def _finished(wish: Render) -> Film:
    return Film.objects.select_related("render").get(render=wish)


def _name_of(film: Film) -> str:
    return film.render.public_id
