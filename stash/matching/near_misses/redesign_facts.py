"""The figures of a design that is made otherwise: what changes, from what to what."""

from __future__ import annotations

from typing import Any

from stash.requirements.design.bands import Rows
from stash.requirements.design.design import Design
from stash.requirements.fit.fit_to_yarn import band_in_cells
from stash.requirements.fit.recoloured import Recoloured
from stash.requirements.yarn.by_rows import by_rows, finished
from stash.requirements.yarn.design_context import DesignContext

Facts = dict[str, Any]


def bands(plan: DesignContext, role: str, made: Design) -> Facts:
    """A role's bands as they would be and as planned: their widths, and their count of `unit`."""
    own = [at for at, band in enumerate(made.bands) if band.role == role]
    now = [band_in_cells(made, at) for at in own]
    before = [band_in_cells(plan.design, at) for at in own]
    return {
        "role": role,
        "widths": tuple(width for _, _, width in now),
        "counts": tuple(count for count, _, _ in now),
        "planned_widths": tuple(width for _, _, width in before),
        "planned_counts": tuple(count for count, _, _ in before),
        "unit": now[0][1],
    }


def recoloured(plan: DesignContext, found: Recoloured) -> Facts:
    """What is worked in another colour: so many rows, or stitches of each row, from where."""
    return {
        "shape": plan.design.shape,
        "role": found.role,
        "count": found.extent.count,
        "unit": "rows" if isinstance(found.extent, Rows) else "stitches",
        "above": found.above,
        "upright": found.upright,
    }


def side(plan: DesignContext, made: Design, index: int) -> Facts:
    """One side that is shorter, with how many rows fewer that is, or stitches in each row."""
    before, now = finished(plan.design).sides[index], finished(made).sides[index]
    return {
        "side": made.build.words[index],
        "length": now,
        "planned": before,
        **_fewer(plan.design, made),
    }


def sides(plan: DesignContext, made: Design) -> Facts:
    """All sides smaller, as they would be and as planned."""
    words = made.build.words
    return {
        "sides": tuple(words),
        "lengths": tuple(finished(made).sides[: len(words)]),
        "planned": tuple(finished(plan.design).sides[: len(words)]),
    }


def _fewer(planned: Design, made: Design) -> Facts:
    """How many rows fewer, or stitches where they run up the design; None where not known."""
    before, now = by_rows(planned), by_rows(made)
    if before is None or now is None:
        return {"fewer": None, "unit": None}
    if now.layout.sideways:
        return {
            "fewer": before.layout.body.widest - now.layout.body.widest,
            "unit": "stitches",
        }
    return {"fewer": len(before.layout.body.rows) - len(now.layout.body.rows), "unit": "rows"}
