"""What is called what where it was not found, and what to say beside it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stash.measures.note import Note
from stash.rendering.sentences.designs import enough_sides
from stash.rendering.sentences.nearest import likely
from stash.rendering.sentences.phrases import either
from stash.rendering.sentences.say import sentence
from stash.rendering.sentences.words import Words
from stash.requirements.design.shapes import Shape

#: What was not found, with … where what was asked for goes; else that comes last. A kind that is
#: its own noun needs none.
SENTENCES: Mapping[str, Words] = {
    "yarn_left": "yarn left of …",
    "yarn_on_shelf": "yarn like … on your shelf",
    "lot_on_shelf": "lot … on your shelf",
    "colour_on_shelf": "colour … on your shelf",
    "place_on_shelf": "place … on your shelf",
    "owner_on_shelf": "owner … on your shelf",
    "open_item": "open item …",
    "made_item": "finished item …",
    "unsold_item": "finished, unsold item …",
    "sold_item": "sold item …",
    "no_design_yet": "design",
    "design_of_shape": "design for",
    "design_for_batch": "design",
    "role": "colour … here",
    "yarn_used_of_role": "yarn used of colour …",
    "ball_worked_from": "ball … among those it is worked from",
}


def _give_its_need(asked: str, nearest: Sequence[str]) -> str:
    keep = f'save it with `stash design add "{asked}"`'
    return f"did you mean {either(nearest)}? Or {keep}" if nearest else keep


def _describe(asked: str, nearest: Sequence[str], shape: Shape) -> str:
    yours = f"yours: {', '.join(nearest)}; " if nearest else ""
    described = (
        f'--shape "{shape}" {enough_sides(shape)} --fabric "1 hdc" --terms us --thickness DK'
    )
    return f'{yours}describe it, as in `stash need {described}`, or `stash design add "{asked}"`'


#: What to say in place of the nearest names.
HINTS: Mapping[str, Words] = {
    "design_of_shape": _describe,
    "no_design_yet": "save one with `stash design add`, or type --need A=165m",
    "design_for_batch": _give_its_need,
    "count_under_way": lambda asked, **_: f'begin one: `stash count "{asked}" --tick 12,14-17`',
}

#: Which command shows the things that a word of a kind names.
_SHOWN_BY = {
    "item": "stash items",
    "design": "stash design list",
    "entry": "stash log",
    "order": "stash order list",
    "yarn": "stash shelf",
    "lot": "stash shelf",
    "skein": "stash shelf",
}


def said(asked: str, nearest: Sequence[str | Note]) -> str:
    """The nearest real choices: what was meant where one is like it, else what there is."""
    names = [sentence(one) for one in nearest]
    if any(isinstance(one, Note) for one in nearest) or likely(asked, names) or _part(asked, names):
        return f"did you mean {either(names)}?"
    return f"try {either(names)}"


def _part(asked: str, names: Sequence[str]) -> bool:
    """Whether a name holds what was asked, or a word of it."""
    return any(word in name.casefold() for name in names for word in asked.casefold().split())


def shown_by(kind: str) -> str:
    """The command that shows the things of a kind, "" for none."""
    words = kind.split("_")
    return next((command for thing, command in _SHOWN_BY.items() if thing in words), "")
