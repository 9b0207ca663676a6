"""A page that is shared: this computer, and phones in the room that are paired with it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from pages import HOST, Browser
from starlette.testclient import TestClient

from stash.web.app import application
from stash.web.safety import Guarded
from stash.web.sharing import Sharing
from stash.web.workshop import Workshop

#: As the address reads in the room; RFC 5737 keeps these numbers for documents.
IN_THE_ROOM = "192.0.2.14:8000"
NAMED = "desk.local:8000"


@dataclass(slots=True)
class Hands:
    """A clock whose hands a test moves."""

    at: datetime = field(default_factory=lambda: datetime.now(UTC))

    def __call__(self) -> datetime:
        return self.at

    def go_on(self, **by: float) -> None:
        self.at += timedelta(**by)


@dataclass(slots=True)
class Room:
    """The page of one file, shared; `desk` is this computer."""

    file: Path
    clock: Hands
    sharing: Sharing
    _app: Any
    _until: ExitStack
    _desk: Browser | None = None

    def client(self, host: str, address: str) -> TestClient:
        """Whoever asks for the page by this name from this address."""
        client = TestClient(self._app, base_url=f"http://{host}", client=(address, 50_000))
        return self._until.enter_context(client)

    @property
    def desk(self) -> Browser:
        self._desk = self._desk or Browser(self.file, self.client(HOST, "127.0.0.1"))
        return self._desk

    def stranger(self, host: str = IN_THE_ROOM, address: str = "192.0.2.30") -> Browser:
        """Somebody in the room who is not paired."""
        return Browser(self.file, self.client(host, address), f"http://{host}")

    def code(self) -> str:
        """The code as this computer shows it."""
        found = re.search(r'class="code">(\d{3} \d{3})<', self.desk.opens("/share").source)
        assert found
        return found[1]

    def phone(self, name: str, *, may: str = "change", host: str = IN_THE_ROOM) -> Browser:
        """A phone paired by hand: the code read here and typed there."""
        shown = self.desk.opens("/share")
        self.desk.presses(shown.form("/share/code"), may=may)
        phone = self.stranger(host)
        came = phone.presses(phone.opens("/").form("/pair"), code=self.code(), name=name)
        assert came.status == 200, came.text
        return phone


@contextmanager
def a_room(file: Path) -> Iterator[Room]:
    """The page of this file shared in a room."""
    clock = Hands()
    sharing = Sharing((IN_THE_ROOM, NAMED), clock)
    app = Guarded(application(Workshop(file, sharing)), [HOST], sharing)
    with ExitStack() as until:
        yield Room(file, clock, sharing, app, until)
