"""Commands that need the database as it should be say so in words."""

from typing import Any

from django.core.management.base import BaseCommand, CommandError
from django.db import DEFAULT_DB_ALIAS, connections
from django.db.migrations.executor import MigrationExecutor


class ReadyCommand(BaseCommand):
    """A command for a database that is set up."""

    def execute(self, *args: Any, **options: Any) -> str | None:
        executor = MigrationExecutor(connections[DEFAULT_DB_ALIAS])
        if executor.migration_plan(executor.loader.graph.leaf_nodes()):
            raise CommandError("The database is not set up yet. Run first: manage.py migrate")
        return super().execute(*args, **options)
