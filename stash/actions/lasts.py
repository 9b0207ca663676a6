"""Will the yarn of an item last: its books, its plan, and the rows at which it was weighed."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import accumulate

from stash.actions import find
from stash.actions.book import Book
from stash.actions.her_settings import Settings
from stash.actions.spools import ColourBalls, colours_of, with_rows_given
from stash.actions.under_way import UsedOf, used_of
from stash.actions.yarn_of_items import YarnOfItems
from stash.errors import BadInput, Refusal
from stash.measures.note import Note
from stash.requirements.design.design import Design
from stash.requirements.design.layout import Layout
from stash.requirements.design.serialise import deserialise
from stash.requirements.lasting import balls
from stash.requirements.lasting.balls import Ball, Stale
from stash.requirements.lasting.course import Course, course
from stash.requirements.lasting.lasting import (
    NOTHING_KEPT,
    GrowingRows,
    Keep,
    Lasting,
    Left,
    Reading,
    Weighings,
    Work,
    lasting,
)
from stash.requirements.yarn.by_rows import by_rows
from stash.stock.holding import HeldSkein
from stash.stock.item import Item
from stash.stock.yarn import Lot
from stash.store import item_rows, skein_rows, weighing_rows
from stash.store.engine import Connection


@dataclass(frozen=True, slots=True)
class LastsAsked:
    """What she says of an item under way.

    `rows_done`: the rows worked at the newest weighings of its one ball, the latest last; `at`: the
    row at the newest weighing of each of several balls, by number. What was said with a weighing is
    known already. Without `rows_left` it is what its plan has left, without `work` rows are as
    planned, or else alike. `role` "" means every colour that was weighed.
    """

    item: str
    rows_done: Sequence[float] = ()
    rows_left: float | None = None
    work: GrowingRows | None = None
    keep: Keep = NOTHING_KEPT
    role: str = ""
    at: Mapping[int, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Outlook:
    """Whether each colour of an item lasts, A first, how it runs down, and notes on that.

    `unknown`: the colours that no weighing says anything of yet, each with what to do about it;
    `lots`: the yarns of each colour.
    """

    item: Item
    roles: Mapping[str, Lasting]
    notes: tuple[Note, ...]
    stale: tuple[Stale, ...] = ()
    courses: Mapping[str, Course] = field(default_factory=dict)
    unknown: Mapping[str, Note] = field(default_factory=dict)
    lots: Mapping[str, tuple[Lot, ...]] = field(default_factory=dict)

    @property
    def least_sure(self) -> str:
        """The colour that is most likely to run out."""
        return min(self.roles, key=lambda role: (self.roles[role].chance, role))


def will_last(book: Book, asked: LastsAsked) -> Outlook:
    """Whether the yarn of an item lasts, by what its books say was used up to now.

    A colour whose balls are not all known to the newest row is answered from the row to which they
    are, and named as stale.
    """
    with book.reading() as db:
        settings = Settings.read(db)
        item = find.item(db, asked.item)
        plan = _plan(db, item)
        if not (asked.rows_done or asked.at or weighing_rows.rows_weighed(db, item.number)):
            raise BadInput("rows_done_not_said")
        layout = _planned_rows(plan, item) if asked.rows_left is None else None
        yarns = colours_of(db, settings, item, asked.role)
        used = [
            one
            for one in used_of(YarnOfItems.read(db, [item.number]), item.number)
            if asked.role in ("", one.role)
        ]
        lots = _lots(db, used)
    in_turn = plan is not None and plan.strands == 1
    by_colour = {
        yarn: tuple(spool.ball for spool in yarn.spools)
        for yarn in with_rows_given(yarns, asked.rows_done, asked.at)
    }
    rows = [ball.last.row for ones in by_colour.values() for ball in ones]
    now = max((*rows, *asked.rows_done[-1:]))
    left = _rows_left(asked, layout, now)
    skeins = {one.role: [skein.number for skein in one.skeins] for one in used}
    unknown = {role: _unknown(role, skeins[role], layout, now) for role in skeins}
    roles, courses, stale = {}, {}, []
    for yarn, together in by_colour.items():
        ones = balls.one_after_another(together) if in_turn else together
        last = balls.speaks_from(ones)
        rows_left = left + now - last.last.row
        readings = _readings(yarn, ones, work := _work(yarn.role, asked, layout), settings)
        if len(readings) < 2:
            continue
        weighings = Weighings(readings, work)
        del unknown[yarn.role]
        left_to_do = _left(yarn, asked, rows_left)
        roles[yarn.role] = lasting(weighings, left_to_do, settings.scale_step.g)
        courses[yarn.role] = course(weighings, left_to_do)
        if work(last.last.row) < work(now):
            stale.append(Stale(yarn.role, last.number, last.last.row, now))
    if not roles:
        first = next(iter(unknown.values()))
        raise Refusal(first.kind, **first.facts)
    return Outlook(item, roles, _notes(asked, layout, now), tuple(stale), courses, unknown, lots)


def _lots(db: Connection, used: Sequence[UsedOf]) -> Mapping[str, tuple[Lot, ...]]:
    records = skein_rows.lots(db, sorted({s.lot_id for one in used for s in one.skeins}))
    of_roles = {one.role: sorted({skein.lot_id for skein in one.skeins}) for one in used}
    return {role: tuple(records[lot] for lot in lots) for role, lots in of_roles.items()}


def _unknown(role: str, skeins: Sequence[int], layout: Layout | None, now: float) -> Note:
    """Why no weighing says anything of a colour yet."""
    rows = layout.rows if layout else ()
    has = [n for n, row in enumerate(rows, start=1) if any(r == role and c for r, c in row.counts)]
    facts = {"role": role, "skein": skeins[0] if skeins else None}
    if layout and not has:
        return Note("role_in_no_row", role=role)
    if has and has[-1] <= now:
        return Note("colour_worked_to_its_end", role=role)
    if has and has[0] > now:
        return Note("colour_not_begun", **facts, row=has[0])
    return Note("colour_not_weighed", **facts, row=now)


def more_of_lot(book: Book, number: int) -> tuple[HeldSkein, ...]:
    """The other skeins of a skein's lot that could go on where it ends, those with most first."""
    with book.reading() as db:
        useful_end = Settings.read(db).useful_end
        held = skein_rows.held_skeins(db)
    (ours,) = (skein.lot_id for skein in held if skein.number == number)
    others = [s for s in held if s.lot_id == ours and s.number != number and s.free]
    able = [s for s in others if s.free_length is None or s.free_length >= useful_end]
    return tuple(sorted(able, key=lambda s: (-s.free.mg, s.number)))


def _plan(db: Connection, item: Item) -> Design | None:
    plans = {design.id: design.plan for design in item_rows.designs(db, dropped=True)}
    plan = plans.get(item.design_id or 0)
    return deserialise(json.loads(plan)) if plan else None


def _planned_rows(plan: Design | None, item: Item) -> Layout:
    """The plan row by row; refused where it is not known so."""
    rows = by_rows(plan) if plan else None
    if rows is None:
        raise Refusal("plan_not_by_rows", item=item)
    return rows.layout


def _rows_left(asked: LastsAsked, layout: Layout | None, now: float) -> float:
    if asked.rows_left is not None or layout is None:
        return asked.rows_left or 0.0
    left = len(layout.rows) - now
    if left < 0:
        raise Refusal("more_rows_than_planned", rows=len(layout.rows), done=now)
    return left


def _readings(
    yarn: ColourBalls, ones: Sequence[Ball], work: Work, settings: Settings
) -> tuple[Reading, ...]:
    opening = Reading(0, yarn.opening.g, yarn.opening_noise)
    return balls.readings(ones, opening, work, settings.scale_step.g)


def _left(yarn: ColourBalls, asked: LastsAsked, rows: float) -> Left:
    keep_g = asked.keep.grams(yarn.m_per_100g)
    return Left(rows, keep_g, asked.keep.rows, yarn.unopened_noise)


def _work(role: str, asked: LastsAsked, layout: Layout | None) -> Work:
    """What rows hold: as she says, as planned for this colour, or all alike."""
    if asked.work is not None or layout is None:
        return asked.work or GrowingRows()
    held = [sum(count for one, count in row.counts if one == role) for row in layout.rows]
    sums = [0, *accumulate(held)]

    def worked(rows: float) -> float:
        whole = min(int(rows), len(held) - 1)
        return sums[whole] + (rows - whole) * held[whole]

    return worked


def _notes(asked: LastsAsked, layout: Layout | None, now: float) -> tuple[Note, ...]:
    if layout is None:
        return ()
    first, last = layout.rows[0].stitches, layout.rows[-1].stitches
    rows = {"left": len(layout.rows) - now, "rows": len(layout.rows)}
    if first == last or asked.work:
        return (Note("rows_left_by_plan", **rows),)
    return (Note("uneven_rows_left_by_plan", **rows, first=first, last=last),)
