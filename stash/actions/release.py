"""What is set aside for items, given back."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from stash.actions import find
from stash.actions.book import Book, EntryWriter
from stash.actions.several import in_turn, of_items
from stash.errors import Refusal
from stash.stock.item import Item
from stash.stock.promise import PromiseChange, Promised, PromiseKind, lowered
from stash.store import item_rows


def release(
    book: Book, items: Sequence[str], role: str | None = None
) -> tuple[int, list[tuple[Item, list[Promised]]]]:
    """Give back all that is still set aside for items; what was released of each comes back.

    With `role` only of that colour, `""` being the one of an item without a design. Raises Refusal
    where nothing is set aside.
    """
    with book.entry("release") as writer:
        known = find.Items(writer.db, items)
        aside = _promised(writer, known.numbers)
        done = in_turn(book, items, lambda typed: _release(writer, known.item(typed), aside, role))
        writer.promise([_given_back(p) for _, promised in done for p in promised])
        released = [item for item, _ in done]
        writer.what = (
            of_items("colour_released", "colours_released", released, role=role)
            if role
            else of_items("item_released", "items_released", released)
        )
        now = {
            item.number: item
            for item in item_rows.items(writer.db, [item.number for item in released])
        }
    return writer.number, [(now[item.number], promised) for item, promised in done]


def _promised(writer: EntryWriter, items: Collection[int]) -> dict[int, list[Promised]]:
    """What is promised to some items, by item."""
    found: dict[int, list[Promised]] = {number: [] for number in items}
    for promise in item_rows.promises(writer.db, items=items):
        found[promise.item].append(promise)
    return found


def _release(
    writer: EntryWriter, item: Item, aside: dict[int, list[Promised]], role: str | None
) -> tuple[Item, list[Promised]]:
    """What an item gives back; it has nothing more to give then."""
    if item.number not in aside:
        aside |= _promised(writer, [item.number])
    promised, aside[item.number] = aside[item.number], []
    if not promised:
        raise Refusal("nothing_set_aside", item=item)
    of_role = [p for p in promised if role in (None, p.role)]
    if not of_role:
        roles = tuple(dict.fromkeys(p.role for p in promised))
        raise Refusal("role_not_set_aside", item=item, role=role, roles=roles)
    return item, of_role


def _given_back(promise: Promised) -> PromiseChange:
    return lowered(promise, promise.mass, PromiseKind.RELEASED)


def release_within(writer: EntryWriter, item: Item) -> list[Promised]:
    """All that is still set aside for an item is given back as part of an entry."""
    promised = item_rows.promises(writer.db, items=[item.number])
    writer.promise([_given_back(p) for p in promised])
    return promised
