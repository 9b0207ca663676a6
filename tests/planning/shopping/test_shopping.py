"""What to buy, against every way of buying it, and against makers' own accounts."""

from collections.abc import Iterator, Sequence
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.planning.model.problem import Ends
from stash.planning.shopping.shopping import Missing, Offer, cut_from, shopping

ENDS = Ends(join_um=400_000, shortest_um=2_000_000)
M = 1_000_000
YARD = 914_400


def test_skeins_are_rounded_up_by_length() -> None:
    """A maker's account, public thread: 10 balls of 125 yd; a substitute of 145 yd: 9 (8.6 up)."""
    asked = Missing("cardigan", "A", 1250 * YARD)

    basket = shopping([asked], [Offer("substitute", 145 * YARD)], ENDS)

    assert [lot.skeins for lot in basket.bought] == [9]


def test_blocks_are_cut_whole() -> None:
    """A maker's account, public thread: a skein makes 3 blocks, 578 planned: 193 skeins."""
    asked = Missing("block", "A", 30 * M, count=578)

    basket = shopping([asked], [Offer("block yarn", 90 * M)], ENDS)

    assert [(lot.skeins, lot.joins) for lot in basket.bought] == [(193, 0)]


def test_one_yarn_is_bought_for_several_wants() -> None:
    """Two thirds of a skein and one third of another come from one."""
    hat, band = Missing("hat", "B", 60 * M), Missing("headband", "A", 30 * M)

    basket = shopping([hat, band], [Offer("wool", 100 * M, 500)], ENDS)

    assert [(lot.skeins, len(lot.wanted), lot.coins) for lot in basket.bought] == [(1, 2, 500)]


def test_two_colours_of_a_design_are_two_lots() -> None:
    hat = [Missing("hat", role, 30 * M) for role in "AB"]

    basket = shopping(hat, [Offer("wool", 100 * M, 500)], ENDS)

    assert sorted(lot.wanted[0].role for lot in basket.bought) == ["A", "B"]


def test_colours_asked_for_are_not_mixed() -> None:
    wanted = [
        Missing("hat", "A", 30 * M, colour="navy"),
        Missing("cowl", "A", 30 * M, colour="red"),
    ]

    assert len(shopping(wanted, [Offer("wool", 100 * M, 500)], ENDS).bought) == 2


def test_the_cheaper_put_up_is_taken() -> None:
    offers = [Offer("wool", 105 * M, 400), Offer("wool", 210 * M, 750)]

    one = shopping([Missing("hat", "A", 100 * M)], offers, ENDS)
    two = shopping([Missing("hat", "A", 200 * M)], offers, ENDS)

    assert [lot.offer.coins for lot in one.bought] == [400]
    assert [lot.offer.coins for lot in two.bought] == [750]


def test_a_yarn_with_a_price_comes_before_one_without() -> None:
    offers = [Offer("no price", 100 * M), Offer("priced", 100 * M, 900)]

    basket = shopping([Missing("hat", "A", 90 * M)], offers, ENDS)

    assert basket.priced
    assert basket.coins == 900


def test_what_no_offer_suits_is_said() -> None:
    asked = Missing("hat", "A", 90 * M, classes=(4, 4))

    basket = shopping([asked], [Offer("lace", 400 * M, classes=(0, 0))], ENDS)

    assert basket.nowhere == (asked,)
    assert not basket.bought


lengths = st.integers(M, 300 * M)
missings = st.builds(
    Missing,
    st.sampled_from(["hat", "cowl"]),
    st.sampled_from("AB"),
    lengths,
    count=st.integers(1, 3),
    strands=st.integers(1, 2),
    classes=st.sampled_from([None, (3, 3), (3, 4)]),
    colour=st.sampled_from(["", "", "red", "navy"]),
)
some_offers = st.lists(
    st.builds(
        Offer,
        st.just("yarn"),
        st.integers(20 * M, 250 * M),
        st.integers(0, 900),
        st.sampled_from([None, (3, 3), (4, 4)]),
    ),
    min_size=1,
    max_size=3,
    unique=True,
)


@given(
    st.lists(missings, min_size=1, max_size=4, unique_by=lambda m: (m.design, m.role)), some_offers
)
def test_no_other_way_of_buying_is_cheaper(asked: list[Missing], offers: list[Offer]) -> None:
    """Every way of sharing out the roles over lots, each lot cut for itself."""
    basket = shopping(asked, offers, ENDS)

    able = [one for one in asked if any(o.suits(one, 0) for o in offers)]
    assert basket.least
    assert set(basket.nowhere) == set(asked) - set(able)
    assert basket.coins == min(map(sum, _every_way(able, offers)), default=0)


def _every_way(asked: Sequence[Missing], offers: Sequence[Offer]) -> Iterator[list[int]]:
    for groups in _shared_out(list(asked)):
        if all(_one_colour(group) for group in groups):
            for chosen in product(offers, repeat=len(groups)):
                lots = list(zip(groups, chosen, strict=True))
                if all(o.suits(one, 0) for group, o in lots for one in group):
                    yield [_cost(group, offer) for group, offer in lots]


def _shared_out(asked: list[Missing]) -> Iterator[list[list[Missing]]]:
    if not asked:
        yield []
        return
    for rest in _shared_out(asked[1:]):
        yield [[asked[0]], *rest]
        for i in range(len(rest)):
            yield [*rest[:i], [asked[0], *rest[i]], *rest[i + 1 :]]


def _one_colour(group: Sequence[Missing]) -> bool:
    designs = [one.design for one in group]
    return len(set(designs)) == len(designs) and len({m.colour for m in group} - {""}) < 2


def _cost(group: Sequence[Missing], offer: Offer) -> int:
    lengths = [um for one in group for um in one.strand_lengths]
    return (offer.coins or 0) * cut_from(offer.um, lengths, ENDS)[0]


@given(st.integers(3 * M, 200 * M), st.lists(lengths, min_size=1, max_size=6))
def test_every_metre_bought_is_accounted_for(skein_um: int, lengths: list[int]) -> None:
    skeins, joins, left = cut_from(skein_um, lengths, ENDS)

    assert skeins * skein_um == sum(lengths) + joins * ENDS.join_um + left
    assert skeins >= -(-sum(lengths) // skein_um)


def test_a_skein_too_short_to_join_is_no_offer() -> None:
    asked = Missing("hat", "A", 90 * M)

    assert shopping([asked], [Offer("ends", M, 1)], ENDS).nowhere == (asked,)


@pytest.mark.parametrize("count", [1, 7, 60])
def test_many_items_cost_no_more_than_one_at_a_time(count: int) -> None:
    one = shopping([Missing("hat", "A", 70 * M)], [Offer("wool", 100 * M, 500)], ENDS).coins
    many = shopping([Missing("hat", "A", 70 * M, count)], [Offer("wool", 100 * M, 500)], ENDS).coins

    assert many <= count * one
