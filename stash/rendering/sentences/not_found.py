"""What is called what where it was not found, and what to say beside it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stash.rendering.sentences.words import Words

#: The noun of each kind that is not its own name.
SENTENCES: Mapping[str, Words] = {
    "yarn_left": "yarn left of",
    "yarn_on_shelf": "yarn on the shelf",
    "lot_on_shelf": "lot on the shelf",
    "colour_on_shelf": "colour on the shelf",
    "place_on_shelf": "place on the shelf",
    "owner_on_shelf": "owner on the shelf",
    "open_item": "open item",
    "made_item": "made item",
    "unsold_item": "finished and unsold item",
    "sold_item": "sold item",
    "no_design_yet": "design",
    "design_for_batch": "design",
    "yarn_used_of_role": "yarn used of colour",
    "ball_worked_from": "ball it is worked from",
}


def _give_its_need(asked: str, nearest: Sequence[str]) -> str:
    give = f'give it its need with `stash design add "{asked}"`'
    return f"nearest: {', '.join(nearest)}; else {give}" if nearest else f"nearest: none; {give}"


#: What to say in place of the nearest names.
HINTS: Mapping[str, Words] = {
    "no_design_yet": ("nearest: none is kept yet: `stash design add`, or give --need A=165m"),
    "design_for_batch": _give_its_need,
}

#: Which command shows the things that a word of a kind names.
_SHOWN_BY = {
    "item": "stash shelf --aside",
    "design": "stash design list",
    "entry": "stash log",
    "yarn": "stash shelf",
    "lot": "stash shelf",
    "skein": "stash shelf",
}


def shown_by(kind: str) -> str:
    """The command that shows the things of a kind, "" for none."""
    words = kind.split("_")
    return next((command for thing, command in _SHOWN_BY.items() if thing in words), "")
