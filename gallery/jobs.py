"""Work for later: hands a short step to the queue; every step may safely run twice."""

import pydoc
from collections.abc import Callable
from typing import Any

from django.conf import settings
from django.db import transaction
from django_q.models import OrmQ
from django_q.signing import SignedPackage
from django_q.tasks import async_task

MOST_STEPS = 100_000  # a guard against a step that asks for itself for ever


def later(step: Callable[..., Any], *arguments: int | str) -> None:
    """Queue `step(*arguments)`.

    With the database as queue the wish is part of the caller's transaction: both are kept or
    neither. With another queue it is handed over once the transaction is kept.
    """
    name = f"{step.__module__}.{step.__qualname__}"
    if settings.Q_CLUSTER.get("orm"):
        async_task(name, *arguments)
    else:
        transaction.on_commit(lambda: async_task(name, *arguments))


def waiting() -> int:
    """How many steps are queued, as far as the database holds the queue."""
    return OrmQ.objects.count()


def work_off() -> int:
    """Do all queued steps here and now, in order; give how many were done.

    For the commands that prepare a site without a worker, and for tests. An error of a step
    is raised, and the step stays in the queue.
    """
    for done in range(MOST_STEPS):
        waiting = OrmQ.objects.order_by("pk").first()
        if waiting is None:
            return done
        task = SignedPackage.loads(waiting.payload)
        pydoc.locate(task["func"])(*task["args"], **task["kwargs"])  # type: ignore[operator]
        OrmQ.objects.filter(pk=waiting.pk).delete()
    raise RuntimeError("The queue does not get empty: a step asks for itself again and again.")
