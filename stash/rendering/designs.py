"""Kept designs: their plans with what they need."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from stash.rendering import design, need
from stash.rendering.amounts import Page
from stash.requirements.design.design import Design
from stash.requirements.yarn.need import Need

if TYPE_CHECKING:
    from stash.actions.designs import Kept

NO_DESIGN = "no design is kept yet; `stash design add NAME --shape …` keeps one"


def keys(kept: Kept) -> dict[str, Any]:
    """A kept design with stable keys: its plan and its need."""
    return {
        "design": kept.design.name,
        "plan": design.keys(kept.design),
        "need": need.keys(kept.need),
    }


def rows(designs: Sequence[Kept]) -> list[dict[str, Any]]:
    """One row for each role of each design."""
    return [{"design": kept.design.name, **row} for kept in designs for row in need.rows(kept.need)]


def text(designs: Sequence[Kept], page: Page) -> str:
    """Each design by its name and shape, with its need."""
    return "\n".join(_design_text(kept, page) for kept in designs) or NO_DESIGN


def _design_text(kept: Kept, page: Page) -> str:
    shape = f", {kept.design.shape}" if kept.design.shape else ""
    return f"{page.strong(kept.design.name)}{shape}\n{need.text(kept.need, page)}"


def added_text(entry: int, plan: Design, needed: Need, page: Page) -> str:
    """That a plan is kept, and what it needs."""
    return f"Kept {page.strong(plan.name)}  (entry {entry})\n{need.text(needed, page)}"


def put_right_text(entry: int, plan: Design, needed: Need, page: Page) -> str:
    """That a plan is put right, and what it needs now."""
    return f"Put right {page.strong(plan.name)}  (entry {entry})\n{need.text(needed, page)}"
