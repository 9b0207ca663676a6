"""Cutting a lot: whole strands, tails of joins, no useless ends, no gram twice."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st
from workshops import ENDS, a_lot

from stash.planning.model.problem import StockLot
from stash.planning.optimiser.cutting import (
    Cannot,
    Cutting,
    Strand,
    clashes,
    exactly,
    loosely,
    possible,
    thriftily,
    with_fewer_joins,
)

metres = st.integers(3_000, 90_000).map(lambda mm: mm / 1_000)
lots = st.lists(metres, min_size=1, max_size=5).map(lambda ms: a_lot(*ms, opened=len(ms) // 2))


def strands_of(lot: StockLot, *lengths: float) -> list[Strand]:
    return [Strand(round(m * 1_000_000), (1 << len(lot.supplies)) - 1) for m in lengths]


def joins(cutting: Cutting, strands: list[Strand]) -> int:
    return len(cutting.cuts) - len(strands)


def is_sound(lot: StockLot, strands: list[Strand], cutting: Cutting) -> None:
    """By what a cutting has to be, reckoned anew."""
    of_supply, of_strand = Counter[int](), Counter[int]()
    parts: dict[int, list[int]] = {}
    for cut in cutting.cuts:
        assert strands[cut.strand].pool >> cut.supply & 1
        of_supply[cut.supply] += cut.um
        of_strand[cut.strand] += cut.um
        parts.setdefault(cut.strand, []).append(cut.um)
    assert all(um <= lot.supplies[supply].um for supply, um in of_supply.items())
    assert sum(of_supply.values()) <= lot.most_um
    for at, strand in enumerate(strands):
        count = len(parts[at])
        assert of_strand[at] == strand.um + ENDS.join_um * (count - 1)
        assert count == 1 or min(parts[at]) >= ENDS.shortest_um


@given(lots, st.lists(metres, min_size=1, max_size=7))
def test_every_cutting_is_whole_and_no_gram_is_taken_twice(
    lot: StockLot, lengths: list[float]
) -> None:
    strands = strands_of(lot, *lengths)
    found = exactly(lot, strands, ENDS)

    for cutting in (found, loosely(lot, strands, ENDS), thriftily(lot, strands, ENDS)):
        if isinstance(cutting, Cutting):
            is_sound(lot, strands, cutting)
    if isinstance(found, Cutting):
        fewer = with_fewer_joins(lot, strands, ENDS, found, 500)
        is_sound(lot, strands, fewer)
        assert joins(fewer, strands) <= joins(found, strands)


@given(lots, st.lists(metres, min_size=1, max_size=7))
def test_what_a_rule_can_cut_is_never_called_a_clash(lot: StockLot, lengths: list[float]) -> None:
    strands = strands_of(lot, *lengths)

    assert possible(lot, strands, ENDS) == (loosely(lot, strands, ENDS) is not None)
    if possible(lot, strands, ENDS):
        assert not clashes(lot, strands, ENDS)


def test_all_of_two_balls_is_cut_without_a_join_where_lengths_allow() -> None:
    """60 + 40 and 70 + 30 fill two balls of 100; joined end to end they would not fit."""
    lot = a_lot(100, 100)

    found = exactly(lot, strands_of(lot, 60, 70, 30, 40), ENDS)

    assert isinstance(found, Cutting)
    assert joins(found, strands_of(lot, 60, 70, 30, 40)) == 0


def test_lengths_that_need_a_join_no_tail_is_left_for_are_proved_to_clash() -> None:
    """Three of 66 m out of two balls of 99 m: one is joined, and there are 198 m in all."""
    lot = a_lot(99, 99)

    assert exactly(lot, strands_of(lot, 66, 66, 66), ENDS) == Cannot(proved=True)
    assert isinstance(exactly(lot, strands_of(lot, 66, 66, 65.6), ENDS), Cutting)


def test_an_end_shorter_than_the_useful_one_is_never_joined_in() -> None:
    """100 m out of 99 m and 1.9 m: by sums alone it would do."""
    lot = a_lot(99, 1.9)

    assert isinstance(exactly(lot, strands_of(lot, 100), ENDS), Cannot)


def test_fewer_joins_are_found_where_the_rule_makes_more() -> None:
    """17 + 41 + 58 and 38 + 40 fill the balls; the longest first ends in a join."""
    lot = a_lot(117, 79)
    strands = strands_of(lot, 17, 41, 58, 38, 40)

    found = exactly(lot, strands, ENDS)

    assert isinstance(found, Cutting)
    assert joins(found, strands) > 0
    assert joins(with_fewer_joins(lot, strands, ENDS, found, 500), strands) == 0


def test_part_balls_go_first() -> None:
    lot = a_lot(60, 100, opened=1)

    found = loosely(lot, strands_of(lot, 40), ENDS)

    assert found is not None
    assert [cut.supply for cut in found.cuts] == [0]


def test_to_use_up_part_balls_more_is_joined() -> None:
    lot = a_lot(30, 100, opened=1)
    strands = strands_of(lot, 60)

    found = thriftily(lot, strands, ENDS)

    assert found is not None
    assert sum(cut.um for cut in found.cuts if cut.supply == 0) == 30_000_000


def test_a_strand_tied_to_some_supplies_is_cut_of_those() -> None:
    lot = a_lot(50, 50)

    found = exactly(lot, [Strand(20_000_000, 0b10), Strand(45_000_000, 0b11)], ENDS)

    assert isinstance(found, Cutting)
    assert {(cut.strand, cut.supply) for cut in found.cuts} == {(0, 1), (1, 0)}


@pytest.mark.parametrize(("most", "can"), [(None, True), (99.9, False)])
def test_no_more_is_cut_than_may_be_taken(most: float | None, can: bool) -> None:
    lot = a_lot(70, 70, most=most)

    assert isinstance(exactly(lot, strands_of(lot, 50, 50), ENDS), Cutting) is can
