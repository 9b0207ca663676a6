"""Grading: one design over a run of sizes and options, each with its size and its need."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import product

from stash.errors import Refusal
from stash.measures.length import NO_LENGTH, Length
from stash.requirements.design.bands import Band
from stash.requirements.design.design import Design
from stash.requirements.design.shapes import HATS, Size
from stash.requirements.design.sizing import Ease, Fit, fitted
from stash.requirements.yarn.by_rows import finished
from stash.requirements.yarn.design_context import DesignContext
from stash.requirements.yarn.need import Need
from stash.trade.bodies import Person


@dataclass(frozen=True, slots=True)
class SizeAsked:
    """A size as it was typed: whom it is to fit, or finished sides by the names of options.

    Sides that are not told follow from whom it fits, else they stay as planned.
    """

    words: str
    whom: Person | Length | None = None
    sides: Mapping[str, Length] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class BandsAsked:
    """A choice of bands as it was typed; none at all takes the planned ones away."""

    words: str
    bands: tuple[Band, ...] = ()


@dataclass(frozen=True, slots=True)
class Run:
    """What is to be graded: every size with every brim and every choice of bands.

    An empty run of brims or bands leaves them as planned. With brims, a hat's height is told
    without one and each is added; a brim of None is none. The bands of a choice take the place of
    the planned bands of their roles.
    """

    sizes: tuple[SizeAsked, ...]
    brims: tuple[Length | None, ...] = ()
    bands: tuple[BandsAsked, ...] = ()
    ease: Ease | None = None


@dataclass(frozen=True, slots=True)
class Choice:
    """One row that is asked for; `brim` and `bands` are None where they stay as planned."""

    size: SizeAsked
    brim: tuple[Length | None] | None = None
    bands: BandsAsked | None = None


@dataclass(frozen=True, slots=True)
class Graded:
    """One row of the table: the design at that size, what whole stitches come to, and its need."""

    choice: Choice
    design: Design
    finished: Size
    need: Need


@dataclass(frozen=True, slots=True)
class NotMade:
    """A row that cannot be made, and why."""

    choice: Choice
    why: Refusal


def graded_rows(known: DesignContext, run: Run) -> Iterator[Graded | NotMade]:
    """Every row of the table in order: by size, then brim, then bands."""
    brims = [(brim,) for brim in run.brims] or (None,)
    for size, brim, bands in product(run.sizes, brims, run.bands or (None,)):
        choice = Choice(size, brim, bands)
        try:
            design = _made(known.design, choice, run.ease)
            yield Graded(choice, design, finished(design), known.need(design))
        except Refusal as why:
            yield NotMade(choice, why)


def _made(plan: Design, choice: Choice, ease: Ease | None) -> Design:
    """The plan at that size, with that brim and those bands."""
    brim = plan.brim if choice.brim is None else choice.brim[0]
    if brim and plan.shape not in HATS:
        raise Refusal("no_brim_to_fold", shape=plan.shape)
    fit = _fit(plan, choice.size, ease, brim)
    sides = {**_planned(plan, choice, brim), **fit.sides, **_typed(choice, brim)}
    wanted = plan.build.words
    if missing := tuple(name for name in wanted if name not in sides):
        raise Refusal("sides_missing", sides=missing)
    if unknown := sorted(set(sides) - set(wanted)):
        raise Refusal("measured_by_other_sides", shape=plan.shape, side=unknown[0], sides=wanted)
    across, *others = (sides[name] for name in wanted)
    return replace(
        plan,
        size=Size(across, *(others or [across])),
        brim=brim,
        bands=_banded(plan.bands, choice.bands),
        fits=fit.made_from,
    )


def _fit(plan: Design, size: SizeAsked, ease: Ease | None, brim: Length | None) -> Fit:
    if size.whom is None or plan.shape is None:
        return Fit({}, size.words)
    return fitted(plan.shape, size.whom, ease, brim)


def _planned(plan: Design, choice: Choice, brim: Length | None) -> dict[str, Length]:
    """The sides of the plan, its brim changed for the one that is chosen."""
    if plan.size is None:
        return {}
    sides = dict(zip(plan.build.words, plan.size.sides, strict=False))
    if choice.brim is not None and "tall" in sides:
        sides["tall"] += (brim or NO_LENGTH) - (plan.brim or NO_LENGTH)
    return sides


def _typed(choice: Choice, brim: Length | None) -> dict[str, Length]:
    sides = dict(choice.size.sides)
    if choice.brim is not None and "tall" in sides:
        sides["tall"] += brim or NO_LENGTH
    return sides


def _banded(planned: Sequence[Band], chosen: BandsAsked | None) -> tuple[Band, ...]:
    if chosen is None:
        return tuple(planned)
    if not chosen.bands:
        return ()
    roles = {band.role for band in chosen.bands}
    return (*chosen.bands, *(band for band in planned if band.role not in roles))
