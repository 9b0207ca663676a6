"""Her limits: each answers yes, or what is in the way and the change that would let the lot in."""

from __future__ import annotations

from dataclasses import replace

import pytest
from shelves import a_lot, a_need, a_shelf, put_up

from stash.matching.answer.fix import Fix
from stash.matching.answer.proposal import NearMiss
from stash.matching.lots.lot_view import LotView, views_of
from stash.matching.match import match
from stash.matching.question.wish import Fixed, Limits, Named, Wash, Wish
from stash.matching.rules.blockers import Blocker
from stash.matching.rules.limits import is_called, limit_blockers
from stash.measures.colour import Colour, lab
from stash.measures.note import Note
from stash.stock.holding import HeldLot
from stash.stock.yarn import Condition, FullFrom, Pair

NO_WOOL = frozenset({"wool", "merino wool"})
TEAL = Named("teal")
RUST = Named("rust", near=lab(Colour("#a5461f")))


def seen(lot: HeldLot) -> LotView:
    return views_of(a_shelf(lot), assume=False)[0]


def blockers(limits: Limits, **facts: object) -> list[Blocker]:
    return limit_blockers(seen(a_lot(1, (100,), **facts)), "A", limits)


def one_miss(limits: Limits, *, named: bool, **facts: object) -> NearMiss | None:
    """The near miss of a lot alone on the shelf, named by her or not."""
    wish = Wish(limits=limits, fixed={"A": Fixed(frozenset({1}))} if named else {})
    found = match(a_shelf(a_lot(1, (100,), **facts)), a_need(4, A=50), wish)
    assert found.proposals == ()
    return next(iter(found.near_misses), None)


# 100 g / 200 m is 200 m to 100 g.
@pytest.mark.parametrize(
    ("span", "expected"),
    [
        ((180, 220), []),
        ((200, 200), []),
        ((205, 260), [Blocker.WRONG_FINENESS]),
        ((100, 195), [Blocker.WRONG_FINENESS]),
    ],
)
def test_metres_per_100_g_lie_within_the_band(
    span: tuple[float, float], expected: list[Blocker]
) -> None:
    assert blockers(Limits(fineness={"A": span})) == expected
    assert blockers(Limits(fineness={"B": span})) == []


def test_a_length_that_is_only_assumed_says_nothing_of_fineness() -> None:
    pair = Pair(put_up(100, 200), FullFrom.ASSUMED)

    assert blockers(Limits(fineness={"A": (100, 300)}), pair=pair) == [Blocker.NO_FINENESS]


@pytest.mark.parametrize(
    ("fibre", "expected"),
    [
        ("100% acrylic", []),
        ("80% acrylic, 20% merino wool", [Blocker.WRONG_FIBRE]),
        ("80% acrylic, 20% other fibre", [Blocker.NO_FIBRE]),
        ("", [Blocker.NO_FIBRE]),
    ],
)
def test_a_fibre_is_left_out_and_an_unknown_blend_with_it(
    fibre: str, expected: list[Blocker]
) -> None:
    assert blockers(Limits(without=NO_WOOL), fibre=fibre) == expected


def test_a_hot_wash_bars_wool_and_what_nobody_knows() -> None:
    hot = Limits(wash=Wash.HOT)

    assert blockers(hot, fibre="100% cotton") == []
    assert blockers(hot, fibre="100% wool", care="superwash") == [Blocker.NOT_FOR_HEAT]
    assert blockers(hot) == [Blocker.NO_FIBRE]


def test_quarantined_yarn_takes_no_part_unasked() -> None:
    facts = {"conditions": (Condition.QUARANTINED,)}

    assert blockers(Limits(), **facts) == [Blocker.QUARANTINED]
    assert blockers(Limits(let_in=frozenset({Condition.QUARANTINED})), **facts) == []
    miss = one_miss(Limits(), named=False, **facts)
    assert miss
    assert [blocker.kind for blocker in miss.blockers] == ["lot_quarantined"]
    assert [fix.kind for fix in miss.fixes] == ["let_quarantined_in"]


@pytest.mark.parametrize(
    ("named", "colour", "value", "expected"),
    [
        (Named("blue", family=True), "", "#204080", True),
        (Named("blue", family=True), "", "#a5461f", False),
        (Named("blue", family=True), "Storm blue", "#a5461f", True),
        (RUST, "", "#a5461f", True),
        (RUST, "", "#a84a24", True),
        (RUST, "", "#204080", False),
        (Named("storm"), "Storm blue", "#a5461f", True),
        (Named("storm"), "Stormy", "#a5461f", False),
    ],
)
def test_a_colour_goes_by_its_band_its_family_or_its_value(
    named: Named, colour: str, value: str, expected: bool
) -> None:
    lot = seen(a_lot(1, (100,), colour=colour, colours=(Colour(value),)))

    assert is_called(lot, named) is expected


def test_an_unknown_colour_may_be_any() -> None:
    lot = seen(a_lot(1, (100,), colours=()))

    assert is_called(lot, RUST) is None
    assert limit_blockers(lot, "A", Limits(wanted={"A": (RUST,)})) == [Blocker.NO_COLOUR]
    assert limit_blockers(lot, "A", Limits(unwanted={"A": (RUST,)})) == [Blocker.NO_COLOUR]


def test_a_variegated_yarn_is_left_out_for_any_of_its_colours() -> None:
    rusty = (Colour("#204080"), Colour("#a5461f"))

    assert blockers(Limits(unwanted={"A": (RUST,)}), colours=rusty) == [Blocker.WRONG_COLOUR]
    assert blockers(Limits(wanted={"A": (RUST,)}), colours=rusty) == []


@pytest.mark.parametrize(
    ("limits", "facts", "kind", "expected"),
    [
        (
            Limits(fineness={"A": (210, 250)}), {}, "lot_of_wrong_fineness",
            {"m_per_100g": 200, "least": 210, "most": 250},
        ),
        (
            Limits(without=NO_WOOL), {"fibre": "100% merino wool"}, "lot_of_wrong_fibre",
            {"fibre": "merino wool"},
        ),
        (
            Limits(wash=Wash.HOT), {"fibre": "silk"}, "lot_not_for_heat",
            {"fibre": "silk", "care": ""},
        ),
        (
            Limits(wanted={"A": (RUST,)}), {"colour": "navy"}, "lot_of_wrong_colour",
            {"wanted": ("rust",), "unwanted": ()},
        ),
        (Limits(barred={10: "so"}), {}, "lot_barred", {"whys": ("so",)}),
    ],
)  # fmt: skip
def test_what_is_ruled_out_is_a_blocker_where_she_named_it(
    limits: Limits, facts: dict[str, object], kind: str, expected: dict[str, object]
) -> None:
    miss = one_miss(limits, named=True, **facts)

    assert miss
    (blocker,) = miss.blockers
    assert (blocker.kind, blocker.facts["lot"].ref) == (kind, "L1")
    assert expected.items() <= blocker.facts.items()
    assert miss.fixes


def test_where_limits_leave_nothing_they_are_counted() -> None:
    lots = [a_lot(i, (100,), fibre="100% wool") for i in (1, 2)]
    shelf = a_shelf(*lots, a_lot(3, (100,), fibre="100% acrylic"))
    wish = Wish(limits=Limits(wash=Wash.HOT, without=NO_WOOL))

    (miss,) = match(shelf, a_need(4, A=50), wish).near_misses

    lots = ((Blocker.WRONG_FIBRE, 2), (Blocker.NOT_FOR_HEAT, 3))
    assert miss.blockers == (Note("limits_keep_out", role="A", lots=lots),)


@pytest.mark.parametrize("other", [(100,), (10,), ()])
def test_where_no_yarn_is_of_a_colour_asked_for_that_is_the_reason(other: tuple[int, ...]) -> None:
    """However much there is of the other colour, more of it would not help."""
    shelf = a_shelf(a_lot(1, (100,), colour="navy"), a_lot(2, other or (1,), colour="teal"))
    wish = Wish(limits=Limits(wanted={"A": (RUST,), "B": (TEAL,)}))

    (miss,) = match(shelf, a_need(4, A=50, B=30), wish).near_misses

    facts = {"role": "A", "wanted": ("rust",)}
    assert miss.blockers == (Note("no_lot_of_colour", **facts),)
    assert [(fix.kind, dict(fix.facts)) for fix in miss.fixes] == [("ask_for_other_colour", facts)]


def test_a_lot_of_the_colour_that_lacks_something_else_is_the_reason_instead() -> None:
    rust = a_lot(1, (10,), colour="rust")
    wish = Wish(limits=Limits(wanted={"A": (RUST,)}))

    (miss, *_) = match(
        a_shelf(rust, a_lot(2, (100,), colour="navy")), a_need(4, A=90), wish
    ).near_misses

    assert [blocker.kind for blocker in miss.blockers] == ["lot_short"]


def test_a_barred_skein_is_not_taken_and_is_named_as_a_fix() -> None:
    limits = Limits(barred={11: "so"})
    shelf = a_shelf(a_lot(1, (100, 100)))

    enough = match(shelf, a_need(4, 0.0, A=150), Wish(limits=limits)).proposals[0]
    assert [take.number for take in enough.roles[0].takes] == [10]
    (miss,) = match(shelf, a_need(4, 0.0, A=300), Wish(limits=limits)).near_misses
    assert Fix("let_skein_in", skein=11, why="so") in miss.fixes


def two(one: dict[str, object], other: dict[str, object], limits: Limits) -> list[str]:
    shelf = a_shelf(a_lot(1, (100,), **one), a_lot(2, (100,), **other))
    found = match(shelf, a_need(4, A=50, B=20), Wish(limits=limits))
    return [p.key for p in found.proposals] or [
        b.kind for miss in found.near_misses for b in miss.blockers
    ]


def test_what_felts_and_what_does_not_are_refused_only_when_asked() -> None:
    pair = {"fibre": "100% wool"}, {"fibre": "100% cotton"}
    together = Limits(wash=Wash.TOGETHER)

    assert sorted(two(*pair, Limits())) == ["L1+L2", "L2+L1"]
    assert two(*pair, together) == ["washed_apart"]
    treated = {"fibre": "100% wool", "care": "superwash"}
    assert sorted(two(treated, pair[1], together)) == ["L1+L2", "L2+L1"]


def test_bleeding_is_a_bar_only_on_request() -> None:
    pair = {"colours": (Colour("#bf2030"),)}, {"colours": (Colour("#f8f8f5"),)}

    assert len(two(*pair, Limits())) == 2
    assert two(*pair, replace(Limits(), no_bleeding=True)) == ["one_may_bleed"]
