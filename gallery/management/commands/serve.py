"""`manage.py serve`: the site and its worker together, until Ctrl-C."""

from argparse import ArgumentParser
from typing import Any

from django.core.management import call_command
from django.core.management.base import CommandError

from gallery.management.ports import port
from gallery.management.ready import ReadyCommand
from gallery.serving import Worker, web_server


class Command(ReadyCommand):
    """Serve the site and work its jobs on this one machine."""

    help = "Serve the site and work its jobs until Ctrl-C."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--host", default="127.0.0.1", help="address to listen at")
        parser.add_argument("--port", type=port, default=8000, help="port to listen at")

    def handle(self, *args: Any, **options: Any) -> None:
        call_command("collectstatic", interactive=False, verbosity=0)
        host, number = options["host"], options["port"]
        try:
            server = web_server(host, number)
        except OSError as error:
            raise CommandError(
                f"Port {number} cannot be used ({error.strerror}). Choose another one: --port 8080"
            ) from error
        self.stdout.write(f"Serving at http://{host}:{number}/ (Ctrl-C ends it)")
        with Worker():
            server.run()
        self.stdout.write("Stopped.")
