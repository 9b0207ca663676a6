"""Which later entries depend on an earlier one, so that it cannot be taken back."""

from __future__ import annotations

from collections.abc import Collection
from typing import Any

from sqlalchemy import ColumnElement, Connection, Select, select

from stash.store.in_list import in_list
from stash.store.skein_rows import taken_back_entries
from stash.store.tables import (
    design,
    entry,
    fact,
    item,
    item_order,
    item_step,
    movement,
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


def later_on_items(db: Connection, number: int, items: Collection[int]) -> set[int]:
    """Later entries that used yarn for, moved on, sold or promised to any of these items."""
    found: set[int] = set()
    for table in (movement, promise, item_step, weighing, sale):
        asked = select(table.c.entry_number).where(in_list(table.c.item_number, items))
        found |= _later(db, number, asked)
    return found


def later_of_designs(db: Connection, number: int, designs: Collection[int]) -> set[int]:
    """Later entries that made items of any of these designs."""
    asked = select(item.c.entry_number).where(in_list(item.c.design_id, designs))
    return _later(db, number, asked)


def later_orders_of(db: Connection, number: int, designs: Collection[int]) -> set[int]:
    """Later entries that took in an order of any of these designs, or changed one to it."""
    added = select(item_order.c.entry_number).where(in_list(item_order.c.design_id, designs))
    changed = select(fact.c.entry_number).where(
        fact.c.thing == "order",
        fact.c.name == "design_id",
        fact.c.new.in_([str(one) for one in designs]),
    )
    return _later(db, number, added) | _later(db, number, changed)


def orders_made(db: Connection, number: int) -> list[int]:
    """The orders an entry took in."""
    asked = select(item_order.c.number).where(item_order.c.entry_number == number)
    return list(db.execute(asked.order_by(item_order.c.number)).scalars())


def later_for_orders(db: Connection, number: int, orders: Collection[int]) -> set[int]:
    """Later entries that made an item for any of these orders, or gave it one."""
    made = select(item.c.entry_number).where(in_list(item.c.order_number, orders))
    given = select(fact.c.entry_number).where(
        fact.c.thing == "item",
        fact.c.name == "order_number",
        fact.c.new.in_([str(one) for one in orders]),
    )
    return _later(db, number, made) | _later(db, number, given)


def later_naming(db: Connection, number: int, designs: Collection[int]) -> set[int]:
    """Later entries that added any of these designs or gave it another name."""
    added = select(design.c.entry_number).where(in_list(design.c.id, designs))
    refs = [str(one) for one in designs]
    renamed = select(fact.c.entry_number).where(
        fact.c.thing == "design", fact.c.ref.in_(refs), fact.c.name == "name"
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


def items_made(db: Connection, number: int) -> list[int]:
    """The items an entry made."""
    asked = select(item.c.number).where(item.c.entry_number == number)
    return list(db.execute(asked.order_by(item.c.number)).scalars())


def designs_made(db: Connection, number: int) -> list[int]:
    """The designs an entry added."""
    asked = select(design.c.id).where(design.c.entry_number == number)
    return list(db.execute(asked.order_by(design.c.id)).scalars())
