"""The list to pick for an item, place by place, to walk along the shelf with and to print."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

from starlette.responses import Response

from stash.actions.show import item_story
from stash.rendering import pick_list
from stash.web.drawn import Drawings
from stash.web.visit import Done, Visit

if TYPE_CHECKING:
    from stash.actions.show import ItemStory
    from stash.rendering.pick_list import Fetch

_CHIP = (44, 28)


def pick(visit: Visit) -> Response:
    """What is still set aside for an item, in the order in which one walks past it."""
    number = visit.number()
    told = visit.workshop.kept(("story", number), lambda: item_story(visit.book, str(number)))
    return visit.page("pick.html", lambda: _values(told))


def _values(told: ItemStory) -> Mapping[str, Any]:
    drawings = Drawings()
    return {"drawings": drawings, "item": told.item, **to_pick(told, drawings)}


def to_pick(told: ItemStory, drawings: Drawings) -> Mapping[str, Any]:
    """What is still set aside, place by place, and how the colours are joined."""
    known = {skein.number: (skein, lot) for skein, lot in told.skeins}
    found = pick_list.pick_list(
        [
            pick_list.Fetch(one.role, *known[one.skein], one.mass, one.length, one.strand)
            for one in told.promises
        ]
    )
    return {
        "stops": [
            (place or pick_list.NOWHERE, [_row(fetch, drawings) for fetch in there])
            for place, there in found.places
        ],
        "roles": [*pick_list.role_lines(found)],
    }


def _row(fetch: Fetch, drawings: Drawings) -> Mapping[str, Any]:
    return {
        "number": fetch.skein.number,
        "role": fetch.role,
        "how_much": pick_list.how_much(fetch),
        "lot": pick_list.lot_called(fetch),
        "chip": drawings.chip(fetch.lot, size=_CHIP),
    }


SCREENS: Mapping[str, Callable[[Visit], Response]] = {"/pick/{number:int}": pick}
FORMS: Mapping[str, Callable[[Visit], Done]] = {}
