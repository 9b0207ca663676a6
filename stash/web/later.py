"""An application that is made when it is first needed, or before, once there is time for it.

What answers a page takes half a second to load, most of it SQLAlchemy; the address can be said, and
the browser begin to open, before that.
"""

from __future__ import annotations

from collections.abc import Callable
from threading import Lock, Thread

from starlette.concurrency import run_in_threadpool
from starlette.types import ASGIApp, Receive, Scope, Send


class Later:
    """The application that `make` gives, made once."""

    def __init__(self, make: Callable[[], ASGIApp]) -> None:
        self._make, self._making = make, Lock()
        self._made: ASGIApp | None = None

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer, once there is what answers."""
        made = self._made
        app = await run_in_threadpool(self.made) if made is None else made
        await app(scope, receive, send)

    def made(self) -> ASGIApp:
        """The application; whoever asks meanwhile waits."""
        with self._making:
            if self._made is None:
                self._made = self._make()
            return self._made

    def begin(self) -> None:
        """Make it beside whatever else is done."""
        Thread(target=self.made, daemon=True).start()
