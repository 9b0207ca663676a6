"""What a batch can be chosen from: her designs, what one brought last, how long one takes her."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from stash.actions.book import Book
from stash.actions.designs import Kept, listed_within
from stash.actions.her_hours import HerHours
from stash.actions.her_settings import Settings
from stash.measures.money import Money
from stash.store import item_rows
from stash.store.engine import Connection


@dataclass(frozen=True, slots=True)
class Choice:
    """A design to make for a market.

    `price` is what she asked for the newest item of it that she named a price for; `hours` what one
    takes her. None where nothing is known.
    """

    kept: Kept
    price: Money | None
    hours: Fraction | None


def batch_choices(book: Book) -> list[Choice]:
    """Every design by name."""
    with book.reading() as db:
        return [*_choices(db, Settings.read(db))]


def _choices(db: Connection, settings: Settings) -> Iterator[Choice]:
    hours = HerHours.read(db)
    asked = {
        item.design_id: item.asked.price
        for item in sorted(item_rows.items(db), key=lambda item: item.number)
        if item.asked.price is not None
    }
    for kept in listed_within(db, settings):
        yield Choice(kept, asked.get(kept.id), hours.of(kept.design.name, settings))
