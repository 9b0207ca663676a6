"""Sales of items and their coming back; what was taken back is not there."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date

from sqlalchemy import Connection, insert, select

from stash.measures.money import Money
from stash.stock.sale import Sale, SaleKind
from stash.store.in_list import in_list
from stash.store.skein_rows import taken_back_entries
from stash.store.tables import entry, item, movement, sale


def add_sale(db: Connection, made: Sale) -> None:
    """One sale or return, in the entry it names."""
    db.execute(
        insert(sale).values(
            entry_number=made.entry,
            item_number=made.item,
            kind=made.kind.value,
            price_coins=made.price.coins,
            fee_coins=made.fee.coins,
        )
    )


def sales(db: Connection, items: Collection[int] | None = None) -> list[Sale]:
    """Every sale and return not taken back, of some items or of all, in the order of entries."""
    asked = (
        select(sale, entry.c.on_day)
        .join(entry, entry.c.number == sale.c.entry_number)
        .where(sale.c.entry_number.not_in(taken_back_entries))
        .order_by(sale.c.id)
    )
    if items is not None:
        asked = asked.where(in_list(sale.c.item_number, items))
    return [
        Sale(
            row.entry_number,
            date.fromisoformat(row.on_day),
            row.item_number,
            SaleKind(row.kind),
            Money(row.price_coins),
            Money(row.fee_coins),
        )
        for row in db.execute(asked)
    ]


def items_sold_in(db: Connection, number: int) -> set[int]:
    """The items that one entry sold, or whose return it booked."""
    asked = select(sale.c.item_number).where(sale.c.entry_number == number)
    return set(db.execute(asked).scalars())


def any_paid(db: Connection) -> bool:
    """Whether a buyer's price above nothing is kept, of an item or of yarn."""
    return any(
        db.execute(
            select(table.c.id)
            .where(table.c.price_coins > 0, table.c.entry_number.not_in(taken_back_entries))
            .limit(1)
        ).first()
        for table in (sale, movement)
    )


@dataclass(frozen=True, slots=True)
class Minutes:
    """How long an item really took and how long it was to take; None where nobody said."""

    made: int | None
    asked: int | None


def minutes(db: Connection) -> dict[int, Minutes]:
    """The same of every item, by number."""
    asked = select(item.c.number, item.c.made_minutes, item.c.asked_minutes)
    return {number: Minutes(*both) for number, *both in db.execute(asked)}
