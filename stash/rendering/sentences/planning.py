"""What the planner is doing, for whoever waits."""

from __future__ import annotations

from collections.abc import Mapping

from stash.planning.model.problem import Aim
from stash.rendering.sentences.words import Words

_DOING = {
    None: "checking that everything you must have fits",
    Aim.VALUE: "looking for the plan that brings in most",
    Aim.PROFIT: "looking for the plan that leaves most profit",
    Aim.ITEMS: "looking for the plan that makes most",
    Aim.LEFTOVERS: "using up part balls",
    Aim.BUYING: "leaving as little as possible to buy",
}


def _working_on_aim(aim: Aim | None) -> str:
    return _DOING[aim]


def _items_so_far(aim: Aim | None, count: int) -> str:
    return f"{_DOING[aim]}: {count} items so far"


def _closing_the_gap(gap: float) -> str:
    return f"looking for better: at most {100 * gap:.1f}% more is possible"


SENTENCES: Mapping[str, Words] = {
    "kept_out_of_the_batch": "is kept out of this batch",
    "working_on_aim": _working_on_aim,
    "working_on_order": "planning what is ordered: {at} of {of}",
    "items_so_far": _items_so_far,
    "closing_the_gap": _closing_the_gap,
}
