"""The list to pick for items, place by place, to walk along the shelf with and to print."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from starlette.responses import Response

from stash.actions.show import item_story
from stash.parsing.numbers import listed
from stash.rendering import amounts, pick_list
from stash.web.drawn import Drawings
from stash.web.visit import Done, Visit

if TYPE_CHECKING:
    from stash.actions.show import ItemStory
    from stash.rendering.pick_list import Fetch

_CHIP = (44, 28)


def pick(visit: Visit) -> Response:
    """What is still set aside for an item, or for several, in the order one walks past it."""
    asked = listed(str(visit.names["items"]))
    name = ("stories", tuple(asked))
    told = visit.workshop.kept(name, lambda: [item_story(visit.book, one) for one in asked])
    return visit.page("pick.html", lambda: _values(told))


def _values(told: Sequence[ItemStory]) -> Mapping[str, Any]:
    drawings = Drawings()
    numbers = amounts.numbers([one.item.number for one in told])
    return {
        "drawings": drawings,
        "items": f"item{'s' if len(told) > 1 else ''} {numbers}",
        "only": told[0].item.number if len(told) == 1 else None,
        "names": ", ".join(dict.fromkeys(one.item.design or one.item.note for one in told)),
        **to_pick(told, drawings),
    }


def to_pick(told: Sequence[ItemStory], drawings: Drawings) -> Mapping[str, Any]:
    """What is still set aside, place by place, and how the colours are joined."""
    found = pick_list.pick_list([fetch for one in told for fetch in _fetches(one, len(told) > 1)])
    return {
        "stops": [
            (place or pick_list.NOWHERE, [_row(fetch, drawings) for fetch in there])
            for place, there in found.places
        ],
        "roles": [*pick_list.role_lines(found)],
    }


def _fetches(told: ItemStory, several: bool) -> Iterator[pick_list.Fetch]:
    known = {skein.number: (skein, lot) for skein, lot in told.skeins}
    of = f" of {told.item.number}" if several else ""
    for one in told.promises:
        role, (skein, lot) = f"{one.role}{of}", known[one.skein]
        yield pick_list.Fetch(role, skein, lot, one.mass, one.length, one.strand)


def _row(fetch: Fetch, drawings: Drawings) -> Mapping[str, Any]:
    return {
        "number": fetch.skein.number,
        "role": fetch.role,
        "how_much": pick_list.how_much(fetch),
        "lot": pick_list.lot_called(fetch),
        "chip": drawings.chip(fetch.lot, size=_CHIP),
    }


SCREENS: Mapping[str, Callable[[Visit], Response]] = {"/pick/{items}": pick}
FORMS: Mapping[str, Callable[[Visit], Done]] = {}
