"""An order: what somebody wants made by a day. It holds no yarn until it has an item."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum

from stash.measures.money import Money


class OrderState(StrEnum):
    """How an order is doing: late is open on a day after the one it is for."""

    OPEN = "open"
    LATE = "late"
    FILLED = "filled"
    DROPPED = "dropped"


@dataclass(frozen=True, slots=True)
class Order:
    """So many of a design for somebody, by a day, and the items that fill it.

    `size` and `colours` (by role) are kept in the words they were typed in; "" is as the design
    is planned. `price` is of one, None where none was agreed.
    """

    number: int
    who: str
    design_id: int
    design: str
    by: date
    count: int = 1
    size: str = ""
    colours: Mapping[str, str] = field(default_factory=dict)
    price: Money | None = None
    note: str = ""
    dropped: bool = False
    items: tuple[int, ...] = ()

    @property
    def filled(self) -> int:
        """How many have an item."""
        return len(self.items)

    @property
    def left(self) -> int:
        """How many are still to be made; none of one that is dropped."""
        return 0 if self.dropped else max(0, self.count - self.filled)

    @property
    def turn(self) -> tuple[date, int]:
        """Its place in the line: by day, then number."""
        return self.by, self.number

    def state(self, today: date) -> OrderState:
        """How it is doing on a day."""
        if self.dropped:
            return OrderState.DROPPED
        if not self.left:
            return OrderState.FILLED
        return OrderState.LATE if self.by < today else OrderState.OPEN

    @property
    def asked_for(self) -> str:
        """The design as it is called at the size ordered."""
        return f"{self.design}, {self.size}" if self.size else self.design

    def fits(self, design: str, *, as_kept: bool = True) -> bool:
        """Whether an item of this design can fill it: made at its size, it is named so.

        `as_kept`: whether the design as it is kept is of the size ordered.
        """
        names = [self.asked_for, *([self.design] if as_kept else [])]
        return design.casefold() in [name.casefold() for name in names]

    def __str__(self) -> str:
        return f"{self.number} ({self.who})"
