"""A reason for or against a choice: a note with what it costs."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

from stash.measures.note import Note


class Reason(Note):
    """One thing that speaks for (cost 0) or against a choice; costs are whole thousandths."""

    __slots__ = ("cost",)

    cost: float

    def __init__(self, kind: str, cost: float, /, **facts: Any) -> None:
        super().__init__(kind, **facts)
        object.__setattr__(self, "cost", cost)

    __hash__ = Note.__hash__

    def __reduce__(self) -> tuple[Any, ...]:
        return _again, (self.kind, self.cost, self.facts)

    def _all(self) -> tuple[Any, ...]:
        return self.kind, self.cost, self.facts


def _again(kind: str, cost: float, facts: dict[str, Any]) -> Reason:
    return Reason(kind, cost, **facts)


def thousandths(weight: float) -> int:
    """A weight as the whole number of thousandths that costs are added up in."""
    return round(1000 * weight)


def added_up(reasons: Sequence[Reason]) -> float:
    """The costs together; they are whole thousandths, and equal sums come out equal."""
    return round(1000 * math.fsum(r.cost for r in reasons)) / 1000
