"""Kept designs: their plans with what they need."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from stash.rendering import design, figures, need
from stash.rendering.amounts import Page
from stash.requirements.design.design import Design
from stash.requirements.yarn.need import Need

if TYPE_CHECKING:
    from stash.actions.designs import Kept

NO_DESIGN = (
    'You have no designs yet. Save one: `stash design add "Winter hat" --shape beanie --size woman '
    '--fabric "1 hdc" --thickness DK`'
)


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
    """Each design by its name and shape, with what it takes of each colour."""
    if not designs:
        return NO_DESIGN
    listed = [line for kept in designs for line in (_head(kept, page), *_amounts(kept, page))]
    return "\n".join([*listed, "For notes and a drawing: `stash design show NAME`"])


def whole_text(kept: Kept, page: Page) -> str:
    """One design with all that is known of its need."""
    return f"{_head(kept, page)}\n{need.text(kept.need, page, whole=True)}"


def _head(kept: Kept, page: Page) -> str:
    shape = f", {kept.design.shape}" if kept.design.shape else ""
    return f"{page.strong(kept.design.name)}{shape}"


def _amounts(kept: Kept, page: Page) -> list[str]:
    return [f"   {line}" for line in need.amount_lines(kept.need, page)]


def size_words(plan: Design) -> str:
    """How large it is, side by side: `54 cm around, 22.5 cm tall`; nothing without a size."""
    if plan.size is None or plan.shape is None:
        return ""
    sides = zip(plan.size.sides, plan.build.words, strict=False)
    return ", ".join(f"{figures.size(side)} {word}" for side, word in sides)


def added_text(plan: Design, needed: Need, page: Page) -> str:
    """That a design is saved, and what it needs."""
    return f"Saved the design {page.strong(plan.name)}.\n{need.text(needed, page, plan.name)}"


def changed_text(plan: Design, needed: Need, page: Page) -> str:
    """That a design is changed, and what it needs now."""
    return f"Changed the design {page.strong(plan.name)}.\n{need.text(needed, page, plan.name)}"
