"""Finding anything by words: yarn, a skein's number, designs, items."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

from starlette.responses import Response

from stash.actions.find_all import find_all
from stash.rendering.amounts import dye_lot
from stash.rendering.yarn_card import Drawn, card
from stash.web.drawn import Drawings
from stash.web.visit import Visit

if TYPE_CHECKING:
    from stash.stock.yarn import Lot

#: So many of a kind at most.
_MOST = 12


def find(visit: Visit) -> Response:
    """What the words of the bar lead to, each as a link."""
    words = visit.query.get("words", "").strip()
    found = find_all(visit.book, words) if words else None
    if found is None:
        return visit.page("find.html", lambda: {"words": "", "found": None})
    drawings = Drawings()
    return visit.page(
        "find.html",
        lambda: {
            "words": words,
            "found": found,
            "hits": drawings,  # what they share comes with the hits as they are swapped
            "cards": [
                card(one.lot, one.skeins, Drawn(), drawings.swatch) for one in found.lots[:_MOST]
            ],
            "skein": found.skein and (found.skein[0].number, _named(found.skein[1])),
            "nearest": [(f"/lot/{one.id}", _named(one)) for one in found.nearest],
            "items": found.items[:_MOST],
            "designs": found.designs[:_MOST],
        },
    )


def _named(lot: Lot) -> str:
    return ", ".join(part for part in (lot.colour, str(lot.yarn), dye_lot(lot)) if part)


SCREENS: Mapping[str, Callable[[Visit], Response]] = {"/find": find}
FORMS: Mapping[str, Callable[[Visit], Any]] = {}
