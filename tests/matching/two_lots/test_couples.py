"""Two lots in one role: against a reference that tries everything, and by the rules of lots."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest
from dressed import limits
from hypothesis import given, settings
from hypothesis import strategies as st
from requirements.some_designs import SC, cm, gauge
from shelves import a_lot, a_need, a_shelf, put_up
from slow_two_lots import sets_by_hand, sets_found

from stash.matching.answer.proposal import Proposal
from stash.matching.answer.reason import Reason
from stash.matching.lots.lot_view import as_one, order_of, views_of
from stash.matching.lots.shelf import Shelf
from stash.matching.match import match
from stash.matching.question.two_lots_asked import TwoLots, TwoLotsAsked
from stash.matching.question.wish import Contrast, Fixed, Limits, Wish
from stash.measures.colour import Colour
from stash.requirements.design.bands import Band
from stash.requirements.design.design import Design
from stash.requirements.design.shapes import Shape, Size
from stash.requirements.fit.splitting import Way, ways
from stash.requirements.yarn.design_context import DesignContext
from stash.requirements.yarn.need import Need
from stash.stock.holding import HeldLot
from stash.stock.yarn import LotState, Yarn

FELL = Yarn(1, "", "Fell")
ANY = TwoLotsAsked(tuple(Way))


def a_hat(around: int, strands: int = 1) -> DesignContext:
    """A small hat with a fold-up brim and a band of B above it; A asks for 70 to 170 m."""
    design = Design(
        shape=Shape.ROUND_HAT, size=Size(cm(around), cm(around // 2)), gauge=gauge(16, 20),
        fabric=SC, bands=(Band("B", cm(3), cm(7)),), brim=cm(4), thickness_from=4, thickness_to=4,
        strands=strands,
    )  # fmt: skip
    return DesignContext(design, 0.1)


HAT = a_hat(40)


def two_lots(known: DesignContext | None, need: Need, **asked: TwoLotsAsked) -> TwoLots:
    roles = {role.role: role for role in need.roles}
    return TwoLots(asked, cache(lambda role: ways(known, roles[role])))


def of_fell(held: HeldLot, **facts: object) -> HeldLot:
    """The lot as one of a yarn of which there are others, in navy."""
    return replace(held, lot=replace(held.lot, **{"yarn": FELL, "colour": "navy", **facts}))  # type: ignore[arg-type]


@st.composite
def few_yarns(draw: st.DrawFn) -> Shelf:
    """Lots of two yarns in two colours, mostly navy; some by number, most known, all near short."""
    lots = []
    for lot_id in range(1, draw(st.integers(2, 6)) + 1):
        held = draw(st.lists(st.integers(4, 60), min_size=1, max_size=3))
        colour = draw(st.sampled_from(["navy", "navy", "navy", "rust", ""]))
        facts = {
            "yarn": Yarn(draw(st.sampled_from([1, 1, 1, 2])), "", "Fell"),
            "colour": colour,
            "colour_no": draw(st.sampled_from(["", "", "12", "13"])),
            "colours": draw(st.sampled_from([SHADES.get(colour, ()), LIGHT])),
            "lot_state": draw(st.sampled_from([LotState.NUMBERED] * 3 + [*LotState])),
            "thickness_from": draw(st.sampled_from([4, 4, 4, 3, None])),
        }
        whole = a_lot(lot_id, tuple(float(g) for g in held), of=put_up(60, 120))
        lots.append(
            replace(whole, lot=replace(whole.lot, **facts, thickness_to=facts["thickness_from"]))
        )
    return a_shelf(*lots)


LIGHT = (Colour("#f0e8d8"),)
SHADES = {"navy": (Colour("#203050"),), "rust": (Colour("#a4472a"),)}


asked = st.builds(
    TwoLotsAsked,
    st.sampled_from([tuple(Way), tuple(Way), (Way.BRIM,), (Way.CHANGE,), (Way.ALTERNATE,)]),
    st.booleans(),
)


@settings(max_examples=400, deadline=None)
@given(
    shelf=few_yarns(), around=st.integers(30, 50), strands=st.sampled_from([1, 1, 2]),
    by_rows=st.sampled_from([True, True, False]), a=asked, b=st.none() | asked,
    contrast=st.sampled_from([*Contrast, Contrast.ANY, Contrast.ANY]),
    limits=st.just(Limits()) | limits,
    thickness_from=st.sampled_from([4, None]),
)  # fmt: skip
def test_the_proposals_are_all_sets_that_fit_with_two_lots_in_a_role(
    shelf: Shelf, around: int, strands: int, by_rows: bool, a: TwoLotsAsked,
    b: TwoLotsAsked | None, contrast: Contrast, limits: Limits, thickness_from: int | None,
) -> None:  # fmt: skip
    known = a_hat(around, strands)
    need = replace(
        known.need(known.design), thickness_from=thickness_from, thickness_to=thickness_from
    )
    both = {"A": a} if b is None else {"A": a, "B": b}
    shared = two_lots(known if by_rows else None, need, **both)
    wish = Wish(contrast, thickness_tolerance=1, limits=limits, top=None, two_lots=shared)

    found = match(shelf, need, wish)

    assert sets_found(found) == sets_by_hand(shelf, need, wish)
    for proposal in found.proposals:
        _nothing_twice(proposal)


def _nothing_twice(proposal: Proposal) -> None:
    """Each lot and each skein serves one role; the takes of a lot are its part and its joins."""
    ids = [held.lot.id for filled in proposal.roles for held in filled.lots]
    assert len(set(ids)) == len(ids)
    for filled in proposal.roles:
        if filled.second:
            split = filled.second.split
            taken = [
                sum(t.length.m for t in filled.takes if t.lot_id == held.lot.id)
                for held in filled.lots
            ]
            tails = 0.4 * filled.joins
            assert sum(taken) == pytest.approx(split.length_m(0) + split.length_m(1) + tails)
            assert all(m >= split.length_m(i) - 1e-9 for i, m in enumerate(taken))


@settings(max_examples=60, deadline=None)
@given(shelf=few_yarns(), contrast=st.sampled_from(Contrast))
def test_without_the_option_nothing_changes(shelf: Shelf, contrast: Contrast) -> None:
    need = HAT.need(HAT.design)
    plain = Wish(contrast, thickness_tolerance=1, top=None)

    asked_for_none = match(shelf, need, replace(plain, two_lots=two_lots(HAT, need)))

    assert asked_for_none.proposals == match(shelf, need, plain).proposals


NEED = a_need(4, margin=0.0, A=150)


def offered(
    *lots: HeldLot, need: Need = NEED, told: TwoLotsAsked = ANY, **wish: object
) -> set[str]:
    shared = two_lots(None, need, A=told)
    found = match(a_shelf(*lots), need, Wish(two_lots=shared, top=None, **wish))  # type: ignore[arg-type]
    return {proposal.key for proposal in found.proposals}


@pytest.mark.parametrize(
    ("first", "other", "offers"),
    [
        ({}, {}, True),
        ({"colour_no": "12"}, {"colour_no": "12", "colour": "marine"}, True),
        ({"colour_no": "12"}, {}, True),
        ({"colour_no": "12"}, {"colour_no": "13"}, False),
        ({}, {"colour": "rust"}, False),
        ({"colour": ""}, {"colour": ""}, False),
        ({}, {"yarn": Yarn(2, "", "Fell")}, False),
        ({}, {"lot_state": LotState.CLAIMED_NONE}, True),
        ({}, {"lot_state": LotState.UNKNOWN}, False),
        ({"lot_state": LotState.UNKNOWN}, {"lot_state": LotState.UNKNOWN}, False),
    ],
)
def test_only_lots_of_one_yarn_and_colour_that_are_told_share_a_role(
    first: dict[str, object], other: dict[str, object], offers: bool
) -> None:
    lots = (of_fell(a_lot(1, (50,)), **first), of_fell(a_lot(2, (50,), lot="8"), **other))

    assert offered(*lots) == ({"L1/L2-alternate"} if offers else set())


def test_a_lot_that_is_not_known_can_be_the_odd_one_where_she_asks() -> None:
    lots = (of_fell(a_lot(1, (50,), lot_state=LotState.UNKNOWN)), of_fell(a_lot(2, (50,))))
    unknown = replace(ANY, unknown=True)
    shared = two_lots(None, NEED, A=unknown)
    (proposal,) = match(a_shelf(*lots), NEED, Wish(two_lots=shared)).proposals

    assert proposal.key == "L2/L1-alternate"
    assert Reason("lot_to_compare", 0.75, lot=lots[0].lot) in proposal.roles[0].reasons


def test_the_named_two_are_taken_in_their_order_or_not_at_all() -> None:
    lots = [of_fell(a_lot(i, (100,), lot=str(i))) for i in (1, 2, 3)]

    assert offered(*lots, told=replace(ANY, only=(3, 1))) == {"L3/L1-alternate"}


def test_of_equal_pairs_the_lower_numbers_come_first() -> None:
    lots = [of_fell(a_lot(i, (50,), lot=str(i))) for i in (1, 2, 3, 4)]
    found = match(a_shelf(*lots), NEED, Wish(two_lots=two_lots(None, NEED, A=ANY)))
    pairs = [tuple(held.lot.id for held in p.roles[0].lots) for p in found.proposals]

    assert len({p.cost for p in found.proposals}) == 1
    assert pairs == [(1, 2), (1, 3), (1, 4), (2, 3), (2, 4), (3, 4)]


def test_a_pair_in_one_role_stands_after_a_lot_that_does_alone() -> None:
    lots = [of_fell(a_lot(i, (100,), lot=str(i))) for i in (1, 2)]
    found = match(a_shelf(*lots), NEED, Wish(two_lots=two_lots(None, NEED, A=ANY)))

    assert [p.key for p in found.proposals] == ["L1", "L2", "L1/L2-alternate"]


def test_both_must_stand_apart_from_the_other_role() -> None:
    dark, light = (Colour("#101010"),), (Colour("#f0f0f0"),)
    lots = [
        of_fell(a_lot(1, (50,), colours=dark)),
        of_fell(a_lot(2, (50,), lot="8", colours=light)),
        a_lot(3, (100,), colours=light),
    ]
    need = a_need(4, margin=0.0, A=150, B=20)

    assert "L1/L2-alternate+L3" in offered(*lots, need=need)
    assert offered(*lots, need=need, contrast=Contrast.CLEAR) == {"L3+L1"}


def test_the_skeins_she_named_are_taken_and_no_others() -> None:
    lots = [of_fell(a_lot(i, (50, 50), lot=str(i))) for i in (1, 2)]
    fixed = {"A": Fixed(frozenset({1, 2}), frozenset({10, 20}))}

    assert offered(*lots, fixed=fixed) == {"L1/L2-alternate"}


def test_the_first_way_that_works_is_taken() -> None:
    """The brim shows least; a lot too small for it goes as far as it reaches; else in turn."""
    need = HAT.need(HAT.design)
    roles = two_lots(HAT, need, A=ANY)
    found = roles.ways("A")
    brim, change = found.brim[0], found.change

    def keyed(first_m: float, other_m: float) -> set[str]:
        held = [(first_m + 0.01) / 2, (other_m + 0.01) / 2]  # 200 m to 100 g
        lots = [
            of_fell(a_lot(i, (grams,), lot=str(i), opened=(0,))) for i, grams in enumerate(held, 1)
        ]
        wish = Wish(two_lots=roles, top=None)
        proposals = match(a_shelf(*lots, a_lot(9, (100,))), need, wish).proposals
        return {p.roles[0].key for p in proposals if p.roles[0].second}

    assert keyed(brim.length_m(0), brim.length_m(1)) == {"L1/L2-brim"}
    crown = next(s for s in change if s.place.kind == "where_part_begins")
    assert keyed(crown.length_m(0), crown.length_m(1)) == {"L1/L2-change"}
    half = found.alternate[0]
    assert keyed(half.length_m(0), half.length_m(1)) == {"L1/L2-alternate"}


def test_of_equal_cost_lots_alone_come_before_two() -> None:
    shelf = a_shelf(a_lot(7, (50,)), a_lot(3, (50,)))
    one, other = views_of(shelf, assume=False)

    in_order = sorted([(one, other), (one,), (other,)], key=order_of)
    assert in_order == [(other,), (one,), (one, other)]


def test_two_lots_show_the_colours_of_both() -> None:
    dark, light = (Colour("#101010"),), (Colour("#f0f0f0"),)
    shelf = a_shelf(a_lot(1, (50,), colours=dark), a_lot(2, (50,), colours=(*light, *dark)))
    one, other = views_of(shelf, assume=False)

    assert as_one((one, other)).shades == (*one.shades, other.shades[0])
    assert as_one((one,)) is one
