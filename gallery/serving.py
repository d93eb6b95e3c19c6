"""Web server and worker together until told to stop; a worker that dies is started again."""

import os
import signal
import subprocess
import sys
import threading
from types import FrameType, TracebackType

import waitress
import waitress.server
from django.conf import settings
from django.core.wsgi import get_wsgi_application

PATIENCE = 40  # seconds a worker gets to end the step at hand
PAUSE = 2  # seconds between two looks at the worker


class Worker:
    """The job worker as a process of its own, kept running while the site is served."""

    def __init__(self) -> None:
        self._stopping = threading.Event()
        self._process = self._start()
        self._watch = threading.Thread(target=self._keep_running, daemon=True)

    def __enter__(self) -> "Worker":
        self._watch.start()
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self._stopping.set()
        self._watch.join()
        self._process.terminate()
        try:
            self._process.wait(PATIENCE)
        except subprocess.TimeoutExpired:
            self._end_at_once()

    def _start(self) -> subprocess.Popen[bytes]:
        # A session of its own: Ctrl-C reaches us alone, and we let the worker end its step.
        return subprocess.Popen(  # noqa: S603 (our own program with our own arguments)
            [sys.executable, str(settings.CHECKOUT / "manage.py"), "qcluster"],
            start_new_session=True,
            env={**os.environ, "GALLERY_BASE_URL": settings.BASE_URL},
        )

    def _keep_running(self) -> None:
        while not self._stopping.wait(PAUSE):
            if self._process.poll() is not None:
                self._process = self._start()

    def _end_at_once(self) -> None:
        if hasattr(os, "killpg"):
            os.killpg(self._process.pid, signal.SIGKILL)
        else:
            self._process.kill()


def _leave(number: int, frame: FrameType | None) -> None:
    raise SystemExit(0)


def web_server(host: str, port: int) -> waitress.server.BaseWSGIServer:
    """The web server, bound to its port; its `run` returns on Ctrl-C or SIGTERM.

    Raises OSError for a taken port.
    """
    signal.signal(signal.SIGTERM, _leave)
    return waitress.create_server(
        get_wsgi_application(),  # made only now: it looks once which static files there are
        host=host,
        port=port,
        threads=8,
        # A browser keeps up to six open; at the limit of a hundred, the seventeenth would hang.
        connection_limit=1000,
        # A little above our own limit, so that the page with words answers before this one.
        max_request_body_size=settings.UPLOAD_MAX_REQUEST_BYTES + 16 * 1024 * 1024,
        ident="",
        **_behind_a_proxy(),
    )


def _behind_a_proxy() -> dict[str, str | int | bool | set[str]]:
    """Believe the proxy, and nobody else, about who is asking and over which scheme."""
    if not settings.PROXY:
        return {}
    return {
        "trusted_proxy": settings.PROXY,
        "trusted_proxy_count": 1,
        "trusted_proxy_headers": {"x-forwarded-for", "x-forwarded-proto"},
        "clear_untrusted_proxy_headers": True,
    }
