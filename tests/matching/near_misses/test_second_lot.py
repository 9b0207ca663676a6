"""The fix of a short lot by another one of the same colour."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Any

import pytest
from requirements.some_designs import SC, cm, gauge
from shelves import a_lot, a_shelf

from stash.matching.match import match
from stash.matching.question.two_lots_asked import TwoLots, TwoLotsAsked
from stash.matching.question.wish import Fixed, Wish
from stash.requirements.design.design import Design
from stash.requirements.design.shapes import Shape, Size
from stash.requirements.fit.splitting import Split, Way, ways
from stash.requirements.yarn.design_context import DesignContext
from stash.stock.holding import HeldLot
from stash.stock.yarn import LotState, Yarn

#: A cap with a fold-up brim.
CAP = Design(
    shape=Shape.ROUND_HAT, size=Size(cm(40), cm(20)), gauge=gauge(16, 20), fabric=SC, brim=cm(4),
    thickness_from=4, thickness_to=4,
)  # fmt: skip
KNOWN = DesignContext(CAP, 0.1)
NEED = KNOWN.need(CAP)
WAYS = cache(lambda role: ways(KNOWN, next(r for r in NEED.roles if r.role == role)))


def a_part(lot_id: int, length_m: float, **facts: object) -> HeldLot:
    """An opened ball of so many metres, at 200 m to 100 g."""
    held = a_lot(lot_id, ((length_m + 0.01) / 2,), opened=(0,))
    usual = {"yarn": Yarn(1, "", "Fell"), "colour": "navy", **facts}
    return replace(held, lot=replace(held.lot, **usual))  # type: ignore[arg-type]


def second_lot(
    *lots: HeldLot, wish: Wish | None = None, **asked: TwoLotsAsked
) -> dict[str, Any] | None:
    """The facts of the fix by a second lot, where one is given."""
    wish = replace(wish or Wish(), two_lots=TwoLots(asked, WAYS))
    fixes = match(a_shelf(*lots), NEED, wish).near_misses[0].fixes
    return next((fix.facts for fix in fixes if fix.kind == "second_lot"), None)


BRIM, CROWN, TURNS = WAYS("A").brim[0], WAYS("A").change[0], WAYS("A").alternate[0]


@pytest.mark.parametrize("split", [BRIM, CROWN, TURNS], ids=lambda split: split.way.value)
def test_a_second_lot_that_would_do_is_named(split: Split) -> None:
    found = second_lot(a_part(1, split.length_m(0)), a_part(2, split.length_m(1)))

    assert found
    assert (found["role"], found["lot"].ref, found["beside"]) == ("A", "L2", None)
    assert (found["way"], found["place"]) == (split.way, split.place)


def test_the_lots_to_fix_are_named_where_she_fixed_one() -> None:
    tied = Wish(fixed={"A": Fixed(frozenset({1, 2}))})
    found = second_lot(a_part(1, BRIM.length_m(0)), a_part(2, BRIM.length_m(1)), wish=tied)

    assert found
    assert (found["beside"].ref, found["lot"].ref, found["way"]) == ("L1", "L2", Way.BRIM)


@pytest.mark.parametrize(
    "other",
    [
        {"colour": "rust"},
        {"yarn": Yarn(2, "", "Moor")},
        {"lot_state": LotState.UNKNOWN},
        {"thickness_from": 6, "thickness_to": 6},
    ],
)
def test_one_that_may_not_share_is_not_named(other: dict[str, object]) -> None:
    assert second_lot(a_part(1, BRIM.length_m(0)), a_part(2, BRIM.length_m(1), **other)) is None


def test_one_that_is_too_little_is_not_named() -> None:
    assert second_lot(a_part(1, 30), a_part(2, 10)) is None


def test_what_does_as_she_asked_is_no_fix_and_what_does_otherwise_is() -> None:
    lots = a_part(1, TURNS.length_m(0)), a_part(2, TURNS.length_m(1))

    assert second_lot(*lots, A=TwoLotsAsked((Way.ALTERNATE,))) is None
    otherwise = second_lot(*lots, A=TwoLotsAsked((Way.BRIM,)))
    assert otherwise
    assert otherwise["way"] is Way.ALTERNATE
