"""Sentences about designs, what they reach and how long yarn lasts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from stash.measures.note import Note
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
    return f"ask with --two-lots {role}=alternate" if can_alternate else "take one lot"


def _rows_of_role_not_known(role: str, can_alternate: bool) -> str:
    return (
        f"the rows of {role} are not known, so neither a brim nor a row to change at: "
        f"{_instead(role, can_alternate)}, or give the design its --fabric and --gauge"
    )


def _no_brim_for_two_lots(role: str, can_alternate: bool) -> str:
    return f"nothing of {role} is a brim, or a band by itself: {_instead(role, can_alternate)}"


def _no_row_for_two_lots(role: str, can_alternate: bool) -> str:
    return f"no row of {role} hides a change of lots: {_instead(role, can_alternate)}"


def _too_few_rows_for_two_lots(role: str, can_alternate: bool) -> str:
    return f"{role} has too few rows for two lots in turn: {_instead(role, can_alternate)}"


def _row_of_weighing_not_known(skeins: Sequence[int], row: float) -> str:
    typed = ",".join(f"{skein}={row:g}" for skein in skeins)
    balls = " and ".join(f"skein {skein}" for skein in skeins)
    was = "were" if len(skeins) > 1 else "was"
    return (
        f"at which row {was} {balls} last weighed? Say it as in --rows-done {typed}, "
        f"or with the weighing, as in `stash weigh {skeins[0]} 63g --row {row:g}`"
    )


def _set_of_lots(lots: Sequence[Lot]) -> str:
    return " + ".join(colour_name(lot) for lot in lots)


SENTENCES: Mapping[str, Words] = {
    "first_set_looks_alike": "the colours of the first set look alike; say which set you want",
    "set_of_lots": _set_of_lots,
    "design_meant": "design: {name}",
    "item_meant": "item {item}",
    "item_named": "{item}",
    "design_name_taken": (
        "there is a design {design!r} already; choose another name, or change that one"
    ),
    "design_so_already": "design {design!r} is so already, nothing was changed",
    "no_put_up_for_share": (
        "role {role} has no put-up to be a share of; give metres per 100 g from and to, "
        "as in --per-100g 200-260"
    ),
    "size_not_made": _size_not_made,
    "no_size_can_be_made": _no_size_can_be_made,
    "buying_without_end": (
        "least buying asks how many of {design} are wanted at most; say it with at_most"
    ),
    "rows_of_role_not_known": _rows_of_role_not_known,
    "no_brim_for_two_lots": _no_brim_for_two_lots,
    "no_row_for_two_lots": _no_row_for_two_lots,
    "too_few_rows_for_two_lots": _too_few_rows_for_two_lots,
    "skein_given_twice": "skein {skein} is told twice: a gram can be used but once",
    "length_of_skein_not_known": (
        "how long skein {skein} is is not known: give its --put-up with `stash change`, "
        "or its length in place of its number"
    ),
    "mass_without_metres": (
        "{mass} of this yarn cannot be told in metres: give its length, "
        "or the design its --put-up or --thickness"
    ),
    "too_long_to_weigh": (
        "{length} is more than is weighed by itself: weigh up to {most}, "
        "or put the band right with `stash change --put-up`"
    ),
    "rows_done_not_said": (
        "say how many rows are done, as in --rows-done 40 (at each weighing: 20,40), "
        "or with the weighing itself, as in `stash weigh 17 63g --row 40`"
    ),
    "plan_not_by_rows": (
        "the plan of item {item} is not known by its rows: "
        "say how many are left, as in --rows-left 36"
    ),
    "more_rows_than_planned": (
        "the plan has {rows} rows and {done:g} are done: "
        "say how many are left, as in --rows-left 36"
    ),
    "rows_left_by_plan": "by its plan {left:g} of {rows} rows are left",
    "uneven_rows_left_by_plan": (
        "by its plan {left:g} of {rows} rows are left, of {first} stitches at first and {last} at "
        "the end; if you work it the other way round, say --rows-left and --stitches"
    ),
    "nothing_used_yet": (
        "nothing is booked as used for item {item} yet: weigh a ball of it, "
        "as in `stash weigh 17 63g --for {item.number}`"
    ),
    "row_of_weighing_not_known": _row_of_weighing_not_known,
    "more_rows_than_weighings": (
        "--rows-done tells the rows of {given} weighings, and the books hold "
        "{known} of skein {skein}: tell those of the newest ones"
    ),
    "weighed_at_other_row": (
        "skein {skein} was weighed at row {known:g} (entry {entry}), "
        "not at row {given:g}: take that entry back if it is wrong"
    ),
    "skein_to_be_weighed_first": "skein {skein} was never weighed: put it on the scale first",
    "strand_never_weighed": (
        "skein {skein} is held together with skein {beside} and was never weighed: "
        "weigh it too, as in `stash weigh {skein} 63g --for {item.number} --row 40`"
    ),
}
