"""Margin: how much more than expected is set aside. It belongs to yarn only, never to profit."""

from __future__ import annotations

from stash.measures.estimate import Estimate, normal_cdf

#: 1.28 spreads above what is expected is enough nine times in ten (normal distribution).
NINE_IN_TEN = 1.28
LEAST_MARGIN = 0.05


def margin_for(estimate: Estimate, asked: float | None) -> float:
    """The margin as a share: as asked, else enough nine times in ten, at least 5 %."""
    if asked is not None:
        return asked
    return max(LEAST_MARGIN, NINE_IN_TEN * estimate.relative)


def chance_left(estimate: Estimate, margin: float) -> float | None:
    """How likely a margin is enough, where it is less than nine times in ten; else None."""
    if margin >= NINE_IN_TEN * estimate.relative:
        return None
    return normal_cdf(margin / estimate.relative)
