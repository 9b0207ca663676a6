"""What is for sale: finished items that are still hers, with size and the price asked for each."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from stash.actions.book import Book
from stash.actions.her_settings import Settings
from stash.actions.past_items import Plans
from stash.actions.sold import unsold
from stash.errors import NotFound, Refusal
from stash.measures.money import Money
from stash.requirements.design.design import Design
from stash.requirements.design.shapes import Size
from stash.stock.item import Item, ItemState
from stash.store import item_rows


@dataclass(frozen=True, slots=True)
class Offered:
    """One item for sale; `price` is what was asked for it when it was planned, if anything was."""

    item: Item
    size: Size | None

    @property
    def price(self) -> Money | None:
        """What was asked for it; None where nobody said."""
        return self.item.asked.price


@dataclass(frozen=True, slots=True)
class ForSale:
    """What is for sale, like with like: by design, then size, then number."""

    offered: tuple[Offered, ...]
    settings: Settings


def for_sale(book: Book, numbers: Collection[int] | None = None) -> ForSale:
    """The items of these numbers, each finished and hers; all that are so, if None.

    Raises NotFound for a number that no item has, Refusal for one that is not finished or is gone.
    """
    with book.reading() as db:
        known = {one.number: one for one in item_rows.items(db)}
        ready = unsold(db)
        plans = Plans.read(db)
        began = {step.item: step.entry for step in reversed(item_rows.standing_steps(db))}
        settings = Settings.read(db)
    wanted = sorted(ready if numbers is None else numbers)
    for number in wanted:
        if number not in known:
            raise NotFound("item", str(number))
        if known[number].state is not ItemState.DONE:
            raise Refusal("not_finished_yet", item=known[number])
        if number not in ready:
            raise Refusal("not_hers_any_more", item=known[number])
    found = [_offered(known[number], plans, began.get(number, 0)) for number in wanted]
    return ForSale(tuple(sorted(found, key=_order)), settings)


def _offered(item: Item, plans: Plans, entry: int) -> Offered:
    plan = None if item.design_id is None else plans.at(item.design_id, entry)
    plan = plan or Design()
    return Offered(item, plan.size)


def _order(one: Offered) -> tuple[str, tuple[int, ...], int]:
    sides = () if one.size is None else tuple(side.um for side in one.size.sides)
    return one.item.design.casefold(), sides, one.item.number
