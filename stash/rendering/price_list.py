"""A price list of what is for sale, and a packing list by box."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from pathlib import Path
from typing import TYPE_CHECKING, Any

from stash.measures.money import Money
from stash.measures.written import show_money
from stash.rendering.amounts import counted, numbers
from stash.rendering.columns import columns
from stash.rendering.decimal_money import as_number
from stash.rendering.printed import as_html, in_short, safe, table_html

if TYPE_CHECKING:
    from stash.actions.price_list import ForSale, Offered

#: To be written by hand where no price is kept.
_NO_PRICE = "______"
_NOTHING = "Nothing is finished and unsold."


def rows(found: ForSale, box: int | None) -> list[dict[str, Any]]:
    """Each item with its price and, for packing, its box."""
    currency = found.settings.currency
    return [
        {
            "box": number,
            "item": one.item.number,
            "design": one.item.design or None,
            "size": in_short(one.size) or None,
            "price": None if one.price is None else as_number(one.price, currency),
        }
        for number, some in boxes(found, box)
        for one in some
    ]


def boxes(found: ForSale, box: int | None) -> list[tuple[int, Sequence[Offered]]]:
    """The items by box, so many in each; all in one where that is not said."""
    most = box or max(1, len(found.offered))
    return [
        (at // most + 1, found.offered[at : at + most]) for at in range(0, len(found.offered), most)
    ]


def _price(amount: Money | None, currency: str) -> str:
    return _NO_PRICE if amount is None else show_money(amount, currency)


def _priced(found: ForSale) -> Iterator[list[str]]:
    """One row for all items of a design that have one size and one price."""
    currency = found.settings.currency
    for (design, size, price), some in groupby(sorted(found.offered, key=_alike), key=_alike):
        of = [one.item.number for one in some]
        amount = None if price < 0 else Money(price)
        yield [design, size, f"{len(of)}", numbers(of), _price(amount, currency)]


def _alike(one: Offered) -> tuple[str, str, int]:
    return one.item.design, in_short(one.size), -1 if one.price is None else one.price.coins


_PRICES = ["design", "size", "how many", "items", "price"]
_PACKED = ["", "item", "design", "size", "price"]


def prices_text(found: ForSale) -> str:
    """What is for sale at what price, like with like."""
    shown = list(_priced(found))
    return columns([_PRICES, *shown]) if shown else _NOTHING


def prices_html(found: ForSale) -> str:
    """The same to print."""
    return as_html("Prices", prices_sheet(found))


def prices_sheet(found: ForSale) -> str:
    """The page of that list."""
    shown = list(_priced(found))
    table = table_html(_PRICES, shown, (2, 4)) if shown else f"<p>{_NOTHING}</p>"
    return f'<div class="page">\n<h1>Prices</h1>\n{table}\n</div>'


def packing_text(found: ForSale, box: int | None) -> str:
    """What goes into which box, each item with a place to tick it."""
    blocks = [
        f"{_head(number, some, found)}\n{columns(list(_packed(some, found)), '  ')}"
        for number, some in boxes(found, box)
    ]
    return "\n\n".join(blocks) or _NOTHING


def packing_html(found: ForSale, box: int | None) -> str:
    """The same to print, a box not split over pages where it fits on one."""
    blocks = "\n".join(
        f"<section>\n<h2>{safe(_head(number, some, found))}</h2>\n"
        f"{table_html(_PACKED, _packed(some, found), (1, 4))}\n</section>"
        for number, some in boxes(found, box)
    )
    return as_html("Packing list", f'<div class="page">\n<h1>Packing list</h1>\n{blocks}\n</div>')


def _packed(some: Sequence[Offered], found: ForSale) -> Iterator[list[str]]:
    currency = found.settings.currency
    for one in some:
        yield ["[ ]", f"{one.item.number}", one.item.design, in_short(one.size),
               _price(one.price, currency)]  # fmt: skip


def _head(number: int, some: Sequence[Offered], found: ForSale) -> str:
    total = sum((one.price for one in some if one.price), Money(0))
    least = "" if all(one.price is not None for one in some) else "at least "
    worth = f", {least}{show_money(total, found.settings.currency)}" if total.coins else ""
    return f"Box {number}: {counted(len(some), 'item')}{worth}"


def list_written(word: str, target: Path) -> str:
    """That a list is in a file."""
    return f"Saved the {'price' if word == 'prices' else 'packing'} list in {target}"
