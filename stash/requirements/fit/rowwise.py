"""Row by row: how far so much yarn goes, and after which row the next lot begins.

Everything that is set aside for the fabric is laid on its rows as the model shares it: casting on,
seams and tails with them. Extras, such as a pompom, come after the rows.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from stash.errors import Refusal
from stash.requirements.design.layout import Layout
from stash.requirements.yarn.by_rows import ByRows, by_rows
from stash.requirements.yarn.design_context import DesignContext
from stash.requirements.yarn.model import colours_told_apart, in_row
from stash.requirements.yarn.need import Need, RoleNeed
from stash.requirements.yarn.tails import TAIL_M


@dataclass(frozen=True, slots=True)
class Walk:
    """How far the yarn of one role goes along the rows, numbered over all as they are worked.

    `changes`: after which row each further lot begins. `reached`: the last row that is covered; of
    `rows` in all. Where that is the last one, `left_m` is what remains for extras.
    """

    changes: tuple[int, ...]
    reached: int
    rows: int
    left_m: float

    @property
    def whole(self) -> bool:
        """Whether it goes to the end."""
        return self.reached == self.rows


@dataclass(frozen=True, slots=True)
class RowAt:
    """A row as a maker finds it: in which item of a pair, which part, and its number there."""

    item: int
    part: str
    row: int


def walk(known: DesignContext, role: str, lots: Sequence[float], done: int = 0) -> Walk:
    """How far the lots of a role go, one after the other, from after the rows that are done.

    Where one lot ends and the next begins, each leaves a tail.
    """
    takes = takes_by_row(known, role)
    if not 0 <= done <= len(takes):
        raise Refusal("more_rows_done_than_planned", done=done, rows=len(takes))
    tail_m = TAIL_M * known.design.strands
    joins = len(lots) - 1
    left = [lot - tail_m * ((at > 0) + (at < joins)) for at, lot in enumerate(lots)]
    changes: list[int] = []
    for row in range(done, len(takes)):
        while takes[row] > max(0.0, left[len(changes)]) + 1e-9:
            if len(changes) == joins:
                return Walk(tuple(changes), row, len(takes), 0.0)
            changes.append(row)
        left[len(changes)] -= takes[row]
    return Walk(tuple(changes), len(takes), len(takes), math.fsum(left[len(changes) :]))


def takes_by_row(known: DesignContext, role: str) -> tuple[float, ...]:
    """What each row takes of a role, in metres to set aside over all strands, as it is worked."""
    worked, need = _rows_and_need(known)
    layout, told_apart = worked.layout, colours_told_apart(worked.layout)
    parts = (in_row(r, layout.gauge, worked.diameter_m, told_apart) for r in layout.rows)
    each = [math.fsum(m for one, m in part if one == role) for part in parts]
    one = _of(role, need)
    whole = math.fsum(each)
    if not whole:
        raise Refusal("role_in_no_row", role=role)
    return tuple(m / whole * _fabric_m(one, need) for m in each)


def rows_of(known: DesignContext, role: str, have_m: float) -> int:
    """How many whole rows so much yarn of a role makes, in one go, each of them as usual here.

    At what is to be set aside, with a tail at either end.
    """
    _, need = _rows_and_need(known)
    one = _of(role, need)
    if not one.row_m:
        raise Refusal("role_in_no_row", role=role)
    return _times(have_m - 2 * TAIL_M * one.strands, one.row_m * (1 + one.margin))


def stripes_of(known: DesignContext, role: str, have_m: float) -> int | None:
    """How many whole stripes of a role, each as the planned ones; None for the main colour."""
    worked, need = _rows_and_need(known)
    planned = sum(1 for stretch in worked.layout.stretches if stretch.role == role)
    if not planned or role == worked.layout.roles[0]:
        return None
    return _times(have_m, _fabric_m(_of(role, need), need) / (planned * worked.layout.made))


def row_at(layout: Layout, number: int) -> RowAt:
    """Where the row of that number lies, counted from 1 over all."""
    lengths = [(part.name, len(part.rows)) for part in layout.parts] * layout.made
    for at, (name, rows) in enumerate(lengths):
        if number <= rows:
            return RowAt(at // len(layout.parts) + 1, name, number)
        number -= rows
    raise ValueError("no row")


def _rows_and_need(known: DesignContext) -> tuple[ByRows, Need]:
    worked = by_rows(known.design)
    if worked is None:
        raise Refusal("rows_not_known")
    return worked, known.need(known.design)


def _of(role: str, need: Need) -> RoleNeed:
    found = next((one for one in need.roles if one.role == role), None)
    if found is None:
        raise Refusal("no_such_role", role=role, roles=tuple(one.role for one in need.roles))
    return found


def _fabric_m(one: RoleNeed, need: Need) -> float:
    """What is to be set aside of a role without its extras."""
    extras = math.fsum(extra.expected_m for extra in need.extras if extra.role == one.role)
    return (one.estimate.expected_m - extras) * (1 + one.margin)


def _times(have_m: float, each_m: float) -> int:
    return max(0, math.floor(have_m / each_m + 1e-9))
