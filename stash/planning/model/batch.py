"""A batch in the maker's things: what she wants, and the plan that comes out of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum

from stash.matching.answer.proposal import NearMiss
from stash.matching.question.wish import Wish
from stash.measures.length import NO_LENGTH, Length
from stash.measures.note import Note
from stash.planning.model.attained import Attained
from stash.planning.model.problem import Aim
from stash.requirements.yarn.need import Need
from stash.stock.holding import HeldLot


@dataclass(frozen=True, slots=True)
class Wanted:
    """A design she wants, at a size and with an option, with its need and her wish for its yarn.

    `at_most` None is as many as the yarn gives. `coins` is what one brings, in smallest coins.
    `order` is the order it fills: such wants come first, in the order they stand in. `different`
    is how many different sets of yarns there must be among them at least, `expenses` what one costs
    beside its yarn, in coins.
    """

    design: str
    need: Need
    wish: Wish
    size: str = ""
    at_least: int = 0
    at_most: int | None = None
    coins: int = 0
    minutes: int = 0
    order: int | None = None
    different: int = 0
    expenses: int = 0

    @property
    def name(self) -> str:
        """The design with its size."""
        return f"{self.design}, {self.size}" if self.size else self.design


@dataclass(frozen=True, slots=True)
class MixWanted:
    """How many of a design, a size, or a colour family of the main yarn; "" is any of them.

    Counts of items, or (`share`) hundredths of all that are made.
    """

    design: str = ""
    size: str = ""
    family: str = ""
    at_least: int = 0
    at_most: int | None = None
    share: bool = False

    @property
    def name(self) -> str:
        """What it is a mix of."""
        return " ".join(part for part in (self.family, self.design, self.size) if part)


@dataclass(frozen=True, slots=True)
class Terms:
    """What holds for the batch as a whole; `hold_back` is hundredths of each lot's free yarn.

    `by` is the day it is for. `different` is how many different sets of yarns (lots, in whichever
    order, as `per_pair` counts them) there must be at least among all that is made.
    """

    aims: tuple[Aim, ...]
    minutes: int | None = None
    per_pair: int | None = None
    hold_back: int = 0
    mixes: tuple[MixWanted, ...] = ()
    by: date | None = None
    different: int = 0


@dataclass(frozen=True, slots=True)
class Made:
    """So many items of a want from the same lots; `items` are their numbers in the plan.

    `notes` are what may go wrong with these lots side by side; `lightness_gap` (in L*) and
    `colour_difference` (CIEDE2000) are the least over all pairs of them, None if not known.
    """

    want: int
    lots: tuple[HeldLot, ...]
    items: tuple[int, ...]
    notes: tuple[Note, ...] = ()
    lightness_gap: float | None = None
    colour_difference: float | None = None


@dataclass(frozen=True, slots=True)
class SkeinCut:
    """A length cut of a skein, tails of joins included, for a strand of a role of an item."""

    item: int
    want: int
    role: str
    strand: int
    length: Length


@dataclass(frozen=True, slots=True)
class CutSkein:
    """A skein with all that is cut of it, and what stays."""

    number: int
    lot: HeldLot
    place: str
    cuts: tuple[SkeinCut, ...]
    left: Length


@dataclass(frozen=True, slots=True)
class Unmet:
    """A want that falls short of its least: by how many, and what the next one lacks.

    `short` is by role, out of the lot that lacks least; `minutes` what the hours lack. `reasons`
    as for what is `NotMade`.
    """

    want: int
    count: int
    short: Mapping[str, Length]
    minutes: int
    reasons: tuple[Why, ...] = ()
    nowhere: tuple[str, ...] = ()


class Why(StrEnum):
    """Why no more of something is made: what it lacks, a limit, that it earns nothing, others."""

    YARN = "yarn"
    HOURS = "hours"
    LIMIT = "limit"
    LOSS = "loss"
    OTHERS = "others"


@dataclass(frozen=True, slots=True)
class NotMade:
    """A want with its least that could have been more: by how many, and what the next one lacks.

    `count` None: as many as there can be, and none is made. `short` is by role, out of the lot
    that lacks least; `nowhere` are roles that no lot suits; `minutes` what the hours lack.
    """

    want: int
    count: int | None
    short: Mapping[str, Length]
    nowhere: tuple[str, ...]
    minutes: int
    reasons: tuple[Why, ...]


@dataclass(frozen=True, slots=True)
class TooAlike:
    """Different sets of yarns that a want (None: the batch as a whole) lacks, and why.

    No reasons where it was stopped before they were known.
    """

    want: int | None
    asked: int
    count: int
    reasons: tuple[Why, ...]


@dataclass(frozen=True, slots=True)
class Profit:
    """What is left of the takings, in coins: they less yarn at cost, sundries and fees.

    `unpriced` are skeins that are cut whose price is not known: then it is at most so much.
    `by_order`: each item's own yarn costs more or less, by the order in which they are finished.
    """

    takings: int
    yarn: int
    sundries: int
    fees: int
    unpriced: tuple[int, ...] = ()
    by_order: bool = False

    @property
    def left(self) -> int:
        """What is left."""
        return self.takings - self.yarn - self.sundries - self.fees


@dataclass(frozen=True, slots=True)
class Unfilled:
    """An order that cannot be made whole once those before it have their yarn.

    `count` are those that cannot be made; `near` is the set that comes nearest to the next one,
    and `empty` the colours that no yarn left will do for. `minutes` is what the hours lack.
    """

    order: int
    count: int
    near: NearMiss | None
    empty: tuple[str, ...]
    minutes: int


@dataclass(frozen=True, slots=True)
class Clash:
    """Wants that cannot all be met, over which lots and hours, and what would free them.

    `more_minutes`: so much more time alone would do; None where time does not.
    """

    wants: tuple[int, ...]
    mixes: tuple[int, ...]
    lots: tuple[HeldLot, ...]
    hours: bool
    more_minutes: int | None


@dataclass(frozen=True, slots=True)
class SoFar:
    """What the best plan found so far makes; its items may still be cut otherwise."""

    wants: tuple[Wanted, ...]
    made: tuple[Made, ...]

    @property
    def items(self) -> int:
        """How many are made in all."""
        return sum(len(made.items) for made in self.made)

    @property
    def coins(self) -> int:
        """What all of them bring in."""
        return sum(len(made.items) * self.wants[made.want].coins for made in self.made)


@dataclass(frozen=True, slots=True)
class Batch:
    """The whole answer; `finished` is false where it was stopped before it was done.

    Orders that cannot be made whole are `unfilled`, other wants `unmet`. `profit` where it is an
    aim.
    """

    as_of: date
    wants: tuple[Wanted, ...]
    terms: Terms
    made: tuple[Made, ...]
    unmet: tuple[Unmet, ...]
    attained: tuple[Attained, ...]
    skeins: tuple[CutSkein, ...]
    minutes: int
    finished: bool
    unmet_mixes: Mapping[int, int] = field(default_factory=dict)
    clash: Clash | None = None
    useful_end: Length = NO_LENGTH
    unfilled: tuple[Unfilled, ...] = ()
    not_made: tuple[NotMade, ...] = ()
    too_alike: tuple[TooAlike, ...] = ()
    profit: Profit | None = None

    @property
    def without_hours(self) -> list[Wanted]:
        """What is made though nothing says how long it takes, where hours are counted."""
        if self.terms.minutes is None and not self.minutes:
            return []
        made = sorted({made.want for made in self.made})
        return [self.wants[want] for want in made if not self.wants[want].minutes]

    @property
    def items(self) -> int:
        """How many are made in all."""
        return sum(len(made.items) for made in self.made)
