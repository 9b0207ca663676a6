"""The batch in whole numbers."""

from __future__ import annotations

from workshops import ENDS, a_lot, a_part

from stash.planning.model.problem import Column, Mix, Part, least_um

M = 1_000_000


def test_a_strand_longer_than_the_longest_supply_takes_a_tail_for_each_join() -> None:
    supplies = a_lot(50, 40, 30).supplies

    assert least_um(supplies, 50 * M, ENDS) == 50 * M
    assert least_um(supplies, 60 * M, ENDS) == 60 * M + ENDS.join_um
    assert least_um(supplies, 100 * M, ENDS) == 100 * M + 2 * ENDS.join_um
    assert least_um(supplies, 120 * M, ENDS) is None


def test_strands_add_up_to_the_whole_to_the_micrometre() -> None:
    lengths = Part("A", 100, 3, {}).strand_lengths

    assert sum(lengths) == 100
    assert max(lengths) - min(lengths) <= 1


def test_a_lot_too_short_for_a_part_is_no_place_for_it() -> None:
    lots = [a_lot(50), a_lot(80, 40)]

    assert sorted(a_part(lots, 100).places) == [1]


def test_the_same_two_lots_are_one_pair_in_either_order() -> None:
    assert Column(0, (3, 1)).pair == Column(2, (1, 3)).pair


def test_a_mix_counts_by_want_and_by_the_lot_of_the_main_yarn() -> None:
    mix = Mix(frozenset({0}), frozenset({4}))

    assert mix.holds(Column(0, (4, 2)))
    assert not mix.holds(Column(0, (2, 4)))
    assert not mix.holds(Column(1, (4, 2)))
