"""Sales of articles and their coming back; what was taken back is not there."""

from __future__ import annotations

from datetime import date

from sqlalchemy import Connection, insert, select

from stash.measures.money import Money
from stash.stock.sale import Sale, SaleKind
from stash.store.skein_rows import taken_back_entries
from stash.store.tables import entry, sale


def add_sale(db: Connection, made: Sale) -> None:
    """One sale or return, in the entry it names."""
    db.execute(
        insert(sale).values(
            entry_number=made.entry,
            article_number=made.article,
            kind=made.kind.value,
            price_coins=made.price.coins,
            fee_coins=made.fee.coins,
        )
    )


def sales(db: Connection, article_number: int | None = None) -> list[Sale]:
    """Every sale and return not taken back, of one article or of all, in the order of entries."""
    asked = (
        select(sale, entry.c.on_day)
        .join(entry, entry.c.number == sale.c.entry_number)
        .where(sale.c.entry_number.not_in(taken_back_entries))
        .order_by(sale.c.id)
    )
    if article_number is not None:
        asked = asked.where(sale.c.article_number == article_number)
    return [
        Sale(
            row.entry_number,
            date.fromisoformat(row.on_day),
            row.article_number,
            SaleKind(row.kind),
            Money(row.price_coins),
            Money(row.fee_coins),
        )
        for row in db.execute(asked)
    ]


def articles_sold_in(db: Connection, number: int) -> set[int]:
    """The articles that one entry sold, or whose return it booked."""
    asked = select(sale.c.article_number).where(sale.c.entry_number == number)
    return set(db.execute(asked).scalars())
