"""Sentences about what so much yarn makes of a design, and whether it lasts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stash.rendering.sentences.designs import size_options
from stash.rendering.sentences.words import Words
from stash.requirements.design.shapes import Shape


def _no_such_side(shape: Shape, side: str, sides: Sequence[str]) -> str:
    return f"a {shape} has no side {side}: choose {' or '.join(sides)}"


def _sides_missing(sides: Sequence[str]) -> str:
    return f"{' and '.join(f'--{side}' for side in sides)} is missing: give it with the design"


def _measured_by_other_sides(shape: Shape, side: str, sides: Sequence[str]) -> str:
    return f"a {shape} has no side {side}: it is measured with {size_options(sides)}"


def _no_such_role(role: str, roles: Sequence[str]) -> str:
    return f"this design takes no {role}: it takes {', '.join(roles)}"


SENTENCES: Mapping[str, Words] = {
    "no_such_side": _no_such_side,
    "sides_missing": _sides_missing,
    "measured_by_other_sides": _measured_by_other_sides,
    "no_such_role": _no_such_role,
    "more_rows_done_than_planned": "{done} rows done: the design has {rows} rows",
    "role_in_no_row": "{role} lies in no row: it is only in what is sewn or knotted on",
    "rows_not_known": (
        "its rows are not known: give the design --fabric and --gauge, or --thickness"
    ),
    # where two lots of one colour meet
    "in_brim": "in the brim",
    "in_band": "in a band",
    "in_part": "in the {part}",
    "in_turn": "in turn",
    "under_fold": "under the fold",
    "where_part_begins": "where the {part} begins",
    "where_part_ends": "where the {part} ends",
    "beside_colours": lambda roles: f"beside {' and '.join(roles)}",
    # will it last
    "one_weighing": (
        "one weighing does not tell what a row takes: weigh the ball again after some rows"
    ),
    "nothing_worked": (
        "nothing is worked of this yarn from {first:g} to {last:g}: look at the counts again"
    ),
    "ball_no_lighter": (
        "the ball weighs no less after {last:g} than after {first:g}: "
        "weigh it again after some more rows"
    ),
    "rows_out_of_order": (
        "{after:g} comes after {before:g}: count from the beginning at each weighing"
    ),
    "ball_below_tare": "after {after:g} the ball would weigh less than its tare",
    "ball_heavier": (
        "the ball is heavier after {after:g} than after {before:g}: "
        "leave out what was weighed of another ball"
    ),
    "kept_metres_not_in_grams": (
        "metres to keep back cannot be told in grams: "
        'give --put-up "100g/230m", or keep grams, as in --keep 4g'
    ),
    "rows_shrink_away": (
        "rows of {first:g} that lose {lost:g} each end at row {last:g}: fewer rows can be left"
    ),
}
