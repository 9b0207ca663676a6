"""The way out of a short lot by another one of the same colour."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest
from requirements.some_pieces import SC, cm, gauge
from shelves import a_lot, a_shelf

from stash.matching.match import match
from stash.matching.question.two_lots_asked import TwoLots, TwoLotsAsked
from stash.matching.question.wish import Fixed, Wish
from stash.requirements.design.piece import Piece
from stash.requirements.design.shapes import Shape, Size
from stash.requirements.fit.splitting import Way, ways
from stash.requirements.yarn.design_context import DesignContext
from stash.stock.holding import HeldLot
from stash.stock.yarn import LotState, Yarn

#: A cap with a fold-up brim.
CAP = Piece(
    shape=Shape.ROUND_HAT, size=Size(cm(40), cm(20)), gauge=gauge(16, 20), fabric=SC, brim=cm(4),
    class_from=4, class_to=4,
)  # fmt: skip
KNOWN = DesignContext(CAP, 0.1)
NEED = KNOWN.need(CAP)
WAYS = cache(lambda role: ways(KNOWN, next(r for r in NEED.roles if r.role == role)))


def a_part(lot_id: int, length_m: float, **facts: object) -> HeldLot:
    """An opened ball of so many metres, at 200 m to 100 g."""
    held = a_lot(lot_id, ((length_m + 0.01) / 2,), opened=(0,))
    usual = {"yarn": Yarn(1, "", "Fell"), "colour": "navy", **facts}
    return replace(held, lot=replace(held.lot, **usual))  # type: ignore[arg-type]


def way_out(*lots: HeldLot, wish: Wish | None = None, **asked: TwoLotsAsked) -> str:
    wish = replace(wish or Wish(), two_lots=TwoLots(asked, WAYS))
    return match(a_shelf(*lots), NEED, wish).near_misses[0].way_out


BRIM, CROWN, TURNS = WAYS("A").brim[0], WAYS("A").change[0], WAYS("A").alternate[0]


@pytest.mark.parametrize(
    ("lengths", "words"),
    [
        (
            (BRIM.length_m(0), BRIM.length_m(1)),
            "L2 of the same colour in the brim: ask with --two-lots A=brim",
        ),
        (
            (CROWN.length_m(0), CROWN.length_m(1)),
            "L2 of the same colour with a change where the crown begins: "
            "ask with --two-lots A=change",
        ),
        (
            (TURNS.length_m(0), TURNS.length_m(1)),
            "L2 of the same colour in alternating rows: ask with --two-lots A=alternate",
        ),
    ],
)
def test_a_second_lot_that_would_do_is_named(lengths: tuple[float, float], words: str) -> None:
    told = way_out(a_part(1, lengths[0]), a_part(2, lengths[1]))

    assert words in told


def test_the_lots_to_fix_are_named_where_she_fixed_one() -> None:
    tied = Wish(fixed={"A": Fixed(frozenset({1, 2}))})
    told = way_out(a_part(1, BRIM.length_m(0)), a_part(2, BRIM.length_m(1)), wish=tied)

    assert "ask with --with A=L1/L2 --two-lots A=brim" in told


@pytest.mark.parametrize(
    "other",
    [
        {"colour": "rust"},
        {"yarn": Yarn(2, "", "Moor")},
        {"lot_state": LotState.UNKNOWN},
        {"class_from": 6, "class_to": 6},
    ],
)
def test_one_that_may_not_share_is_not_named(other: dict[str, object]) -> None:
    told = way_out(a_part(1, BRIM.length_m(0)), a_part(2, BRIM.length_m(1), **other))

    assert "same colour" not in told


def test_one_that_is_too_little_is_not_named() -> None:
    assert "same colour" not in way_out(a_part(1, 30), a_part(2, 10))


def test_what_does_as_she_asked_is_no_way_out_and_what_does_otherwise_is() -> None:
    lots = a_part(1, TURNS.length_m(0)), a_part(2, TURNS.length_m(1))

    assert "same colour" not in way_out(*lots, A=TwoLotsAsked((Way.ALTERNATE,)))
    assert "--two-lots A=alternate" in way_out(*lots, A=TwoLotsAsked((Way.BRIM,)))
