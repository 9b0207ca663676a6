"""The market: what is for sale, what is ordered, what was sold; every item."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

from starlette.responses import Response

from stash.actions.items import Which, listed_items
from stash.actions.order import orders_kept
from stash.actions.sales import sales, total_of
from stash.actions.under_way import laid_of
from stash.rendering.items import item_cells
from stash.rendering.order import asked_for, state_words
from stash.rendering.sales import sales_notes, table
from stash.web.days import day_words
from stash.web.drawn import Drawings
from stash.web.visit import Visit

if TYPE_CHECKING:
    from stash.actions.items import ItemLine
    from stash.web.visit import Done

#: The room of an item for sale and of one in the list, in pixels.
_STALL, _SMALL = (130, 110), (56, 48)
#: So many items a page.
_MOST = 60


def market(visit: Visit) -> Response:
    """What is made and not sold, what is ordered, and the sales so far."""
    there = visit.workshop.kept("unsold", lambda: listed_items(visit.book, Which.UNSOLD))
    ordered = visit.workshop.kept("orders", lambda: orders_kept(visit.book))
    sold = visit.workshop.kept("sales", lambda: sales(visit.book))

    def values() -> Mapping[str, Any]:
        drawings = Drawings()
        plans = [laid_of(one.plan) for one in there.lines[:_MOST]]
        scale = drawings.together(plans, *_STALL)
        return {
            "drawings": drawings,
            "stall": [_row(visit, one, scale, drawings) for one in there.lines[:_MOST]],
            "out_of": len(there.lines),
            "numbers": ",".join(str(one.item.number) for one in there.lines[:_MOST]),
            "orders": [
                {
                    "number": one.number,
                    "who": one.who,
                    "what": asked_for(one),
                    "count": one.count,
                    "by": day_words(one.by),
                    "state": state_words(one, ordered.today),
                    "note": one.note,
                }
                for one in ordered.open
            ],
            "sales": table(sold.lines, total_of(sold.lines)) if sold.lines else [],
            "notes": sales_notes(sold),
        }

    return visit.page("market.html", values)


def _row(visit: Visit, one: ItemLine, scale: float, drawings: Drawings) -> Mapping[str, Any]:
    lots = dict(reversed(one.colours))
    return {
        **item_cells(one, visit.shown_on),
        "number": one.item.number,
        "piece": drawings.piece(laid_of(one.plan), lots, scale),
    }


def items(visit: Visit) -> Response:
    """Every item, newest first, or those of one kind."""
    try:
        which = Which(visit.query.get("which", "all"))
    except ValueError:
        which = Which.ALL
    found = visit.workshop.kept(("items", which), lambda: listed_items(visit.book, which))
    lines = found.lines[::-1]
    first = _number(visit.query.get("from", "0"))
    shown = lines[first : first + _MOST]

    def values() -> Mapping[str, Any]:
        drawings = Drawings()
        rows = []
        for one in shown:
            scale = drawings.together([laid_of(one.plan)], *_SMALL)
            rows.append({**_row(visit, one, scale, drawings), "since": day_words(one.since)})
        more = first + _MOST if len(lines) > first + _MOST else None
        return {
            "drawings": drawings,
            "rows": rows,
            "which": which.value,
            "kinds": [kind.value for kind in Which],
            "count": len(lines),
            "more": more,
        }

    return visit.page("items.html", values)


def _number(text: str) -> int:
    return int(text) if text.isdecimal() and len(text) < 7 else 0


SCREENS: Mapping[str, Callable[[Visit], Response]] = {
    "/market": market,
    "/items": items,
}
FORMS: Mapping[str, Callable[[Visit], Done]] = {}
