"""How many different sets of yarns a batch lacks, with the reason, as keys and words."""

from __future__ import annotations

from typing import Any

from stash.planning.model.batch import Batch, TooAlike, Why
from stash.rendering.her_words import hers


def too_alike_keys(batch: Batch) -> list[dict[str, Any]]:
    """Each with stable keys; `design` is None for the batch as a whole."""
    found = []
    for one in batch.too_alike:
        want = None if one.want is None else batch.wants[one.want]
        found.append(
            {
                "design": want and want.design,
                "size": (want and want.size) or None,
                "different": one.asked,
                "count": one.count,
                "reasons": [why.value for why in one.reasons],
            }
        )
    return found


def too_alike_lines(batch: Batch) -> list[str]:
    """One line each: how many are missing, and what would bring more."""
    return [f"  {_asked(batch, one)}: {one.count} missing{_why(one)}" for one in batch.too_alike]


def _asked(batch: Batch, one: TooAlike) -> str:
    whose = "" if one.want is None else f" for {batch.wants[one.want].name}"
    return f"{one.asked} different sets of yarns{whose}"


_REASONS = {
    Why.YARN: "your yarn makes no more sets that differ",
    Why.HOURS: "more would need more hours",
    Why.LIMIT: "your limits on pairs, colours or mixes leave no more",
    Why.OTHERS: "what must be made at least leaves no yarn or time for more",
}


def _why(one: TooAlike) -> str:
    return f"; {' and '.join(hers(_REASONS[why]) for why in one.reasons)}" if one.reasons else ""
