"""Which later entries depend on an earlier one, so that it cannot be taken back."""

from __future__ import annotations

from collections.abc import Collection
from typing import Any

from sqlalchemy import ColumnElement, Connection, Select, select

from stash.store.in_list import in_list
from stash.store.skein_rows import taken_back_entries
from stash.store.tables import (
    article,
    article_step,
    entry,
    fact,
    movement,
    piece,
    promise,
    sale,
    skein,
    weighing,
)


def _later(db: Connection, number: int, asked: Select[Any]) -> set[int]:
    """Of the entries a question finds: later ones, not taken back, and no take-backs themselves."""
    live = select(entry.c.number).where(
        entry.c.number > number,
        entry.c.takes_back.is_(None),
        entry.c.number.not_in(taken_back_entries),
    )
    rows = db.execute(asked.where(asked.selected_columns[0].in_(live)).distinct())
    return {row[0] for row in rows}


def later_on_skeins(db: Connection, number: int, skeins: Collection[int]) -> set[int]:
    """Later entries that moved, promised or weighed any of these skeins."""
    found: set[int] = set()
    for table in (movement, promise):
        asked = select(table.c.entry_number).where(in_list(table.c.skein_number, skeins))
        found |= _later(db, number, asked)
    return found


def later_lowering(db: Connection, number: int, skeins: Collection[int]) -> set[int]:
    """Later entries that took from any of these skeins or promised of them."""
    found: set[int] = set()
    for column, bound in ((movement.c.change_mg < 0, movement), (promise.c.change_mg > 0, promise)):
        asked = select(bound.c.entry_number).where(in_list(bound.c.skein_number, skeins), column)
        found |= _later(db, number, asked)
    return found


def later_on_articles(db: Connection, number: int, articles: Collection[int]) -> set[int]:
    """Later entries that used yarn for, moved on, sold or promised to any of these articles."""
    found: set[int] = set()
    for table in (movement, promise, article_step, weighing, sale):
        asked = select(table.c.entry_number).where(in_list(table.c.article_number, articles))
        found |= _later(db, number, asked)
    return found


def later_of_pieces(db: Connection, number: int, pieces: Collection[int]) -> set[int]:
    """Later entries that made articles of any of these pieces."""
    asked = select(article.c.entry_number).where(in_list(article.c.piece_id, pieces))
    return _later(db, number, asked)


def later_naming(db: Connection, number: int, pieces: Collection[int]) -> set[int]:
    """Later entries that added any of these pieces or gave it another name."""
    added = select(piece.c.entry_number).where(in_list(piece.c.id, pieces))
    refs = [str(one) for one in pieces]
    renamed = select(fact.c.entry_number).where(
        fact.c.thing == "piece", fact.c.ref.in_(refs), fact.c.name == "name"
    )
    return _later(db, number, added) | _later(db, number, renamed)


def later_facts(db: Connection, number: int, thing: str, ref: str, names: list[str]) -> set[int]:
    """Later entries that put right the same facts."""
    same: list[ColumnElement[bool]] = [
        fact.c.thing == thing,
        fact.c.ref == ref,
        fact.c.name.in_(names),
    ]
    return _later(db, number, select(fact.c.entry_number).where(*same))


def skeins_made(db: Connection, number: int) -> list[int]:
    """The skeins an entry brought."""
    asked = select(skein.c.number).where(skein.c.entry_number == number)
    return list(db.execute(asked.order_by(skein.c.number)).scalars())


def articles_made(db: Connection, number: int) -> list[int]:
    """The articles an entry made."""
    asked = select(article.c.number).where(article.c.entry_number == number)
    return list(db.execute(asked.order_by(article.c.number)).scalars())


def pieces_made(db: Connection, number: int) -> list[int]:
    """The pieces an entry added."""
    asked = select(piece.c.id).where(piece.c.entry_number == number)
    return list(db.execute(asked.order_by(piece.c.id)).scalars())
