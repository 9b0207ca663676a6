"""The balls of an item under way, as its books know them: what was used, and at which row."""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate

from stash.actions.her_settings import Settings
from stash.errors import BadInput, NotFound, Refusal
from stash.measures.length import Length
from stash.measures.mass import NO_MASS, Mass
from stash.requirements.lasting.balls import Ball, Point, newest_of_each_row
from stash.requirements.lasting.lasting import READING_NOISE
from stash.stock.holding import HeldSkein
from stash.stock.item import Item
from stash.stock.movement import Booked, Kind, standing
from stash.store import entry_rows, item_rows, skein_rows, weighing_rows
from stash.store.engine import Connection
from stash.store.weighing_rows import RowWeighed

#: A ball that was never weighed holds what its band says to 3 % (balls run +-6 %, two spreads).
BAND_NOISE = 0.03


@dataclass(frozen=True, slots=True)
class BallWeighed:
    """What had been used of a ball for the item by an entry, and at which row, where known."""

    entry: int
    used: Mass
    row: float | None


@dataclass(frozen=True, slots=True)
class Spool:
    """One ball that the item is worked from, as it was weighed, oldest first.

    `ended`: less than a useful end is left of it.
    """

    number: int
    weighed: tuple[BallWeighed, ...]
    ended: bool

    @property
    def row(self) -> float | None:
        """The row of its newest weighing."""
        return self.weighed[-1].row

    @property
    def ball(self) -> Ball:
        """It by its rows; what ended at no known row counts as used up from the first."""
        known = [Point(w.row, w.used.g) for w in self.weighed if w.row is not None]
        last = self.weighed[-1]
        if self.ended and last.row is None:
            known.append(Point(max((p.row for p in known), default=0.0), last.used.g))
        return Ball(self.number, newest_of_each_row(known), self.ended)


@dataclass(frozen=True, slots=True)
class ColourBalls:
    """All balls of one colour together.

    `have` is what they hold now. `opening_noise` is how far what was there at the beginning may be
    off, `unopened_noise` the same for balls that were set aside and not yet begun; in grams.
    """

    role: str
    m_per_100g: float | None
    have: Mass
    spools: tuple[Spool, ...]
    opening_noise: float
    unopened_noise: float

    @property
    def opening(self) -> Mass:
        """What there was at the beginning."""
        return sum((spool.weighed[-1].used for spool in self.spools), self.have)


def colours_of(db: Connection, settings: Settings, item: Item, role: str = "") -> list[ColourBalls]:
    """Every colour of which something was used, or the one that is named."""
    moved = entry_rows.movements(db, items=[item.number])
    kept = {move.id for move in standing(row.movement for row in moved)}
    used = [r for r in moved if r.movement.id in kept and r.movement.kind is Kind.USED]
    roles = sorted({row.movement.role for row in used})
    if not roles:
        raise Refusal("nothing_used_yet", item=item)
    if role and role not in roles:
        raise NotFound("yarn_used_of_role", role, roles)
    rows = weighing_rows.rows_weighed(db, item.number)
    return [
        _yarn(db, settings, item, [r for r in used if r.movement.role == one], rows)
        for one in roles
        if not role or one == role
    ]


def with_rows_given(
    yarns: Sequence[ColourBalls], rows_done: Sequence[float], at: Mapping[int, float]
) -> list[ColourBalls]:
    """The balls with the rows she gives: `at` by their numbers, else `rows_done` of the only one.

    Where several balls were weighed at rows that are not known, she is asked for each: one row for
    all of them would spread what was used of one over rows of another.
    """
    spools = {spool.number: spool for yarn in yarns for spool in yarn.spools}
    for number in at:
        if number not in spools:
            names = [f"{n}={row:g}" for n, row in zip(sorted(spools), at.values(), strict=False)]
            raise NotFound("ball_worked_from", str(number), names)
    rowed = {n: _with_rows(spool, [at[n]] if n in at else ()) for n, spool in spools.items()}
    asked = [spool for spool in rowed.values() if spool.row is None and not spool.ended]
    if rows_done:
        one = _only(asked, list(rowed.values()), rows_done[-1])
        if one is not None:
            rowed[one.number] = _with_rows(one, rows_done)
    unknown = [spool for spool in rowed.values() if spool.row is None and not spool.ended]
    if unknown:
        raise _which_row(unknown, 40)
    return [replace(y, spools=tuple(rowed[spool.number] for spool in y.spools)) for y in yarns]


def _only(asked: Sequence[Spool], all_of: Sequence[Spool], row: float) -> Spool | None:
    """The ball that rows without a number are of; None where all rows are known already."""
    if len({spool.weighed[-1].entry for spool in asked}) > 1:
        raise _which_row(asked, row)
    if asked:
        return asked[0]
    left = [spool for spool in all_of if not spool.ended] or all_of
    return left[0] if len(left) == 1 else None


def _which_row(spools: Sequence[Spool], row: float) -> BadInput:
    skeins = tuple(spool.number for spool in spools)
    return BadInput("row_of_weighing_not_known", skeins=skeins, row=row)


def _with_rows(spool: Spool, rows: Sequence[float]) -> Spool:
    """The ball with the rows of its newest weighings; a later row than is known is no weighing."""
    known = spool.row
    if rows and known is not None and rows[-1] > known:
        rows = rows[:-1]
    if len(rows) > len(spool.weighed):
        weighings = {"given": len(rows), "known": len(spool.weighed)}
        raise Refusal("more_rows_than_weighings", skein=spool.number, **weighings)
    older = spool.weighed[: len(spool.weighed) - len(rows)]
    newest = spool.weighed[len(older) :]
    for one, row in zip(newest, rows, strict=True):
        if one.row is not None and one.row != row:
            known_row = {"known": one.row, "given": row}
            raise Refusal("weighed_at_other_row", skein=spool.number, entry=one.entry, **known_row)
    rowed = tuple(replace(one, row=row) for one, row in zip(newest, rows, strict=True))
    return replace(spool, weighed=older + rowed)


def _yarn(
    db: Connection,
    settings: Settings,
    item: Item,
    used: Sequence[Booked],
    rows: Sequence[RowWeighed],
) -> ColourBalls:
    role = used[0].movement.role
    promises = item_rows.promises(db, items=[item.number])
    own = {p.skein: p.mass for p in promises if p.role == role}
    numbers = sorted({*own, *(row.movement.skein for row in used)})
    skeins = skein_rows.held_skeins(db, numbers)
    weighed = weighing_rows.first_weighings(db, numbers)
    for skein in skeins:
        if not skein.mass_known:
            raise Refusal("skein_to_be_weighed_first", skein=skein.number)
    noises = [_noise(skein, used, weighed.get(skein.number), settings) for skein in skeins]
    begun = {row.movement.skein for row in used}
    _refuse_unweighed_strand(db, item, role, begun, numbers)
    able = {skein.number: _able(skein, own.get(skein.number, NO_MASS)) for skein in skeins}
    return ColourBalls(
        role=role,
        m_per_100g=next((s.pair.put_up.m_per_100g for s in skeins if s.pair.put_up), None),
        have=sum(able.values(), NO_MASS),
        spools=tuple(
            Spool(
                skein.number,
                _as_weighed(skein.number, used, rows),
                _ended(skein, able[skein.number], settings.useful_end),
            )
            for skein in skeins
            if skein.number in begun
        ),
        opening_noise=math.hypot(
            *(n for s, n in zip(skeins, noises, strict=True) if s.number in begun)
        ),
        unopened_noise=math.hypot(
            *(n for s, n in zip(skeins, noises, strict=True) if s.number not in begun)
        ),
    )


def _refuse_unweighed_strand(
    db: Connection, item: Item, role: str, begun: Collection[int], numbers: Sequence[int]
) -> None:
    """Strands that are held together run out together: one that was never weighed says nothing."""
    strands = item_rows.strands_of(db, item.number, role)
    weighed = set().union(*(strands.get(number, set()) for number in begun))
    for number in numbers:
        if number not in begun and not strands[number] <= weighed:
            beside = {"beside": min(begun), "item": item}
            raise Refusal("strand_never_weighed", skein=number, **beside)


def _as_weighed(
    skein: int, used: Sequence[Booked], rows: Sequence[RowWeighed]
) -> tuple[BallWeighed, ...]:
    """What was used of a skein by each entry that used of it, or that says its row."""
    mine = [row for row in used if row.movement.skein == skein]
    at_row = {row.entry: float(row.row) for row in rows if row.skein == skein}
    entries = sorted({*at_row, *(row.entry for row in mine)})
    each = (_taken([row for row in mine if row.entry == entry]) for entry in entries)
    sums = accumulate(each)
    return tuple(
        BallWeighed(entry, so_far, at_row.get(entry))
        for entry, so_far in zip(entries, sums, strict=True)
    )


def _able(skein: HeldSkein, own: Mass) -> Mass:
    """What the item may take of a skein: what is free, and what was set aside for it."""
    return max(NO_MASS, skein.held - skein.promised + own)


def _ended(skein: HeldSkein, able: Mass, useful_end: Length) -> bool:
    left = skein.length(able)
    return not able or (left is not None and left < useful_end)


def _taken(rows: Sequence[Booked]) -> Mass:
    return -sum((row.movement.change for row in rows), NO_MASS)


def _noise(
    skein: HeldSkein, used: Sequence[Booked], weighed: int | None, settings: Settings
) -> float:
    """How far off the grams are that a skein held before it was begun: by its band, or weighed."""
    mine = [row for row in used if row.movement.skein == skein.number]
    held = skein.held + _taken(mine)
    full = skein.pair.put_up
    never_weighed = weighed is None or (bool(mine) and weighed >= mine[0].entry)
    if full is not None and held >= full.mass and never_weighed:
        return BAND_NOISE * held.g
    return READING_NOISE * settings.scale_step.g
