"""An item comes apart: its yarn goes back to the shelf, less the usual loss."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from stash.actions import find
from stash.actions.book import Book, EntryWriter
from stash.actions.her_settings import Settings
from stash.actions.release import release_within
from stash.actions.several import in_turn, of_items
from stash.actions.sold import SalesOf
from stash.actions.split import new_part
from stash.errors import Refusal
from stash.measures.mass import NO_MASS, Mass
from stash.measures.rounding import shared_out
from stash.stock.holding import HeldSkein
from stash.stock.item import Item, ItemState
from stash.stock.movement import Kind, Movement
from stash.store import entry_rows, item_rows, skein_rows
from stash.store.entry_rows import Step

#: What ends and worn places usually cost (our choice: tails are cut off, joins stay joined).
USUAL_LOSS = 0.05


#: The skein that yarn went to, the one it was of, how much, and whether that is a new skein.
Placed = tuple[int, int, Mass, bool]


@dataclass(frozen=True, slots=True)
class Returned:
    """One skein that got yarn back: `made` if it is new, and from which skein the yarn was."""

    skein: HeldSkein
    was: int
    mass: Mass
    made: bool


@dataclass(frozen=True, slots=True)
class Unravelled:
    """An item that came apart, and where its yarn lies now."""

    entry: int
    item: Item
    returned: tuple[Returned, ...]
    settings: Settings


def unravel(
    book: Book,
    items: Sequence[str],
    *,
    into: Mapping[int, int] | None = None,
    back: float | Mass = 1 - USUAL_LOSS,
    on: date | None = None,
) -> list[Unravelled]:
    """Take items apart, all in one entry.

    Each skein one used gets a new skein of the same lot beside it, unless `into` says that the yarn
    was wound back onto a skein of that lot (from number -> onto number). `back` is what came back:
    a share of what was used, or what the scale says of all of it, shared by what was used of each.
    """
    with book.entry("unravel", on) as writer:
        known = find.Items(writer.db, items)
        history = SalesOf(writer, known.numbers)

        def apart_from(typed: str) -> tuple[Item, list[Placed]]:
            item = _able(history, known.item(typed))
            known.becomes(replace(item, state=ItemState.UNRAVELLED))
            return item, _apart(writer, item, into or {}, back)

        apart = in_turn(book, items, apart_from)
        total = sum((mass for _, placed in apart for _, _, mass, _ in placed), NO_MASS)
        one, many = "item_unravelled", "items_unravelled"
        writer.what = of_items(one, many, [item for item, _ in apart], mass=total)
    return _unravelled(book, writer, apart)


def _able(history: SalesOf, item: Item) -> Item:
    """The same item, if it can come apart."""
    if item.state not in (ItemState.BEGUN, ItemState.DONE):
        raise Refusal("nothing_to_unravel", item=item)
    history.refuse_if_sold(item)
    return item


def _apart(
    writer: EntryWriter, item: Item, into: Mapping[int, int], back: float | Mass
) -> list[Placed]:
    """One item apart as part of an entry: where its yarn went."""
    used = _used(writer, item)
    if not used:
        raise Refusal("no_yarn_used", item=item)
    _refuse_unused(item, used, into)
    placed = [_put_back(writer, item, n, kept, into) for n, kept in _kept(used, back)]
    release_within(writer, item)
    writer.step([Step(item.number, ItemState.UNRAVELLED)])
    return placed


def _used(writer: EntryWriter, item: Item) -> list[tuple[int, Mass]]:
    """What the item took of each skein, by number."""
    sums: dict[int, Mass] = {}
    for row in entry_rows.movements(writer.db, items=[item.number]):
        move = row.movement
        sums[move.skein] = sums.get(move.skein, NO_MASS) - move.change
    return [(number, mass) for number, mass in sorted(sums.items()) if mass > NO_MASS]


def _refuse_unused(item: Item, used: Sequence[tuple[int, Mass]], into: Mapping[int, int]) -> None:
    numbers = [number for number, _ in used]
    for number in into:
        if number not in numbers:
            raise Refusal("skein_not_used", item=item, skein=number, used=tuple(numbers))


def _kept(used: Sequence[tuple[int, Mass]], back: float | Mass) -> list[tuple[int, Mass]]:
    """What came back of each skein; what was weighed is shared to the milligram."""
    if isinstance(back, Mass):
        total = sum((mass for _, mass in used), NO_MASS)
        if not NO_MASS < back <= total:
            raise Refusal("more_back_than_used", back=back, used=total)
        shares = shared_out(back.mg, [mass.mg for _, mass in used])
    elif 0 < back <= 1:
        shares = [round(mass.mg * back) for _, mass in used]
    else:
        raise Refusal("loss_of_all", loss=1 - back)
    return [(number, Mass(mg)) for (number, _), mg in zip(used, shares, strict=True) if mg]


def _put_back(
    writer: EntryWriter, item: Item, number: int, mass: Mass, into: Mapping[int, int]
) -> Placed:
    was = writer.skein(number)
    onto = into.get(number)
    if onto is None:
        target, made = new_part(writer, was, None), True
    else:
        target, made = _same_lot(writer, was, onto), False
    writer.move([Movement(target, Kind.UNRAVELLED, mass, item=item.number)])
    return target, number, mass, made


def _same_lot(writer: EntryWriter, was: HeldSkein, onto: int) -> int:
    held = skein_rows.held_skeins(writer.db, [onto])
    if not held or held[0].lot_id != was.lot_id:
        raise Refusal("onto_another_lot", skein=onto, was=was.number)
    if not held[0].opened:
        raise Refusal("onto_whole_skein", skein=onto)
    return onto


def _unravelled(
    book: Book, writer: EntryWriter, apart: Sequence[tuple[Item, list[Placed]]]
) -> list[Unravelled]:
    """The items as the entry has left them, read together."""
    targets = sorted({target for _, placed in apart for target, *_ in placed})
    with book.reading() as db:
        skeins = {skein.number: skein for skein in skein_rows.held_skeins(db, targets)}
        numbers = [item.number for item, _ in apart]
        now = {item.number: item for item in item_rows.items(db, numbers)}

    def of(item: Item, placed: Sequence[Placed]) -> Unravelled:
        returned = tuple(Returned(skeins[t], was, mass, made) for t, was, mass, made in placed)
        return Unravelled(writer.number, now[item.number], returned, writer.settings)

    return [of(*one) for one in apart]
