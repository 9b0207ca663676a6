"""A movement of yarn: the only fact about quantity."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from stash.measures.mass import Mass
from stash.measures.money import Money


class Kind(StrEnum):
    """Why a quantity changed.

    *restated* changes grams and no metres (a pair settled or put right); *corrected* is a
    difference the scale found that no item used. *wound off* goes from one skein to another,
    *unravelled* comes back from an item.
    """

    ARRIVED = "arrived"
    USED = "used"
    CORRECTED = "corrected"
    RESTATED = "restated"
    GIVEN = "given"
    SOLD = "sold"
    LOST = "lost"
    SPOILT = "spoilt"
    MISTAKEN = "mistaken"
    WOUND_OFF = "wound off"
    UNRAVELLED = "unravelled"


#: Kinds that break into a skein: after one of these it is no longer whole.
OPENING = tuple(kind for kind in Kind if kind not in (Kind.ARRIVED, Kind.RESTATED))
#: Kinds of yarn leaving otherwise than into an item.
LEAVING = (Kind.GIVEN, Kind.SOLD, Kind.LOST, Kind.SPOILT, Kind.MISTAKEN)


@dataclass(frozen=True, slots=True)
class Movement:
    """One change of one skein; the opposite of a mistake keeps its kind and names it in `undoes`.

    `typed` is the amount as the person wrote it. `estimated` marks a share worked out rather than
    weighed. `id` is None until booked. Of yarn that was sold, `price` is what the buyer paid for
    all of it and `fee` what the place of sale kept; None where that is not known.
    """

    skein: int
    kind: Kind
    change: Mass
    typed: str = ""
    item: int | None = None
    role: str = ""
    estimated: bool = False
    undoes: int | None = None
    id: int | None = None
    price: Money | None = None
    fee: Money | None = None


def standing(moves: Iterable[Movement]) -> list[Movement]:
    """Movements that were neither taken back nor take another back."""
    found = list(moves)
    answered = {move.undoes for move in found}
    return [move for move in found if move.undoes is None and move.id not in answered]


@dataclass(frozen=True, slots=True)
class Booked:
    """A movement with the entry it belongs to, for reading a history."""

    entry: int
    on: date
    movement: Movement
