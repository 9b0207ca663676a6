"""The record: every entry, newest first, and undoing one."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import datetime
from typing import TYPE_CHECKING, Any

from starlette.responses import Response

from stash.actions.log import log, undo
from stash.errors import NotFound
from stash.rendering.sentences.say import sentence
from stash.web.days import day_words
from stash.web.meanwhile import where
from stash.web.pages import said
from stash.web.visit import Done, Visit

if TYPE_CHECKING:
    from stash.stock.entry import Entry

#: So many entries a page.
_MOST = 40


def record(visit: Visit) -> Response:
    """The newest entries, or those before a number."""
    entries = visit.workshop.kept("log", lambda: log(visit.book, None))
    before = _number(visit.query.get("before", ""))
    older = [entry for entry in entries if before is None or entry.number < before]
    shown = older[:_MOST]
    asked = _number(visit.query.get("undo", ""))
    return visit.page(
        "record.html",
        lambda: {
            "rows": [_row(visit, entry, asked) for entry in shown],
            "out_of": len(entries),
            "older": shown[-1].number if len(older) > _MOST else None,
            "more_kept": f"&before={before}" if before else "",
        },
    )


def _row(visit: Visit, entry: Entry, asked: int | None) -> Mapping[str, Any]:
    standing = entry.takes_back is None and entry.taken_back_by is None
    return {
        "number": entry.number,
        "day": _day(entry),
        "where": where(entry, visit),
        "words": said(entry.what),
        "cancelled": entry.taken_back_by,
        "can_undo": standing,
        "asked": standing and entry.number == asked,
    }


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
