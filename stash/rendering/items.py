"""The list of items: as lines, as keys, and as rows of a sheet."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from stash.measures.money import Money, decimals
from stash.measures.written import show_money
from stash.rendering import figures
from stash.rendering.amounts import Page, colour_name, counted
from stash.rendering.columns import columns
from stash.rendering.sentences.designs import person
from stash.rendering.sentences.say import sentence
from stash.stock.item import ItemState
from stash.stock.sale import SaleKind
from stash.stock.yarn import Lot

if TYPE_CHECKING:
    from stash.actions.items import ItemLine, ItemList

NO_ITEM = 'no items yet; `stash aside "Winter hat"` sets yarn aside for one'
NONE_OF_THEM = "none of your items is like that; `stash items` lists them all"


def items_keys(found: ItemList) -> list[dict[str, Any]]:
    """The items with stable keys; money is a decimal number in the file's currency."""
    currency = found.settings.currency
    return [_line_keys(line, currency) for line in found.lines]


def _line_keys(line: ItemLine, currency: str) -> dict[str, Any]:
    item, sale = line.item, line.sale if _is_sold(line) else None
    minutes = item.asked.minutes if item.made_minutes is None else item.made_minutes
    return {
        "number": item.number,
        "design": item.design or None,
        "note": item.note or None,
        "size": _size(line) or None,
        "state": item.state.value,
        "since": line.since.isoformat(),
        "colours": [_colour(lot) for _, lot in line.colours],
        "next": sentence(line.next) if line.next else None,
        "cost": _decimal(line.cost, currency),
        "cost_at_least": not line.cost_known,
        "asked": _decimal(item.asked.price, currency),
        "hours": None if minutes is None else minutes / 60,
        "hours_planned": None if item.asked.minutes is None else item.asked.minutes / 60,
        "hours_taken": None if item.made_minutes is None else item.made_minutes / 60,
        "order": item.asked.order,
        "sold_for": None if sale is None else _decimal(sale.price, currency),
        "sold_on": None if sale is None else sale.on.isoformat(),
    }


def _decimal(amount: Money | None, currency: str) -> float | None:
    return None if amount is None else amount.coins / 10 ** decimals(currency)


def items_text(found: ItemList, page: Page) -> str:
    """A line for each item, and how many of each kind there are."""
    if not found.lines:
        return NONE_OF_THEM if found.out_of else NO_ITEM
    head = [
        "item",
        "design",
        "size",
        "colours",
        "state",
        "since",
        "next",
        "yarn",
        "asked",
        "hours",
        "note",
    ]
    rows = [head, *(_row(line, page) for line in found.lines)]
    used = [place for place in range(len(head)) if any(row[place] for row in rows[1:])]
    return f"{columns([[row[at] for at in used] for row in rows])}\n{_count(found.lines)}"


def items_saved(count: int, target: str) -> str:
    """That the list is in a file."""
    return f"{counted(count, 'item')} written to {target}"


def _row(line: ItemLine, page: Page) -> list[str]:
    item = line.item
    cost = "" if line.cost is None else show_money(line.cost, page.currency)
    return [
        page.strong(str(item.number)),
        item.design or item.note,
        _size(line),
        " + ".join(dict.fromkeys(_colour(lot) for _, lot in line.colours)),
        item.state.value,
        line.since.isoformat(),
        sentence(line.next) if line.next else "",
        cost if line.cost_known or not cost else f"{cost} or more",
        "" if item.asked.price is None else show_money(item.asked.price, page.currency),
        _hours(line),
        item.note if item.design else "",
    ]


def _hours(line: ItemLine) -> str:
    """What it took, else what was planned: `2h10`, `4h00 planned`."""
    took, planned = line.item.made_minutes, line.item.asked.minutes
    minutes = planned if took is None else took
    if minutes is None:
        return ""
    return f"{minutes // 60}h{minutes % 60:02}{' planned' if took is None else ''}"


def _is_sold(line: ItemLine) -> bool:
    return line.sale is not None and line.sale.kind is SaleKind.SOLD


def _colour(lot: Lot) -> str:
    return colour_name(lot)


def _size(line: ItemLine) -> str:
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
