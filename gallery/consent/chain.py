"""A chain of rows: each holds a hash over what it says and over the hash of the row before it."""

import hashlib
import json
from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any, Protocol

from django.db import connection

GENESIS = "0" * 64
_LEDGER_LOCK = 7_233_001  # any constant: names the ledger among PostgreSQL's advisory locks


class Link(Protocol):
    """A row of a chain."""

    seq: int
    prev_hash: str
    hash: str


def sealed(said: Mapping[str, Any]) -> str:
    """SHA-256 over everything a row says, in a form that is always written the same."""
    return hashlib.sha256(json.dumps(said, sort_keys=True).encode()).hexdigest()


def take_turn() -> None:
    """Let one writer at a time extend a chain (SQLite's write lock does so by itself)."""
    if connection.vendor == "postgresql":
        with connection.cursor() as cursor:
            cursor.execute("SELECT pg_advisory_xact_lock(%s)", [_LEDGER_LOCK])


def after(last: Link | None) -> tuple[int, str]:
    """Number of the next row and the hash it follows."""
    return (last.seq + 1, last.hash) if last else (1, GENESIS)


def broken_links(
    rows: Iterable[Any], said_by: Callable[[Any], Mapping[str, Any]]
) -> Iterator[tuple[int, str]]:
    """Number and fault of each row that is not what was written; rows come in their order."""
    before, expected = GENESIS, 1
    for row in rows:
        if row.seq != expected:
            yield row.seq, f"entry {expected} is missing"
        if row.prev_hash != before:
            yield row.seq, "it does not follow the entry before it"
        if sealed(said_by(row)) != row.hash:
            yield row.seq, "its own words were changed"
        before, expected = row.hash, row.seq + 1


def missing_guards(*tables: str) -> list[str]:
    """Guards of these tables that the database no longer has.

    A later change of a table can drop them unseen on SQLite, which rebuilds it.
    """
    guards = {
        "sqlite": ("no_update", "no_delete", "no_replace"),
        "postgresql": ("append_only",),
    }[connection.vendor]
    asked = {
        "sqlite": "SELECT name FROM sqlite_master WHERE type = 'trigger'",
        "postgresql": "SELECT tgname FROM pg_trigger",
    }[connection.vendor]
    with connection.cursor() as cursor:
        cursor.execute(asked)
        there = {name for (name,) in cursor.fetchall()}
    wanted = [f"{table}_{guard}" for table in tables for guard in guards]
    return [name for name in wanted if name not in there]
