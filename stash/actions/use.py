"""Yarn leaves the shelf: into an item, or otherwise."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from stash.actions import find
from stash.actions.book import Book, EntryWriter
from stash.actions.currency import learn
from stash.actions.her_settings import Settings
from stash.errors import NotEnoughYarn, Refusal, Unreadable
from stash.measures.length import Length
from stash.measures.mass import NO_MASS, Mass
from stash.measures.money import Money
from stash.measures.note import Note
from stash.stock.entry import of_item
from stash.stock.holding import HeldSkein
from stash.stock.item import Item, ItemState
from stash.stock.movement import LEAVING, Kind, Movement
from stash.stock.promise import Promised, lowered_by_use, shortages
from stash.store import entry_rows, item_rows


@dataclass(frozen=True, slots=True)
class Amount:
    """An amount as it was typed and as it was read."""

    typed: str
    value: Mass | Length


@dataclass(frozen=True, slots=True)
class YarnPrice:
    """What a buyer paid for some yarn, what was kept of it, and the currency they came in."""

    price: Money
    fee: Money
    currency: str = ""


@dataclass(frozen=True, slots=True)
class Consumed:
    """What left a skein, and the skein after it."""

    entry: int
    skein: HeldSkein
    amount: Mass
    said: Note | None
    item: Item | None
    begun: bool
    shorts: tuple[Note, ...]
    settings: Settings


def use(
    book: Book, skein: str, amount: Amount, *, item: str | None = None, on: date | None = None
) -> Consumed:
    """Yarn used, for an item or for nothing in particular.

    Raises NotEnoughYarn beyond what is free and not promised to that item.
    """
    with book.entry("use", on) as writer:
        found = find.skein(writer.db, skein)
        writer.know([found.skein])
        mass = mass_in(found.skein, amount)
        whom = find.item(writer.db, item) if item else None
        begun = ready_for_use(writer, whom) if whom else False
        book_use(writer, found.skein, mass, whom, amount.typed)
        writer.what = Note("skein_used", mass=mass, skein=found.skein.number, **of_item(whom))
        now = writer.skein(found.skein.number)
    return Consumed(
        writer.number, now, mass, found.said, whom, begun, writer.shorts, writer.settings
    )


#: What is typed for a kind, where it is not its name.
_TYPED = {Kind.MISTAKEN: "mistake"}


def leaving(why: str) -> Kind:
    """The reason yarn leaves, as typed."""
    words = {_TYPED.get(kind, kind.value): kind for kind in LEAVING}
    if why.strip().lower() not in words:
        raise Unreadable(why, "reason_yarn_leaves", reasons=tuple(words))
    return words[why.strip().lower()]


def gone(
    book: Book,
    skein: str,
    amount: Amount | None,
    why: Kind,
    *,
    paid: YarnPrice | None = None,
    on: date | None = None,
) -> Consumed:
    """Yarn given, sold, lost or spoilt; without an amount, all that is free of the skein.

    `paid` is what it was sold for, if somebody said.
    """
    with book.entry("gone", on) as writer:
        _refuse_paid(why, paid)
        if paid is not None:
            learn(writer, paid.currency)
        found = find.skein(writer.db, skein)
        writer.know([found.skein])
        mass = mass_in(found.skein, amount) if amount else found.skein.free
        _refuse_beyond(found.skein, mass, found.skein.free, to_release(writer, found.skein))
        if not mass:
            raise Refusal("nothing_free", skein=found.skein.number)
        typed = amount.typed if amount else ""
        price, fee = (paid.price, paid.fee) if paid else (None, None)
        writer.move([Movement(found.skein.number, why, -mass, typed, price=price, fee=fee)])
        writer.what = Note("skein_gone", mass=mass, skein=found.skein.number, why=why.value)
        now = writer.skein(found.skein.number)
    return Consumed(
        writer.number, now, mass, found.said, None, False, writer.shorts, writer.settings
    )


def _refuse_paid(why: Kind, paid: YarnPrice | None) -> None:
    """Only what is sold has a price, and no fee is more than it."""
    if paid is not None and why is not Kind.SOLD:
        raise Refusal("price_of_unsold_yarn", why=why.value)
    if paid is not None and paid.fee > paid.price:
        raise Refusal("fee_above_price")


def mass_in(skein: HeldSkein, amount: Amount) -> Mass:
    """An amount in the skein's own grams; a length needs its pair, and is never taken short."""
    if amount.value.mg <= 0 if isinstance(amount.value, Mass) else amount.value.um <= 0:
        raise Refusal("amount_above_nothing", typed=amount.typed)
    if isinstance(amount.value, Mass):
        return amount.value
    if skein.pair.put_up is None:
        raise Refusal("no_length_to_reckon_with", skein=skein.number)
    return min(skein.pair.put_up.mass_covering(amount.value), _at_least(skein, amount.value))


def _at_least(skein: HeldSkein, length: Length) -> Mass:
    """All of a skein, where a length asks for all of it; else no limit."""
    return skein.held if length == skein.held_length else Mass(2**62)


def ready_for_use(writer: EntryWriter, whom: Item) -> bool:
    """See that yarn can go into an item; a planned one is begun by it. True if it was."""
    refuse_closed(whom)
    if whom.state is ItemState.PLANNED:
        writer.step([entry_rows.Step(whom.number, ItemState.BEGUN)])
        return True
    return False


def refuse_closed(whom: Item) -> None:
    """Refused for an item that no yarn can go into: it is finished, or a note that holds yarn."""
    if whom.state in (ItemState.DONE, ItemState.UNRAVELLED):
        raise Refusal("item_closed", item=whom)
    if whom.design_id is None:
        raise Refusal("item_without_design", item=whom)


def book_use(
    writer: EntryWriter,
    skein: HeldSkein,
    mass: Mass,
    whom: Item | None,
    typed: str = "",
    *,
    estimated: bool = False,
    role: str = "",
) -> None:
    """One use of one skein: the movement, and the promise to that item shrinking by it."""
    promises = item_rows.promises(writer.db, skeins=[skein.number])
    own = [p for p in promises if whom and p.item == whom.number]
    _refuse_beyond(skein, mass, _able(skein, promises, own), _whose(writer, skein, whom))
    role = role or role_for(writer, skein.number, whom, own)
    move = Movement(
        skein.number, Kind.USED, -mass, typed, whom.number if whom else None, role, estimated
    )
    writer.move([move])
    writer.promise(lowered_by_use(own, mass))


def role_for(writer: EntryWriter, skein: int, whom: Item | None, own: Sequence[Promised]) -> str:
    """The role that yarn of a skein goes into: the one it was set aside for, even where nothing of
    that is left; else the item's only one."""
    if whom is None:
        return ""
    if own:
        return own[0].role
    before = item_rows.roles_set_aside(writer.db, skein, whom.number)
    planned = [p.role for p in item_rows.planned_roles(writer.db, whom.number)]
    roles = before or planned
    return roles[0] if len(roles) == 1 else ""


def _able(skein: HeldSkein, promises: list[Promised], own: list[Promised]) -> Mass:
    """What one item may take: all that is free, and what is really there of its own promise."""
    short = dict(shortages(skein.held, promises))
    return sum((p.mass - short.get(p, NO_MASS) for p in own), skein.free)


def _refuse_beyond(skein: HeldSkein, mass: Mass, able: Mass, whose: Note) -> None:
    if mass > able:
        raise NotEnoughYarn(skein.number, mass, able, whose)


def to_release(writer: EntryWriter, skein: HeldSkein) -> Note:
    """Who the rest is set aside for, where none of it can be taken for an item."""
    if others := _items_of(writer, skein, None):
        return Note("rest_to_release", items=others)
    return Note("weigh_if_wrong", skein=skein.number)


def _whose(writer: EntryWriter, skein: HeldSkein, but: Item | None) -> Note:
    """Who the rest is set aside for, and the way out."""
    if others := _items_of(writer, skein, but):
        return Note("rest_set_aside", items=others)
    return Note("weigh_if_wrong", skein=skein.number)


def _items_of(writer: EntryWriter, skein: HeldSkein, but: Item | None) -> tuple[Item, ...]:
    """The items that yarn of a skein is set aside for, by number."""
    promises = item_rows.promises(writer.db, skeins=[skein.number])
    numbers = {p.item for p in promises if but is None or p.item != but.number}
    return tuple(item_rows.items(writer.db, sorted(numbers))) if numbers else ()
