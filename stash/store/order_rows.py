"""Orders with the items that fill them; what was taken back is not there."""

from __future__ import annotations

import json
from collections.abc import Mapping
from datetime import date
from typing import Any

from sqlalchemy import Connection, func, insert, select

from stash.measures.money import Money
from stash.stock.item import ItemState
from stash.stock.order import Order
from stash.store.item_rows import items
from stash.store.skein_rows import taken_back_entries
from stash.store.tables import design, item_order


def orders(db: Connection) -> list[Order]:
    """Every order in its turn: by day, then number."""
    asked = (
        select(item_order, design.c.name.label("design"))
        .join(design, design.c.id == item_order.c.design_id)
        .where(item_order.c.entry_number.not_in(taken_back_entries))
        .order_by(item_order.c.by_day, item_order.c.number)
    )
    rows = db.execute(asked).all()
    filling = _filling(db) if rows else {}
    return [_order(row, tuple(filling.get(row.number, ()))) for row in rows]


def _filling(db: Connection) -> dict[int, list[int]]:
    """The items of each order: with yarn set aside, begun or done."""
    found: dict[int, list[int]] = {}
    for one in items(db):
        if one.asked.order is not None and (one.open or one.state is ItemState.DONE):
            found.setdefault(one.asked.order, []).append(one.number)
    return found


def _order(row: Any, filling: tuple[int, ...]) -> Order:
    return Order(
        number=row.number,
        who=row.who,
        design_id=row.design_id,
        design=row.design,
        by=date.fromisoformat(row.by_day),
        count=row.count,
        size=row.size,
        colours=wanted_from(row.colours),
        price=None if row.price_coins is None else Money(row.price_coins),
        note=row.note,
        dropped=bool(row.dropped),
        items=filling,
    )


def wanted_text(colours: Mapping[str, str]) -> str:
    """Colours by role as they are kept."""
    return json.dumps(dict(colours), sort_keys=True, ensure_ascii=False) if colours else ""


def wanted_from(text: str) -> dict[str, str]:
    """Colours by role read back. Raises ValueError for anything else."""
    kept = json.loads(text) if text else {}
    if not isinstance(kept, dict) or not all(isinstance(words, str) for words in kept.values()):
        raise ValueError(text)
    return kept


def add_order(db: Connection, number: int, made: Order) -> int:
    """A new order, in the entry of this number; its number is never used again."""
    added = db.execute(
        insert(item_order).values(
            entry_number=number,
            who=made.who,
            design_id=made.design_id,
            size=made.size,
            colours=wanted_text(made.colours),
            count=made.count,
            by_day=made.by.isoformat(),
            price_coins=None if made.price is None else made.price.coins,
            note=made.note,
        )
    ).inserted_primary_key
    assert added is not None
    ordered: int = added[0]
    return ordered


def any_order_priced(db: Connection) -> bool:
    """Whether any order has a price above nothing."""
    asked = select(func.count()).select_from(item_order).where(item_order.c.price_coins > 0)
    return bool(db.execute(asked).scalar())
