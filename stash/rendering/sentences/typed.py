"""Sentences about what was typed of a design, a day, a ball or a batch, beyond one text."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stash.errors import BadInput
from stash.rendering.sentences.designs import size_options
from stash.rendering.sentences.say import sentence
from stash.rendering.sentences.words import Words
from stash.requirements.design.shapes import BUILDS, Shape


def _sides_wanted(shape: Shape, missing: Sequence[str]) -> str:
    lacks = f"{', '.join(f'--{word}' for word in missing)} is missing; " if missing else ""
    options = size_options(BUILDS[shape].words)
    return f"a {shape} is measured with {options}: {lacks}give these and no others"


def _several_wrong(errors: Sequence[BadInput]) -> str:
    return "; ".join(map(sentence, errors))


def _left_counted_otherwise(in_stitches: bool) -> str:
    thing, option = ("stitches", "--stitches-left") if in_stitches else ("rows", "--rows-left")
    return f"the weighings count {thing}: say what is left so too, as in {option} 36"


SENTENCES: Mapping[str, Words] = {
    "column": "column",
    "drawback": "drawback to weigh",
    "fibre": "fibre",
    "setting": "setting",
    "day_to_come": "{text} is still to come: the books take no day after {today}",
    "no_role_and_value": (
        "cannot read {typed!r} after {option}: write a role and what for it, as in A=…"
    ),
    "role_named_twice": "{option} names role {role} twice",
    "no_role_of_strands": "cannot read {typed!r} after --strands-apart: name a role, as in A",
    "ease_without_size": "ease goes with whom it fits: give --size, as woman or 56cm",
    "size_without_shape": "sizes belong to a shape: give --shape as well",
    "sides_wanted": _sides_wanted,
    "several_wrong": _several_wrong,
    "weighed_without_colours": (
        "a design with bands is weighed by colour, as in --weighed A=71g,B=9g"
    ),
    "no_ball_weighed": (
        "say what the ball weighed, as in --readings '0:98g 20:81g', or name an item"
    ),
    "left_counted_otherwise": _left_counted_otherwise,
    "nothing_wanted": "say what is wanted: --want 'DESIGN=6', or a plan with [[want]]",
    "aim_without_values": ("most value asks what one of each brings: give value= with the wants"),
}
