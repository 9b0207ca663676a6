"""The shelf as the matcher sees it: a frozen picture, taken in one question to the store."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from stash.stock.holding import HeldLot


@dataclass(frozen=True, slots=True)
class Shelf:
    """Every lot with yarn on the books, by lot number, as of a day."""

    as_of: date
    lots: tuple[HeldLot, ...]
