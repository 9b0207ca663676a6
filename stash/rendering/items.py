"""The list of items: as lines, as keys, and as rows of a sheet."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import chain
from shutil import get_terminal_size
from typing import TYPE_CHECKING, Any

from stash.measures.money import Money, decimals
from stash.measures.written import show_minutes, show_money
from stash.rendering import figures, first_screen
from stash.rendering.amounts import Page, colour_name, counted
from stash.rendering.columns import columns, width
from stash.rendering.her_words import hers
from stash.rendering.sentences.designs import person
from stash.rendering.sentences.say import sentence
from stash.rendering.work import hours_keys
from stash.stock.item import Item, ItemState
from stash.stock.sale import SaleKind
from stash.stock.yarn import Lot

if TYPE_CHECKING:
    from stash.actions.items import ItemLine, ItemList


def item_named(item: Item) -> str:
    """An item in a cell: `item 3, Winter hat`."""
    return f"item {item.number}, {item.design or item.note}"


#: What is shown of an item by the heading over it, in the order of the columns.
Cells = dict[str, str]
#: Where a terminal is too narrow for all, the columns that stay above: the first of these that fit.
_ABOVE = (
    ("item", "design", "size", "colours", "yarn", "asked"),
    ("item", "design", "colours", "yarn", "asked"),
    ("item", "design", "size", "colours"),
    ("item", "design", "colours"),
)
#: What stands in front of a figure that has no heading over it.
_SAID = {"yarn": "yarn ", "asked": "asked ", "order": "order ", "size": "size "}
NO_ITEM = 'no items yet; `stash aside "Winter hat"` sets yarn aside for one'
NONE_OF_THEM = "none of your items is like that; `stash items` lists them all"


def items_keys(found: ItemList) -> list[dict[str, Any]]:
    """The items with stable keys; money is a decimal number in the file's currency."""
    currency = found.settings.currency
    return [_line_keys(line, currency) for line in found.lines]


def _line_keys(line: ItemLine, currency: str) -> dict[str, Any]:
    item, sale = line.item, line.sale if _is_sold(line) else None
    return {
        "number": item.number,
        "design": item.design or None,
        "note": item.note or None,
        "size": size_of_line(line) or None,
        "state": item.state.value,
        "since": line.since.isoformat(),
        "colours": [_colour(lot) for _, lot in line.colours],
        "next": sentence(line.next) if line.next else None,
        "cost": _decimal(line.cost, currency),
        "cost_at_least": not line.cost_known,
        "asked": _decimal(item.asked.price, currency),
        **hours_keys(item),
        "order": item.asked.order,
        "sold_for": None if sale is None else _decimal(sale.price, currency),
        "sold_on": None if sale is None else sale.on.isoformat(),
    }


def _decimal(amount: Money | None, currency: str) -> float | None:
    return None if amount is None else amount.coins / 10 ** decimals(currency)


def items_text(found: ItemList, page: Page) -> str:
    """A line for each item, two where a terminal is too narrow; and how many of each kind."""
    if not found.lines:
        return NONE_OF_THEM if found.out_of else NO_ITEM
    cells = [item_cells(line, page) for line in found.lines]
    return "\n".join([_table(found.lines, cells), _count(found.lines), *_lacking(found.lines)])


def _lacking(lines: Sequence[ItemLine]) -> list[str]:
    """How to see of which yarn the price is not known, where it is of some."""
    items = [line.item.number for line in lines if not line.cost_known]
    if not items:
        return []
    return [f"Price of some yarn not known; `stash cost {items[0]}` says of which."]


def _table(lines: Sequence[ItemLine], cells: Sequence[Cells]) -> str:
    """All in one line each where that fits, else the first columns and the rest under them."""
    used = [name for name in cells[0] if any(row[name] for row in cells)]
    table = _one_line_each(cells, used)
    if not first_screen.is_shown() or _fits(table):
        return table
    for above in _ABOVE:
        kept = [name for name in used if name in above]
        table = _one_line_each(cells, kept)
        if _fits(table):
            break
    head, *rows = table.split("\n")
    under = [name for name in used if name not in above]
    below = [_below(line, row, under) for line, row in zip(lines, cells, strict=True)]
    return "\n".join([head, *chain.from_iterable(zip(rows, below, strict=True))])


def _one_line_each(cells: Sequence[Cells], names: Sequence[str]) -> str:
    return columns([[*map(hers, names)], *([row[name] for name in names] for row in cells)])


def _fits(table: str) -> bool:
    return max(map(width, table.split("\n"))) <= get_terminal_size().columns


def _below(line: ItemLine, row: Cells, names: Sequence[str]) -> str:
    """What has no room above, as a line of its own: `begun 2026-03-01; weigh ...; asked £28.00`."""
    said = {name: f"{_SAID.get(name, '')}{row[name]}" for name in names if row[name]}
    since = said.pop("since")
    said["state"] = f"{said['state']} {since}"
    if line.sale:  # the day is that of the sale, which is said as what became of it
        del said["state"]
    return f"   {'; '.join(said.values())}"


def items_saved(count: int, target: str) -> str:
    """That the list is in a file."""
    return f"{counted(count, 'item')} written to {target}"


def item_cells(line: ItemLine, page: Page) -> Cells:
    """What is shown of an item, by the heading over it."""
    item = line.item
    asked = item.asked
    return {
        "item": page.strong(str(item.number)),
        "design": item.design or item.note,
        "size": size_of_line(line),
        "colours": " + ".join(dict.fromkeys(_colour(lot) for _, lot in line.colours)),
        "state": item.state.value,
        "since": line.since.isoformat(),
        "next": sentence(line.next) if line.next else "",
        "yarn": _yarn_cost(line, page.currency),
        "asked": "" if asked.price is None else show_money(asked.price, page.currency),
        "hours": _hours(line),
        "order": "" if asked.order is None else str(asked.order),
        "note": item.note if item.design else "",
    }


def _yarn_cost(line: ItemLine, currency: str) -> str:
    """What its yarn cost, said so where no price is known; nothing before any is used."""
    if line.cost is None:
        return "" if line.cost_known else "cost not known"
    cost = show_money(line.cost, currency)
    return cost if line.cost_known else f"at least {cost}"


def _hours(line: ItemLine) -> str:
    """What it took, else what was planned: `2 h 10 min`, `4 h planned`."""
    took, planned = line.item.made_minutes, line.item.asked.minutes
    minutes = planned if took is None else took
    if minutes is None:
        return ""
    return f"{show_minutes(minutes)}{' planned' if took is None else ''}"


def _is_sold(line: ItemLine) -> bool:
    return line.sale is not None and line.sale.kind is SaleKind.SOLD


def _colour(lot: Lot) -> str:
    return colour_name(lot)


def size_of_line(line: ItemLine) -> str:
    """Whom it is made to fit, else its sides."""
    fits, size = line.plan.fits, line.plan.size
    who = None if isinstance(fits, str) else fits.person
    named = fits if isinstance(fits, str) else person(who) if who else ""
    if named or size is None:
        return named
    return figures.sizes(size.sides, " x ")


def _count(lines: Sequence[ItemLine]) -> str:
    sold = sum(map(_is_sold, lines))
    gone = sum(line.sale is not None for line in lines) - sold
    of_state = {
        state: sum(line.item.state is state and line.sale is None for line in lines)
        for state in ItemState
    }
    parts = [
        (of_state[ItemState.PLANNED], "planned"),
        (of_state[ItemState.BEGUN], "begun"),
        (of_state[ItemState.DONE], "done and not sold"),
        (sold, "sold"),
        (gone, "given away or lost"),
    ]
    listed = ", ".join(f"{count} {word}" for count, word in parts if count)
    return f"{counted(len(lines), 'item')}: {listed}"
