"""What the planner is doing, for whoever waits."""

from __future__ import annotations

from collections.abc import Mapping

from stash.planning.model.problem import Aim
from stash.rendering.sentences.words import Words

_DOING = {
    None: "seeing whether all that must be made can be",
    Aim.VALUE: "looking for most value",
    Aim.ITEMS: "looking for most items",
    Aim.LEFTOVERS: "using up part balls",
    Aim.BUYING: "leaving least to buy",
}


def _working_on_aim(aim: Aim | None) -> str:
    return _DOING[aim]


def _items_so_far(aim: Aim | None, count: int) -> str:
    return f"{_DOING[aim]}: {count} items so far"


def _closing_the_gap(gap: float) -> str:
    return f"closing the gap: {100 * gap:.1f} % so far"


SENTENCES: Mapping[str, Words] = {
    "kept_out_of_the_batch": "is kept out of the batch",
    "working_on_aim": _working_on_aim,
    "working_on_order": "planning what is ordered: {at} of {of}",
    "items_so_far": _items_so_far,
    "closing_the_gap": _closing_the_gap,
}
