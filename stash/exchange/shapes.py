"""What one row of a shelf's sheet holds."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from stash.measures.money import Money
from stash.stock.holding import HeldSkein
from stash.stock.yarn import Lot


@dataclass(frozen=True, slots=True)
class SheetSkein:
    """All that one row of a given-out sheet says of one skein.

    `paid` is what the yarn it holds cost, None where it is not known.
    """

    lot: Lot
    skein: HeldSkein
    bought: date | None = None
    paid: Money | None = None
    note: str = ""
