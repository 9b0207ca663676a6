"""Which design or item is meant: by a name misspelt or shortened, or by nothing at all.

Only where one fits; where several do, the question is which (`Ambiguous`).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from stash.actions import find
from stash.actions.book import Book
from stash.errors import Ambiguous
from stash.measures.note import Note
from stash.stock.item import Item, ItemState
from stash.store import item_rows


@dataclass(frozen=True, slots=True)
class Meant:
    """The name or number to go on with, and what was taken for it where it was not typed so."""

    name: str
    said: Note | None = None


def design_meant(book: Book, typed: str) -> Meant:
    """The design of this name, or of nearly this name, or of a shape so called.

    With no name it is the only one there is. Raises NotFound where none fits.
    """
    with book.reading() as db:
        rows = item_rows.designs(db)
    if not typed.strip() and len(rows) > 1:
        raise Ambiguous(typed, [row.name for row in rows])
    if not typed.strip():
        return Meant(rows[0].name, Note("design_meant", name=rows[0].name)) if rows else Meant("")
    row = find.design_among(rows, typed)
    return Meant(row.name, find.said_of(typed, row))


def _fitting(typed: str, names: list[str]) -> list[str]:
    from stash.parsing.names import nearly

    if not typed.strip():
        return names
    exact = [name for name in names if _same(name, typed)]
    return exact or [names[at] for at in nearly(typed, names)]


def _same(name: str, typed: str) -> bool:
    return name.casefold() == typed.strip().casefold()


def _done(item: Item) -> bool:
    return item.state is ItemState.DONE


def _begun(item: Item) -> bool:
    return item.state is ItemState.BEGUN


def _open(item: Item) -> bool:
    return item.open and item.design_id is not None


#: Which items a command can mean, by its name: the first of these that any item fits.
_ABLE: Mapping[str, tuple[Callable[[Item], bool], ...]] = MappingProxyType(
    {
        "begin": (lambda one: _open(one) and not _begun(one),),
        "release": (lambda one: one.set_aside,),
        "lasts": (_begun,),
        "done": (_begun, _open),
        "tag": (_done, _begun),
        "cost": (_done, _begun),
    }
)


def item_meant(book: Book, typed: str, command: str) -> Meant:
    """The item that a command can mean by a design's name or by nothing; a number stays as it is.

    As with `design_meant`, what fits none is handed on.
    """
    if typed.strip().removeprefix("#").isdecimal():
        return Meant(typed)
    with book.reading() as db:
        known = item_rows.items(db)
    named = [one for one in known if _same(_name(one), typed)]
    for able in _ABLE[command]:
        ready = [one for one in named or known if able(one)]
        names = _fitting(typed, list(dict.fromkeys(map(_name, ready))))
        fits = [one for one in ready if _name(one) in names]
        if len(fits) > 1:
            shown = [Note("item_named", item=one) for one in fits]
            raise Ambiguous(typed, [str(one.number) for one in fits], shown)
        if fits:
            said = None if named else Note("item_meant", item=fits[0])
            return Meant(str(fits[0].number), said)
    return Meant(typed)


def _name(item: Item) -> str:
    return item.design or item.note
