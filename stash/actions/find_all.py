"""What words find anywhere: yarn, a skein by its number, designs, items; misspelt ones too."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeVar

from stash.actions import find
from stash.actions.book import Book
from stash.actions.shelf import Filters, shelf
from stash.errors import NotFound
from stash.stock.holding import HeldLot, HeldSkein
from stash.stock.item import Item
from stash.stock.yarn import Lot
from stash.store import item_rows, skein_rows
from stash.store.item_rows import DesignRow
from stash.store.kept_shelf import kept_lots

_T = TypeVar("_T")
#: `17`, `no. 17`, `item 7`, `skein 17`.
_NUMBERED = re.compile(r"(?:(item|skein)\s*|(?:no\.?|#)\s*)?(\d{1,9})", re.IGNORECASE)
#: Words beside a name that say what kind of thing is looked for.
_KINDS = frozenset(("item", "items", "design", "designs", "yarn", "skein", "skeins", "lot"))


@dataclass(frozen=True, slots=True)
class FoundAnywhere:
    """What was found of each kind, best first; `nearest` lots where no yarn was.

    `skein` is the one of that number, with its lot.
    """

    lots: tuple[HeldLot, ...]
    nearest: tuple[Lot, ...]
    skein: tuple[HeldSkein, Lot] | None
    designs: tuple[DesignRow, ...]
    items: tuple[Item, ...]

    @property
    def nothing(self) -> bool:
        """Whether nothing of any kind was found."""
        return not (self.lots or self.skein or self.designs or self.items)


def find_all(book: Book, words: str) -> FoundAnywhere:
    """Everything that words, or a number, may mean."""
    plain = words.strip()
    numbered = _NUMBERED.fullmatch(plain)
    kind, number = (numbered[1] or "").lower() if numbered else "", numbered and int(numbered[2])
    bare = " ".join(word for word in plain.split() if word.casefold() not in _KINDS) or plain
    lots = () if kind else shelf(book, Filters(words=bare)).lots
    with book.reading() as db:
        everything = kept_lots(db)
        held = skein_rows.held_skeins(db, [number]) if number and kind != "item" else []
        records = skein_rows.lots(db, [one.lot_id for one in held])
        designs = [] if numbered else item_rows.designs(db)
        items = item_rows.items(db)
    return FoundAnywhere(
        lots,
        () if lots or numbered else _nearest(everything, bare),
        (held[0], records[held[0].lot_id]) if held else None,
        tuple(_named(designs, [one.name for one in designs], bare)),
        tuple(_items(items, bare, number if kind != "skein" else None, numbered is not None)),
    )


def _nearest(shelf_lots: tuple[HeldLot, ...], words: str) -> tuple[Lot, ...]:
    """The lots whose names are most like the words."""
    try:
        return tuple(one.lot for one in find.lots_among(shelf_lots, words))
    except NotFound as none:
        return tuple(near.facts["lot"] for near in none.nearest if not isinstance(near, str))


def _items(items: list[Item], words: str, number: int | None, numbered: bool) -> list[Item]:
    if numbered:
        return [item for item in items if item.number == number]
    return _named(items, [item.design or item.note for item in items], words)


def _named(things: Sequence[_T], called: Sequence[str], words: str) -> list[_T]:
    from stash.parsing import names

    return [things[at] for at in names.nearly(words, called)]
