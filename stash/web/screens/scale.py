"""At the scale: a skein's number, what the scale shows, and what that means."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

from starlette.responses import Response

from stash.actions.under_way import under_way
from stash.actions.weigh import ScaleReading, weigh
from stash.errors import BadInput
from stash.parsing import quantities
from stash.rendering import weigh as weigh_words
from stash.rendering.amounts import colour_name
from stash.web.drawn import Drawings
from stash.web.pages import lines_said, said
from stash.web.visit import Done, Visit

if TYPE_CHECKING:
    from stash.actions.under_way import UnderWay

#: A row is a number that she types with a weighing; more is a slip of the finger.
_MOST_ROWS = 100_000


def scale(visit: Visit) -> Response:
    """The fields of a weighing, and the balls of what is under way to choose from."""
    going = visit.workshop.kept("under way", lambda: under_way(visit.book))
    return visit.page("scale.html", lambda: _values(going))


def _values(going: tuple[UnderWay, ...]) -> Mapping[str, Any]:
    drawings = Drawings()
    balls = []
    for one in going:
        lots = dict(reversed(one.line.colours))
        for used in one.colours:
            lot = lots.get(used.role)
            for skein in used.skeins:
                if skein.held and lot:
                    balls.append(
                        {
                            "number": skein.number,
                            "chip": drawings.chip(lot),
                            "colour": colour_name(lot),
                            "item": one.line.item,
                        }
                    )
    return {"drawings": drawings, "balls": balls}


def weigh_skein(visit: Visit) -> Done:
    """One reading, booked as what it is: use, a correction, or just as noted."""
    typed = {name: text.strip() for name, text in visit.typed.items()}
    if not typed.get("reading"):
        raise BadInput("no_reading")
    asked = ScaleReading(
        quantities.mass(typed["reading"]),
        typed.get("item") or None,
        opened=typed.get("as") == "opened",
        recount=typed.get("as") == "recount",
        row=_row(typed.get("row", "")),
    )
    found = weigh(visit.book, typed.get("skein", ""), asked)
    words = lines_said(weigh_words.text(found, visit.shown_on))
    return Done(visit.back(), (*words, *map(said, found.shorts)))


def _row(text: str) -> int | None:
    if not text:
        return None
    if not text.isdecimal() or int(text) > _MOST_ROWS:
        raise BadInput("no_whole_number", option="row", value=text, most=_MOST_ROWS)
    return int(text)


SCREENS: Mapping[str, Callable[[Visit], Response]] = {"/scale": scale}
FORMS: Mapping[str, Callable[[Visit], Done]] = {"/weigh": weigh_skein}
