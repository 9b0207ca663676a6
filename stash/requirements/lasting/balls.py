"""Balls of one colour, each known to the row at which it was last weighed.

Two balls are worked from together, in turns, or one after the other, and are seldom weighed at the
same row. What was taken of one by row 20 says nothing of row 50: an answer over all of them speaks
from the last row to which every ball that still has yarn is known.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from stash.requirements.lasting.lasting import READING_NOISE, ROW_SPREAD, Reading, Work


@dataclass(frozen=True, slots=True)
class Point:
    """What had been taken of a ball at a row, in grams, by a weighing."""

    row: float
    used_g: float


@dataclass(frozen=True, slots=True)
class Ball:
    """One ball as it was weighed, oldest first; the rows that are known.

    `ended`: nothing is left of it to work from, so what it gave is known for every later row.
    `begun`: the row at which it was begun; nothing was taken before.
    """

    number: int
    points: tuple[Point, ...]
    ended: bool = False
    begun: float = 0.0

    @property
    def last(self) -> Point:
        """Where it was last weighed."""
        return self.points[-1]

    def known_at(self, row: float) -> bool:
        """Whether it was weighed there, or was not yet begun, or had ended."""
        done = self.ended and row >= self.last.row
        return done or row <= self.begun or any(point.row == row for point in self.points)

    def used_g(self, row: float, work: Work) -> float:
        """What it had given by a row; between two weighings by the work that lies there."""
        before = Point(self.begun, 0.0)
        for after in self.points:
            if row <= after.row:
                return _between(before, after, max(row, before.row), work)
            before = after
        return before.used_g


def _between(before: Point, after: Point, row: float, work: Work) -> float:
    if row == after.row:
        return after.used_g
    whole = work(after.row) - work(before.row)
    part = (work(row) - work(before.row)) / whole if whole > 0 else 0.0
    return before.used_g + part * (after.used_g - before.used_g)


@dataclass(frozen=True, slots=True)
class Stale:
    """A colour whose answer speaks from an earlier row, as this skein was not weighed since."""

    role: str
    skein: int
    row: float
    now: float


def newest_of_each_row(points: Sequence[Point]) -> tuple[Point, ...]:
    """Weighings in the order they were made; a lower row later means that work was ripped back."""
    kept: list[Point] = []
    for point in points:
        kept = [one for one in kept if one.row < point.row]
        kept.append(point)
    return tuple(kept)


def one_after_another(balls: Sequence[Ball]) -> tuple[Ball, ...]:
    """Balls that are worked from singly: each is begun where the last one before it ended."""
    ends = sorted(ball.last.row for ball in balls if ball.ended)
    return tuple(
        replace(ball, begun=max((end for end in ends if end < ball.points[0].row), default=0.0))
        for ball in balls
    )


def speaks_from(balls: Sequence[Ball]) -> Ball:
    """The ball whose last weighing is the earliest of those that still have yarn; else the last."""
    left = [ball for ball in balls if not ball.ended]
    if left:
        return min(left, key=lambda ball: (ball.last.row, ball.number))
    return max(balls, key=lambda ball: (ball.last.row, ball.number))


def readings(
    balls: Sequence[Ball], opening: Reading, work: Work, step_g: float
) -> tuple[Reading, ...]:
    """What all balls together held at the beginning and at each row at which all are known.

    At the row from which the answer speaks a ball that was weighed later is taken in proportion,
    as rows differ. Where no row between two readings has this yarn, the later one stands for both:
    before its first row that is what there was at the beginning.
    """
    last = speaks_from(balls).last.row
    rows = sorted({point.row for ball in balls for point in ball.points if 0 < point.row <= last})
    told = (row for row in rows if row == last or all(ball.known_at(row) for ball in balls))
    known = (opening, *(_at(row, balls, opening, work, step_g) for row in told))
    worked = (one for one, after in pairwise(known) if work(after.rows) > work(one.rows))
    return (*worked, known[-1])


def _at(row: float, balls: Sequence[Ball], opening: Reading, work: Work, step_g: float) -> Reading:
    used = [(ball.used_g(row, work), ball.known_at(row)) for ball in balls]
    inferred = (ROW_SPREAD * grams for grams, known in used if not known)
    noise = math.hypot(READING_NOISE * step_g, *inferred)
    return Reading(row, opening.net_g - math.fsum(grams for grams, _ in used), noise)
