"""What lots can be at odds over, told by marks, so that many lots are passed over at once.

A mark is coarse where it must be (a step of lightness, a sector of hue). Two lots that carry marks
at odds never fit; two that do not must still be looked at.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from stash.matching.lots.lot_view import LotView

#: One value of a trait; lots of one value are treated alike.
ConflictValue = Any


@dataclass(frozen=True, slots=True)
class ConflictKey:
    """A side of a lot that others can be at odds with.

    `marks` gives the lot's marks, at least one, by the lot alone; traits of one name give the same
    ones. `at_odds` tells whether no lot with the one mark fits a lot with the other, either way
    round. `few` is false where there are too many marks to sort lots into kinds by; `of_colour`
    where it counts between two colours of a piece only, not between strands of one.
    """

    name: str
    values: Callable[[LotView], Sequence[ConflictValue]]
    conflicts: Callable[[ConflictValue, ConflictValue], bool]
    few: bool = True
    of_colour: bool = False


def class_of(view: LotView, conflict_keys: Sequence[ConflictKey]) -> tuple[ConflictValue, ...]:
    """The lot's first mark of each of these traits."""
    return tuple(conflict_key.values(view)[0] for conflict_key in conflict_keys)
