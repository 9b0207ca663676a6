"""One lot cut by the solver, skein by skein."""

from __future__ import annotations

from collections import Counter
from random import Random

import pytest
from workshops import ENDS, a_lot

from stash.planning.model.problem import StockLot
from stash.planning.optimiser.cutting import Cutting, Strand, exactly, thriftily
from stash.planning.optimiser.plan import opened_um
from stash.planning.optimiser.skeinwise import best_cut, sketch_out
from stash.planning.optimiser.solver import Effort, Program, going_on


def sound(cutting: Cutting, strands: list[Strand], supplies: list[int]) -> bool:
    """Every strand whole with its joins, no end too short, no skein cut beyond its end."""
    for at, strand in enumerate(strands):
        cuts = [cut.um for cut in cutting.cuts if cut.strand == at]
        if sum(cuts) != strand.um + ENDS.join_um * (len(cuts) - 1):
            return False
        if len(cuts) > 1 and min(cuts) < ENDS.shortest_um:
            return False
    used = [sum(cut.um for cut in cutting.cuts if cut.supply == i) for i in range(len(supplies))]
    return all(um <= have for um, have in zip(used, supplies, strict=True))


@pytest.mark.parametrize("seed", range(40))
def test_the_solver_uses_part_balls_at_least_as_well_as_every_rule(seed: int) -> None:
    random = Random(seed)
    metres = sorted((round(random.uniform(3, 90), 3) for _ in range(4)), reverse=True)
    lot = a_lot(*metres, opened=random.randint(1, 4))
    every = (1 << len(metres)) - 1
    strands = [
        Strand(round(random.uniform(5, 40) * 1e6), every) for _ in range(random.randint(1, 5))
    ]

    cutting = best_cut(lot, tuple(strands), ENDS)
    by_rule = thriftily(lot, strands, ENDS)

    if cutting is None:
        assert not isinstance(exactly(lot, strands, ENDS), Cutting)
        return
    assert sound(cutting, strands, [supply.um for supply in lot.supplies])
    if by_rule is not None:
        little = 1e-3 * opened_um(lot, by_rule, strands) + 5_000 * len(metres)
        assert opened_um(lot, cutting, strands) >= opened_um(lot, by_rule, strands) - little


def test_ends_too_short_to_join_are_cut_whole_or_not_at_all() -> None:
    """Of 30 m and an opened end of 1.5 m: a strand of 31 m would join in less than 2 m."""
    lot = a_lot(1.5, 30, opened=1)

    assert best_cut(lot, (Strand(31_000_000, 3),), ENDS) is None
    cutting = best_cut(lot, (Strand(1_400_000, 3), Strand(30_000_000, 3)), ENDS)

    assert cutting is not None
    assert {(cut.supply, cut.strand) for cut in cutting.cuts} == {(0, 0), (1, 1)}


def sketched(lot: StockLot, strands: list[Strand]) -> bool:
    """Whether so many strands fit a lot that is only sketched."""
    program = Program(going_on)
    asked = {}
    for kind, count in Counter(strands).items():
        at = program.column(0.0, {}, count)
        program.between(at, count, count)
        asked[kind] = {at: 1.0}
    sketch_out(program, lot, ENDS, asked)
    return program.whole(Effort(0.0, 1_000)).values is not None


@pytest.mark.parametrize("first", range(0, 120, 10))
def test_every_cutting_fits_the_sketch_of_its_lot(first: int) -> None:
    """So what is proved with sketches holds for every plan."""
    for seed in range(first, first + 10):
        random = Random(seed)
        lot = a_lot(*(round(random.uniform(3, 60), 3) for _ in range(random.randint(1, 5))))
        every = (1 << len(lot.supplies)) - 1
        pools = [every, every, random.randint(1, every)]
        strands = [
            Strand(round(random.uniform(3, 50) * 1e6), random.choice(pools))
            for _ in range(random.randint(1, 6))
        ]

        if isinstance(exactly(lot, strands, ENDS), Cutting):
            assert sketched(lot, strands), seed


def test_a_sketch_knows_that_a_skein_is_not_cut_twice() -> None:
    """Three strands of 30 m out of two skeins of 50 m: 90 m of 100 m, but one must be joined."""
    lot = a_lot(50, 50)
    thirty = Strand(30_000_000, 3)

    assert sketched(lot, [thirty] * 3)
    assert not sketched(lot, [thirty] * 3 + [Strand(9_700_000, 3)])
    assert not sketched(a_lot(50, 1.5), [Strand(50_500_000, 3)])
