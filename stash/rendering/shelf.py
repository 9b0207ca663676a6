"""What lies on the shelf, by yarn, colour and lot."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import islice
from typing import Any

from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.rendering import figures
from stash.rendering.amounts import Page, colour, counted, dye_lot, numbers
from stash.rendering.columns import columns
from stash.rendering.held import held, state, thickness
from stash.rendering.keys import held_lot, held_skein, lot_facts
from stash.stock.holding import HeldLot
from stash.stock.spread import Scale

EMPTY = "Your shelf is empty. Add yarn with `stash add`, or a whole sheet with `stash import`."
NOTHING_LIKE_IT = "No yarn like that on your shelf; `stash shelf` lists all of it."


def keys(lots: Sequence[HeldLot], scale: Scale) -> list[dict[str, Any]]:
    """The lots with their skeins."""
    return [held_lot(one, scale) for one in lots]


def rows(lots: Sequence[HeldLot]) -> list[dict[str, Any]]:
    """One row for each skein, with what its lot's record says."""
    return [{**lot_facts(one.lot), **held_skein(s)} for one in lots for s in one.skeins]


def text(lots: Sequence[HeldLot], page: Page, *, narrowed: bool) -> str:
    """The lots under the names of their yarns, and how many there are.

    `narrowed`: not all was asked for, so that nothing found is no empty shelf.
    """
    if not lots:
        return NOTHING_LIKE_IT if narrowed else EMPTY
    # all rows in one go, so that the columns run through under every yarn
    groups = _by_yarn(lots)
    lines = iter(
        columns([_lot_row(x, page) for same in groups.values() for x in same], "  ").split("\n")
    )
    blocks = [
        line
        for name, same in groups.items()
        for line in (page.strong(name), *islice(lines, len(same)))
    ]
    return "\n".join([*blocks, _in_all(lots)])


def _in_all(lots: Sequence[HeldLot]) -> str:
    """How many lots and skeins there are, and what their rows come to."""
    rows = [held(one.skeins) for one in lots]
    lengths = [yarn.length for row in rows if (yarn := row.held).length is not None]
    weights = [yarn.weight for row in rows if (yarn := row.held).weight is not None]
    count = f"{counted(len(lots), 'lot')}, {counted(sum(len(one.skeins) for one in lots), 'skein')}"
    sums = [str(figures.total(lengths, Length))] if lengths else []
    sums += [str(figures.total(weights, Mass))] if weights else []
    part = len(lengths) < len(lots) or len(weights) < len(lots)
    return f"{count}: {', '.join(sums)}{' as far as known' if part else ''}"


def _by_yarn(lots: Sequence[HeldLot]) -> dict[str, list[HeldLot]]:
    groups: dict[str, list[HeldLot]] = {}
    for one in lots:
        lot = one.lot
        heading = ", ".join(filter(None, [str(lot.yarn), thickness(lot), lot.fibre]))
        groups.setdefault(heading, []).append(one)
    return groups


def _lot_row(one: HeldLot, page: Page) -> list[str]:
    lot, yarn = one.lot, held(one.skeins)
    return [
        lot.ref,
        f"{page.patch(lot)}{colour(lot)}",
        dye_lot(lot),
        _skeins_by_state(one),
        yarn.free.words("free"),
        f"{yarn.aside.words('set aside')}, of {yarn.held.words()}" if yarn.aside else "",
        ", ".join(dict.fromkeys(s.place for s in one.skeins if s.place)),
        ", ".join(condition.value for condition in lot.conditions),
    ]


def _skeins_by_state(one: HeldLot) -> str:
    """`17-19 whole, 21 opened`."""
    states: dict[str, list[int]] = {}
    for skein in one.skeins:
        states.setdefault(state(skein), []).append(skein.number)
    return ", ".join(f"{numbers(skeins)} {called}" for called, skeins in states.items())
