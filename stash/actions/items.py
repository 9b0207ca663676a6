"""Her items: what is planned, begun, done and sold, each with what comes next."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from stash.actions.book import Book
from stash.actions.her_settings import Settings
from stash.actions.past_items import Plans, ReadPlans
from stash.actions.priced import Priced
from stash.measures.money import Money
from stash.measures.note import Note
from stash.requirements.design.design import Design
from stash.stock.item import Item, ItemState
from stash.stock.promise import Promised
from stash.stock.sale import Sale, SaleKind, away
from stash.stock.turnover import Total
from stash.stock.yarn import Lot
from stash.store import item_rows, sale_rows, weighing_rows
from stash.store.engine import Connection
from stash.store.item_rows import Stepped


class Which(StrEnum):
    """Which items to list; *open* ones may still take yarn, *finished* are done, sold or not."""

    ALL = "all"
    OPEN = "open"
    FINISHED = "finished"
    UNSOLD = "unsold"
    SOLD = "sold"


@dataclass(frozen=True, slots=True)
class ItemLine:
    """An item as a line of the list.

    `plan` is its design as it was when its yarn was set aside, `colours` its lots by role, `since`
    the day of its state or its sale. `cost` is that of its yarn so far, None before any is used or
    where no price of it is known; `cost_known`: every price of it is. `sale` is what it went by:
    sold, given away or lost.
    """

    item: Item
    plan: Design
    colours: tuple[tuple[str, Lot], ...]
    since: date
    next: Note | None
    cost: Money | None
    cost_known: bool
    sale: Sale | None


@dataclass(frozen=True, slots=True)
class ItemList:
    """The items that were asked for, by number; `out_of` so many that there are."""

    lines: tuple[ItemLine, ...]
    out_of: int
    settings: Settings


def listed_items(book: Book, which: Which = Which.ALL) -> ItemList:
    """The items in one view; without those that came apart or whose yarn is free again."""
    with book.reading() as db:
        settings = Settings.read(db)
        known = [item for item in item_rows.items(db) if _is_there(item)]
        sales = _sales(db)
        chosen = [item for item in known if _answers(item, sales.get(item.number), which)]
        lines = tuple(_Lines(db, chosen, sales)) if chosen else ()
    return ItemList(lines, len(known), settings)


def lines_of(db: Connection, items: Sequence[Item]) -> tuple[ItemLine, ...]:
    """Some items, each as a line, in a view that is open already."""
    return tuple(_Lines(db, items, _sales(db, [item.number for item in items])))


#: The states of an item that yarn went into.
_MADE = (ItemState.BEGUN, ItemState.DONE)


def last_made(book: Book) -> dict[int, tuple[tuple[str, Lot], ...]]:
    """The lots that each design was last made of, by the number of the design; A first.

    The newest item that is begun or done counts, of a design that has one.
    """
    with book.reading() as db:
        made = (item for item in item_rows.items(db) if item.state in _MADE)
        newest = {item.design_id: item for item in sorted(made, key=lambda one: one.number)}
        lines = lines_of(db, [*newest.values()]) if newest else ()
    return {one.item.design_id: one.colours for one in lines if one.item.design_id is not None}


def _is_there(item: Item) -> bool:
    gone = item.state is ItemState.UNRAVELLED
    return not gone and (item.design_id is not None or item.set_aside)


def _sales(db: Connection, items: Collection[int] | None = None) -> dict[int, Sale | None]:
    facts: dict[int, list[Sale]] = {}
    for fact in sale_rows.sales(db, items):
        facts.setdefault(fact.item, []).append(fact)
    return {number: away(own) for number, own in facts.items()}


def _answers(item: Item, sale: Sale | None, which: Which) -> bool:
    done = item.state is ItemState.DONE
    return {
        Which.ALL: True,
        Which.OPEN: item.open,
        Which.FINISHED: done,
        Which.UNSOLD: done and sale is None,
        Which.SOLD: sale is not None and sale.kind is SaleKind.SOLD,
    }[which]


class _Lines(Iterable[ItemLine]):
    """The lines of some items, made from tables that were each read once."""

    def __init__(
        self, db: Connection, items: Sequence[Item], sales: Mapping[int, Sale | None]
    ) -> None:
        self._items, self._sales = items, sales
        self._steps: dict[int, list[Stepped]] = {}
        numbers = [item.number for item in items]
        for step in item_rows.standing_steps(db, numbers):
            self._steps.setdefault(step.item, []).append(step)
        self._promised: dict[int, list[Promised]] = {}
        for promise in item_rows.promises(db, items=numbers):
            self._promised.setdefault(promise.item, []).append(promise)
        begun = [item.number for item in items if item.state is ItemState.BEGUN]
        self._weighed = weighing_rows.weighed_since_set_aside(db, begun)
        self._priced = Priced.read(db)
        self._used = self._priced.used_by_items()
        self._plans = ReadPlans(Plans.read(db))

    def __iter__(self) -> Iterator[ItemLine]:
        for item in self._items:
            used, steps = self._used.get(item.number, {}), self._steps[item.number]
            sale = self._sales.get(item.number)
            yield ItemLine(
                item=item,
                plan=self._plans.at(item.design_id, steps[0].entry),
                colours=self._colours(item, used),
                since=steps[-1].on if sale is None else sale.on,
                next=self._next(item, used, sale),
                cost=_cost(used.values()),
                cost_known=all(total.all_priced for total in used.values()),
                sale=sale,
            )

    def _colours(
        self, item: Item, used: Mapping[tuple[str, int], Total]
    ) -> tuple[tuple[str, Lot], ...]:
        """The lots that went into it or are set aside for it, A first."""
        aside = [(p.role, p.skein) for p in self._promised.get(item.number, [])]
        of_roles = ((role, self._priced.lot(skein)) for role, skein in sorted({*aside, *used}))
        return tuple({(role, lot.id): (role, lot) for role, lot in of_roles}.values())

    def _next(
        self, item: Item, used: Mapping[tuple[str, int], Total], sale: Sale | None
    ) -> Note | None:
        if sale is not None:
            return Note("next_gone", how=sale.kind.value, on=sale.on)
        if item.design_id is None:
            return Note("next_release", item=item)
        if item.state is ItemState.PLANNED:
            return Note("next_begin") if item.set_aside else Note("next_set_aside")
        if item.state is ItemState.BEGUN:
            return self._next_of_begun(item, used)
        return Note("next_sell")

    def _next_of_begun(self, item: Item, used: Mapping[tuple[str, int], Total]) -> Note:
        """Each of its balls is weighed once while it is worked; then only the end is missing."""
        weighed = self._weighed[item.number]
        aside = [(p.role, p.skein) for p in self._promised.get(item.number, [])]
        if not (aside or used):
            return Note("next_set_aside")
        balls = {role for role, skein in (*aside, *used) if skein not in weighed}
        roles = tuple(sorted(balls))
        return Note("next_weigh", roles=roles) if roles else Note("next_finish")


def _cost(used: Collection[Total]) -> Money | None:
    """What is known of the cost; None where nothing is."""
    some_known = any(total.all_priced or total.cost.coins for total in used)
    return sum((total.cost for total in used), Money(0)) if some_known else None
