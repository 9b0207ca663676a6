"""Several items in one entry: all of them, or none."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from stash.actions.book import Book
from stash.errors import BadRows, Refusal, StashError
from stash.measures.note import Note
from stash.stock.entry import of_item
from stash.stock.item import Item

_T = TypeVar("_T")
_R = TypeVar("_R")


def in_turn(
    book: Book, items: Sequence[str], act: Callable[[str], _R], *, saves: bool = True
) -> list[_R]:
    """What comes of each item, in order; among several the refusal names the one it is about.

    `saves`: something would have been saved for the others.
    """
    found = []
    for at, item in enumerate(items, 1):
        book.report(Note("at_item", item=item, at=at, of=len(items)))
        try:
            found.append(act(item))
        except Refusal as why:
            if len(items) == 1:
                raise
            raise Refusal("one_of_several", item=item, why=why, saves=saves) from why
    return found


@dataclass(frozen=True, slots=True)
class Listed(Generic[_T]):
    """The rows of a list that were read, each with its line, and what is wrong with the others."""

    name: str
    rows: Sequence[tuple[int, _T]]
    unread: Sequence[tuple[int, StashError]] = ()


def problems(
    book: Book, listed: Listed[_T], act: Callable[[_T], object]
) -> Sequence[tuple[int, StashError]]:
    """What is wrong with the rows of a list, where nothing comes of them that is needed."""
    try:
        by_row(book, listed, act)
    except BadRows as bad:
        return bad.problems
    return ()


def by_row(book: Book, listed: Listed[_T], act: Callable[[_T], _R]) -> list[_R]:
    """What comes of each row; all that is wrong with any is raised together, as BadRows."""
    found, wrong = [], [*listed.unread]
    for at, (line, row) in enumerate(listed.rows, 1):
        book.report(Note("at_row", at=at, of=len(listed.rows)))
        try:
            found.append(act(row))
        except StashError as why:
            wrong.append((line, why))
    if wrong:
        raise BadRows(listed.name, sorted(wrong, key=lambda one: one[0]))
    return found


def of_items(one: str, many: str, items: Sequence[Item], **facts: Any) -> Note:
    """What an entry did with an item, or with several of them."""
    if len(items) == 1:
        return Note(one, **of_item(items[0]), **facts)
    return Note(many, numbers=tuple(item.number for item in items), **facts)
