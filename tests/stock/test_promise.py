"""Promises: who is short first, and how they shrink."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from stash.measures.length import Length, metres
from stash.measures.mass import NO_MASS, Mass, grams
from stash.stock.promise import Promised, PromiseKind, lowered, lowered_by_use, shortages

MASSES = st.lists(st.integers(1, 10**6), min_size=1, max_size=6)


def a_promise(mass: Mass, since: int = 1, length: Length | None = None) -> Promised:
    return Promised(1, since, "A", 1, mass, length, since)


def test_the_newest_promise_is_short_first() -> None:
    old, new = a_promise(grams(40), 1), a_promise(grams(50), 2)

    assert shortages(grams(70), [new, old]) == [(new, grams(20))]


def test_an_older_promise_is_short_only_when_nothing_is_left_for_the_newest() -> None:
    old, new = a_promise(grams(40), 1), a_promise(grams(50), 2)

    assert shortages(grams(30), [new, old]) == [(old, grams(10)), (new, grams(50))]


@given(MASSES, st.integers(0, 10**6))
def test_shortages_add_up_to_what_is_missing(masses: list[int], held: int) -> None:
    promises = [a_promise(Mass(mg), at) for at, mg in enumerate(masses)]
    short = sum((missing for _, missing in shortages(Mass(held), promises)), NO_MASS)

    assert short == Mass(max(0, sum(masses) - held))


@given(st.integers(1, 10**6), st.integers(1, 10**6), st.integers(0, 10**9))
def test_metres_go_down_in_proportion_and_never_too_far(mass: int, by: int, um: int) -> None:
    change = lowered(a_promise(Mass(mass), length=Length(um)), Mass(by), PromiseKind.USED)

    assert change.length is not None
    part = min(by, mass)
    assert change.mass == Mass(-part)
    assert -change.length.um * mass <= um * part < (1 - change.length.um) * mass or part == mass
    if part == mass:
        assert change.length == Length(-um)


def test_a_promise_shrinks_by_what_is_used_for_it_the_oldest_first() -> None:
    changes = lowered_by_use([a_promise(grams(30), 2), a_promise(grams(40), 1)], grams(50))

    assert [(c.item, c.mass) for c in changes] == [(1, grams(-40)), (2, grams(-10))]


def test_more_use_than_promise_takes_the_promise_and_no_more() -> None:
    changes = lowered_by_use([a_promise(grams(30), length=metres(60))], grams(50))

    assert [(c.mass, c.length) for c in changes] == [(grams(-30), metres(-60))]
