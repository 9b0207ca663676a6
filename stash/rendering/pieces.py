"""Kept pieces: their plans with what they need."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from stash.rendering import design, need
from stash.rendering.amounts import Page
from stash.requirements.design.piece import Piece
from stash.requirements.yarn.need import Need

if TYPE_CHECKING:
    from stash.actions.pieces import Kept

NO_PIECE = "no piece is kept yet; `stash piece add NAME --shape …` keeps one"


def keys(kept: Kept) -> dict[str, Any]:
    """A kept piece with stable keys: its plan and its need."""
    return {"piece": kept.piece.name, "plan": design.keys(kept.piece), "need": need.keys(kept.need)}


def rows(pieces: Sequence[Kept]) -> list[dict[str, Any]]:
    """One row for each role of each piece."""
    return [{"piece": kept.piece.name, **row} for kept in pieces for row in need.rows(kept.need)]


def text(pieces: Sequence[Kept], page: Page) -> str:
    """Each piece by its name and shape, with its need."""
    return "\n".join(_piece_text(kept, page) for kept in pieces) or NO_PIECE


def _piece_text(kept: Kept, page: Page) -> str:
    shape = f", {kept.piece.shape}" if kept.piece.shape else ""
    return f"{page.strong(kept.piece.name)}{shape}\n{need.text(kept.need, page)}"


def added_text(entry: int, plan: Piece, needed: Need, page: Page) -> str:
    """That a plan is kept, and what it needs."""
    return f"Kept {page.strong(plan.name)}  (entry {entry})\n{need.text(needed, page)}"


def put_right_text(entry: int, plan: Piece, needed: Need, page: Page) -> str:
    """That a plan is put right, and what it needs now."""
    return f"Put right {page.strong(plan.name)}  (entry {entry})\n{need.text(needed, page)}"
