"""Phones in this room: the code that pairs one, those that are paired, and putting one out."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import timedelta
from typing import Any

from markupsafe import Markup
from starlette.responses import Response

from stash.actions.log import log
from stash.errors import NotFound, Refusal
from stash.web.days import day_words
from stash.web.pages import said
from stash.web.qr import qr_svg
from stash.web.sharing import COMPUTER, TRIES, Device, Sharing
from stash.web.visit import Done, Visit

#: An open page asks for changes more often than this.
_HERE_NOW = timedelta(seconds=30)


def share(visit: Visit) -> Response:
    """On this computer how to pair a phone and which ones are; on a phone what it may do."""
    sharing = visit.workshop.sharing
    if sharing is None:
        return visit.page("share.html", lambda: {"how": "off"})
    if visit.device is not COMPUTER:
        return visit.page("share.html", lambda: {"how": "phone"})
    code = sharing.code()
    return visit.page(
        "share.html",
        lambda: {
            "how": "on",
            "address": sharing.hosts[0],
            "qr": Markup(qr_svg(sharing.address)),
            "code": f"{code.digits[:3]} {code.digits[3:]}",
            "until": f"{code.until.astimezone():%H:%M}",
            "tries": TRIES,
            "may_change": sharing.may_change,
            "phones": [_phone(visit, sharing, phone) for phone in sharing.paired()],
        },
    )


def _phone(visit: Visit, sharing: Sharing, phone: Device) -> Mapping[str, Any]:
    entries = visit.workshop.kept("log", lambda: log(visit.book, None)) if _begun(visit) else []
    last = next((said(one.what) for one in entries if one.device in phone.names), "")
    return {
        "number": phone.number,
        "name": phone.name,
        "may": "may change things" if phone.may_change else "may only look",
        "seen": _seen(sharing, phone),
        "last": last,
        "asked": visit.query.get("unpair") == str(phone.number),
        "renaming": visit.query.get("rename") == str(phone.number),
    }


def _begun(visit: Visit) -> bool:
    return visit.workshop.begun()


def _seen(sharing: Sharing, phone: Device) -> str:
    assert phone.seen is not None
    if sharing.now() - phone.seen < _HERE_NOW:
        return "here now"
    seen = phone.seen.astimezone()
    return f"last seen {day_words(seen.date())} at {seen:%H:%M}"


def new_code(visit: Visit) -> Done:
    """A new code, for a phone that may change things or one that may only look."""
    sharing = _shared(visit)
    may = visit.typed.get("may", "")
    sharing.new_code(may_change=sharing.may_change if not may else may == "change")
    return Done("/share", undo=False)


def rename(visit: Visit) -> Done:
    """Call a phone otherwise; what it wrote keeps the name it had."""
    phone = _shared(visit).rename(_number(visit), visit.typed.get("name", ""))
    if phone is None:
        raise NotFound("phone", visit.typed.get("phone", ""))
    return Done("/share", (f"It is called {phone.name} now.",), undo=False)


def unpair(visit: Visit) -> Done:
    """Put a phone out at once; what it wrote stays."""
    name = _shared(visit).unpair(_number(visit))
    if name is None:
        raise NotFound("phone", visit.typed.get("phone", ""))
    return Done("/share", (f"Unpaired: {name}. It is out; what it wrote stays.",), undo=False)


def _number(visit: Visit) -> int:
    text = visit.typed.get("phone", "")
    return int(text) if text.isdecimal() and len(text) < 10 else 0


def _shared(visit: Visit) -> Sharing:
    if visit.workshop.sharing is None or visit.device is not COMPUTER:
        raise Refusal("only_on_the_computer")
    return visit.workshop.sharing


SCREENS: Mapping[str, Callable[[Visit], Response]] = {"/share": share}
FORMS: Mapping[str, Callable[[Visit], Done]] = {
    "/share/code": new_code,
    "/share/rename": rename,
    "/share/unpair": unpair,
}
