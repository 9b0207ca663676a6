"""What was changed: by whom, when and what; and what of it came since a page was shown."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any

from starlette.responses import JSONResponse, Response

from stash.actions.log import changed_since
from stash.actions.shelf import Filters, shelf
from stash.errors import InTheWay, NotEnoughYarn, NotFound, Refusal, StashError
from stash.rendering.log import THIS_COMPUTER
from stash.web.days import day_words
from stash.web.pages import said
from stash.web.visit import Done, Visit

if TYPE_CHECKING:
    from stash.rendering.history import Happened
    from stash.stock.entry import Entry

#: A lot in the key of a set.
_LOT = re.compile(r"L\d+")
#: The facts of an error that hold what was asked for: a set by its key, or a lot.
_NAMING = ("which", "asked")
#: So many changes are told of where something is refused.
_MOST_TOLD = 2


def where(entry: Entry, visit: Visit) -> str:
    """The device an entry was written on, as whoever looks calls it."""
    return device_words(entry.device, visit)


def device_words(name: str, visit: Visit) -> str:
    """A device by the name that entries keep, as whoever looks calls it."""
    if name == visit.device.name:
        return "this phone" if name else THIS_COMPUTER
    return name or "the computer"


def history_rows(visit: Visit, history: Iterable[Happened]) -> list[Mapping[str, Any]]:
    """What happened to something, for `parts.happened`; where, if not all on this computer."""
    found = [*history]
    elsewhere = any(one.entry.device for one in found)
    return [
        {
            "day": day_words(one.entry.on),
            "words": one.words,
            "change": one.change,
            "before": one.before,
            "cancelled": one.entry.taken_back_by,
            "where": where(one.entry, visit) if elsewhere else "",
        }
        for one in found
    ]


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

    Of a skein or a set only what moved or promised its yarn; nothing of words that could not be
    read at all.
    """
    if not isinstance(why, Refusal | NotFound) or not seen:
        return ()
    entries = changed_since(visit.book, seen, _concerned(visit, why))
    if isinstance(why, InTheWay):
        entries = [one for one in entries if one.number in why.later]
    now = datetime.now(UTC)
    return tuple(
        f"{ago(one, now)} on {where(one, visit)}: {said(one.what)}" for one in entries[:_MOST_TOLD]
    )


def _concerned(visit: Visit, why: StashError) -> list[int] | None:
    """The skeins it is about; None where it may be about anything."""
    if isinstance(why, NotEnoughYarn):
        return [why.skein]
    lots = {lot for name in _NAMING for lot in _LOT.findall(str(why.facts.get(name, "")))}
    if not lots:
        return None
    held = shelf(visit.book, Filters(with_spent=True)).lots
    return [skein.number for lot in held if lot.lot.ref in lots for skein in lot.skeins]


def changed(visit: Visit) -> Response:
    """For a page that is open: what was changed since it was shown, in a line; else nothing."""
    text = visit.query.get("since", "")
    since = int(text) if text.isdecimal() and len(text) < 10 else 0
    entries = changed_since(visit.book, since) if since < visit.newest() else []
    words = ""
    if entries:
        more = f", and {len(entries) - 1} more" if len(entries) > 1 else ""
        words = f"Changed on {where(entries[0], visit)}: {said(entries[0].what)}{more}"
    return JSONResponse({"words": words})


SCREENS: Mapping[str, Callable[[Visit], Response]] = {"/changed": changed}
FORMS: Mapping[str, Callable[[Visit], Done]] = {}
