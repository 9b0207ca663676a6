"""How much more or less yarn a plan takes when it is made otherwise: one rule for every figure.

A finished item and a pattern's figure tell of one size. They are carried over to another by the
ratio that the swatch gives, else the model, else the plain area, in which most of its error
cancels.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TypeVar

from stash.errors import Refusal
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.requirements.design.design import Design
from stash.requirements.design.evidence import OwnItem
from stash.requirements.design.layout import laid_out_finely
from stash.requirements.yarn.by_rows import by_rows
from stash.requirements.yarn.sources import Said, from_swatch

_M = TypeVar("_M")

#: How far off a figure is when it is carried to e times as much yarn, one standard deviation;
#: less as the logarithm is less. The five sizes of one leaflet at three gauges, each carried to
#: each other, come to 0.147 (rows H1 of the check table, seen while this was settled).
CARRIED_SPREAD = 0.15


@dataclass(frozen=True, slots=True)
class Growth:
    """How much each role takes before and after, in like measures."""

    before: Mapping[str, float]
    after: Mapping[str, float]

    @property
    def total(self) -> float:
        """How many times as much all roles take together."""
        return math.fsum(self.after.values()) / math.fsum(self.before.values())

    def of(self, role: str) -> float | None:
        """How many times as much the role takes; None where it is there on one side only.

        A colour that is on neither side, being known by a figure alone, grows with the whole.
        """
        if role not in self.before and role not in self.after:
            return self.total
        if role not in self.before or role not in self.after:
            return None
        return self.after[role] / self.before[role]

    def lengths(self, told: Iterable[tuple[str, Length]]) -> tuple[tuple[str, Length], ...]:
        """A pattern's figures."""
        return tuple((role, Length(round(m.um * times))) for role, m, times in self._each(told))

    def masses(self, told: Iterable[tuple[str, Mass]]) -> tuple[tuple[str, Mass], ...]:
        """An item weighed by colour."""
        return tuple((role, Mass(round(m.mg * times))) for role, m, times in self._each(told))

    def item(self, one: OwnItem) -> OwnItem:
        """A finished item as if it had been made like this, and how much less sure."""
        each = self._each(one.by_role)
        return replace(
            one,
            by_role=tuple((role, length_m * times) for role, length_m, times in each),
            total_m=None if one.total_m is None else one.total_m * self.total,
            scale_m=one.scale_m * self.total,
            # like a metre per gram that is off, it is the same for all and does not average
            pair_spread=math.hypot(one.pair_spread, CARRIED_SPREAD * math.log(self.total)),
        )

    def _each(self, told: Iterable[tuple[str, _M]]) -> Iterator[tuple[str, _M, float]]:
        for role, amount in told:
            if times := self.of(role):
                yield role, amount, times


def growth(then: Design, now: Design) -> Growth:
    """From one plan to another. Refused where it is not known how much either takes."""
    return Growth(_takes(then), _takes(now))


@lru_cache(maxsize=1024)  # a shop makes many items to few plans
def _takes(plan: Design) -> Mapping[str, float]:
    """What each role takes by swatch or model, or as its plain area."""
    if plan.shape and plan.size:
        if plan.swatch:
            return _expected(from_swatch(plan, plan.swatch))
        if rows := by_rows(plan):
            return _expected(rows.said)
        return laid_out_finely(plan).area_m2
    raise Refusal("another_size_not_known")


def _expected(said: Said) -> dict[str, float]:
    return {role: one.expected_m for role, one in said.items()}
