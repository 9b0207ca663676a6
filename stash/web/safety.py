"""What stands between the page and everybody else: who may ask, from where, and how much.

The server listens on this machine alone; but any site that is open in the same browser can send
requests to it, and a name that a stranger owns can be made to lead here. So the Host must be one of
ours (against rebinding of names), and whatever writes must come from a page of ours (Origin).
"""

from __future__ import annotations

from collections.abc import Collection
from urllib.parse import urlsplit

from starlette.datastructures import Headers, MutableHeaders
from starlette.exceptions import HTTPException
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

#: The largest request that is read: a sheet of a few thousand rows has a tenth of it.
MOST_BYTES = 4 * 1024 * 1024
#: Nothing from outside, nothing written into the markup.
POLICY = (
    "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self'; connect-src 'self'; "
    "form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
_HEADERS = {
    "content-security-policy": POLICY,
    "x-content-type-options": "nosniff",
    "referrer-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "cache-control": "no-store",
}
_STRANGER = "This page is for the machine it runs on. Open the address that stash printed.\n"
TOO_LARGE = "That is more than the page takes at once. Use a smaller file."


class Guarded:
    """The application behind its checks; `hosts` are the names and port it answers to."""

    def __init__(self, app: ASGIApp, hosts: Collection[str]) -> None:
        self.app, self.hosts = app, frozenset(hosts)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer a request if it may be answered."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        headers = Headers(scope=scope)
        if not self._is_ours(headers, scope["method"]):
            await PlainTextResponse(_STRANGER, 403)(scope, receive, send)
        elif _length(headers) > MOST_BYTES:
            await PlainTextResponse(TOO_LARGE, 413)(scope, receive, send)
        else:
            await self._answer(scope, receive, send)

    async def _answer(self, scope: Scope, receive: Receive, send: Send) -> None:
        async def sending(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = MutableHeaders(scope=message)
                for name, value in _HEADERS.items():
                    headers.setdefault(name, value)
            await send(message)

        await self.app(scope, _bounded(receive), sending)

    def _is_ours(self, headers: Headers, method: str) -> bool:
        if headers.get("host", "").lower() not in self.hosts:
            return False
        if method in ("GET", "HEAD"):
            return headers.get("sec-fetch-site", "none") != "cross-site" or _is_followed(headers)
        origin = headers.get("origin", "")
        return urlsplit(origin).scheme == "http" and origin.lower()[7:] in self.hosts


def _is_followed(headers: Headers) -> bool:
    """A link from elsewhere that a person follows may lead here; a picture or a script may not."""
    return headers.get("sec-fetch-mode") == "navigate" and headers.get("sec-fetch-dest") in (
        "document",
        "",
        None,
    )


def _length(headers: Headers) -> int:
    text = headers.get("content-length", "0")
    return int(text) if text.isdecimal() else 0


def _bounded(receive: Receive) -> Receive:
    """What is sent, as long as it is not more than is read."""
    so_far = 0

    async def receiving() -> Message:
        nonlocal so_far
        message = await receive()
        so_far += len(message.get("body", b""))
        if so_far > MOST_BYTES:
            raise HTTPException(413, TOO_LARGE)
        return message

    return receiving
