"""The colours of what is ordered stand apart, wherever that leaves no order with less."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from stash.matching.lots.shelf import Shelf
from stash.matching.question.wish import Contrast, Gap, Wished
from stash.planning.model.batch import Terms, Wanted
from stash.planning.model.encode import encode
from stash.planning.optimiser.incumbent import Calls
from stash.planning.optimiser.search import in_turn

#: What is asked of an order's colours where nothing was said: clear, else at least soft.
_LEVELS: tuple[Wished, ...] = (Contrast.CLEAR, Gap(12.0))


def standing_apart(
    shelf: Shelf, wants: Sequence[Wanted], terms: Terms, calls: Calls
) -> list[Wanted]:
    """The wants, each order with the most contrast that still makes as many of every order.

    All of them together first, else one after the other. One that falls short keeps any contrast,
    so that yarn is what it is said to lack.
    """
    wants = [*wants]
    several = [i for i, w in enumerate(wants) if w.order is not None and _is_open(w)]
    if not several:
        return wants
    made = _made(shelf, wants, terms, calls)
    able = [i for i in several if made[i] >= wants[i].at_least]
    together = _with(wants, able, _LEVELS[0])
    if _made(shelf, together, terms, calls) == made:
        return together
    for one in able:
        for level in _LEVELS:
            tried = _with(wants, [one], level)
            if not calls.stop() and _made(shelf, tried, terms, calls) == made:
                wants = tried
                break
    return wants


def _is_open(want: Wanted) -> bool:
    """Whether several colours are asked for, and nothing of their contrast."""
    return len(want.need.roles) > 1 and want.wish.contrast_or_any is Contrast.ANY


def _with(wants: Sequence[Wanted], which: Sequence[int], contrast: Wished) -> list[Wanted]:
    return [
        replace(want, wish=replace(want.wish, contrast=contrast)) if i in which else want
        for i, want in enumerate(wants)
    ]


def _made(shelf: Shelf, wants: Sequence[Wanted], terms: Terms, calls: Calls) -> Mapping[int, int]:
    """How many of each order there will be."""
    problem = encode(shelf, wants, terms).problem
    made = in_turn(problem, calls).plan.made()
    return {want: made[want] for want in problem.first}
