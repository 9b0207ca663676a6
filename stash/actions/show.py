"""Looking at one skein, lot or item: reading only."""

from __future__ import annotations

from dataclasses import dataclass

from stash.actions import find
from stash.actions.book import Book
from stash.actions.her_settings import Settings
from stash.actions.history import History, of_item, of_yarn
from stash.actions.priced import Priced, yarn_of
from stash.actions.shelf import skeins_of
from stash.costing.price import YarnCost
from stash.errors import NotFound
from stash.measures.money import Money
from stash.measures.note import Note
from stash.stock.holding import HeldLot, HeldSkein
from stash.stock.item import Item
from stash.stock.movement import standing
from stash.stock.order import Order
from stash.stock.promise import Promised
from stash.stock.sale import Sale
from stash.stock.spread import Contribution, contributions, relative_spread
from stash.stock.yarn import Lot
from stash.store import item_rows, order_rows, sale_rows, skein_rows
from stash.store.engine import Connection
from stash.store.item_rows import PlannedRole
from stash.store.kept_shelf import kept_lots


@dataclass(frozen=True, slots=True)
class LotStory:
    """A lot with every skein it has had, what is set aside of it, and what happened to it."""

    held: HeldLot
    promises: tuple[tuple[Promised, Item], ...]
    history: History
    settings: Settings


@dataclass(frozen=True, slots=True)
class SkeinStory:
    """A skein: what it is, what became of it, where it went, and how sure its length is.

    `parent` is the skein it was wound off or unravelled from; `children` came so from it.
    """

    skein: HeldSkein
    lot: Lot
    said: Note | None
    bought_on: str
    paid: Money | None
    note: str
    history: History
    promises: tuple[tuple[Promised, Item], ...]
    items: tuple[Item, ...]
    spread: tuple[Contribution, ...]
    parent: int | None
    children: tuple[int, ...]
    settings: Settings

    @property
    def spread_m(self) -> float | None:
        """One standard deviation of its length in metres; None while the length is not known."""
        length = self.skein.held_length
        return None if length is None else length.m * relative_spread(self.spread)


@dataclass(frozen=True, slots=True)
class ItemStory:
    """An item: what it was planned with, what is set aside, and which skeins went into it.

    `sales` are its sales and returns; `yarn` what each skein's yarn in it cost; `order` is the one
    it is for.
    """

    item: Item
    planned: tuple[PlannedRole, ...]
    promises: tuple[Promised, ...]
    history: History
    skeins: tuple[tuple[HeldSkein, Lot], ...]
    sales: tuple[Sale, ...]
    yarn: tuple[YarnCost, ...]
    order: Order | None
    settings: Settings

    @property
    def currency(self) -> str:
        """The currency of its prices."""
        return self.settings.currency


def story(book: Book, asked: str, *, one_skein: bool = False) -> SkeinStory | LotStory | ItemStory:
    """Everything the books say of what a text names: a lot by its number, a skein, else an item.

    `one_skein`: of a lot too only the skein that its number leads to.
    """
    with book.reading() as db:
        settings = Settings.read(db)
        if not one_skein and (lot := find.lot_record(db, asked)):
            return _of_lot(db, settings, lot)
        try:
            return _of_skein(db, settings, asked)
        except NotFound as no_skein:
            try:
                return _of_item(db, settings, asked)
            except NotFound:
                raise no_skein from None


def _of_lot(db: Connection, settings: Settings, lot: Lot) -> LotStory:
    held = next(one for one in kept_lots(db, with_spent=True) if one.lot.id == lot.id)
    numbers = [skein.number for skein in held.skeins]
    history = of_yarn(db, numbers, lot.id, item_rows.items(db))
    promises = item_rows.promises(db, skeins=numbers)
    return LotStory(
        held=held,
        promises=tuple((promise, history.items[promise.item]) for promise in promises),
        history=history,
        settings=settings,
    )


def _of_skein(db: Connection, settings: Settings, asked: str) -> SkeinStory:
    found = find.skein(db, asked)
    number = found.skein.number
    facts = skein_rows.skein_facts(db, number)
    history = of_yarn(db, [number], found.lot.id, item_rows.items(db))
    promises, known = item_rows.promises(db, skeins=[number]), history.items
    used_for = {m.item for m in standing(b.movement for b in history.moved) if m.item in known}
    paid = facts["paid_coins"]
    return SkeinStory(
        skein=found.skein,
        lot=found.lot,
        said=found.said,
        bought_on=facts["bought_on"] or "",
        paid=None if paid is None else Money(paid),
        note=facts["note"],
        history=history,
        promises=tuple((p, known[p.item]) for p in promises),
        items=tuple(known[n] for n in sorted(n for n in used_for if n is not None)),
        spread=contributions(found.skein, found.lot, settings.scale),
        parent=facts["parent"],
        children=tuple(skein_rows.parents(db, number)),
        settings=settings,
    )


def item_story(book: Book, asked: str) -> ItemStory:
    """Everything the books say of one item."""
    with book.reading() as db:
        return _of_item(db, Settings.read(db), asked)


def _of_item(db: Connection, settings: Settings, asked: str) -> ItemStory:
    item = find.item(db, asked)
    sales = tuple(sale_rows.sales(db, [item.number]))
    history = of_item(db, item, sales)
    promises = item_rows.promises(db, items=[item.number])
    numbers = [move.skein for move in standing(b.movement for b in history.moved)]
    skeins = skeins_of(db, numbers + [p.skein for p in promises])
    lots = skein_rows.lots(db, sorted({s.lot_id for s in skeins.values()}))
    return ItemStory(
        item=item,
        planned=tuple(item_rows.planned_roles(db, item.number)),
        promises=tuple(promises),
        history=history,
        skeins=tuple((s, lots[s.lot_id]) for _, s in sorted(skeins.items())),
        sales=sales,
        yarn=yarn_of(Priced.read(db), item.number) if history.moved else (),
        order=_order(db, item),
        settings=settings,
    )


def _order(db: Connection, item: Item) -> Order | None:
    """The order it is for; nothing is read where it is for none."""
    wanted = item.asked.order
    if wanted is None:
        return None
    return next((one for one in order_rows.orders(db) if one.number == wanted), None)
