"""From the shelf to whole numbers: what the matcher allows, and nothing else."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from shelves import a_lot, a_need, a_shelf, random_shelf, with_remnants

from stash.matching.lots.lot_view import views_of
from stash.matching.question.wish import Contrast, Fixed, Limits, Wish
from stash.matching.rules.fits import pair_rules, role_query
from stash.matching.scoring.coverage import role_fit
from stash.measures.colour import Colour
from stash.planning.model.batch import MixWanted, Terms, Wanted
from stash.planning.model.encode import encode, wants_of_varieties
from stash.planning.model.problem import Aim, Variety

TERMS = Terms((Aim.ITEMS,))


@pytest.mark.parametrize("seed", range(6))
def test_a_lot_may_fill_a_part_where_the_matcher_says_so(seed: int) -> None:
    shelf = with_remnants(random_shelf(seed, 60), 15)
    need, wish = a_need(4, A=90, B=20), Wish(contrast=Contrast.SOFT)

    problem = encode(shelf, [Wanted("hat", need, wish)], TERMS).problem

    for role, part in zip(need.roles, problem.wants[0].parts, strict=True):
        query = role_query(role, need, wish)
        fits = [role_fit(lot, query) for lot in views_of(shelf, False)]
        found = [place for place, fit in enumerate(fits) if not fit.blockers]
        assert sorted(part.places) == found


@pytest.mark.parametrize("contrast", [Contrast.ANY, Contrast.BOLD, Contrast.TONAL])
def test_lots_stand_beside_each_other_as_the_matcher_says(contrast: Contrast) -> None:
    shelf = random_shelf(3, 60)
    need, wish = a_need(4, A=90, B=20), Wish(contrast=contrast, thickness_tolerance=1)
    rules, seen = pair_rules(need, wish), views_of(shelf, False)

    beside = encode(shelf, [Wanted("hat", need, wish)], TERMS).problem.wants[0].beside

    for i, one in enumerate(seen):
        fitting = [j for j, other in enumerate(seen) if rules.fit(one, other)]
        assert [j for j in range(len(seen)) if beside.row(i) >> j & 1] == fitting


def test_what_is_free_is_what_there_is_and_a_share_is_held_back() -> None:
    shelf = a_shelf(a_lot(1, (100, 40), promised_g={0: 25}))

    posed = encode(shelf, [Wanted("hat", a_need(A=50), Wish())], replace(TERMS, hold_back=20))

    (lot,) = posed.problem.lots
    assert [design.um for design in lot.supplies] == [80_000_000, 150_000_000]
    assert lot.most_um == 184_000_000


def test_a_metre_costs_what_its_grams_do_and_what_is_not_known_nothing() -> None:
    """100 g and 200 m a skein: at 9 coins a gram a metre costs 4.5; the second has no cost."""
    shelf = a_shelf(a_lot(1, (100, 100)))

    posed = encode(
        shelf, [Wanted("hat", a_need(A=50), Wish())], TERMS, {10: Fraction(9, 1_000)}
    ).problem

    by_number = dict(
        zip((s.number for s in posed.lots[0].supplies), posed.lots[0].prices, strict=True)
    )
    assert by_number == {10: 4_500_000, 11: 0}
    assert posed.wants[0].parts[0].used_um == 50_000_000
    assert encode(shelf, [Wanted("hat", a_need(A=50), Wish())], TERMS).problem.lots[0].prices == ()


def test_what_is_to_differ_is_asked_of_all_and_of_each_want() -> None:
    shelf = a_shelf(a_lot(1, (100,)))
    hat = Wanted("hat", a_need(A=50), Wish())
    wants, terms = [hat, replace(hat, different=2)], replace(TERMS, different=3)

    posed = encode(shelf, wants, terms).problem

    assert posed.varieties == (Variety(frozenset({0, 1}), 3), Variety(frozenset({1}), 2))
    assert wants_of_varieties(wants, terms) == [None, 1]


def test_a_remnant_is_for_bands_and_a_barred_skein_for_nothing() -> None:
    shelf = with_remnants(a_shelf(a_lot(1, (100, 4), opened=(1,)), a_lot(2, (100, 100))), 5)
    wish = Wish(limits=Limits(barred={20: "is kept out of the batch"}))

    problem = encode(shelf, [Wanted("hat", a_need(A=50, B=6), wish)], TERMS).problem

    main, band = problem.wants[0].parts
    numbers = [[design.number for design in lot.supplies] for lot in problem.lots]
    assert numbers == [[11, 10], [20, 21]]
    assert [(lot, place.pool) for lot, place in sorted(main.places.items())] == [(0, 2), (1, 2)]
    assert [(lot, place.pool) for lot, place in sorted(band.places.items())] == [(0, 3), (1, 2)]


def test_a_role_that_is_tied_may_come_from_there_alone() -> None:
    shelf = a_shelf(a_lot(1, (100,)), a_lot(2, (100,)))
    wish = Wish(fixed={"A": Fixed(frozenset({2}))})

    problem = encode(shelf, [Wanted("hat", a_need(A=50), wish)], TERMS).problem

    assert sorted(problem.wants[0].parts[0].places) == [1]


def test_as_many_as_there_can_be_is_what_all_yarn_would_give() -> None:
    shelf = a_shelf(a_lot(1, (100, 100)))
    wants = [
        Wanted("hat", a_need(A=50, margin=0), Wish()),
        Wanted("cap", a_need(A=50), Wish(), at_most=2),
    ]

    problem = encode(shelf, wants, TERMS).problem

    assert [want.at_most for want in problem.wants] == [8, 2]


def test_a_mix_by_family_counts_lots_of_that_family() -> None:
    shelf = a_shelf(
        a_lot(1, (100,), colours=(Colour("#2f7fb5"),)),
        a_lot(2, (100,), colours=(Colour("#c02020"),)),
    )
    wants = [Wanted("Hat", a_need(A=50), Wish()), Wanted("Cap", a_need(A=50), Wish())]
    mixes = (MixWanted(design="hat", family="blue", at_most=1),)

    problem = encode(shelf, wants, replace(TERMS, mixes=mixes)).problem

    assert problem.mixes[0].wants == {0}
    assert problem.mixes[0].lots == {0}
