"""The page served on this machine until it is stopped."""

from __future__ import annotations

import asyncio
import socket
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

import uvicorn

from stash.errors import Refusal
from stash.web.app import application
from stash.web.safety import Guarded
from stash.web.workshop import Workshop

#: This machine alone.
LOOPBACK = "127.0.0.1"
#: How long a page that is being answered may take once it is stopped, in seconds.
_PATIENCE_S = 3


def serve(path: Path, port: int, ready: Callable[[str], None]) -> None:
    """The page of this file at this port (0: a free one), until Ctrl-C.

    `ready` hears the address as soon as it answers. Refused where the port is taken; a file that
    cannot be opened is said before anything is served.
    """
    workshop = Workshop(path)
    if workshop.begun():
        workshop.book()
    with _listening(port) as ear:
        port = ear.getsockname()[1]
        hosts = [f"{name}:{port}" for name in (LOOPBACK, "localhost")]
        app = Guarded(application(workshop), hosts)
        config = uvicorn.Config(
            app,
            log_level="warning",
            access_log=False,
            lifespan="off",
            ws="none",
            server_header=False,
            timeout_graceful_shutdown=_PATIENCE_S,
        )
        server = _Server(config, lambda: ready(f"http://{LOOPBACK}:{port}/"))
        with suppress(KeyboardInterrupt, asyncio.CancelledError):
            server.run(sockets=[ear])


def _listening(port: int) -> socket.socket:
    ear = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    ear.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        ear.bind((LOOPBACK, port))
    except OverflowError:
        ear.close()
        raise Refusal("no_such_port", port=port) from None
    except OSError as trouble:
        ear.close()
        raise Refusal("port_taken", port=port, why=trouble.strerror or str(trouble)) from None
    return ear


class _Server(uvicorn.Server):
    """A server that says when it answers."""

    def __init__(self, config: uvicorn.Config, ready: Callable[[], None]) -> None:
        super().__init__(config)
        self._ready = ready

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        await super().startup(sockets)
        if self.started:
            self._ready()
