"""`stash weigh` alone: from ball to ball at the scale, all of it saved as one entry."""

from __future__ import annotations

import sys
from collections.abc import Callable
from datetime import date
from functools import partial
from typing import TYPE_CHECKING

import typer

from stash.cli.asking import somebody_is_there
from stash.cli.common import note, page_of, refuse, say, say_shorts

if TYPE_CHECKING:
    from stash.actions.book import Book
    from stash.actions.weigh import ScaleReading
    from stash.actions.weigh_walk import Walk, WorkedFrom
    from stash.measures.mass import Mass

#: More rows than any item has.
MOST_ROWS = 50_000


class _Enough(Exception):
    """She typed q, or her input has ended: what was given so far is to be saved."""


def walk(book: Book, item: str, tare: Mass | None, on: date | None) -> None:
    """Ask for the weight of each ball that is worked from; empty keeps it as it is.

    Nothing is written before the end, so that Ctrl-C leaves everything as it was.
    """
    from stash.actions.weigh_walk import balls_to_weigh, weigh_all
    from stash.rendering import figures
    from stash.rendering import weigh_walk as rendered

    if not somebody_is_there():
        refuse("nothing_to_weigh")
    found = balls_to_weigh(book, item)
    page = page_of(found.settings)
    if not found.balls:
        note(rendered.NO_BALLS)
        return
    readings = _asked(book, found, tare, on)
    if not readings:
        note(rendered.NOTHING_GIVEN)
        return
    weighed = weigh_all(book, readings, on)
    say(figures.settled(lambda: rendered.weighed_all(weighed, page)))
    say_shorts(weighed[0].shorts)


def _asked(book: Book, found: Walk, tare: Mass | None, on: date | None) -> dict[int, ScaleReading]:
    from stash.rendering import figures
    from stash.rendering import weigh_walk as rendered

    page = page_of(found.settings)
    readings: dict[int, ScaleReading] = {}
    note(rendered.HOW)
    try:
        for at, ball in enumerate(found.balls, start=1):
            place = (at, len(found.balls))
            note(figures.settled(partial(rendered.ball_on_scale, ball, place, page)))
            _ask_of(book, ball, readings, tare, on)
    except _Enough:
        pass
    return readings


def _ask_of(
    book: Book,
    ball: WorkedFrom,
    readings: dict[int, ScaleReading],
    tare: Mass | None,
    on: date | None,
) -> None:
    """One ball: its reading, tried at once so that a slip is asked again, then its row."""
    from dataclasses import replace

    from stash.actions.weigh import ScaleReading
    from stash.actions.weigh_walk import try_readings
    from stash.parsing import quantities
    from stash.rendering import weigh_walk as rendered

    def reading(text: str) -> None:
        asked = ScaleReading(quantities.mass(text), str(ball.item.number), tare)
        try_readings(book, {**readings, ball.skein.number: asked}, on)
        readings[ball.skein.number] = asked

    def row(text: str) -> None:
        if not text.isdecimal() or int(text) > MOST_ROWS:
            refuse("no_row_number", most=MOST_ROWS)
        number = ball.skein.number
        readings[number] = replace(readings[number], row=int(text))

    if _answered(rendered.READING, reading):
        _answered(rendered.ROW, row)


def _answered(question: str, take: Callable[[str], None]) -> bool:
    """Ask until the answer can be taken; False for an empty one."""
    from stash.errors import StashError

    while True:
        typer.echo(question, nl=False, err=True)
        line = sys.stdin.readline()
        text = line.strip()
        if not line or text.lower() == "q":
            raise _Enough
        if not text:
            return False
        try:
            take(text)
        except StashError as why:
            note(why)
        else:
            return True
