"""Looking at a lot with its skeins, and at one skein among them: reading only."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from stash.actions.book import Book
from stash.actions.history import History, of_yarn
from stash.actions.show import SkeinStory, story
from stash.errors import NotFound
from stash.stock.holding import HeldLot, HeldSkein
from stash.stock.item import Item
from stash.stock.promise import Promised
from stash.store import item_rows
from stash.store.kept_shelf import kept_lots


@dataclass(frozen=True, slots=True)
class YarnStory:
    """A lot with all its skeins, used up or not, and the story of one of them.

    `promises` are of all its skeins; `history` is that of all of them, or of the one that was asked
    for.
    """

    held: HeldLot
    promises: tuple[tuple[Promised, Item], ...]
    story: SkeinStory
    history: History

    @property
    def there(self) -> tuple[HeldSkein, ...]:
        """The skeins that hold yarn still; all of them where none does."""
        return tuple(skein for skein in self.held.skeins if skein.held) or self.held.skeins


def lot_story(book: Book, number: int) -> YarnStory:
    """A lot by its number, with its opened skein, else the lowest that holds yarn."""
    held = _lot(book, lot=number)
    if held is None:
        raise NotFound("lot", f"L{number}")
    skeins = [skein for skein in held.skeins if skein.held] or held.skeins
    first = min(skeins, key=lambda skein: (not skein.opened, skein.number))
    return _story(book, held, first.number, {skein.number for skein in held.skeins})


def story_of_skein(book: Book, number: int) -> YarnStory:
    """A skein by its number, with the lot it is of."""
    held = _lot(book, skein=number)
    if held is None:
        raise NotFound("skein", str(number))
    return _story(book, held, number, {number})


def _lot(book: Book, *, lot: int = 0, skein: int = 0) -> HeldLot | None:
    with book.reading() as db:
        lots = kept_lots(db, with_spent=True)
    return next(
        (
            one
            for one in lots
            if one.lot.id == lot or any(held.number == skein for held in one.skeins)
        ),
        None,
    )


def _story(book: Book, held: HeldLot, number: int, of: Collection[int]) -> YarnStory:
    of_skein = story(book, str(number), one_skein=True)
    assert isinstance(of_skein, SkeinStory)
    with book.reading() as db:
        promises = item_rows.promises(db, skeins=[skein.number for skein in held.skeins])
        items = {item.number: item for item in item_rows.items(db)}
        history = of_yarn(db, of, held.lot.id, items.values())
    return YarnStory(held, tuple((one, items[one.item]) for one in promises), of_skein, history)
