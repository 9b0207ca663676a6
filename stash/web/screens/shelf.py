"""The shelf: every lot as a swatch, in groups, narrowed by choices and found as one types."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, Any
from urllib.parse import urlencode

from starlette.responses import Response

from stash.actions.shelf import SortBy
from stash.actions.shelf_choices import Chosen, Facet, Narrowed, narrowed
from stash.errors import StashError
from stash.parsing import quantities
from stash.rendering import shelf as rendered
from stash.rendering.amounts import counted, numbers
from stash.rendering.held import Both, Yarn, free_figures, free_together, held
from stash.rendering.shelf_choices import Option, options
from stash.rendering.yarn_card import Drawn, card, told_apart
from stash.web.drawn import Drawings
from stash.web.pages import begun_large, said
from stash.web.visit import Visit

if TYPE_CHECKING:
    from stash.measures.length import Length
    from stash.stock.holding import HeldLot

#: So many yarns a page.
MOST = 40
#: More choices of one group than this are folded away.
_FEW = 8
#: Labels of so many skeins are printed from an address.
_MOST_LABELS = 400
#: How the shelf can be grouped: by the word in the address, its heading and its order.
_GROUPED: Mapping[str, tuple[Callable[[HeldLot], rendered.Heading], SortBy | None]] = {
    "yarn": (rendered.by_yarn, None),
    "thickness": (rendered.by_thickness, SortBy.THICKNESS),
    "place": (rendered.by_place, SortBy.PLACE),
    "colour": (rendered.by_colour, SortBy.COLOUR),
}
_TITLES = {
    Facet.THICKNESS: "Thickness",
    Facet.LEFT: "What is left of it",
    Facet.DYED: "How it is dyed",
    Facet.PLACE: "Place",
}
_CALLED = {Facet.FREE: "the least free", Facet.WORDS: "the words", Facet.LEFT: "what is left"}


_Groups = Mapping[rendered.Heading, "Sequence[HeldLot]"]


@dataclass(frozen=True, slots=True)
class _Asked:
    """What the address asks for; `wrong`: why the least free cannot be read."""

    chosen: Chosen
    by: str
    grey: bool
    first: int
    wrong: str


def shelf(visit: Visit) -> Response:
    """The lots that were asked for, so many a page."""
    asked = _asked(visit)
    heading, order = _GROUPED[asked.by]
    found = narrowed(visit.book, asked.chosen, order)
    groups = rendered.grouped(found.lots, heading)
    free = {one.lot.id: free_together(one.skeins) for one in found.lots}
    return visit.page(
        "shelf.html",
        partial(_values, visit, asked, found, groups, free),
        amounts=partial(_amounts, free, _page_of(asked, found.lots)[1]),
    )


def _amounts(free: Mapping[int, Both], shown: Sequence[HeldLot]) -> None:
    """The largest figures of the page: what is free of a lot, and all of those that are drawn."""
    lengths, weights = zip(*free.values(), strict=True) if free else ((), ())
    most = max(filter(None, lengths), default=None), max(filter(None, weights), default=None)
    free_figures(most)
    for one in shown:
        held(one.skeins)


def _page_of(asked: _Asked, lots: Sequence[HeldLot]) -> tuple[int, Sequence[HeldLot]]:
    """The lots that are shown, and the place of the first of them."""
    first = min(asked.first, max(0, len(lots) - 1)) // MOST * MOST
    return first, lots[first : first + MOST]


def _asked(visit: Visit) -> _Asked:
    query = visit.query
    least, wrong = _least_free(query.get("free", ""))
    of = {
        group: frozenset(_choice(group, text) for text in texts)
        for group in _TITLES
        if (texts := visit.queries.get(group.value, ()))
    }
    first = query.get("from", "")
    return _Asked(
        Chosen(query.get("words", "").strip(), of, least),
        query.get("by", "") if query.get("by", "") in _GROUPED else "yarn",
        bool(query.get("grey")),
        int(first) if first.isdecimal() and len(first) < 7 else 0,
        wrong,
    )


def _least_free(text: str) -> tuple[Length | None, str]:
    """The least length, and what is wrong with it, as while it is being typed."""
    if not text.strip():
        return None, ""
    try:
        return quantities.length(text), ""
    except StashError as why:
        return None, begun_large(said(why))


def _choice(group: Facet, text: str) -> Hashable:
    """A choice as its value in the address says it; nothing stands for what is not known."""
    if not text:
        return None
    return int(text) if group is Facet.THICKNESS and text.isdecimal() and len(text) < 3 else text


def _values(
    visit: Visit, asked: _Asked, found: Narrowed, groups: _Groups, free: Mapping[int, Both]
) -> Mapping[str, Any]:
    lots, rows = found.lots, {number: free_figures(one) for number, one in free.items()}
    first, shown = _page_of(asked, lots)
    drawings = Drawings()
    choices = [_shown(group, asked, found, drawings) for group in _TITLES]
    skeins = sum(len(one.skeins) for one in lots)
    return {
        "in_all": f"{counted(len(lots), 'yarn')}, {counted(skeins, 'skein')}",
        "sums": rendered.summed([*rows.values()], "free") if lots else "",
        "groups": [*_groups(asked, groups, rows, shown, drawings)],
        "choices": [one for one in choices if one["options"]],
        "drawings": drawings,
        "wrong": asked.wrong,
        "example": f"80 {visit.settings.length or 'm'}",
        "by": asked.by,
        "ways": [(way, _address(visit, {"by": way})) for way in _GROUPED],
        "grey": asked.grey,
        "in_colour": _address(visit, {"grey": ""}),
        "in_grey": _address(visit, {"grey": "1"}),
        "narrow": bool(visit.query.get("narrow")),
        "narrowing": _address(visit, {"narrow": "" if visit.query.get("narrow") else "1"}),
        "narrowed": bool(found.dropped),
        "out_of": found.out_of,
        "less": _less(visit, found),
        "range": (first + 1, first + len(shown)),
        "count": len(lots),
        "labels": _labels(asked, lots),
        "more": _address(visit, {"from": f"{first + MOST}"}) if len(lots) > first + MOST else "",
        "before": _address(visit, {"from": f"{first - MOST}"}) if first else "",
    }


def _labels(asked: _Asked, lots: Sequence[HeldLot]) -> str:
    """Where the labels of these skeins are printed, of those in the places that were chosen; of
    very many they are chosen there."""
    places = asked.chosen.of.get(Facet.PLACE)
    found = [
        skein.number
        for lot in lots
        for skein in lot.skeins
        if skein.held and (places is None or (skein.place or None) in places)
    ]
    if not 0 < len(found) <= _MOST_LABELS:
        return "/labels"
    return f"/labels/sheet?{urlencode({'skeins': numbers(found).replace(' ', '')})}"


def _groups(
    asked: _Asked,
    groups: _Groups,
    rows: Mapping[int, Yarn],
    shown: Sequence[HeldLot],
    drawings: Drawings,
) -> Iterator[Mapping[str, Any]]:
    """The headings of this page with their cards; a sum is of all of a group, here or not."""
    heading, drawn = _GROUPED[asked.by][0], Drawn(grey=asked.grey)
    apart = {named: told_apart(same) for named, same in groups.items()}
    for named, same in rendered.grouped(shown, heading).items():
        yield {
            "name": named[0],
            "about": named[1],
            "free": rendered.free_in_all(
                groups[named], [rows[one.lot.id] for one in groups[named]]
            ),
            "cards": [
                (card(one.lot, one.skeins, drawn, drawings.swatch), apart[named].get(one.lot.id))
                for one in same
            ],
        }


def _shown(group: Facet, asked: _Asked, found: Narrowed, drawings: Drawings) -> Mapping[str, Any]:
    """A group of choices with how many lots each would leave; many are folded away."""
    chosen = asked.chosen.of.get(group, frozenset())
    every = options(
        group.value, found.counts[group], found.samples, drawings.swatch, grey=asked.grey
    )
    few = every[:_FEW]
    return {
        "group": group.value,
        "title": _TITLES[group],
        "options": [_row(group, at, one, chosen) for at, one in enumerate(every)],
        "few": len(few) if len(every) > _FEW + 2 else len(every),
        "open": any(one.choice in chosen for one in every[_FEW:]),
    }


def _row(group: Facet, at: int, one: Option, chosen: frozenset[Hashable]) -> Mapping[str, Any]:
    return {"one": one, "id": f"{group.value}-{at}", "chosen": one.choice in chosen}


def _less(visit: Visit, found: Narrowed) -> list[tuple[str, str, str]]:
    """What to drop where nothing is left: which choice, where to, and what that would bring."""
    if found.lots:
        return []
    costs = sorted(found.dropped.items(), key=lambda one: (-one[1], one[0]))
    return [
        (_CALLED.get(group, group.value), _address(visit, {group.value: ""}), counted(n, "yarn"))
        for group, n in costs
        if n
    ]


def _address(visit: Visit, changes: Mapping[str, str]) -> str:
    """This shelf with some of its address otherwise; it begins anew unless that says where."""
    pairs = [
        (name, value)
        for name, values in visit.queries.items()
        if name not in ("said", "from", *changes)
        for value in values
    ]
    pairs += [(name, value) for name, value in changes.items() if value and value != "0"]
    return f"/shelf?{urlencode(pairs)}" if pairs else "/shelf"


SCREENS: Mapping[str, Callable[[Visit], Response]] = {"/shelf": shelf}
FORMS: Mapping[str, Callable[[Visit], Any]] = {}
