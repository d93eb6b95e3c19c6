"""Which garments have arrived: sent, and not held back as a machine's; a question for a query."""

from django.db.models import Q


def arrived(before: str = "") -> Q:
    """The condition on garments; `before` is the way to them: "contribution__"."""
    is_sent = Q(**{f"{before}sent_at__isnull": False})
    not_held = Q(**{f"{before}held_because": ""})
    return is_sent & (not_held | Q(**{f"{before}released_at__isnull": False}))


def held(before: str = "") -> Q:
    """The garments that wait for somebody to say that a person sent them."""
    is_held = Q(**{f"{before}sent_at__isnull": False, f"{before}released_at__isnull": True})
    return is_held & ~Q(**{f"{before}held_because": ""})
