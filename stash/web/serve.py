"""The page served on this machine, and in the room if it is shared, until it is stopped."""

from __future__ import annotations

import asyncio
import socket
from collections.abc import Callable
from contextlib import ExitStack, suppress
from functools import partial
from pathlib import Path

import uvicorn
from starlette.types import ASGIApp

from stash.errors import Refusal
from stash.web.later import Later
from stash.web.safety import Guarded
from stash.web.sharing import Sharing

#: This machine alone.
LOOPBACK = "127.0.0.1"
#: An address of documents (RFC 5737): to ask for the way to it sends nothing.
_ELSEWHERE = ("192.0.2.1", 9)
#: How long a page that is being answered may take once it is stopped, in seconds.
_PATIENCE_S = 3


def serve(
    path: Path, port: int, ready: Callable[[str, Sharing | None], None], *, shared: bool = False
) -> None:
    """The page of this file at this port (0: a free one), until Ctrl-C; `shared`: in the room too.

    `ready` hears the address as soon as it answers. Refused where the port is taken, or nobody is
    in reach to share with. Of a file that cannot be opened the page itself says why.
    """
    sharing = None
    room = room_address() if shared else ""
    with ExitStack() as until:
        ears = [until.enter_context(listening(LOOPBACK, port))]
        port = ears[0].getsockname()[1]
        if room:
            ears.append(until.enter_context(listening(room, port)))
            sharing = Sharing((f"{room}:{port}", f"{local_name()}:{port}"))
        hosts = [f"{name}:{port}" for name in (LOOPBACK, "localhost")]
        page = Later(partial(_page, path, sharing))
        app = Guarded(page, hosts, sharing)
        config = uvicorn.Config(
            app,
            log_level="warning",
            access_log=False,
            lifespan="off",
            ws="none",
            proxy_headers=False,  # nobody may say for another who asks
            server_header=False,
            timeout_graceful_shutdown=_PATIENCE_S,
        )

        def up() -> None:
            ready(f"http://{LOOPBACK}:{port}/", sharing)
            page.begin()

        server = _Server(config, up)
        with suppress(KeyboardInterrupt, asyncio.CancelledError):
            server.run(sockets=ears)


def _page(path: Path, sharing: Sharing | None) -> ASGIApp:
    from stash.web.app import application
    from stash.web.workshop import Workshop

    return application(Workshop(path, sharing))


def room_address() -> str:
    """The address this computer has in its network: of the interface that leads out of it."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as ear:
        try:
            ear.connect(_ELSEWHERE)
            address = str(ear.getsockname()[0])
        except OSError:
            raise Refusal("no_room_to_share") from None
    if address.startswith("127.") or address == "0.0.0.0":
        raise Refusal("no_room_to_share")
    return address


def local_name() -> str:
    """The name by which other machines of its network find this one, where they look for names."""
    return f"{socket.gethostname().partition('.')[0].lower()}.local"


def listening(address: str, port: int) -> socket.socket:
    """A socket at this address of the machine, and no other. Refused where it cannot be had."""
    ear = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    ear.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        ear.bind((address, port))
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
