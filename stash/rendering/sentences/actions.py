"""Sentences about designs, what they reach and how long yarn lasts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from stash.measures.length import Length
from stash.measures.note import Note
from stash.rendering import figures
from stash.rendering.amounts import colour_name
from stash.rendering.sentences.say import sentence
from stash.rendering.sentences.words import Words
from stash.stock.yarn import Lot

if TYPE_CHECKING:
    from stash.requirements.fit.grading import NotMade


def _size_not_made(design: str, size: str, why: Note | str) -> str:
    return f"{design}, {size}: {sentence(why)}"


def _no_size_can_be_made(not_made: Sequence[NotMade]) -> str:
    each = dict.fromkeys(f"{no.choice.size.words}: {sentence(no.why)}" for no in not_made)
    return "; ".join(each)


def _instead(role: str, can_alternate: bool) -> str:
    return f"use --two-lots {role}=alternate" if can_alternate else "use one lot"


def _rows_of_role_not_known(role: str, can_alternate: bool) -> str:
    return (
        f"the rows of {role} are not known, so there is no brim and no row to change at: "
        f"{_instead(role, can_alternate)}, or add --fabric and --gauge to the design"
    )


def _no_brim_for_two_lots(role: str, can_alternate: bool) -> str:
    return f"{role} has no brim and no band of its own: {_instead(role, can_alternate)}"


def _no_row_for_two_lots(role: str, can_alternate: bool) -> str:
    return f"no row of {role} hides a change of lots: {_instead(role, can_alternate)}"


def _too_few_rows_for_two_lots(role: str, can_alternate: bool) -> str:
    return f"{role} has too few rows to alternate two lots: {_instead(role, can_alternate)}"


def _row_of_weighing_not_known(skeins: Sequence[int], row: float) -> str:
    typed = ",".join(f"{skein}={row:g}" for skein in skeins)
    balls = " and ".join(f"skein {skein}" for skein in skeins)
    was = "were" if len(skeins) > 1 else "was"
    return (
        f"at which row {was} {balls} last weighed? Add --rows-done {typed}, "
        f"or weigh again with the row: `stash weigh {skeins[0]} 63g --row {row:g}`"
    )


def _design_name_taken(design: str) -> str:
    return (
        f'there is already a design "{design}"; choose another name, '
        f'or change it: `stash design change "{design}"`'
    )


def _too_long_to_weigh(length: Length, most: Length) -> str:
    return (
        f"{figures.near(length)} is more than a sample; weigh {figures.down(most)} or less, "
        "or set what a full skein holds: `stash change 12 --full 100g/220m`"
    )


def _set_of_lots(lots: Sequence[Lot]) -> str:
    return " + ".join(colour_name(lot) for lot in lots)


SENTENCES: Mapping[str, Words] = {
    "first_set_looks_alike": "the colours of the first set look alike; say which set you want",
    "set_of_lots": _set_of_lots,
    "design_meant": "design: {name}",
    "item_meant": "item {item}",
    "item_named": "{item}",
    "design_name_taken": _design_name_taken,
    "design_so_already": 'the design "{design}" is already like that; nothing has changed',
    "no_put_up_for_share": (
        "{role} has no full skein to take a share of; type metres per 100 g as a range, "
        "as in --per-100g 200-260"
    ),
    "size_not_made": _size_not_made,
    "no_size_can_be_made": _no_size_can_be_made,
    "buying_without_end": (
        "to buy as little as possible, say how many of {design} you want at most: at_most = 6"
    ),
    "rows_of_role_not_known": _rows_of_role_not_known,
    "no_brim_for_two_lots": _no_brim_for_two_lots,
    "no_row_for_two_lots": _no_row_for_two_lots,
    "too_few_rows_for_two_lots": _too_few_rows_for_two_lots,
    "skein_given_twice": "skein {skein} is named twice; name it once",
    "length_of_skein_not_known": (
        "the length of skein {skein} is not known: "
        "set it with `stash change {skein} --full 100g/200m`, or type a length"
    ),
    "mass_without_metres": (
        "the length of {mass} of this yarn is not known: type a length, "
        "or add --full or --thickness to the design"
    ),
    "too_long_to_weigh": _too_long_to_weigh,
    "rows_done_not_said": (
        "how many rows are done? Add --rows-done 40 (at each weighing: 20,40), "
        "or weigh with the row: `stash weigh 17 63g --row 40`"
    ),
    "plan_not_by_rows": (
        "the rows of item {item} are not known: add how many are left, as in --rows-left 36"
    ),
    "more_rows_than_planned": (
        "{done:g} rows are done, but the design has only {rows}: "
        "add how many are left, as in --rows-left 36"
    ),
    "rows_left_by_plan": "{left:g} of the {rows} rows of its design are left",
    "uneven_rows_left_by_plan": (
        "{left:g} of the {rows} rows of its design are left; it begins with {first} stitches and "
        "ends with {last}. Worked the other way round? Add --rows-left and --stitches"
    ),
    "nothing_used_yet": (
        "no yarn is used for item {item} yet: weigh one of its balls, "
        "as in `stash weigh 17 63g --for {item.number}`"
    ),
    "row_of_weighing_not_known": _row_of_weighing_not_known,
    "more_rows_than_weighings": (
        "--rows-done has {given} rows, but skein {skein} was weighed {known} times: "
        "type the rows of its newest weighings"
    ),
    "weighed_at_other_row": (
        "skein {skein} was weighed at row {known:g} (entry {entry}), "
        "not at row {given:g}; if that is wrong, cancel it: `stash undo {entry}`"
    ),
    "skein_to_be_weighed_first": (
        "skein {skein} was never weighed; weigh it first: `stash weigh {skein} 63g`"
    ),
    "strand_never_weighed": (
        "skein {skein} is worked together with skein {beside} and was never weighed: "
        "weigh it too, as in `stash weigh {skein} 63g --for {item.number} --row 40`"
    ),
}
