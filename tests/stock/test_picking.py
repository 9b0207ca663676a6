"""Picking against a slow reference over every set of pieces, and by the rules it must keep."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from slow import cheapest_by_hand

from stash.stock.picking import Costs, Pick, Supply, Wanted, best_pick, shortage_um

M = 1_000_000
COSTS = Costs()


def wanted(metres: float, strands: int = 1) -> Wanted:
    return Wanted(round(metres * M), strands, join_um=400_000, useful_um=2 * M)


def opened(number: int, metres: float) -> Supply:
    return Supply(number, round(metres * M), whole=False)


def whole(number: int, metres: float) -> Supply:
    return Supply(number, round(metres * M), whole=True)


def taken(pick: Pick | None) -> list[tuple[int, float]]:
    assert pick is not None
    return [(cut.number, cut.um / M) for cut in pick.cuts]


def test_one_supply_that_is_enough_needs_no_join() -> None:
    pick = best_pick([whole(1, 200), opened(2, 90)], wanted(80), COSTS)

    assert taken(pick) == [(2, 80)]
    assert pick is not None
    assert pick.joins == 0


def test_a_join_costs_its_tail() -> None:
    pick = best_pick([opened(1, 60), opened(2, 50)], wanted(100), COSTS)

    assert taken(pick) == [(1, 60), (2, 40.4)]


def test_a_tail_that_is_not_there_is_a_shortage() -> None:
    supplies = [opened(1, 60), opened(2, 40)]

    assert best_pick(supplies, wanted(100), COSTS) is None
    assert shortage_um(supplies, wanted(100)) == 400_000


def test_an_opened_skein_goes_before_a_whole_one() -> None:
    assert taken(best_pick([whole(1, 100), opened(2, 100)], wanted(50), COSTS)) == [(2, 50)]


def test_a_supply_below_the_useful_end_is_not_joined_in() -> None:
    assert best_pick([opened(1, 99), opened(2, 1.9)], wanted(100), COSTS) is None


def test_a_lone_supply_used_in_full_leaves_nothing() -> None:
    pick = best_pick([opened(1, 80)], wanted(80), COSTS)

    assert pick is not None
    assert pick.useless_ends == ()
    assert pick.cost == 0


def test_a_useless_end_is_left_only_where_it_must_be() -> None:
    pick = best_pick([opened(1, 81), opened(2, 90)], wanted(80), COSTS)

    assert taken(pick) == [(2, 80)]


def test_opening_a_skein_for_a_sliver_is_told() -> None:
    pick = best_pick([opened(1, 90), whole(2, 100)], wanted(101), COSTS)

    assert pick is not None
    assert pick.slivers == (2,)


def test_a_last_whole_skein_left_by_itself_is_told() -> None:
    pick = best_pick([whole(1, 100), whole(2, 100)], wanted(60), COSTS)

    assert pick is not None
    assert pick.leaves_lone_skein


def test_one_ball_feeds_two_strands_from_its_two_ends() -> None:
    pick = best_pick([whole(1, 200)], wanted(150, strands=2), COSTS)

    assert pick is not None
    assert [(c.number, c.strand, c.um) for c in pick.cuts] == [(1, 1, 75 * M), (1, 2, 75 * M)]
    assert pick.joins == 0


def test_two_balls_feed_two_strands_without_a_join() -> None:
    pick = best_pick([whole(1, 100), whole(2, 100)], wanted(200, strands=2), COSTS)

    assert pick is not None
    assert (pick.joins, pick.supplies) == (0, 2)


def test_a_strand_of_two_supplies_is_joined() -> None:
    pick = best_pick([opened(1, 80), opened(2, 41)], wanted(120, strands=2), COSTS)

    assert pick is not None
    assert pick.joins == 1
    assert pick.taken_um == 120_400_000


def test_alike_skeins_are_taken_by_lowest_number() -> None:
    supplies = [whole(number, 100) for number in (9, 3, 7)]

    assert [number for number, _ in taken(best_pick(supplies, wanted(150), COSTS))] == [3, 7]


def test_nothing_wanted_takes_nothing() -> None:
    assert taken(best_pick([whole(1, 100)], wanted(0), COSTS)) == []


@pytest.mark.parametrize("count", [60, 2000])
def test_a_large_lot_is_picked_without_trouble(count: int) -> None:
    supplies = [whole(number, 100) for number in range(count)]
    pick = best_pick(supplies, wanted(100 * (count - 10)), COSTS)

    # n skeins hold 100 n and n - 1 tails of 0.4 m: the least n with 99.6 n >= need - 0.4.
    assert pick is not None
    assert pick.supplies == -(-(1000 * (count - 10) - 4) // 996)


def test_many_part_balls_of_all_lengths_still_get_an_answer() -> None:
    supplies = [opened(number, 20 + number / 100) for number in range(60)]

    pick = best_pick(supplies, wanted(600), COSTS)

    # The longest first: 20.59, 20.58 … less 0.4 m a join; 30 of them hold 601.75 m.
    assert pick is not None
    assert pick.supplies == 30


lengths = st.one_of(st.sampled_from([50, 100, 100, 200]), st.integers(1, 120))
lots = st.lists(st.tuples(lengths, st.booleans()), max_size=6).map(
    lambda found: [Supply(i, length * M, is_whole) for i, (length, is_whole) in enumerate(found)]
)
weights = st.builds(Costs, *[st.sampled_from([0, 250, 500, 1000])] * 6)
needs = st.builds(
    Wanted,
    st.integers(1, 400 * M),
    st.integers(1, 3),
    st.sampled_from([0, 400_000]),
    st.sampled_from([0, 2 * M, 15 * M]),
)


@settings(max_examples=400, deadline=None)
@given(supplies=lots, ask=needs, costs=weights)
def test_the_pick_is_the_best_of_all_sets(
    supplies: list[Supply], ask: Wanted, costs: Costs
) -> None:
    pick = best_pick(supplies, ask, costs)

    assert cheapest_by_hand(supplies, ask, costs) == (
        pick and (pick.cost, sorted({cut.number for cut in pick.cuts}))
    )


@settings(max_examples=200, deadline=None)
@given(supplies=lots, ask=needs)
def test_a_pick_takes_the_need_and_its_tails_and_no_more_than_is_free(
    supplies: list[Supply], ask: Wanted
) -> None:
    pick = best_pick(supplies, ask, COSTS)
    if pick is None:
        assert shortage_um(supplies, ask) > 0
        return
    free = {supply.number: supply.um for supply in supplies}

    assert pick.taken_um == ask.um + ask.join_um * pick.joins
    for number, um in free.items():
        assert sum(cut.um for cut in pick.cuts if cut.number == number) <= um


@settings(max_examples=200, deadline=None)
@given(supplies=lots, need=st.integers(1, 400 * M))
def test_one_strand_is_covered_exactly_when_some_supplies_less_their_tails_add_up(
    supplies: list[Supply], need: int
) -> None:
    ask = Wanted(need, 1, 400_000, 2 * M)
    useful = [supply.um for supply in supplies if supply.um >= ask.useful_um]
    covers = bool(useful) and sum(useful) - 400_000 * (len(useful) - 1) >= need

    assert (best_pick(supplies, ask, COSTS) is not None) == covers
