"""What a batch leaves unmade, with the reason, as keys and words."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from stash.measures.written import show_minutes
from stash.planning.model.batch import Batch, NotMade, Unmet, Why
from stash.rendering.figures import up
from stash.rendering.her_words import hers


def not_made_keys(batch: Batch) -> list[dict[str, Any]]:
    """Each with stable keys; `count` is None where it was wanted without a most."""
    return [
        {
            "design": batch.wants[one.want].design,
            "size": batch.wants[one.want].size or None,
            "count": one.count,
            "reasons": [why.value for why in one.reasons],
            "short": {
                "yarn_m": {role: length.m for role, length in one.short.items()},
                "no_yarn": list(one.nowhere),
                "hours": one.minutes / 60,
            },
        }
        for one in batch.not_made
    ]


def not_made_lines(batch: Batch) -> list[str]:
    """One line each: what is not made, and what the next one would need."""
    return [
        f"  {_count(one)}{batch.wants[one.want].name}: {'; '.join(_reasons(one))}"
        for one in batch.not_made
    ]


def with_more_time(batch: Batch) -> tuple[NotMade, str] | None:
    """What could be made next if there were a little more time, and how much more that is."""
    waiting = [one for one in batch.not_made if one.reasons == (Why.HOURS,)]
    soonest = min(waiting, key=lambda one: one.minutes, default=None)
    return None if soonest is None else (soonest, show_minutes(soonest.minutes))


def too_few_lines(batch: Batch) -> list[str]:
    """The same of what falls short of its least."""
    lines = []
    for one in batch.unmet:
        lacks = [f"{up(um)} of {role}" for role, um in one.short.items()]
        lacks += [show_minutes(one.minutes)] if one.minutes else []
        why = f": the next one is {' and '.join(lacks)} short" if lacks else other_reason(one)
        lines.append(f"  {one.count} x {batch.wants[one.want].name}{why}")
    return lines


def other_reason(one: Unmet) -> str:
    """Why no more is made of what falls short, where no figure says it."""
    if one.nowhere:
        return f"; no yarn on the shelf suits {' or '.join(one.nowhere)}"
    if Why.LIMIT in one.reasons:
        return f"; {hers(_LIMITS)}"
    return "; what is left does not go together"


_LIMITS = "your limits on pairs, colours or mixes leave none"
#: What stands over the lines.
NOT_MADE = "Not made:"


def _count(one: NotMade) -> str:
    return "" if one.count is None else f"{one.count} x "


def _reasons(one: NotMade) -> Iterator[str]:
    if one.nowhere:
        yield f"no yarn on the shelf suits {' or '.join(one.nowhere)}"
    if one.short:
        lacks = [f"{up(length)} of {role}" for role, length in one.short.items()]
        yield f"the next one is {' and '.join(lacks)} short"
    if Why.HOURS in one.reasons:
        yield f"no time, the next one takes {show_minutes(one.minutes)} more than there is"
    if Why.LIMIT in one.reasons:
        yield hers(_LIMITS)
    if Why.LOSS in one.reasons:
        yield "yarn, sundries and fees would cost all that it brings"
    if Why.OTHERS in one.reasons:
        yield "what is left does not go together, or brings less than the others"
