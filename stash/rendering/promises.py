"""Yarn that was set aside, skein by skein."""

from __future__ import annotations

from collections.abc import Sequence

from stash.rendering.figures import up
from stash.stock.promise import Promised


def from_skeins(promised: Sequence[Promised]) -> str:
    """How much of which skeins: `61.5 g of skein 3, 40 g of skein 4`."""
    return ", ".join(f"{up(one.mass)} of skein {one.skein}" for one in promised)
