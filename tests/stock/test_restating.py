"""Grams put right while metres stay."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from stash.measures.length import Length, metres
from stash.measures.mass import NO_MASS, Mass, grams
from stash.measures.put_up import PutUp
from stash.stock.holding import HeldSkein
from stash.stock.movement import Kind
from stash.stock.promise import Promised
from stash.stock.restating import restated_promises, restatement
from stash.stock.yarn import FullFrom, Pair

OLD = PutUp(grams(100), metres(200))


def a_skein(held: Mass, promised: Mass) -> HeldSkein:
    return HeldSkein(1, 1, held, promised, Pair(OLD, FullFrom.ASSUMED), opened=False)


def a_promise(length: Length | None, mass: Mass, since: int = 1) -> Promised:
    return Promised(1, since, "A", 1, mass, length, since)


def test_what_is_held_is_restated_and_nothing_when_it_is_so_already() -> None:
    skein = a_skein(grams(100), grams(0))

    (move,) = restatement(skein, grams(92))
    assert (move.kind, move.change) == (Kind.RESTATED, grams(-8))
    assert restatement(skein, grams(100)) == []


def test_a_promise_keeps_its_metres() -> None:
    promise = a_promise(metres(50), grams(25))

    (change,) = restated_promises(
        a_skein(grams(100), grams(25)), PutUp(grams(80), metres(200)), grams(80), [promise]
    )

    assert (change.mass, change.length) == (grams(-5), None)


def test_a_promise_without_metres_keeps_its_grams() -> None:
    promise = a_promise(None, grams(25))

    assert not restated_promises(
        a_skein(grams(100), grams(25)), PutUp(grams(80), metres(200)), grams(80), [promise]
    )


@given(
    st.integers(10_000, 200_000),
    st.lists(st.integers(1, 60_000_000), max_size=5),
    st.integers(10_000, 200_000),
)
def test_promises_that_could_be_kept_can_be_kept_afterwards(
    held: int, lengths: list[int], net: int
) -> None:
    length = OLD.length_of(Mass(held))
    promises: list[Promised] = []
    room = Mass(held)
    for at, um in enumerate(lengths):
        mass = min(OLD.mass_covering(Length(um)), room)
        if mass:
            promises.append(a_promise(min(Length(um), OLD.length_of(mass)), mass, at))
            room -= mass
    skein = a_skein(Mass(held), Mass(held) - room)

    changes = restated_promises(skein, PutUp(Mass(net), length), Mass(net), promises)

    restated = sum((p.mass for p in promises), NO_MASS) + sum((c.mass for c in changes), NO_MASS)
    assert restated <= Mass(net)


def test_where_the_yarn_is_shorter_than_thought_the_promise_shows_it() -> None:
    """60 g were 120 m and are 90 m: 100 m that are promised are 66.7 g, and not all there."""
    promise = a_promise(metres(100), grams(50))

    (change,) = restated_promises(
        a_skein(grams(60), grams(50)), PutUp(grams(100), metres(150)), grams(60), [promise]
    )

    assert promise.mass + change.mass == Mass(66_667)
