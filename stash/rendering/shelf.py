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
from stash.rendering.columns import columns, width
from stash.rendering.held import AS_KNOWN, Yarn, held, lengths_known, state, thickness
from stash.rendering.her_words import blend, hers
from stash.rendering.keys import held_lot, held_skein, lot_facts
from stash.rendering.sentences.phrases import either
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


def text(
    lots: Sequence[HeldLot], page: Page, *, narrowed: bool, nearest: Sequence[str] = ()
) -> str:
    """The lots under the names of their yarns, and how many there are.

    `narrowed`: not all was asked for, so that nothing found is no empty shelf; `nearest` are words
    that would find something.
    """
    if not lots and nearest:
        return f"No yarn like that on your shelf; did you mean {either(nearest)}?"
    if not lots:
        return NOTHING_LIKE_IT if narrowed else EMPTY
    groups = grouped(lots, by_yarn)
    lines = iter(_lines([one for same in groups.values() for one in same], page))
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
    return f"{', '.join(sums)}{AS_KNOWN if part else ''}"


def free_in_all(lots: Sequence[HeldLot], rows: Sequence[Yarn]) -> str:
    """How much of lots is free in one figure: `142 m free`; by weight if no length is known.

    It is the sum of what is shown of each, and says so where it leaves some out; nothing where
    neither is known.
    """
    lengths = [row.length for row in rows if row.length is not None]
    weights = [row.weight for row in rows if row.weight is not None]
    if lengths:
        part = not all(lengths_known(one.skeins) for one in lots)
        return f"{figures.total(lengths, Length)} free{AS_KNOWN if part else ''}"
    part = len(weights) < len(rows)
    return f"{figures.total(weights, Mass)} free{AS_KNOWN if part else ''}" if weights else ""


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
    return str(lot.yarn), ", ".join(filter(None, [thickness(lot), blend(lot.fibre)]))


def by_thickness(one: HeldLot) -> Heading:
    """How thick it is."""
    return thickness(one.lot), ""


def by_place(one: HeldLot) -> Heading:
    """Where its skeins lie."""
    places = sorted({skein.place for skein in one.skeins if skein.place}, key=str.casefold)
    return ", ".join(places) or "place not known", ""


def by_colour(one: HeldLot) -> Heading:
    """The plain word for its first colour."""
    return family(lab(one.lot.colours[0])) if one.lot.colours else hers("colour not known"), ""


def _lines(lots: Sequence[HeldLot], page: Page) -> list[str]:
    """A row for each lot, the columns running through under every yarn.

    Where a terminal is too narrow for that, what is seldom looked for stands under the rest.
    """
    named = [_name_cells(one, page) for one in lots]
    others = [_other_cells(one) for one in lots]
    lines = columns([a + b for a, b in zip(named, others, strict=True)], "  ").split("\n")
    if page.across is None or all(width(line) <= page.across for line in lines):
        return lines
    firsts = columns(named, "  ").split("\n")
    under = ["; ".join(filter(None, cells)) for cells in others]
    return [f"{line}\n       {more}" for line, more in zip(firsts, under, strict=True)]


def _name_cells(one: HeldLot, page: Page) -> list[str]:
    """What a lot is looked for by, and what is free of it."""
    lot = one.lot
    free = held(one.skeins).free.words("free")
    return [lot.ref, f"{page.patch(lot)}{colour(lot)}", dye_lot(lot), free]


def _other_cells(one: HeldLot) -> list[str]:
    """Its skeins, what is set aside of it, where it lies and what is the matter with it."""
    yarn = held(one.skeins)
    return [
        f"{yarn.aside.words('set aside')}, of {yarn.held.words()}" if yarn.aside else "",
        _skeins_by_state(one),
        ", ".join(dict.fromkeys(s.place for s in one.skeins if s.place)),
        ", ".join(condition.value for condition in one.lot.conditions),
    ]


def _skeins_by_state(one: HeldLot) -> str:
    """`17-19 whole, 21 opened`."""
    states: dict[str, list[int]] = {}
    for skein in one.skeins:
        states.setdefault(state(skein), []).append(skein.number)
    return ", ".join(f"{numbers(skeins)} {called}" for called, skeins in states.items())
