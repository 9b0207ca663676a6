"""Where two lots may share a role, as it was asked, and how each role could be shared."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from stash.requirements.fit.splitting import Way, Ways


@dataclass(frozen=True, slots=True)
class TwoLotsAsked:
    """What was asked for one role: the ways that will do, the one that shows least first.

    `unknown` lets a lot that is not known be the odd one. `only` are two lots by number, in this
    order: the role is filled from these or not at all.
    """

    ways: tuple[Way, ...]
    unknown: bool = False
    only: tuple[int, int] | None = None


def _no_need(role: str) -> Ways:
    raise ValueError(f"no need: {role}")


@dataclass(frozen=True, slots=True)
class TwoLots:
    """The roles that two lots may share; `ways` gives the ways in which a role could be shared.

    They are known once there is a need.
    """

    asked: Mapping[str, TwoLotsAsked]
    ways: Callable[[str], Ways] = _no_need
