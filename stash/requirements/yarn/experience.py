"""What was made before, brought to bear on a plan: at its size, in its stitch, by her hands."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import groupby

from stash.errors import Refusal
from stash.measures.estimate import Estimate
from stash.measures.note import Note
from stash.requirements.design.design import Design
from stash.requirements.design.evidence import OwnItem
from stash.requirements.yarn.by_rows import ByRows, by_rows
from stash.requirements.yarn.growth import Growth, growth
from stash.requirements.yarn.learning import (
    NO_HANDS,
    Hands,
    Lesson,
    Observed,
    Outcome,
    corrected,
    group_variance,
    outcome,
)


@dataclass(frozen=True, slots=True)
class Made:
    """A finished, weighed item: of which design, to which plan, and what it took."""

    design: int
    plan: Design
    took: OwnItem


@dataclass(frozen=True, slots=True)
class Experience:
    """What bears on one plan: its own items at its size of today, her hands, what to say."""

    own: tuple[OwnItem, ...] = ()
    hands: Hands = NO_HANDS
    notes: tuple[Note, ...] = ()


NOTHING_MADE = Experience()


def experience(design: int | None, plan: Design, made: Sequence[Made]) -> Experience:
    """Everything she made, as it bears on a plan (of the design of this number, if it is kept).

    An item of the same design in the same fabric is its own, carried over to today's size; any
    other tells of her hands alone.
    """
    own = [one for one in made if one.design == design and one.plan.fabric == plan.fabric]
    others = [one for one in made if one not in own]
    carried = [carried_over(one.took, one.plan, plan) for one in own]
    moved = sum(now != one.took for now, one in zip(carried, own, strict=True))
    return Experience(tuple(carried), Hands(tuple(_outcomes(others))), tuple(_moved(moved)))


def _moved(count: int) -> Iterator[Note]:
    if count:
        yield Note("items_carried_over", count=count)


def as_made(then: Design, today: Design) -> Design:
    """A plan as it was, put right by what is known today.

    Its size, shape, bands and strands are those it was made with. Gauge and put-up are today's:
    whoever puts them right without another fabric has measured better, and the item did not
    grow by that.
    """
    if then.fabric != today.fabric:
        return then
    return replace(
        today,
        shape=then.shape,
        size=then.size,
        bands=then.bands,
        stripes=then.stripes,
        ends=then.ends,
        crown=then.crown,
        seam=then.seam,
        strands=then.strands,
        count=then.count,
        extras=then.extras,
    )


def carried_over(took: OwnItem, then: Design, now: Design) -> OwnItem:
    """What an item made to one plan would have taken to another."""
    grown = _growth(then, now)
    return grown.item(took) if grown else took


def as_given(
    plan: Design, stated_for: Design, weighed_for: Design
) -> tuple[Design, tuple[Note, ...]]:
    """A plan with the figures in it carried over to its size of today, and what to say of that.

    `stated_for`, `weighed_for`: the plan as it was when a pattern's figures, or those of an item
    weighed by colour, were given.
    """
    notes = []
    if plan.stated and (grown := _growth(stated_for, plan)):
        plan = replace(plan, stated=grown.lengths(plan.stated))
        notes.append(Note("stated_figure_carried_over"))
    if plan.weighed and (grown := _growth(weighed_for, plan)):
        plan = replace(plan, weighed=grown.masses(plan.weighed))
        notes.append(Note("weighed_item_carried_over"))
    return plan, tuple(notes)


def _growth(then: Design, now: Design) -> Growth | None:
    """From one plan to another; None where it takes the same or nothing is known of it."""
    try:
        found = growth(then, now)
    except Refusal:  # nothing tells, or it was kept before a rule that refuses it
        return None
    return None if found.before == found.after else found


@dataclass(frozen=True, slots=True)
class Foreseen:
    """What the model says of a plan, and the stitches and class it is in."""

    yarn: tuple[tuple[str, float], ...]
    stitch: tuple[str, ...]
    unsure: float

    @property
    def total_m(self) -> float:
        """All roles together."""
        return math.fsum(length_m for _, length_m in self.yarn)


@lru_cache(maxsize=1024)  # a shop makes many items to few plans
def foreseen(plan: Design) -> Foreseen | None:
    """The model's word on a plan; None where it has none."""
    try:
        rows = by_rows(plan)
    except Refusal:  # a plan kept before a rule that refuses it
        return None
    if rows is None:
        return None
    yarn = tuple((role, said.expected_m) for role, said in sorted(rows.said.items()))
    return Foreseen(yarn, stitch_of(plan), rows.guessed**2)


def stitch_of(plan: Design) -> tuple[str, ...]:
    """The stitches of a plan's fabric and its thickness class: what her items are alike in."""
    classes = sorted({f"class {number}" for number in plan.classes or ()})
    return (*_stitch_names(plan), *classes)


def _stitch_names(plan: Design) -> tuple[str, ...]:
    return tuple(sorted({stitch.name for stitch in plan.fabric.stitches} if plan.fabric else ()))


def _outcomes(made: Sequence[Made]) -> Iterator[Outcome]:
    """Each design in each fabric as one outcome; what the model cannot foresee teaches nothing."""
    known = [
        (one.design, said.stitch, said, one.took)
        for one in made
        if (said := foreseen(one.plan)) is not None
    ]
    known.sort(key=lambda each: each[:2])
    for (_, stitch), run in groupby(known, key=lambda each: each[:2]):
        items = list(run)
        ratios = [_against(took, said) for _, _, said, took in items]
        yield outcome(stitch, ratios, max(said.unsure for _, _, said, _ in items))


def _against(took: OwnItem, said: Foreseen) -> Observed:
    """What an item took in all, as a ratio to what the model foresaw."""
    total_m = took.total_m or math.fsum(length_m for _, length_m in took.by_role)
    return Observed(total_m / said.total_m, math.hypot(took.scale_m / total_m, took.pair_spread))


def by_her_hands(
    rows: ByRows, design: Design, hands: Hands
) -> tuple[dict[str, Estimate], Note | None]:
    """The model's figures with what her other items taught, and what to say of that."""
    group = group_variance(rows.model_spread)
    lesson = hands.lesson(stitch_of(design), group)
    if not lesson.alike + lesson.others:
        return rows.said, None
    return corrected(rows.said, lesson, group), _learned(lesson, design)


def _learned(lesson: Lesson, design: Design) -> Note:
    return Note(
        "learned_from_items",
        count=lesson.alike or lesson.others,
        stitches=_stitch_names(design) if lesson.alike else (),
        thickness=design.classes if lesson.alike else None,
        more=math.expm1(lesson.ratio.mean),
    )
