"""Counting a place: what is still to be found first; left, and taken up again on any device."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import TYPE_CHECKING, Any
from urllib.parse import urlencode

from starlette.responses import Response

from stash.actions import count as counting
from stash.actions.count import Lost
from stash.actions.under_way import under_way
from stash.actions.weigh import ScaleReading
from stash.parsing.numbers import listed
from stash.rendering import count as count_words
from stash.rendering import figures
from stash.rendering.amounts import colour_name, counted, numbers
from stash.web.days import day_words
from stash.web.drawn import Drawings
from stash.web.pages import lines_said, said
from stash.web.screens.scale import mass_read
from stash.web.visit import Done, Visit

if TYPE_CHECKING:
    from stash.actions.count import Count, Line

#: What is left of a skein, in a word.
_WORDS = {"whole": "skein", "opened": "part ball", "remnant": "remnant"}


def count(visit: Visit) -> Response:
    """The places, or the count of one of them."""
    place = visit.query.get("place", "")
    if not place:
        found = visit.workshop.kept("places", lambda: counting.places(visit.book))
        return visit.page(
            "places.html",
            lambda: {
                "rows": [
                    {
                        "name": one.name,
                        "skeins": counted(one.skeins, "skein"),
                        "since": day_words(one.begun) if one.begun else "",
                        "found": one.found,
                        "left": one.skeins - one.found,
                    }
                    for one in found
                ]
            },
        )
    here = counting.look(visit.book, place)
    begun = {
        skein.number: one.line.item
        for one in visit.workshop.kept("under way", lambda: under_way(visit.book))
        if one.line.item.state.value == "begun"
        for used in one.colours
        for skein in used.skeins
    }
    return visit.page("count.html", lambda: _values(visit, here, begun))


def _values(visit: Visit, here: Count, begun: Mapping[int, Any]) -> Mapping[str, Any]:
    drawings = Drawings()
    missing = [line for line in here.lines if not line.seen]
    found = [line for line in here.lines if line.seen]
    return {
        "drawings": drawings,
        "at": here.place,
        "since": day_words(here.begun) if here.begun else "",
        "missing": _rows(missing, drawings),
        "found": _rows(found, drawings),
        "missing_words": numbers([line.skein.number for line in missing]),
        "under_way": [
            {"number": line.skein.number, "item": begun[line.skein.number]}
            for line in missing
            if line.skein.number in begun
        ],
        "unit": visit.settings.weight or "g",
        "closing": bool(visit.query.get("close")) and here.begun is not None,
    }


def _rows(lines: Iterable[Line], drawings: Drawings) -> list[Mapping[str, Any]]:
    return [
        {
            "number": line.skein.number,
            "chip": drawings.chip(line.lot),
            "colour": colour_name(line.lot),
            "holds": figures.near(line.skein.held) if line.skein.mass_known else "",
            "words": _WORDS.get(line.skein.state.value, ""),
            "reading": figures.near(line.reading.gross).number if line.reading else "",
            "elsewhere": (line.skein.place or "no place") if line.elsewhere else "",
        }
        for line in lines
    ]


def note(visit: Visit) -> Done:
    """Skeins that were seen here, or one that was weighed."""
    place, reading = visit.typed.get("place", ""), visit.typed.get("reading", "").strip()
    skeins = listed(visit.typed.get("skein", ""))
    readings = {}
    if reading and len(skeins) == 1:
        gross = mass_read(reading, visit.settings.weight or "g")
        readings, skeins = {skeins[0]: ScaleReading(gross)}, []
    counting.note(visit.book, place, skeins, readings)
    return Done(_address(place))


def unsee(visit: Visit) -> Done:
    """One that was noted by mistake."""
    place = visit.typed.get("place", "")
    counting.unsee(visit.book, place, int(visit.typed.get("skein", "0")))
    return Done(_address(place))


def close(visit: Visit) -> Done:
    """The count is booked; what was not found stays listed, or is lost."""
    place = visit.typed.get("place", "")
    lost = Lost()
    if visit.typed.get("lost"):
        lost = _lost(counting.look(visit.book, place), visit.typed["lost"])
    closed = counting.close(visit.book, place, lost=lost)
    words = lines_said(count_words.closed_text(place, closed, visit.shown_on))
    return Done("/count", (*words, *map(said, closed.shorts)))


def _lost(here: Count, typed: str) -> Lost:
    """Those she saw named; where nothing was found at all, the rule for that answers."""
    if here.open == len(here.lines):
        return Lost(all_missing=True)
    return Lost(tuple(int(number) for number in listed(typed)))


def drop(visit: Visit) -> Done:
    """The count is forgotten."""
    place = visit.typed.get("place", "")
    counting.drop(visit.book, place)
    return Done("/count", (count_words.dropped_text(place),), undo=False)


def _address(place: str) -> str:
    return f"/count?{urlencode({'place': place})}"


SCREENS: Mapping[str, Callable[[Visit], Response]] = {"/count": count}
FORMS: Mapping[str, Callable[[Visit], Done]] = {
    "/count/note": note,
    "/count/unsee": unsee,
    "/count/close": close,
    "/count/drop": drop,
}
