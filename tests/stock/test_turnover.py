"""What came in and went out: the balance of a span, its measures, and what was taken back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from stash.measures.length import metres
from stash.measures.mass import Mass, grams
from stash.measures.money import Money
from stash.measures.put_up import PutUp
from stash.stock.movement import Booked, Kind, Movement
from stash.stock.turnover import (
    NOTHING,
    Origin,
    Total,
    Turnover,
    Way,
    basis_mg,
    measured_movements,
    settled_mg,
    turnover,
)

#: 2.5 m a gram, ten coins a gram of the 100 g it came with.
ORIGIN = Origin(PutUp(grams(100), metres(250)), Money(1000))
START = date(2025, 1, 1)


def on(day: int) -> date:
    return START + timedelta(days=day)


def booked(*moves: tuple[int, Kind, int], skein: int = 1) -> list[Booked]:
    """Movements of one skein, as day, kind and grams, booked in this order."""
    return [
        Booked(i, on(day), Movement(skein, kind, grams(change), id=100 * skein + i))
        for i, (day, kind, change) in enumerate(moves, start=1)
    ]


def span(moves: Sequence[Booked], first: int | None, last: int, **facts: object) -> Turnover:
    origins = {n: replace(ORIGIN, **facts) for n in {b.movement.skein for b in moves}}  # type: ignore[arg-type]
    found = measured_movements(moves, origins)
    return turnover(found, None if first is None else on(first), on(last))


def total(mass: int, length: int, coins: int) -> Total:
    return Total(grams(mass), metres(length), Money(coins))


YEAR = booked(
    (0, Kind.ARRIVED, 100),
    (5, Kind.USED, -40),
    (9, Kind.SOLD, -10),
    (9, Kind.CORRECTED, 2),
    (12, Kind.CORRECTED, -4),
    (20, Kind.UNRAVELLED, 38),
)


def test_a_span_has_what_was_there_what_came_what_went_and_what_is() -> None:
    """Checked by hand: 100 g are 250 m and 1000 coins, both by weight."""
    found = span(YEAR, 5, 12)

    assert found.opening == total(100, 250, 1000)
    assert found.moved == {
        (Way.IN, Kind.CORRECTED): total(2, 5, 20),
        (Way.OUT, Kind.USED): total(-40, -100, -400),
        (Way.OUT, Kind.CORRECTED): total(-4, -10, -40),
        (Way.OUT, Kind.SOLD): total(-10, -25, -100),
    }
    assert found.closing == total(48, 120, 480)


def test_both_ends_of_a_span_are_in_it() -> None:
    assert span(YEAR, 5, 5).of(Way.OUT) == total(-40, -100, -400)
    assert span(YEAR, 6, 8) == Turnover(total(60, 150, 600), {}, total(60, 150, 600))


def test_without_a_first_day_a_span_begins_with_nothing() -> None:
    found = span(YEAR, None, 20)

    assert found.opening == NOTHING
    assert found.of(Way.IN).mass == grams(140)


def test_what_was_taken_back_in_a_later_span_is_in_neither() -> None:
    wrong = Movement(1, Kind.USED, grams(-30), id=2)
    moves = [
        Booked(1, on(0), Movement(1, Kind.ARRIVED, grams(100), id=1)),
        Booked(2, on(3), wrong),
        Booked(3, on(40), replace(wrong, change=grams(30), undoes=2, id=3)),
    ]

    assert span(moves, None, 31).closing.mass == grams(100)
    assert span(moves, 32, 60) == Turnover(total(100, 250, 1000), {}, total(100, 250, 1000))


def test_a_restatement_changes_grams_and_neither_length_nor_money() -> None:
    """A skein of 100 g by its band that weighs 96 g has every metre of its 250 there."""
    moves = booked((0, Kind.ARRIVED, 100), (4, Kind.RESTATED, -4), (6, Kind.USED, -48))
    found = span(moves, None, 9, put_up=PutUp(grams(96), metres(250)))

    assert found.moved == {
        (Way.IN, Kind.ARRIVED): total(100, 250, 1000),
        (Way.OUT, Kind.USED): total(-48, -125, -500),
        (Way.RESTATED, Kind.RESTATED): total(-4, 0, 0),
    }
    assert found.closing == total(48, 125, 500)


def test_winding_off_is_neither_in_nor_out() -> None:
    """Skein 1 came with 100 g at 1000 coins; 30 g of it, 300 coins, are skein 2 now."""
    moves = [
        *booked((0, Kind.ARRIVED, 100), (1, Kind.USED, -40), (2, Kind.WOUND_OFF, -30)),
        *booked((2, Kind.WOUND_OFF, 30), skein=2),
    ]
    origins = {1: replace(ORIGIN, paid=Money(700)), 2: replace(ORIGIN, paid=Money(300), parent=1)}
    found = turnover(measured_movements(moves, origins), on(2), on(2))

    assert found.of(Way.WOUND_OFF) == NOTHING
    assert found.opening == found.closing == total(60, 150, 600)


def test_unravelled_yarn_comes_back_at_the_price_of_the_skein_it_was_of() -> None:
    moves = [
        *booked((0, Kind.ARRIVED, 100), (1, Kind.USED, -40)),
        *booked((8, Kind.UNRAVELLED, 38), (9, Kind.WOUND_OFF, -8), skein=2),
        *booked((9, Kind.WOUND_OFF, 8), skein=3),
    ]
    origins = {
        1: ORIGIN,
        2: replace(ORIGIN, paid=None, parent=1),
        3: replace(ORIGIN, paid=None, parent=2),
    }
    found = turnover(measured_movements(moves, origins), on(8), on(9))

    assert found.of(Way.IN) == total(38, 95, 380)
    assert found.closing == total(98, 245, 980)


def test_yarn_without_a_pair_or_a_price_is_told_by_a_flag() -> None:
    found = span(YEAR, 5, 9, put_up=None, paid=None)

    assert found.closing == Total(grams(52), all_measured=False, all_priced=False)


def test_a_gift_has_a_price_of_nothing() -> None:
    assert span(YEAR, 5, 9, paid=Money(0)).closing == total(52, 130, 0)


def test_what_is_no_longer_there_leaves_nothing_unmeasured() -> None:
    moves = booked((0, Kind.ARRIVED, 50), (3, Kind.GIVEN, -50))
    found = span(moves, None, 9, put_up=None)

    assert found.closing == NOTHING
    assert not found.of(Way.OUT).all_measured


def test_what_was_paid_covers_what_came_less_what_was_wound_off() -> None:
    moves = [b.movement for b in booked((0, Kind.ARRIVED, 100), (1, Kind.RESTATED, -20),
                                        (2, Kind.USED, -30), (3, Kind.WOUND_OFF, -10))]  # fmt: skip

    assert basis_mg(moves, settled_mg(moves)) == 70_000


@st.composite
def histories(draw: st.DrawFn) -> list[Booked]:
    """One skein that never holds less than nothing, its movements dated in any order it allows."""
    held, moves = draw(st.integers(1, 500_000)), []
    days = sorted(draw(st.lists(st.integers(0, 30), min_size=1, max_size=8)))
    moves.append((Kind.ARRIVED, held))
    for _ in days[1:]:
        kind = draw(st.sampled_from([k for k in Kind if k is not Kind.ARRIVED]))
        rises = kind is Kind.UNRAVELLED or (
            kind in (Kind.CORRECTED, Kind.RESTATED) and draw(st.booleans())
        )
        change = draw(st.integers(1, 90_000)) if rises else -draw(st.integers(0, held))
        if change:
            held += change
            moves.append((kind, change))
    return [
        Booked(i, on(day), Movement(1, kind, Mass(change), id=i))
        for i, (day, (kind, change)) in enumerate(zip(days, moves, strict=False), start=1)
    ]


prices = st.none() | st.integers(0, 5_000).map(Money)
pairs = st.none() | st.builds(
    PutUp, st.integers(1, 300_000).map(Mass), st.integers(1, 900).map(metres)
)


@given(moves=histories(), paid=prices, pair=pairs, cuts=st.lists(st.integers(-1, 31), max_size=5))
def test_every_span_balances_and_spans_add_up(
    moves: list[Booked], paid: Money | None, pair: PutUp | None, cuts: list[int]
) -> None:
    """However time is split: to the milligram, the micrometre and the coin."""
    found = measured_movements(moves, {1: Origin(pair, paid)})
    ends = sorted({*cuts, 31})
    whole = turnover(found, None, on(31))
    parts = [
        turnover(found, None if i == 0 else on(ends[i - 1] + 1), on(end))
        for i, end in enumerate(ends)
    ]

    for part in (whole, *parts):
        moved = sum((part.of(way) for way in Way), NOTHING)
        assert amounts(part.opening + moved) == amounts(part.closing)
    for earlier, later in pairwise(parts):
        assert earlier.closing == later.opening
    for way in Way:
        assert sum((p.of(way) for p in parts), NOTHING) == whole.of(way)
    held = sum((b.movement.change for b in moves), Mass(0))
    assert whole.closing.mass == held
    if pair:
        assert whole.closing.length == pair.length_of(held)


def amounts(of: Total) -> tuple[int, int, int]:
    return of.mass.mg, of.length.um, of.cost.coins
