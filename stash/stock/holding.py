"""What is on the shelf right now: sums over the books, frozen for whoever asks."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from stash.measures.length import NO_LENGTH, Length, metres
from stash.measures.mass import NO_MASS, Mass
from stash.measures.money import Money
from stash.stock.yarn import FullFrom, Lot, Pair

#: An opened skein shorter than this is a remnant, until she says otherwise.
USUAL_USEFUL_SIZE = metres(10)


class SkeinState(StrEnum):
    """How far used a skein is; follows from its movements and is never stored."""

    WHOLE = "whole"
    OPENED = "opened"
    REMNANT = "remnant"
    SPENT = "spent"


@dataclass(frozen=True, slots=True)
class HeldSkein:
    """One skein with what it holds and what is promised of it.

    `held` and `promised` are the books' milligrams, inferred where the pair is *assumed* (see
    `mass_known`). `promised` may exceed `held` after a weighing; the difference is `short`.

    What its length rests on: `about`, the length, or (where it `arrived_opened`) what was left, was
    told roughly and not weighed since; `tare_open`, nothing was said of its core or bag when it was
    weighed; `by_metre`, its pair is a length that was weighed by itself.

    `since` is the day it was bought, else the day it came onto the books; `paid` what it cost.
    """

    number: int
    lot_id: int
    held: Mass
    promised: Mass
    pair: Pair
    opened: bool
    place: str = ""
    owner: str = ""
    tare: Mass | None = None
    remnant: bool = False
    about: bool = False
    arrived_opened: bool = False
    tare_open: bool = False
    by_metre: bool = False
    since: date | None = None
    paid: Money | None = None

    @property
    def set_aside(self) -> Mass:
        """What is promised and really there."""
        return self.promised if self.promised.mg < self.held.mg else self.held

    @property
    def free(self) -> Mass:
        """What may still be promised: held less set aside."""
        return self.held - self.set_aside if self.promised.mg else self.held

    @property
    def short(self) -> Mass:
        """What is promised and no longer there."""
        return self.promised - self.set_aside

    @property
    def mass_known(self) -> bool:
        """False while the mass is only inferred from a length (pair assumed)."""
        return self.pair.origin is not FullFrom.ASSUMED

    @property
    def state(self) -> SkeinState:
        """Whole, opened, remnant (opened and below her useful end), or spent."""
        if not self.held:
            return SkeinState.SPENT
        if not self.opened:
            return SkeinState.WHOLE
        return SkeinState.REMNANT if self.remnant else SkeinState.OPENED

    def length(self, mass: Mass) -> Length | None:
        """How long so much of this skein is, or None while its pair is missing."""
        return self.pair.put_up.length_of(mass) if self.pair.put_up else None

    @property
    def held_length(self) -> Length | None:
        """What is held, as a length."""
        return self.length(self.held)

    @property
    def free_length(self) -> Length | None:
        """What is free, as a length."""
        return self.length(self.free)


@dataclass(frozen=True, slots=True)
class HeldLot:
    """A lot record with its skeins that are still on the books, by number."""

    lot: Lot
    skeins: tuple[HeldSkein, ...]

    @property
    def held(self) -> Mass:
        """What all its skeins hold."""
        return sum((s.held for s in self.skeins), NO_MASS)

    @property
    def free(self) -> Mass:
        """What of it may still be promised."""
        return sum((s.free for s in self.skeins), NO_MASS)

    @property
    def free_length(self) -> Length | None:
        """Free yarn of the skeins whose pair is known; None where none is."""
        return _total([s.free_length for s in self.skeins])

    @property
    def held_length(self) -> Length | None:
        """Held yarn of the skeins whose pair is known; None where none is."""
        return _total([s.held_length for s in self.skeins])


def _total(lengths: list[Length | None]) -> Length | None:
    known = [length for length in lengths if length is not None]
    return sum(known, NO_LENGTH) if known else None
