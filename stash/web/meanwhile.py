"""What was changed since a page was shown: by whom, when and what."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from starlette.responses import JSONResponse, Response

from stash.actions.log import changed_since
from stash.errors import NotEnoughYarn, NotFound, Refusal, StashError
from stash.rendering.log import THIS_COMPUTER
from stash.web.days import day_words
from stash.web.pages import said
from stash.web.visit import Done, Visit

if TYPE_CHECKING:
    from stash.stock.entry import Entry

#: So many changes are told of where something is refused.
_MOST_TOLD = 2


def where(entry: Entry, visit: Visit) -> str:
    """The device an entry was written on, as whoever looks calls it."""
    if entry.device == visit.device.name:
        return "this phone" if entry.device else THIS_COMPUTER
    return entry.device or "the computer"


def ago(entry: Entry, now: datetime) -> str:
    """When it was written: a moment ago, 12 minutes ago, today at 19:42, on 24 November."""
    written = datetime.fromisoformat(entry.at_utc).astimezone()
    minutes = round((now - written).total_seconds() / 60)
    if minutes < 2:
        return "a moment ago"
    if minutes < 60:
        return f"{minutes} minutes ago"
    return f"{day_words(written.date())} at {written:%H:%M}"


def explained(visit: Visit, why: StashError, seen: int) -> tuple[str, ...]:
    """Who changed what since the page was shown, where that may be why something is refused.

    Of one skein only what moved or promised it; nothing of words that could not be read at all.
    """
    if not isinstance(why, Refusal | NotFound) or not seen:
        return ()
    skein = why.skein if isinstance(why, NotEnoughYarn) else None
    now = datetime.now(UTC)
    return tuple(
        f"{ago(one, now)} on {where(one, visit)}: {said(one.what)}"
        for one in changed_since(visit.book, seen, skein)[:_MOST_TOLD]
    )


def changed(visit: Visit) -> Response:
    """For a page that is open: what was changed since it was shown, in a line; else nothing."""
    text = visit.query.get("since", "")
    since = int(text) if text.isdecimal() and len(text) < 10 else 0
    visit.use_her_units()
    entries = changed_since(visit.book, since) if since < visit.newest() else []
    words = ""
    if entries:
        more = f", and {len(entries) - 1} more" if len(entries) > 1 else ""
        words = f"Changed on {where(entries[0], visit)}: {said(entries[0].what)}{more}"
    return JSONResponse({"words": words})


SCREENS: Mapping[str, Callable[[Visit], Response]] = {"/changed": changed}
FORMS: Mapping[str, Callable[[Visit], Done]] = {}
