"""The record: every entry, newest first, and undoing one."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

from starlette.responses import Response

from stash.actions import clock
from stash.actions.log import log, undo
from stash.errors import NotFound
from stash.rendering.sentences.say import sentence
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
            "rows": [_row(entry, asked) for entry in shown],
            "out_of": len(entries),
            "older": shown[-1].number if len(older) > _MOST else None,
            "more_kept": f"&before={before}" if before else "",
        },
    )


def _row(entry: Entry, asked: int | None) -> Mapping[str, Any]:
    standing = entry.takes_back is None and entry.taken_back_by is None
    return {
        "number": entry.number,
        "day": day_words(entry.on),
        "words": said(entry.what),
        "cancelled": entry.taken_back_by,
        "can_undo": standing,
        "asked": standing and entry.number == asked,
    }


def day_words(day: date) -> str:
    """A day as one says it: today, yesterday, 24 November, with its year if it is another."""
    today = clock.today()
    if day == today:
        return "today"
    if day == today - timedelta(days=1):
        return "yesterday"
    year = "" if day.year == today.year else f" {day.year}"
    return f"{day.day} {day:%B}{year}"


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
