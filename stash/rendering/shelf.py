"""What lies on the shelf, by yarn, colour and lot."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import islice
from typing import Any

from stash.rendering import amounts
from stash.rendering.amounts import Page, colour, counted, dye_lot, grams, numbers
from stash.rendering.columns import columns
from stash.rendering.keys import held_lot, held_skein, lot_facts
from stash.stock.holding import HeldLot
from stash.stock.spread import Scale

EMPTY = "the shelf is empty; bring yarn in with `stash add` or `stash import`"
NOTHING_LIKE_IT = "nothing on the shelf answers to that; `stash shelf` shows it all"


def keys(lots: Sequence[HeldLot], scale: Scale) -> list[dict[str, Any]]:
    """The lots with their skeins."""
    return [held_lot(held, scale) for held in lots]


def rows(lots: Sequence[HeldLot]) -> list[dict[str, Any]]:
    """One row for each skein, with what its lot's record says."""
    return [{**lot_facts(held.lot), **held_skein(s)} for held in lots for s in held.skeins]


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
    skeins = sum(len(held.skeins) for held in lots)
    return "\n".join([*blocks, f"{counted(len(lots), 'lot')}, {counted(skeins, 'skein')}"])


def _by_yarn(lots: Sequence[HeldLot]) -> dict[str, list[HeldLot]]:
    groups: dict[str, list[HeldLot]] = {}
    for held in lots:
        facts = held.lot
        heading = f"{facts.yarn}, {_thickness_words(facts.thickness_from, facts.thickness_to)}"
        groups.setdefault(f"{heading}{', ' if facts.fibre else ''}{facts.fibre}", []).append(held)
    return groups


def _thickness_words(low: int | None, high: int | None) -> str:
    if low is None:
        return "class not known"
    return f"class {low}" if high in (None, low) else f"class {low} to {high}"


def _lot_row(held: HeldLot, page: Page) -> list[str]:
    lot, aside = held.lot, held.held - held.free
    return [
        lot.ref,
        f"{page.patch(lot)}{colour(lot)}",
        dye_lot(lot),
        _skeins_by_state(held),
        _free(held, page),
        f"{grams(aside)} set aside" if aside else "",
        ", ".join(dict.fromkeys(s.place for s in held.skeins if s.place)),
        ", ".join(condition.value for condition in lot.conditions),
    ]


def _free(held: HeldLot, page: Page) -> str:
    weight = grams(held.free) if all(s.mass_known for s in held.skeins) else "not weighed"
    if held.free_length is None:
        return f"{weight} free, length not known"
    return f"{amounts.yarn(held.free_length)} free, {weight}"


def _skeins_by_state(held: HeldLot) -> str:
    """`17-19 whole, 21 opened`."""
    states: dict[str, list[int]] = {}
    for skein in held.skeins:
        states.setdefault(skein.state.value, []).append(skein.number)
    return ", ".join(f"{numbers(skeins)} {state}" for state, skeins in states.items())
