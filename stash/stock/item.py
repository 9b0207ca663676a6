"""An item: one made thing of a design, with a number never used again."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from stash.measures.money import Money


class ItemState(StrEnum):
    """How far an item is; a sale is a separate fact."""

    PLANNED = "planned"
    BEGUN = "begun"
    DONE = "done"
    UNRAVELLED = "unravelled"


class Weighed(StrEnum):
    """How the yarn of a finished item became known, and what that teaches.

    Balls and roles teach total and split, an item teaches the total, a plan teaches nothing.
    """

    BALLS = "balls"
    ROLES = "roles"
    ITEM = "item"
    AS_PLANNED = "as planned"


#: Ways of knowing that teach the next estimate.
TEACHING = (Weighed.BALLS, Weighed.ROLES, Weighed.ITEM)


@dataclass(frozen=True, slots=True)
class AskedFor:
    """What was asked for an item when it was planned, and the order it is for; None for nothing."""

    price: Money | None = None
    minutes: int | None = None
    order: int | None = None


NOT_ASKED = AskedFor()


@dataclass(frozen=True, slots=True)
class Item:
    """An item as it is now; one without a design only holds yarn aside under a note.

    `made_minutes` is what it really took, once that was said.
    """

    number: int
    state: ItemState
    design_id: int | None
    design: str
    note: str
    how: Weighed | None = None
    set_aside: bool = False
    asked: AskedFor = NOT_ASKED
    made_minutes: int | None = None

    @property
    def open(self) -> bool:
        """Whether yarn may still go into it: begun, or planned with yarn set aside."""
        return self.state is ItemState.BEGUN or (self.state is ItemState.PLANNED and self.set_aside)

    def __str__(self) -> str:
        return f"{self.number} ({self.design or self.note})"
