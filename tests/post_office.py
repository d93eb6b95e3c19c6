"""A real mail server for the tests: keeps what it is handed."""

import socket
from collections.abc import Iterator
from typing import Any

import pytest
from aiosmtpd.controller import Controller


class Kept:
    """Keeps what it is handed."""

    def __init__(self) -> None:
        self.arrived: list[Any] = []

    async def handle_DATA(self, server: Any, session: Any, envelope: Any) -> str:  # noqa: N802
        self.arrived.append(envelope)
        return "250 kept"


@pytest.fixture
def post_office(settings: Any) -> Iterator[Kept]:
    kept = Kept()
    controller = Controller(kept, hostname="127.0.0.1", port=0)
    controller.port = free_port()
    controller.start()
    settings.EMAIL_BACKEND = "django.core.mail.backends.smtp.EmailBackend"
    settings.EMAIL_HOST, settings.EMAIL_PORT = "127.0.0.1", controller.port
    settings.EMAIL_USE_TLS = settings.EMAIL_USE_SSL = False
    settings.EMAIL_HOST_USER = settings.EMAIL_HOST_PASSWORD = ""
    yield kept
    controller.stop()


def free_port() -> int:
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        return int(free.getsockname()[1])
