"""Extras: what is made besides the design and sewn or knotted on, each a line of its own."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from stash.measures.length import Length


class Kind(StrEnum):
    """What can be added to a design."""

    POMPOM = "pompom"
    TASSEL = "tassel"
    FRINGE = "fringe"
    CORD = "cord"
    CHAIN = "chain"
    FLAP = "flap"
    EDGING = "edging"


#: How many lengths each has: a flap by its width and height, an edging by none.
LENGTHS = dict.fromkeys(Kind, 1) | {Kind.FLAP: 2, Kind.EDGING: 0}

#: What hangs, catches or can come off.
SMALL_PARTS = (Kind.POMPOM, Kind.TASSEL, Kind.FRINGE, Kind.CORD, Kind.CHAIN)


@dataclass(frozen=True, slots=True)
class Extra:
    """So many of one kind in one colour; `lengths` are its diameter, length, or width and height.

    `count` left out is one of it; of a fringe, as many strands as its edge usually takes. An
    edging's is its rounds.
    """

    kind: Kind
    role: str
    lengths: tuple[Length, ...] = ()
    count: int | None = None

    def __str__(self) -> str:
        """As it is typed, without its role."""
        sides = " x ".join(f"{length.um / 10_000:g} cm" for length in self.lengths)
        times = "" if self.count is None else f"x {self.count}"
        return " ".join(part for part in (self.kind.value, sides, times) if part)
