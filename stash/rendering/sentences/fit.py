"""Sentences about what so much yarn makes of a design, and whether it lasts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stash.rendering.her_words import hers
from stash.rendering.sentences.designs import size_options
from stash.rendering.sentences.words import Words
from stash.requirements.design.shapes import Shape


def _no_such_side(shape: Shape, side: str, sides: Sequence[str]) -> str:
    return f"a {shape} has no side {side}: choose {' or '.join(sides)}"


def _sides_missing(sides: Sequence[str]) -> str:
    missing = f"{' and '.join(f'--{side}' for side in sides)} {'is' if len(sides) == 1 else 'are'}"
    return f"{missing} missing: add {'it' if len(sides) == 1 else 'them'} to the design"


def _measured_by_other_sides(shape: Shape, side: str, sides: Sequence[str]) -> str:
    return f"a {shape} has no side {side}: it is measured with {size_options(sides)}"


def _no_such_role(role: str, roles: Sequence[str]) -> str:
    return f"this design has no {role}: {hers('its colours are')} {', '.join(roles)}"


def _weigh_it(skein: int | None, row: float) -> str:
    if skein is None:
        return ": no yarn is set aside for it"
    return f"; weigh its ball after some of its rows, as in `stash weigh {skein} 63g --row {row:g}`"


SENTENCES: Mapping[str, Words] = {
    "no_such_side": _no_such_side,
    "sides_missing": _sides_missing,
    "measured_by_other_sides": _measured_by_other_sides,
    "no_such_role": _no_such_role,
    "more_rows_done_than_planned": "{done} rows done: the design has {rows} rows",
    "role_in_no_row": "{role} is in no row: it is only in what you sew or knot on",
    "rows_not_known": (
        "its rows are not known: add --fabric and --gauge to the design, or --thickness"
    ),
    # where two lots of one colour meet
    "in_brim": "in the brim",
    "in_band": "in a band",
    "in_part": "in the {part}",
    "in_turn": "in turn",
    "under_fold": "under the fold",
    "where_part_begins": "where the {part} begins",
    "where_part_ends": "where the {part} ends",
    "beside_colours": lambda roles: f"next to {' and '.join(roles)}",
    # will it last
    "one_weighing": (
        "one weighing cannot show what a row takes: weigh the ball again after some rows"
    ),
    "nothing_worked": ("no row from {first:g} to {last:g} is in this yarn: check the row counts"),
    "colour_worked_to_its_end": "{role} is in none of the rows left",
    "colour_not_weighed": lambda role, skein, row: (
        f"nothing is known of {role} yet{_weigh_it(skein, row)}"
    ),
    "colour_not_begun": lambda role, skein, row: (
        f"nothing is known of {role} yet: it begins at row {row:g}{_weigh_it(skein, row + 9)}"
    ),
    "ball_no_lighter": (
        "the ball weighs no less after row {last:g} than after row {first:g}: "
        "weigh it again after some more rows"
    ),
    "rows_out_of_order": (
        "row {after:g} comes after row {before:g}: count from the start at each weighing"
    ),
    "ball_below_tare": "after row {after:g} the ball would weigh less than its tare",
    "ball_heavier": (
        "the ball is heavier after row {after:g} than after row {before:g}: "
        "leave out weighings of another ball"
    ),
    "kept_metres_not_in_grams": (
        "a length to keep needs the full skein to become grams: "
        'add --full "100g/230m", or keep a weight, as --keep 4g'
    ),
    "rows_shrink_away": (
        "rows of {first:g} stitches that lose {lost:g} each end at row {last:g}: give fewer rows"
    ),
}
