"""`manage.py load_pattern FILE`: takes a pattern file in, or names every mistake by its place."""

from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError
from django.db import DatabaseError

from alterations.errors import PatternFileError
from alterations.records.load import load_pattern, read_text


class Command(BaseCommand):
    """Load a base pattern's numbers from its text file."""

    help = "Load a base pattern's numbers from its text file (TOML)."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("file", type=Path, help="the pattern file")

    def handle(self, *args: Any, **options: Any) -> None:
        path: Path = options["file"]
        try:
            version = load_pattern(read_text(path.read_bytes()))
        except OSError as error:
            raise CommandError(f"{path} cannot be read: {error.strerror}.") from error
        except DatabaseError as error:
            raise CommandError("The database is not set up. Run: manage.py migrate") from error
        except PatternFileError as error:
            places = "\n".join(f"  {problem}" for problem in error.problems)
            raise CommandError(f"{path} was not loaded:\n{places}") from error
        self.stdout.write(f"Loaded {version}.")
