"""Tonight: what could be made now, what is under way, and the two fields of an evening."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from starlette.responses import Response

from stash.actions.aside import aside
from stash.actions.ideas import from_shelf
from stash.actions.under_way import under_way
from stash.errors import BadInput
from stash.rendering import figures
from stash.rendering.amounts import colour_name, counted, numbers
from stash.rendering.match import NO_REASON_SHOWN, takes_of
from stash.rendering.reasons import why_not
from stash.rendering.sentences.fixes import fixes_in_words
from stash.rendering.sentences.say import sentence
from stash.web.drawn import Drawings
from stash.web.visit import Done, Visit

if TYPE_CHECKING:
    from stash.actions.ideas import FromShelf
    from stash.actions.under_way import UnderWay
    from stash.matching.answer.proposal import Filled
    from stash.matching.shelf_survey import Allowed

#: So many ideas stand on the board, and so many items beside it.
_IDEAS, _ITEMS = 3, 6
#: The room of an idea and of an item on its way, in pixels: width and height.
_BOARD, _SMALL = (230, 190), (64, 56)


def tonight(visit: Visit) -> Response:
    """The few best designs with the yarn each would take, drawn to one scale."""
    found = visit.workshop.kept("ideas", lambda: from_shelf(visit.book, lambda name: None))
    going = visit.workshop.kept("under way", lambda: under_way(visit.book))
    return visit.page("tonight.html", lambda: _values(found, going))
