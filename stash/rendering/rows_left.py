"""How far yarn goes from after the rows that are done."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from stash.rendering.amounts import Page
from stash.rendering.reach import role_keys, walk_lines
from stash.requirements.fit.reach import RoleReach
from stash.requirements.yarn.design_context import DesignContext


@dataclass(frozen=True, slots=True)
class RowsLeft:
    """A design with so many rows done, and what is left of each role's yarn."""

    known: DesignContext
    roles: Sequence[RoleReach]
    done: int


def keys(left: RowsLeft) -> dict[str, Any]:
    """What each role's yarn comes to, with stable keys."""
    return {
        "design": left.known.design.name or None,
        "rows_done": left.done,
        "roles": {one.role: role_keys(left.known, one) for one in left.roles},
    }


def rows(left: RowsLeft) -> list[dict[str, Any]]:
    """One row for each role."""
    return [
        {"role": role, **{k: v for k, v in facts.items() if k != "changes"}}
        for role, facts in keys(left)["roles"].items()
    ]


def text(left: RowsLeft, page: Page) -> str:
    """Where each role's lots change, and how far they go."""
    return "\n".join(walk_lines(left.known, left.roles, left.done))
