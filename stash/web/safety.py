"""What stands between the page and everybody else: who may ask, from where, and how much.

The server listens on this machine alone; but any site that is open in the same browser can send
requests to it, and a name that a stranger owns can be made to lead here. So the Host must be one of
ours (against rebinding of names), and whatever writes must come from a page of ours (Origin).

A page that is shared answers in the room as well, to the names it has there. This computer is who
asks from its own loopback by a name that leads nowhere else; everybody else shows the cookie of a
paired phone, or sees the page for pairing and nothing more.
"""

from __future__ import annotations

from collections.abc import Collection
from ipaddress import ip_address

from starlette.datastructures import Headers, MutableHeaders
from starlette.exceptions import HTTPException
from starlette.requests import cookie_parser
from starlette.responses import PlainTextResponse, RedirectResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from stash.web.sharing import COMPUTER, Device, Sharing

#: The largest request that is read: a sheet of a few thousand rows has a tenth of it.
MOST_BYTES = 4 * 1024 * 1024
#: The same of a phone that is not paired: a code and a name.
MOST_UNPAIRED = 4 * 1024
#: Nothing from outside, nothing written into the markup.
POLICY = (
    "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self'; connect-src 'self'; "
    "form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
_HEADERS = {
    "content-security-policy": POLICY,
    "x-content-type-options": "nosniff",
    "referrer-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "cache-control": "no-store",
}
#: What a browser heeds of this machine alone where there is no https.
_HEADERS_HERE = {"cross-origin-opener-policy": "same-origin"}
_STRANGER = "This page is for the machine it runs on. Open the address that stash printed.\n"
_UNPAIRED = "This phone is not paired. Open the page anew and type the code.\n"
TOO_LARGE = "That is more than the page takes at once. Use a smaller file."


class Guarded:
    """The application behind its checks; `hosts` are the names and port it has on this machine.

    With `sharing` it answers to the names in the room too.
    """

    def __init__(
        self, app: ASGIApp, hosts: Collection[str], sharing: Sharing | None = None
    ) -> None:
        self.app, self.hosts, self.sharing = app, frozenset(hosts), sharing

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer a request if it may be answered."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        headers = Headers(scope=scope)
        here = self._is_this_computer(scope, headers)
        if not (here or self._is_in_the_room(headers)) or not _is_ours(headers, scope["method"]):
            await PlainTextResponse(_STRANGER, 403)(scope, receive, send)
            return
        device = COMPUTER if here else self._paired(headers)
        most = MOST_UNPAIRED if device is None else MOST_BYTES
        if device is None and not _for_all(scope["path"]):
            looks = scope["method"] in ("GET", "HEAD")
            to_pair = RedirectResponse("/pair", 303) if looks else PlainTextResponse(_UNPAIRED, 403)
            await to_pair(scope, receive, send)
        elif _length(headers) > most:
            await PlainTextResponse(TOO_LARGE, 413)(scope, receive, send)
        else:
            scope = {**scope, "state": {**scope.get("state", {}), "device": device}}
            await self._answer(scope, _bounded(receive, most), send)

    async def _answer(self, scope: Scope, receive: Receive, send: Send) -> None:
        here = scope["state"]["device"] is COMPUTER
        added = _HEADERS | _HEADERS_HERE if here else _HEADERS

        async def sending(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = MutableHeaders(scope=message)
                for name, value in added.items():
                    headers.setdefault(name, value)
            await send(message)

        await self.app(scope, receive, sending)

    def _is_this_computer(self, scope: Scope, headers: Headers) -> bool:
        """Nothing else reaches a page that is not shared: it listens on the loopback alone."""
        loopback = self.sharing is None or _is_loopback(scope)
        return loopback and headers.get("host", "").lower() in self.hosts

    def _is_in_the_room(self, headers: Headers) -> bool:
        return self.sharing is not None and headers.get("host", "").lower() in self.sharing.hosts

    def _paired(self, headers: Headers) -> Device | None:
        if self.sharing is None:
            return None
        cookies = cookie_parser(headers.get("cookie", ""))
        return self.sharing.device_of(cookies.get(self.sharing.cookie, ""))


def _for_all(path: str) -> bool:
    """What a phone that is not paired may see."""
    return path == "/pair" or path.startswith("/static/")


def _is_loopback(scope: Scope) -> bool:
    client = scope.get("client")
    try:
        return client is not None and ip_address(client[0]).is_loopback
    except ValueError:
        return False


def _is_ours(headers: Headers, method: str) -> bool:
    """Whether a page of this very address asks, or a person who follows a link to it."""
    if method in ("GET", "HEAD"):
        return headers.get("sec-fetch-site", "none") != "cross-site" or _is_followed(headers)
    return headers.get("origin", "").lower() == f"http://{headers.get('host', '').lower()}"


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


def _bounded(receive: Receive, most: int) -> Receive:
    """What is sent, as long as it is not more than is read."""
    so_far = 0

    async def receiving() -> Message:
        nonlocal so_far
        message = await receive()
        so_far += len(message.get("body", b""))
        if so_far > most:
            raise HTTPException(413, TOO_LARGE)
        return message

    return receiving
