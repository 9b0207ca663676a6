"""What the matcher answers: proposals in order, near misses, and the reasons for both."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from stash.matching.answer.fix import Fix
from stash.matching.answer.reason import Reason, added_up
from stash.measures.length import Length
from stash.measures.note import Note
from stash.requirements.fit.splitting import Split
from stash.requirements.yarn.need import Need
from stash.stock.holding import HeldLot


@dataclass(frozen=True, slots=True)
class Take:
    """So much of one skein, for one strand; strands count from 1."""

    number: int
    lot_id: int
    place: str
    strand: int
    length: Length


@dataclass(frozen=True, slots=True)
class SecondLot:
    """A lot that shares a role with the one named first, and how its rows are shared."""

    lot: HeldLot
    split: Split


@dataclass(frozen=True, slots=True)
class Filled:
    """A role filled from one lot: which skeins, how much of each, what stays behind.

    Where a `second` lot shares it, what is free, left and joined is that of both, coverage and
    chance are those of the part that is less sure, and the takes hold what being two adds.

    `free_m` is the lot's free yarn in designs worth using; `coverage` = free / expected; `chance`
    that it covers what is expected, the spread of the stock included. The takes add up to the
    amount to set aside and the tails of the joins; `left_m` is what is free after them.
    """

    role: str
    lot: HeldLot
    takes: tuple[Take, ...]
    free_m: float
    coverage: float
    chance: float
    left_m: float
    joins: int
    reasons: tuple[Reason, ...]
    second: SecondLot | None = None

    @property
    def lots(self) -> tuple[HeldLot, ...]:
        """The lot, or the two that share the role."""
        return (self.lot, self.second.lot) if self.second else (self.lot,)

    @property
    def key(self) -> str:
        """The lot's name, or both with the way they share the role: `L3/L9-brim`."""
        refs = "/".join(held.lot.ref for held in self.lots)
        return f"{refs}-{self.second.split.way}" if self.second else refs

    @property
    def cost(self) -> float:
        """What speaks against this choice, added up."""
        return added_up(self.reasons)


@dataclass(frozen=True, slots=True)
class Proposal:
    """Lots for every role, A first, with the reasons for their rank.

    `lightness_gap` (in L*) and `colour_difference` (CIEDE2000) are the least over all pairs of
    roles and of their colours; None where a colour is not known or there is one role.
    """

    rank: int
    roles: tuple[Filled, ...]
    lightness_gap: float | None
    colour_difference: float | None
    reasons: tuple[Reason, ...]

    @property
    def key(self) -> str:
        """The lots by role, A first: the name to set the proposal aside by."""
        return "+".join(f.key for f in self.roles)

    @property
    def cost(self) -> float:
        """The cost of all roles and of them together; the order of proposals."""
        return added_up([*(r for f in self.roles for r in f.reasons), *self.reasons])


@dataclass(frozen=True, slots=True)
class NearMiss:
    """A set of lots that almost fits: what is wrong, by how much, and what would make it fit.

    `short_m` and `short_g` are what the worst role lacks (None where length is not the blocker or
    not known), `short_rows` the same in rows of the design where its rows are known. Any one of the
    `fixes` will do; the first changes least. `within` says that only the margin is short: every
    role has what is expected of it.
    """

    roles: tuple[tuple[str, HeldLot], ...]
    blockers: tuple[Note, ...]
    fixes: tuple[Fix, ...]
    short_m: float | None = None
    short_g: float | None = None
    short_rows: int | None = None
    within: bool = False


@dataclass(frozen=True, slots=True)
class Match:
    """The whole answer to "what on my shelf can become this?"."""

    need: Need
    as_of: date
    proposals: tuple[Proposal, ...]
    near_misses: tuple[NearMiss, ...]
    looked_at: int
