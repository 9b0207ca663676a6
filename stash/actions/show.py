"""Looking at the shelf, at one skein and at one item: reading only."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from stash.actions import find
from stash.actions.book import Book
from stash.actions.her_settings import Settings
from stash.actions.priced import Priced, yarn_of
from stash.costing.price import YarnCost
from stash.errors import NotFound
from stash.measures.colour import family, lab
from stash.measures.length import NO_LENGTH, Length
from stash.measures.money import Money
from stash.measures.note import Note
from stash.stock.entry import Entry
from stash.stock.holding import HeldLot, HeldSkein, SkeinState
from stash.stock.item import Item
from stash.stock.movement import Booked, standing
from stash.stock.order import Order
from stash.stock.promise import Promised
from stash.stock.sale import Sale
from stash.stock.spread import Contribution, contributions, relative_spread
from stash.stock.yarn import Condition, Lot
from stash.store import entry_rows, item_rows, order_rows, sale_rows, skein_rows, yarn_rows
from stash.store.engine import Connection
from stash.store.entry_rows import Fact
from stash.store.item_rows import PlannedRole
from stash.store.kept_shelf import kept_lots
from stash.trade.fibres import under_each_name


@dataclass(frozen=True, slots=True)
class Filters:
    """What of the shelf to show; what is left out does not narrow.

    `words` may be misspelt. `colour` and `fibre` are looked for in the words of the band. `sound`
    leaves out lots under any condition. `lone`: one whole skein and nothing else of its lot.
    """

    words: str = ""
    thickness: tuple[int, int] | None = None
    fibre: str = ""
    colour: str = ""
    lot: str = ""
    place: str = ""
    owner: str = ""
    least_free: Length | None = None
    with_spent: bool = False
    family: str = ""
    conditions: frozenset[Condition] = frozenset()
    sound: bool = False
    daylight: bool = False
    lone: bool = False
    remnants: bool = False


class SortBy(StrEnum):
    """What a shelf can be sorted by."""

    NAME = "name"
    FREE = "free"
    THICKNESS = "thickness"
    COLOUR = "colour"
    PLACE = "place"
    AGE = "age"


@dataclass(frozen=True, slots=True)
class OnShelf:
    """The lots that were asked for, in order, and her settings.

    `nearest`: where words found none, words on the shelf that are like them.
    """

    lots: tuple[HeldLot, ...]
    settings: Settings
    nearest: tuple[str, ...] = ()


def shelf(book: Book, filters: Filters, order: SortBy | None = None) -> OnShelf:
    """The lots that answer to the filters, in the order asked for.

    Without one: by yarn, colour and lot; best fit first where words were given.
    """
    with book.reading() as db:
        settings = Settings.read(db)
        lots = kept_lots(db, with_spent=filters.with_spent)
        notes = _notes(db) if filters.words else None
    lots = tuple(lot for lot in lots if _answers(lot, filters))
    if filters.words:
        there = lots
        lots = tuple(find.matching(there, filters.words, notes))
        if not lots:
            return OnShelf((), settings, find.nearest_words(there, filters.words))
        if order is None:
            return OnShelf(lots, settings)
    by = order or SortBy.NAME
    return OnShelf(
        tuple(sorted(lots, key=lambda lot: (*_sorted_by(lot, by), *_by_name(lot)))), settings
    )


def lot(book: Book, number: int) -> Lot:
    """The record of a lot."""
    with book.reading() as db:
        found = skein_rows.lots(db, [number])
    if number not in found:
        raise NotFound("lot", f"L{number}")
    return found[number]


def _notes(db: Connection) -> dict[int, str]:
    """What is noted of each skein."""
    return {number: note for number, (_, _, note) in skein_rows.bought_and_paid(db).items()}


def _sorted_by(held: HeldLot, order: SortBy) -> tuple[float | str, ...]:
    lot = held.lot
    if order is SortBy.FREE:
        return (-(held.free_length or NO_LENGTH).um,)
    if order is SortBy.THICKNESS:
        return (8 if lot.thickness_from is None else lot.thickness_from,)
    if order is SortBy.COLOUR:
        return _by_colour(lot)
    if order is SortBy.PLACE:
        return (min((skein.place for skein in held.skeins), default="").casefold(),)
    return (min(skein.number for skein in held.skeins),) if order is SortBy.AGE else ()


def _by_colour(lot: Lot) -> tuple[float, ...]:
    """By hue, greys last and unknown ones behind them, then light to dark."""
    if not lot.colours:
        return (2, 0.0, 0.0)
    seen = lab(lot.colours[0])
    hue = seen.hue
    return (1, 0.0, -seen.lightness) if hue is None else (0, hue, -seen.lightness)


def _by_name(lot: HeldLot) -> tuple[str, str, str, str, int]:
    facts = lot.lot
    return (
        facts.yarn.name.casefold(),
        facts.yarn.maker.casefold(),
        facts.colour.casefold(),
        facts.lot,
        facts.id,
    )


def _answers(held: HeldLot, filters: Filters) -> bool:
    lot = held.lot
    texts = (
        (filters.fibre, lambda: under_each_name(lot.fibre)),
        (filters.colour, lambda: [lot.colour, lot.colour_no]),
        (filters.place, lambda: [skein.place for skein in held.skeins]),
        (filters.owner, lambda: [skein.owner for skein in held.skeins]),
    )
    return (
        all(_in_any(wanted, found()) for wanted, found in texts if wanted)
        and (not filters.lot or lot.lot == filters.lot.strip())
        and (filters.thickness is None or _meets(lot, filters.thickness))
        and (filters.least_free is None or (held.free_length or NO_LENGTH) >= filters.least_free)
        and _is_such(held, filters)
    )


def _is_such(held: HeldLot, filters: Filters) -> bool:
    """What the lot is like, beyond the words of its band."""
    lot = held.lot
    states = [skein.state for skein in held.skeins if skein.held]
    return (
        (not filters.family or filters.family in {family(lab(c)) for c in lot.colours})
        and filters.conditions <= {*lot.conditions}
        and not (filters.sound and lot.conditions)
        and (not filters.daylight or lot.daylight)
        and (not filters.lone or states == [SkeinState.WHOLE])
        and (not filters.remnants or SkeinState.REMNANT in states)
    )


def _in_any(wanted: str, texts: Sequence[str]) -> bool:
    return any(wanted.strip().casefold() in text.casefold() for text in texts)


def _meets(lot: Lot, wanted: tuple[int, int]) -> bool:
    if lot.thickness_from is None:
        return False
    high = lot.thickness_from if lot.thickness_to is None else lot.thickness_to
    return lot.thickness_from <= wanted[1] and wanted[0] <= high


@dataclass(frozen=True, slots=True)
class AsideLine:
    """A promise with its skein's record and its item."""

    promise: Promised
    item: Item
    lot: Lot
    place: str


@dataclass(frozen=True, slots=True)
class AllAside:
    """All that is promised, by item, then role and skein, and her settings."""

    lines: tuple[AsideLine, ...]
    settings: Settings


def set_aside(book: Book) -> AllAside:
    """What is promised to what."""
    with book.reading() as db:
        settings = Settings.read(db)
        promises = item_rows.promises(db)
        known = {item.number: item for item in item_rows.items(db)}
        skeins = _skeins(db, [p.skein for p in promises])
        lots = skein_rows.lots(db, sorted({s.lot_id for s in skeins.values()}))
    lines = [
        AsideLine(p, known[p.item], lots[skeins[p.skein].lot_id], skeins[p.skein].place)
        for p in promises
    ]
    lines.sort(key=lambda x: (x.item.number, x.promise.role, x.promise.skein))
    return AllAside(tuple(lines), settings)


def _skeins(db: Connection, numbers: Sequence[int]) -> dict[int, HeldSkein]:
    held = skein_rows.held_skeins(db, sorted(set(numbers)))
    return {skein.number: skein for skein in held}


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
    moved = entry_rows.movements(db, item_number=item.number)
    promises = item_rows.promises(db, item_number=item.number)
    numbers = [move.skein for move in standing(b.movement for b in moved)]
    skeins = _skeins(db, numbers + [p.skein for p in promises])
    lots = skein_rows.lots(db, sorted({s.lot_id for s in skeins.values()}))
    return ItemStory(
        item=item,
        planned=tuple(item_rows.planned_roles(db, item.number)),
        promises=tuple(promises),
        moved=_with_entries(db, moved),
        skeins=tuple((s, lots[s.lot_id]) for _, s in sorted(skeins.items())),
        sales=tuple(sale_rows.sales(db, item.number)),
        yarn=yarn_of(Priced.read(db), item.number) if moved else (),
        order=next((one for one in order_rows.orders(db) if one.number == item.asked.order), None),
        settings=settings,
    )
