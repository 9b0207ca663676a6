"""What the whole shelf can become, as keys and for reading."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import islice
from typing import TYPE_CHECKING, Any

from stash.matching.answer.proposal import Filled
from stash.matching.shelf_survey import MOST_IN_A_ROW, Allowed, Becomes, OneMore
from stash.rendering import amounts
from stash.rendering.columns import columns
from stash.rendering.keys import metres, named, near_miss, proposal
from stash.rendering.match import Patch, lot_cells, lot_words, miss_rows
from stash.rendering.need import keys as need_keys
from stash.rendering.paint import patch, strong
from stash.rendering.reasons import why_not
from stash.rendering.sentences.fixes import fixes_in_words

if TYPE_CHECKING:
    from stash.actions.ideas import FromShelf

Keys = dict[str, Any]

NO_DESIGN = "no design is kept yet: `stash design add` keeps one"

#: More is a list to work through; --all and json have them all.
LOTS_SHOWN = 5
DESIGNS_SHOWN = 3


def _design_keys(one: Allowed) -> Keys:
    """What the shelf says to one design; `in_a_row` is not counted beyond `in_a_row_counted_to`."""
    return {
        "design": one.question.name,
        "possible": one.best is not None,
        "in_a_row": one.in_a_row,
        "in_a_row_counted_to": MOST_IN_A_ROW,
        "need": need_keys(one.question.need),
        "best": one.best and proposal(one.best),
        "near_miss": one.near and near_miss(one.near),
        "roles_without_yarn": list(one.empty),
    }


def _design_flat(one: Allowed) -> Keys:
    """The same as one row of a sheet."""
    return {
        "design": one.question.name,
        "possible": one.best is not None,
        "in_a_row": one.in_a_row,
        "key": one.best and one.best.key,
        "cost": one.best and one.best.cost,
        "coverage": one.best and [round(filled.coverage, 3) for filled in one.best.roles],
        "short_m": one.near and one.near.short_m,
        "why": one.near and why_not(one.near),
        "way_out": one.near and fixes_in_words(one.near.fixes),
    }


def _more_keys(one: OneMore) -> Keys:
    """A lot and what one more skein would make of it, the cheapest first."""
    return {
        **named(one.lot),
        "free_m": metres(one.lot.free_length),
        "skeins": [skein.number for skein in one.lot.skeins if skein.free],
        "one_more_g": one.put_up.mass.g,
        "one_more_m": one.put_up.length.m,
        "designs": [_becomes_keys(becomes) for becomes in one.designs],
    }


def _becomes_keys(becomes: Becomes) -> Keys:
    main, *others = becomes.best.roles
    return {
        "design": becomes.name,
        "role": main.role,
        "cost": becomes.best.cost,
        "coverage": main.coverage,
        "beside": {filled.role: named(filled.lot) for filled in others},
    }


def keys(answered: FromShelf) -> Keys:
    """Everything the whole shelf says to the kept designs."""
    return {
        "as_of": answered.as_of.isoformat(),
        "looked_at": answered.lots,
        "designs": [_design_keys(one) for one in answered.found.designs],
        "one_more": [_more_keys(one) for one in answered.found.one_more],
    }


def rows(answered: FromShelf) -> list[Keys]:
    """One row for each design."""
    return [_design_flat(one) for one in answered.found.designs]


def text(answered: FromShelf, *, everything: bool) -> str:
    """Which designs the shelf allows, what the others lack, what one more skein would bring."""
    designs, more = answered.found.designs, answered.found.one_more
    if not designs:
        return NO_DESIGN
    lines = [_head(designs, answered.lots), ""]
    for headline, under in _design_lines(designs, patch):
        lines += [strong(headline), under, ""]
    if more:
        lines.append(strong("One more skein of its lot, and it could become:"))
        lines += [*_more_lines(more, patch, everything=everything), ""]
    if designs[0].best:
        first = f'stash aside "{designs[0].question.name}" {designs[0].best.key}'
        lines.append(f"set the first one aside: {first}")
    return "\n".join(lines).rstrip("\n")


def _head(designs: Sequence[Allowed], lots: int) -> str:
    """How many of the designs can be made, in one line."""
    able = sum(1 for one in designs if one.best)
    return (
        f"From {amounts.counted(lots, 'lot')} on the shelf, {able or 'none'} of "
        f"{amounts.counted(len(designs), 'kept design')} can be made today, each counted by itself"
    )


def _design_lines(designs: Sequence[Allowed], patch: Patch) -> Iterator[tuple[str, str]]:
    """Each design with its lots, what is taken of each or is there, and what it lacks.

    Pairs of a headline and the lines under it; the columns run through under all of them.
    """
    groups = [_rows(one, patch) for one in designs]
    rows = iter(columns([row for group in groups for row in group], "   ").split("\n"))
    for one, group in zip(designs, groups, strict=True):
        lines = [*islice(rows, len(group)), *_lacks(one)]
        yield _headline(one), "\n".join(lines)


def _headline(one: Allowed) -> str:
    if one.best is None:
        return f"{one.question.name}: not yet"
    if one.in_a_row == 1:
        return f"{one.question.name}: once, from {one.best.key}"
    more = " or more" if one.in_a_row == MOST_IN_A_ROW else ""
    first = f"the first from {one.best.key}"
    return f"{one.question.name}: {one.in_a_row}{more}, one after the other, {first}"


def _rows(one: Allowed, patch: Patch) -> list[list[str]]:
    if one.best:
        return [_filled_row(filled, patch) for filled in one.best.roles]
    return miss_rows(one.near, one.question.need, patch) if one.near else []


def _filled_row(filled: Filled, patch: Patch) -> list[str]:
    bar = amounts.bar(1 - filled.left_m / filled.free_m)
    taken_m = filled.free_m - filled.left_m
    taken = f"takes {amounts.estimate(taken_m)} of {amounts.estimate(filled.free_m)}"
    return [filled.role, bar, taken, *lot_cells(filled.lot.lot, patch)]


def _lacks(one: Allowed) -> list[str]:
    """What keeps a design from being made, and the fixes; without any near miss, what it takes."""
    if one.near:
        return [f"      {why_not(one.near)}; {fixes_in_words(one.near.fixes)}"]
    if one.best:
        return []
    need = one.question.need
    low, high = need.thickness_from, need.thickness_to
    of_thickness = "" if low is None else f" of class {low}" + (f"-{high}" if high != low else "")
    if not one.empty:
        return [
            f"      each colour has yarn{of_thickness}, but no {len(need.roles)} lots go together"
        ]
    asked = [
        f"{role.role} {amounts.set_aside(role.set_aside_m)}"
        for role in need.roles
        if role.role in one.empty
    ]
    return [f"      no yarn{of_thickness} here comes near it, and it takes {', '.join(asked)}"]


def _more_lines(found: Sequence[OneMore], patch: Patch, *, everything: bool) -> Iterator[str]:
    """The lots that one more skein of the same lot would bring to a design."""
    shown = found if everything else found[:LOTS_SHOWN]
    for one in shown:
        there = f"{amounts.yarn(one.lot.free_length)} there, one more is {one.put_up}"
        yield f"   {patch(one.lot.lot)}{lot_words(one.lot.lot)}: {there}"
        designs = one.designs if everything else one.designs[:DESIGNS_SHOWN]
        shown_designs = "; ".join(_becomes_words(becomes, patch) for becomes in designs)
        hidden = len(one.designs) - len(designs)
        yield f"      {shown_designs}{f'; and {hidden} more' if hidden else ''}"
    if len(found) > len(shown):
        yield f"   {amounts.counted(len(found) - len(shown), 'more lot')}; --all shows them"


def _becomes_words(becomes: Becomes, patch: Patch) -> str:
    _, *others = becomes.best.roles
    beside = " and ".join(
        f"{filled.role} {patch(filled.lot.lot)}{amounts.colour(filled.lot.lot)}, "
        f"{filled.lot.lot.ref}"
        for filled in others
    )
    return f"{becomes.name}{f' with {beside}' if beside else ''}"
