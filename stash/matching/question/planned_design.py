"""The kept plan behind a need: what near misses ask how it could be made otherwise."""

from __future__ import annotations

from dataclasses import dataclass

from stash.requirements.yarn.design_context import DesignContext


@dataclass(frozen=True, slots=True)
class PlannedDesign:
    """A plan with all that is known of it, and whether its sizes are shown in inches."""

    known: DesignContext
    inches: bool = False
