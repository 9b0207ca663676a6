"""Tonight: what could be made now, what is under way, and the two fields of an evening."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from typing import TYPE_CHECKING, Any

from starlette.responses import Response

from stash.actions.under_way import under_way
from stash.rendering import figures
from stash.rendering.amounts import colour_name, counted, numbers
from stash.rendering.reasons import why_not
from stash.rendering.sentences.fixes import fixes_in_few_words
from stash.rendering.sentences.say import sentence
from stash.rendering.shelf_survey import how_many, nothing_close, why_these
from stash.web.drawn import Drawings
from stash.web.screens.designs_drawn import ideas_of
from stash.web.visit import Done, Visit

if TYPE_CHECKING:
    from stash.actions.ideas import FromShelf
    from stash.actions.under_way import UnderWay
    from stash.matching.answer.proposal import Filled
    from stash.matching.shelf_survey import Allowed

#: So many ideas stand on the board, so many more below it, and so many items beside them.
_IDEAS, _MORE, _ITEMS = 3, 3, 6
#: The room of an idea, of one below the board, of an item on its way, in pixels.
_BOARD, _BELOW, _SMALL = (230, 200), (72, 72), (64, 56)
#: How long the bar of an item on its way is, in pixels.
_BAR = 70


def tonight(visit: Visit) -> Response:
    """The few best designs with the yarn each would take, drawn to one scale."""
    found = ideas_of(visit)
    going = visit.workshop.kept("under way", lambda: under_way(visit.book))
    return visit.page("tonight.html", lambda: _values(found, going))


def _values(found: FromShelf, going: tuple[UnderWay, ...]) -> Mapping[str, Any]:
    drawings = Drawings()
    designs = found.found.designs
    able = [one for one in designs if one.best]
    return {
        "drawings": drawings,
        "head": _head(able, designs, found),
        "ideas": _drawn(able[:_IDEAS], _BOARD, drawings, found.as_of),
        "more": _drawn(able[_IDEAS : _IDEAS + _MORE], _BELOW, drawings, found.as_of),
        "almost": [_almost(one) for one in designs if not one.best][: 0 if able else _IDEAS],
        "no_yarn": not found.lots,
        "no_design": not designs,
        "going": [item_row(one, drawings) for one in going[:_ITEMS]],
        "items": counted(len(going), "item"),
    }


def _head(able: list[Allowed], designs: tuple[Allowed, ...], found: FromShelf) -> str:
    if not able:
        return "Nothing fits whole; this is what almost does." if designs else ""
    yours = counted(len(designs), "design")
    if len(designs) == 1:
        return "Your design can start now."
    which = f"All {yours}" if len(able) == len(designs) else f"{len(able)} of your {yours}"
    return f"{which} can start now. All drawn to one scale."


def _drawn(
    ideas: list[Allowed], room: tuple[int, int], drawings: Drawings, as_of: date
) -> list[Mapping[str, Any]]:
    scale = drawings.together((one.question.need.laid for one in ideas), *room)
    return [_idea(one, scale, drawings, as_of) for one in ideas]


def _idea(one: Allowed, scale: float, drawings: Drawings, as_of: date) -> Mapping[str, Any]:
    best, name = one.best, one.question.name
    assert best is not None
    lots = {filled.role: filled.lot.lot for filled in best.roles}
    return {
        "name": name,
        "key": best.key,
        "piece": drawings.piece(one.question.need.laid, lots, scale, title=name),
        "roles": [_role(filled, drawings) for filled in best.roles],
        "why": why_these(best, as_of),
        "times": how_many(one, best),
        "alike": one.looks_alike,
    }


def _role(filled: Filled, drawings: Drawings) -> Mapping[str, Any]:
    """A colour of an idea: what it is made of, and from which skeins."""
    taken = {take.number for take in filled.takes}
    skeins = [skein for held in filled.lots for skein in held.skeins if skein.number in taken]
    opened = all(skein.opened for skein in skeins)
    return {
        "role": filled.role,
        "chip": drawings.chip(filled.lot.lot),
        "colour": colour_name(filled.lot.lot),
        "skeins": f"no. {numbers(sorted(taken))}" + (", already opened" if opened else ""),
    }


def _almost(one: Allowed) -> Mapping[str, Any]:
    near = one.near
    return {
        "name": one.question.name,
        "why": why_not(near) if near else nothing_close(one),
        "fixes": fixes_in_few_words(near.fixes) if near else "",
    }


def item_row(one: UnderWay, drawings: Drawings) -> Mapping[str, Any]:
    """An item as a row: small, with its next step and how much of its yarn is used."""
    item, lots = one.line.item, dict(reversed(one.line.colours))
    scale = drawings.together([one.laid], *_SMALL)
    used, expected = figures.near(one.used), one.expected
    row = {
        "number": item.number,
        "name": item.design or item.note,
        "piece": drawings.piece(one.laid, lots, scale),
        "next": sentence(one.line.next) if one.line.next else "",
        "used": f"{used} used",
        "bar": "",
    }
    if expected:
        about = figures.near(expected)
        row["used"] = f"{used.number} of about {about} used"
        left = max(0, expected.mg - one.used.mg)
        row["bar"] = drawings.bar(one.used.mg, 0, left, _BAR)
    return row


SCREENS: Mapping[str, Callable[[Visit], Response]] = {"/": tonight}
FORMS: Mapping[str, Callable[[Visit], Done]] = {}
