"""The record: every entry, newest first, and undoing one."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from datetime import datetime
from typing import TYPE_CHECKING, Any
from urllib.parse import urlencode

from starlette.responses import Response

from stash.actions.log import devices, entries_meant, log, try_undo, undo
from stash.errors import InTheWay, NotFound, StashError
from stash.parsing.numbers import listed
from stash.rendering.log import SORTS, THIS_COMPUTER, as_before_words, device_named
from stash.rendering.sentences.say import sentence
from stash.web.days import day_words
from stash.web.meanwhile import device_words, where
from stash.web.pages import said
from stash.web.visit import Done, Visit

if TYPE_CHECKING:
    from stash.stock.entry import Entry

#: So many entries a page.
_MOST = 40


def record(visit: Visit) -> Response:
    """The newest entries, or those before a number; of all kinds and devices, or of some."""
    kind, device = visit.query.get("kind", ""), visit.query.get("device", "")
    which = entries_meant(commands=listed(kind), device=device_named(device))
    entries = visit.workshop.kept(("log", which), lambda: log(visit.book, None, which))
    before = _number(visit.query.get("before", ""))
    older = [entry for entry in entries if before is None or entry.number < before]
    shown = older[:_MOST]
    asked = _number(visit.query.get("undo", ""))
    narrowed = {name: text for name, text in (("kind", kind), ("device", device)) if text}
    page = narrowed | ({"before": str(before)} if before else {})
    return visit.page(
        "record.html",
        lambda: {
            "rows": [_row(visit, entry, asked) for entry in shown],
            "out_of": len(entries),
            "older": _address(narrowed, before=str(shown[-1].number)) if len(older) > _MOST else "",
            "here": _address(page),
            "undo_at": _address(page, undo=""),
            "narrowed": bool(narrowed) or "narrow" in visit.query,
            "kinds": [*_kinds(narrowed)],
            "devices": [*_devices(visit, narrowed)],
        },
    )


def _address(query: Mapping[str, str], **more: str) -> str:
    every = {**query, **more}
    return f"/record?{urlencode(every)}" if every else "/record"


def _kinds(narrowed: Mapping[str, str]) -> Iterator[Mapping[str, Any]]:
    """What it can be narrowed to, each with its address; the one that is shown is marked."""
    for words, commands in (("everything", ()), *SORTS.items()):
        kind = ",".join(commands)
        yield {
            "words": words,
            "at": _with(narrowed, "kind", kind),
            "here": kind == narrowed.get("kind", ""),
        }


def _devices(visit: Visit, narrowed: Mapping[str, str]) -> Iterator[Mapping[str, Any]]:
    """The devices likewise; none where all was written on this computer."""
    found = visit.workshop.kept("devices", lambda: devices(visit.book))
    if not any(found):
        return
    yield {
        "words": "all devices",
        "at": _with(narrowed, "device", ""),
        "here": "device" not in narrowed,
    }
    for name in found:
        written = name or THIS_COMPUTER
        yield {
            "words": device_words(name, visit),
            "at": _with(narrowed, "device", written),
            "here": narrowed.get("device") == written,
        }


def _with(narrowed: Mapping[str, str], name: str, value: str) -> str:
    """The address with one of its limits otherwise; none where it is empty."""
    rest = {other: kept for other, kept in narrowed.items() if other != name}
    return _address(rest, **({name: value} if value else {}))


def _row(visit: Visit, entry: Entry, asked: int | None) -> Mapping[str, Any]:
    standing = entry.takes_back is None and entry.taken_back_by is None
    return {
        "number": entry.number,
        "day": _day(entry),
        "where": where(entry, visit),
        "words": said(entry.what),
        "cancelled": entry.taken_back_by,
        "can_undo": standing,
        "asked": _asked(visit, entry) if standing and entry.number == asked else None,
    }


def _asked(visit: Visit, entry: Entry) -> Mapping[str, Any]:
    """What would be so after it is undone; or what stands in its way, and what must go first."""
    try:
        found = try_undo(visit.book, entry.number)
    except StashError as why:
        return {"first": [*why.later] if isinstance(why, InTheWay) else [], "why": said(why)}
    return {"why": "", "then": as_before_words(found)}


def _day(entry: Entry) -> str:
    """The day it happened, with the time where it was written down on that day: today."""
    written = datetime.fromisoformat(entry.at_utc).astimezone()
    day = day_words(entry.on)
    return f"{day}, {written:%H:%M}" if day == "today" and written.date() == entry.on else day


def _number(text: str) -> int | None:
    return int(text) if text.isdecimal() and len(text) < 10 else None


def undo_entry(visit: Visit) -> Done:
    """Cancel the entry whose number the pressed form showed."""
    number = _number(visit.typed.get("entry", ""))
    if number is None:
        raise NotFound("entry", visit.typed.get("entry", ""))
    _, wrong = undo(visit.book, number)
    return Done(visit.back(), (f"Undone: {sentence(wrong.what)}",), undo=False)


SCREENS: Mapping[str, Callable[[Visit], Response]] = {"/record": record}
FORMS: Mapping[str, Callable[[Visit], Done]] = {"/undo": undo_entry}
