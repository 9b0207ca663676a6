"""A design as keys: as it is kept, and in words what its size was made from."""

from __future__ import annotations

from typing import Any

from stash.rendering.sentences.designs import made_to_fit
from stash.requirements.design.design import Design
from stash.requirements.design.serialise import serialise


def keys(design: Design) -> dict[str, Any]:
    """A design with stable keys."""
    return {**serialise(design), "fits": made_to_fit(design.fits)}
