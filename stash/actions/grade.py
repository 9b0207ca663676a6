"""A piece over a run of sizes and options."""

from __future__ import annotations

from stash.errors import Refusal
from stash.requirements.fit.grading import Graded, NotMade, Run, graded_rows
from stash.requirements.yarn.design_context import DesignContext


def graded(known: DesignContext, run: Run) -> tuple[tuple[Graded, ...], tuple[NotMade, ...]]:
    """The rows that can be made, and those that cannot; refused where none can."""
    each = list(graded_rows(known, run))
    rows = tuple(row for row in each if isinstance(row, Graded))
    not_made = tuple(row for row in each if isinstance(row, NotMade))
    if not rows:
        told = dict.fromkeys(f"{no.choice.size.words}: {no.why}" for no in not_made)
        raise Refusal("; ".join(told))
    return rows, not_made
