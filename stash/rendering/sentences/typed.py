"""Sentences about what was typed of a design, a day, a ball or a batch, beyond one text."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stash.errors import BadInput
from stash.rendering.sentences.designs import size_options
from stash.rendering.sentences.say import sentence
from stash.rendering.sentences.words import Words
from stash.requirements.design.shapes import BUILDS, Shape


def _sides_wanted(shape: Shape, missing: Sequence[str]) -> str:
    lacks = f"{' and '.join(f'--{word}' for word in missing)} needed; " if missing else ""
    options = size_options(BUILDS[shape].words)
    return f"{lacks}a {shape} is measured by {options}, and nothing else"


def _several_wrong(errors: Sequence[BadInput]) -> str:
    return "; ".join(map(sentence, errors))


def _left_counted_otherwise(in_stitches: bool) -> str:
    thing, option = ("stitches", "--stitches-left") if in_stitches else ("rows", "--rows-left")
    return f"your weighings count {thing}, so what is left must too: {option} 36"


def _no_name(name: str) -> str:
    if not name.strip():
        return "what is it called? Type a name for the design"
    return f"{name!r} cannot name a design, it reads like a number; add a word"


SENTENCES: Mapping[str, Words] = {
    "column": "column called …",
    "drawback": "ranking called …",
    "fibre": "fibre called …",
    "setting": "setting called …",
    "day_to_come": "{text} is in the future; use a day up to {today}",
    "no_name_of_a_design": _no_name,
    "no_role_and_value": (
        "cannot read {typed!r} after {option}: write a colour letter and what it takes, as in A=…"
    ),
    "role_named_twice": "{option} names {role} twice; keep one",
    "no_role_of_strands": "cannot read {typed!r} after --strands-apart: name a colour, as in A",
    "ease_without_size": "--ease needs to know who it is for: add --size, as woman or 56cm",
    "size_without_shape": "a size needs a shape: add --shape",
    "sides_wanted": _sides_wanted,
    "several_wrong": _several_wrong,
    "weighed_without_colours": (
        "this design has bands, so weigh each colour, as in --weighed A=71g,B=9g"
    ),
    "no_ball_weighed": ("what did the ball weigh? Add --readings '0:98g 20:81g', or name an item"),
    "left_counted_otherwise": _left_counted_otherwise,
    "nothing_wanted": "what do you want to make? Add --want 'DESIGN=6', or a plan with [[want]]",
    "aim_without_values": (
        "to aim for value or profit, say what one of each brings: add value= to the wants"
    ),
}
