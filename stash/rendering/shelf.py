"""What lies on the shelf, by yarn, colour and lot."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import islice
from typing import Any

from stash.measures.colour import family, lab
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.rendering import figures
from stash.rendering.amounts import Page, colour, counted, dye_lot, numbers
from stash.rendering.columns import columns
from stash.rendering.held import Yarn, free_figures, free_together, held, state, thickness
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
    groups = grouped(lots, by_yarn)
    lines = iter(
        columns([_lot_row(x, page) for same in groups.values() for x in same], "  ").split("\n")
    )
    blocks = [
        line
        for (name, about), same in groups.items()
        for line in (page.strong(", ".join(filter(None, [name, about]))), *islice(lines, len(same)))
    ]
    return "\n".join([*blocks, _in_all(lots)])


def _in_all(lots: Sequence[HeldLot]) -> str:
    """How many lots and skeins there are, and what their rows come to."""
    count = f"{counted(len(lots), 'lot')}, {counted(sum(len(one.skeins) for one in lots), 'skein')}"
    return f"{count}: {summed([held(one.skeins).held for one in lots])}"


def summed(rows: Sequence[Yarn], what: str = "") -> str:
    """What the rows of a list come to, as far as they are known: `142 m free, 61.5 g`."""
    lengths = [row.length for row in rows if row.length is not None]
    weights = [row.weight for row in rows if row.weight is not None]
    tail = f" {what}" if what else ""
    sums = [f"{figures.total(lengths, Length)}{tail}"] if lengths else []
    sums += [f"{figures.total(weights, Mass)}{'' if sums else tail}"] if weights else []
    part = len(lengths) < len(rows) or len(weights) < len(rows)
    return f"{', '.join(sums)}{' as far as known' if part else ''}"


def free_words_together(lots: Sequence[HeldLot]) -> str:
    """How much of some lots is free, in one figure: `142 m free`; by weight if no length is known.

    It is the sum of what is shown of each, or nothing where neither is known.
    """
    rows = [free_figures(free_together(one.skeins)) for one in lots]
    lengths = [row.length for row in rows if row.length is not None]
    weights = [row.weight for row in rows if row.weight is not None]
    if lengths:
        return f"{figures.total(lengths, Length)} free"
    return f"{figures.total(weights, Mass)} free" if weights else ""


#: What lots have in common that stand under one heading: its name, and what is said of it.
Heading = tuple[str, str]


def grouped(
    lots: Sequence[HeldLot], heading: Callable[[HeldLot], Heading]
) -> dict[Heading, list[HeldLot]]:
    """The lots under their headings, in the order they come."""
    groups: dict[Heading, list[HeldLot]] = {}
    for one in lots:
        groups.setdefault(heading(one), []).append(one)
    return groups


def by_yarn(one: HeldLot) -> Heading:
    """The name of its yarn; how thick it is and what of."""
    lot = one.lot
    return str(lot.yarn), ", ".join(filter(None, [thickness(lot), lot.fibre]))


def by_thickness(one: HeldLot) -> Heading:
    """How thick it is."""
    return thickness(one.lot), ""


def by_place(one: HeldLot) -> Heading:
    """Where its skeins lie."""
    places = sorted({skein.place for skein in one.skeins if skein.place}, key=str.casefold)
    return ", ".join(places) or "place not known", ""


def by_colour(one: HeldLot) -> Heading:
    """The plain word for its first colour."""
    return family(lab(one.lot.colours[0])) if one.lot.colours else "colour not known", ""


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
