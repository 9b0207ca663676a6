"""A lot with its skeins, and a skein by itself: facts changed in place, how sure, what happened."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import partial
from typing import TYPE_CHECKING, Any

from starlette.responses import Response

from stash.actions.show_lot import YarnStory, lot_story, story_of_skein
from stash.rendering import amounts
from stash.rendering.amounts import dye_lot
from stash.rendering.figures import of_metres
from stash.rendering.held import held
from stash.rendering.show import SPREAD_MEANS, promised_words, spread_rows
from stash.rendering.yarn_card import LEFT_WORDS, Drawn, card_above_rows
from stash.rendering.yarn_page import (
    FactLine,
    light_words,
    lines_of_all,
    lot_lines,
    skein_lines,
    yarn_history,
)
from stash.web.drawn import Drawings
from stash.web.meanwhile import history_rows
from stash.web.visit import Visit

if TYPE_CHECKING:
    from stash.stock.holding import HeldSkein

#: The strand as large as a page shows it, in pixels.
_LARGE = Drawn(340, 150)
#: The longest bar of a reason, in pixels.
_AXIS = 200
#: What can be done with a skein, by the word in the address.
ACTS = {
    "weigh": "Weigh it",
    "aside": "Set some aside",
    "split": "Wind some off",
    "gone": "It is gone",
    "metre": "Weigh a length of it",
}
#: What would make a length surer, by the reason it is not.
_HELPS = {
    "tare": ("weigh it", "change=tare#facts"),
    "about": ("weigh the skein", "act=weigh#act"),
    "full_ball": ("weigh a length", "act=metre#act"),
    "band_length": ("weigh a length", "act=metre#act"),
    "thickness": ("weigh a length", "act=metre#act"),
}
#: What is seldom looked for is folded away below the rest.
_FOLDED = frozenset(
    ("colour_no", "hexes", "daylight", "dyed", "surface", "condition", "name", "maker", "owner")
)
_WHYS = (
    ("given", "given away"),
    ("sold", "sold"),
    ("lost", "lost"),
    ("spoilt", "spoilt"),
    ("mistake", "a mistake: it was never there"),
)


def lot(visit: Visit) -> Response:
    """A lot, with the story of the skein she would take first."""
    found = lot_story(visit.book, visit.names["number"])
    return visit.page("yarn.html", partial(_values, visit, found, found.there, False))


def skein(visit: Visit) -> Response:
    """One skein."""
    found = story_of_skein(visit.book, visit.names["number"])
    return visit.page("yarn.html", partial(_values, visit, found, (found.story.skein,), True))


def _values(
    visit: Visit, found: YarnStory, skeins: Sequence[HeldSkein], alone: bool
) -> Mapping[str, Any]:
    record, story, drawings = found.held.lot, found.story, Drawings()
    number, path = story.skein.number, f"/skein/{story.skein.number}"
    lines = [*lot_lines(record, skeins)]
    lines += skein_lines(story) if alone else lines_of_all(skeins, story.settings.currency)
    return {
        "alone": alone,
        "number": number,
        "skein_at": path,
        "lot_at": f"/lot/{record.id}",
        "lot_number": record.id,
        "ideas_at": f"/yarn-ideas/{number}" if alone else f"/lot-ideas/{record.id}",
        "labels_at": f"/labels/sheet?{f'skeins={number}' if alone else f'lot={record.id}'}",
        "what": str(number) if alone else record.ref,
        "card": card_above_rows(record, skeins, _LARGE, drawings.swatch),
        "about": ", ".join(part for part in (str(record.yarn), dye_lot(record)) if part),
        "light": light_words(record),
        "drawings": drawings,
        "promises": _promises(found, skeins),
        "lines": [line for line in lines if line.name not in _FOLDED],
        "folded": [line for line in lines if line.name in _FOLDED],
        "changing": _named(lines, visit.query.get("change", "")),
        "rows": [_row(found, one) for one in found.there],
        "gone": len(found.held.skeins) - len(found.there),
        "acts": ACTS if story.skein.held else {},
        "act": visit.query.get("act", "") if story.skein.held else "",
        "whys": _WHYS,
        "sure": _sure(found, path),
        "history": history_rows(visit, yarn_history(found)),
        "items": story.items,
        "parent": story.parent,
        "children": story.children,
        "currency": story.settings.currency,
    }


def _named(lines: Sequence[FactLine], name: str) -> str:
    return name if name in {line.name for line in lines} else ""


def _promises(found: YarnStory, skeins: Sequence[HeldSkein]) -> list[Mapping[str, Any]]:
    """What is set aside of these skeins, item by item."""
    here = {skein.number: skein for skein in skeins}
    return [
        {
            "item": item,
            "of_design": item.design_id is not None,
            "role": one.role,
            "words": promised_words(one, here[one.skein]),
        }
        for one, item in found.promises
        if one.skein in here
    ]


def _row(found: YarnStory, one: HeldSkein) -> Mapping[str, Any]:
    holds = held([one])
    return {
        "number": one.number,
        "state": one.state.value,
        "words": LEFT_WORDS[one.state],
        "place": one.place,
        "holds": holds.held.words(),
        "free": holds.free.length or holds.free.weight or "",
        "aside": holds.aside.length or holds.aside.weight if holds.aside else "",
        "whose": [item for promise, item in found.promises if promise.skein == one.number],
    }


def _sure(found: YarnStory, path: str) -> Mapping[str, Any] | None:
    """How sure the length of the skein is, each reason as a bar on one axis."""
    story = found.story
    length, spread = story.skein.held_length, story.spread_m
    if length is None or spread is None or not story.skein.held:
        return None
    rows = spread_rows(story, length.m)
    longest = max((one.share for *_, one in rows), default=0.0) or 1.0
    return {
        "length": held([story.skein]).held.length,
        "spread": amounts.yarn(of_metres(spread)),
        "means": SPREAD_MEANS,
        "rows": [*_reasons(rows, longest, path)],
    }


def _reasons(
    rows: Sequence[tuple[str, str, str, Any]], longest: float, path: str
) -> Iterator[Mapping[str, Any]]:
    for why, off, because, one in rows:
        help_words, where = _HELPS.get(one.why.value, ("", ""))
        yield {
            "why": why,
            "off": off,
            "because": because,
            "px": round(_AXIS * one.share / longest, 1),
            "help": help_words,
            "at": f"{path}?{where}",
        }


SCREENS: Mapping[str, Callable[[Visit], Response]] = {
    "/lot/{number:int}": lot,
    "/skein/{number:int}": skein,
}
FORMS: Mapping[str, Callable[[Visit], Any]] = {}
