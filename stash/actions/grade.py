"""A design over a run of sizes and options."""

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
        raise Refusal("no_size_can_be_made", not_made=not_made)
    return rows, not_made
