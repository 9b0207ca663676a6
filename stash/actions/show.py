"""Looking at one skein, lot or item: reading only."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from stash.actions import find
from stash.actions.book import Book
from stash.actions.her_settings import Settings
from stash.actions.priced import Priced, yarn_of
from stash.actions.shelf import skeins_of
from stash.costing.price import YarnCost
from stash.errors import NotFound
from stash.measures.money import Money
from stash.measures.note import Note
from stash.stock.entry import Entry
from stash.stock.holding import HeldLot, HeldSkein
from stash.stock.item import Item
from stash.stock.movement import Booked, standing
from stash.stock.order import Order
from stash.stock.promise import Promised
from stash.stock.sale import Sale
from stash.stock.spread import Contribution, contributions, relative_spread
from stash.stock.yarn import Lot
from stash.store import entry_rows, item_rows, order_rows, sale_rows, skein_rows, yarn_rows
from stash.store.engine import Connection
from stash.store.entry_rows import Fact
from stash.store.item_rows import PlannedRole
from stash.store.kept_shelf import kept_lots


@dataclass(frozen=True, slots=True)
class LotStory:
    """A lot with every skein it has had, what is set aside of it, and facts put right."""

    held: HeldLot
    promises: tuple[tuple[Promised, Item], ...]
    facts: tuple[Fact, ...]
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
    moved: tuple[tuple[Booked, Entry], ...]
    facts: tuple[Fact, ...]
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
    moved: tuple[tuple[Booked, Entry], ...]
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
    items = {item.number: item for item in item_rows.items(db)}
    promises = item_rows.promises(db, skeins=[skein.number for skein in held.skeins])
    return LotStory(
        held=held,
        promises=tuple((promise, items[promise.item]) for promise in promises),
        facts=tuple(_named_facts(db, "lot", lot.id)),
        settings=settings,
    )


def _of_skein(db: Connection, settings: Settings, asked: str) -> SkeinStory:
    found = find.skein(db, asked)
    number = found.skein.number
    facts = skein_rows.skein_facts(db, number)
    moved = entry_rows.movements(db, skein_number=number)
    promises = item_rows.promises(db, skeins=[number])
    known = {item.number: item for item in item_rows.items(db)}
    used_for = {m.item for m in standing(b.movement for b in moved) if m.item in known}
    paid = facts["paid_coins"]
    return SkeinStory(
        skein=found.skein,
        lot=found.lot,
        said=found.said,
        bought_on=facts["bought_on"] or "",
        paid=None if paid is None else Money(paid),
        note=facts["note"],
        moved=_with_entries(db, moved),
        facts=_facts(db, number, found.lot.id),
        promises=tuple((p, known[p.item]) for p in promises),
        items=tuple(known[n] for n in sorted(n for n in used_for if n is not None)),
        spread=contributions(found.skein, found.lot, settings.scale),
        parent=facts["parent"],
        children=tuple(skein_rows.parents(db, number)),
        settings=settings,
    )


def _facts(db: Connection, skein: int, lot: int) -> tuple[Fact, ...]:
    found = [*_named_facts(db, "skein", skein), *_named_facts(db, "lot", lot)]
    return tuple(sorted(found, key=lambda fact: fact.entry))


def _named_facts(db: Connection, thing: str, number: int) -> Iterator[Fact]:
    for fact in entry_rows.facts(db, thing=thing, ref=str(number)):
        yield _of_yarn(db, fact) if fact.name == "yarn_id" else fact


def _of_yarn(db: Connection, fact: Fact) -> Fact:
    """The yarn that a record was of before, by its name."""
    return replace(fact, name="yarn", old=str(yarn_rows.yarn_numbered(db, int(fact.old or 0))))


def _with_entries(db: Connection, moved: Sequence[Booked]) -> tuple[tuple[Booked, Entry], ...]:
    numbers = {booked.entry for booked in moved}
    entries = {entry.number: entry for entry in entry_rows.entries(db, only=numbers)}
    return tuple((booked, entries[booked.entry]) for booked in moved)


def item_story(book: Book, asked: str) -> ItemStory:
    """Everything the books say of one item."""
    with book.reading() as db:
        return _of_item(db, Settings.read(db), asked)


def _of_item(db: Connection, settings: Settings, asked: str) -> ItemStory:
    item = find.item(db, asked)
    moved = entry_rows.movements(db, items=[item.number])
    promises = item_rows.promises(db, items=[item.number])
    numbers = [move.skein for move in standing(b.movement for b in moved)]
    skeins = skeins_of(db, numbers + [p.skein for p in promises])
    lots = skein_rows.lots(db, sorted({s.lot_id for s in skeins.values()}))
    return ItemStory(
        item=item,
        planned=tuple(item_rows.planned_roles(db, item.number)),
        promises=tuple(promises),
        moved=_with_entries(db, moved),
        skeins=tuple((s, lots[s.lot_id]) for _, s in sorted(skeins.items())),
        sales=tuple(sale_rows.sales(db, [item.number])),
        yarn=yarn_of(Priced.read(db), item.number) if moved else (),
        order=_order(db, item),
        settings=settings,
    )


def _order(db: Connection, item: Item) -> Order | None:
    """The order it is for; nothing is read where it is for none."""
    wanted = item.asked.order
    if wanted is None:
        return None
    return next((one for one in order_rows.orders(db) if one.number == wanted), None)
