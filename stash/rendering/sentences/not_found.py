"""What is called what where it was not found, and what to say beside it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stash.rendering.sentences.words import Words
from stash.requirements.design.shapes import HATS, Shape

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
    "design_of_shape": "design for",
    "design_for_batch": "design",
    "yarn_used_of_role": "yarn used of colour",
    "ball_worked_from": "ball it is worked from",
}


def _give_its_need(asked: str, nearest: Sequence[str]) -> str:
    give = f'give it its need with `stash design add "{asked}"`'
    return f"nearest: {', '.join(nearest)}; else {give}" if nearest else f"nearest: none; {give}"


#: Sides that are enough to know what such a thing takes.
_SIDES = {
    **dict.fromkeys((*HATS, Shape.MITTEN), "--size woman"),
    Shape.SOCK: "--size woman --tall 15cm",
    Shape.HEADBAND: "--size woman --tall 9cm",
    Shape.COWL: "--around 60cm --tall 25cm",
    Shape.SCARF: "--wide 20cm --long 150cm",
    Shape.BLANKET: "--wide 90cm --long 120cm",
    Shape.TRIANGLE: "--wide 150cm --long 70cm",
    Shape.SQUARE: "--wide 20cm",
    Shape.CIRCLE: "--wide 20cm",
}


def _describe(asked: str, nearest: Sequence[str], shape: Shape) -> str:
    yours = f"yours: {', '.join(nearest)}; " if nearest else ""
    described = f'--shape "{shape}" {_SIDES[shape]} --fabric "1 hdc" --thickness DK'
    return f'{yours}describe it, as in `stash need {described}`, or `stash design add "{asked}"`'


#: What to say in place of the nearest names.
HINTS: Mapping[str, Words] = {
    "item": "`stash items` lists yours",
    "design_of_shape": _describe,
    "no_design_yet": ("nearest: none is kept yet: `stash design add`, or give --need A=165m"),
    "design_for_batch": _give_its_need,
}

#: Which command shows the things that a word of a kind names.
_SHOWN_BY = {
    "item": "stash items",
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
