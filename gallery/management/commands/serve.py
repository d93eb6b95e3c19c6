"""`manage.py serve`: the site and its worker together, until Ctrl-C."""

from argparse import ArgumentParser
from typing import Any

from django.core.management import call_command
from django.core.management.base import BaseCommand, CommandError

from gallery.serving import serve


class Command(BaseCommand):
    """Serve the site and work its jobs on this one machine."""

    help = "Serve the site and work its jobs until Ctrl-C."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--host", default="127.0.0.1", help="address to listen at")
        parser.add_argument("--port", type=int, default=8000, help="port to listen at")

    def handle(self, *args: Any, **options: Any) -> None:
        call_command("collectstatic", interactive=False, verbosity=0)
        self.stdout.write(
            f"Serving at http://{options['host']}:{options['port']}/ (Ctrl-C ends it)"
        )
        try:
            serve(options["host"], options["port"])
        except OSError as error:
            raise CommandError(
                f"Port {options['port']} cannot be used ({error.strerror}). "
                "Choose another one: --port 8080"
            ) from error
        self.stdout.write("Stopped.")
