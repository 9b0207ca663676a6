"""What a plan attains of an aim, and what no plan can exceed."""

from __future__ import annotations

from dataclasses import dataclass

from stash.planning.model.problem import Aim


@dataclass(frozen=True, slots=True)
class Attained:
    """What a plan attains of an aim, and the most that any plan could; None: of what is a must."""

    aim: Aim | None
    total: int
    bound: int

    @property
    def gap(self) -> float:
        """How much better another plan could be at most, as a share of the bound."""
        return (self.bound - self.total) / max(abs(self.bound), 1)
