"""Promises that can no longer be kept after something was booked."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from stash.rendering.amounts import grams
from stash.stock.promise import Promised

if TYPE_CHECKING:
    from stash.actions.book import Short


def broken(short: Short) -> str:
    """What a skein lacks of what is set aside, for which article, and the ways out."""
    promise = short.promise
    return (
        f"short: skein {promise.skein} now lacks {grams(short.short)} of what is set "
        f"aside for article {short.article}, role {promise.role or 'none'}; fill up from the "
        f"same lot with `stash match`, or `stash release {promise.article}`"
    )


def from_skeins(promised: Sequence[Promised]) -> str:
    """How much of which skeins: `61.5 g of skein 3, 40 g of skein 4`."""
    return ", ".join(f"{grams(one.mass)} of skein {one.skein}" for one in promised)
