"""Whether yarn lasts, as a page says it: the verdict first, then figures, then a picture."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.measures.written import MASS_UNITS
from stash.rendering import figures
from stash.rendering.amounts import chance, counted
from stash.rendering.drawing.running_down import RunningDown, running_down
from stash.rendering.lasts import have_and_need
from stash.requirements.lasting.lasting import Lasting, Verdict

if TYPE_CHECKING:
    from stash.requirements.lasting.course import Course

#: Of how many times a chance is said to be so many; the nearest of these is taken.
_TIMES = (2, 3, 4, 5, 10)
#: Under this a chance is no longer counted in times of ten.
_SELDOM = 0.05
#: Steps of an axis, times a power of ten; there are so many of them at most.
_STEPS, _MOST_TICKS = (1, 2, 5, 10), 6
#: Above the heaviest weighing there is room for its figure.
_HEADROOM = 1.08
#: So many weighings have room for their figures in the picture.
_MOST_NOTES = 4


@dataclass(frozen=True, slots=True)
class LastingWords:
    """What a page says of one colour: `facts` are short, each with its name."""

    verdict: str
    sentence: str
    facts: tuple[tuple[str, str], ...]


def in_words(found: Lasting) -> LastingWords:
    """The verdict, the sentence behind it, and what to do next."""
    return LastingWords(_verdict(found), _sentence(found), tuple(_facts(found)))


def _verdict(found: Lasting) -> str:
    if found.verdict is Verdict.YES:
        return "Yes, it lasts"
    word = "Tight" if found.verdict is Verdict.TIGHT else "No"
    return f"{word}, {times_in(found.chance)}"


def times_in(probability: float) -> str:
    """A chance as how often it comes true: `about 1 time in 3`."""
    if probability < _SELDOM:
        return "less than 1 time in 20"
    ways = [(many, of) for of in _TIMES for many in range(1, of)]
    many, of = min(ways, key=lambda way: (abs(way[0] / way[1] - probability), way[1]))
    return f"about {counted(many, 'time')} in {of}"


def _sentence(found: Lasting) -> str:
    shown = have_and_need(found)
    kept = figures.up(figures.of_grams(found.keep_g))
    spread = figures.up(figures.of_grams(found.spread_g))
    to_go = f"{counted(_whole(found.rows_left), 'row')} to go"
    if shown.short:
        keep = f" with the {kept} kept back" if kept else ""
        missing = f"about {shown.rest} short" if shown.rest else "just short"
        takes = f"{to_go} take about {shown.need} (± {spread.number}){keep}"
        return f"{takes}, and {shown.have} is left: {missing}."
    left = f"About {shown.rest} (± {spread.number})" if shown.rest else "Next to nothing"
    keep = f", and {kept} is kept back" if kept else ""
    return f"{to_go} take about {shown.need - kept}{keep}. {left} left at the end."


def _whole(rows: float) -> int:
    return math.ceil(rows)


def _facts(found: Lasting) -> Iterator[tuple[str, str]]:
    yield ("Chance", chance(found.chance))
    if found.verdict is not Verdict.YES and found.rows_likely is not None:
        yield ("Rows it reaches", f"about {found.rows_likely} of {_whole(found.rows_left)}")
    if found.weigh_again:
        yield ("Weigh again", f"after row {_row(found.as_of + found.weigh_again)}")
    yield (
        "Kept back",
        str(figures.up(figures.of_grams(found.keep_g))) if found.keep_g else "nothing",
    )


def _row(row: float) -> str:
    return f"{row:g}"


def stop_at(found: Lasting) -> tuple[int, str] | None:
    """How many of the rows left are sure to come out of it, and up to which row that is; None
    where all of them are, or not one."""
    sure = found.rows_sure
    if not sure or sure >= found.rows_left:
        return None
    return sure, _row(found.as_of + sure)


def picture(found: Lasting, course: Course, size: tuple[int, int]) -> str:
    """How the ball runs down against the rows, in so many pixels."""
    likely, band = course.likely, course.band
    last = course.ahead[-1][0]
    most = max([left for _, left in course.weighed] + [high for *_, high in band])
    first, now = course.weighed[0][0], course.weighed[-1][0]
    notes = course.weighed if len(course.weighed) <= _MOST_NOTES else ()
    drawn = RunningDown(
        weighings=course.weighed,
        projection=likely,
        band=band,
        keep=found.keep_g,
        last_row=last,
        ticks=[*_ticks(_HEADROOM * most)],
        row_words=(
            (first, f"row {_row(first)}" if first else "start"),
            (now, f"row {_row(now)}, now"),
            (last, f"row {_row(last)}, done"),
        ),
        notes=[(row, left, str(figures.near(figures.of_grams(left)))) for row, left in notes],
        keep_words=f"{figures.up(figures.of_grams(found.keep_g))} kept back",
    )
    shown = have_and_need(found)
    title = f"{shown.have} left at row {_row(now)}; {_verdict(found)}: {_sentence(found)}"
    return running_down(drawn, *size, title)


def _ticks(most_g: float) -> Iterator[tuple[float, str]]:
    """Amounts on the axis, in whole steps of her unit, up to one above the most."""
    unit = figures.screen().units.weight
    each_g = float(MASS_UNITS[unit]) / 1000
    step = _step(most_g / each_g)
    many = max(1, math.ceil(most_g / each_g / step))
    for at in range(many + 1):
        yield (at * step * each_g, f"{at * step:g} {unit}" if at == many else f"{at * step:g}")


def _step(most: float) -> float:
    power = 10.0 ** math.floor(math.log10(most / _MOST_TICKS)) if most > 0 else 1.0
    return next(power * step for step in _STEPS if power * step * _MOST_TICKS >= most)
