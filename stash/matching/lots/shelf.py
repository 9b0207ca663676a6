"""The shelf as the matcher sees it: a frozen picture, taken in one question to the store."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from stash.stock.holding import HeldLot
from stash.stock.spread import USUAL_SCALE, Scale


@dataclass(frozen=True, slots=True)
class Shelf:
    """Every lot with yarn on the books, by number, as of a day; and what it was weighed with."""

    as_of: date
    lots: tuple[HeldLot, ...]
    scale: Scale = USUAL_SCALE
