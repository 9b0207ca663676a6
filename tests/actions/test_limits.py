"""Limits held against the shelf and the design."""

from __future__ import annotations

from dataclasses import replace

import pytest
from books import refuses
from shelves import a_lot, a_need

from stash.actions.limits import held_against
from stash.errors import NotFound
from stash.matching.question.wish import Limits, Named
from stash.measures.note import Note
from stash.requirements.yarn.need import Need
from stash.stock.holding import HeldLot

NEED = a_need(4, A=100, B=20)


def lot(lot_id: int, *, place: str = "shelf", owner: str = "", colour: str = "navy") -> HeldLot:
    held = a_lot(lot_id, (100,), colour=colour)
    return replace(held, skeins=tuple(replace(s, place=place, owner=owner) for s in held.skeins))


LOTS = (lot(1), lot(2, place="Attic, left"), lot(3, owner="Nell", colour="Zephyr"))


def limits(asked: Limits, need: Need = NEED, usual: float | None = None) -> Limits:
    return held_against(asked, need, LOTS, usual)


def with_put_up(m_per_100g: float) -> Need:
    return replace(NEED, roles=tuple(replace(r, m_per_100g=m_per_100g) for r in NEED.roles))


def test_nothing_asked_is_nothing_barred() -> None:
    assert limits(Limits()) == Limits()


def test_places_and_owners_bar_skeins_each_with_why() -> None:
    assert limits(Limits(not_in=("attic",))).barred == {20: Note("lies_in", place="Attic, left")}
    assert limits(Limits(owner="nell")).barred == {
        number: Note("belongs_to", owner="") for number in (10, 20)
    }
    assert limits(Limits(owner="mine")).barred == {30: Note("belongs_to", owner="Nell")}


@pytest.mark.parametrize(
    ("asked", "kind", "nearest"),
    [
        (Limits(not_in=("atic",)), "place_on_shelf", "Attic, left"),
        (Limits(owner="Nel"), "owner_on_shelf", "Nell"),
        (Limits(wanted={"A": (Named("zefyr"),)}), "colour_on_shelf", "Zephyr"),
        (Limits(wanted={"C": (Named("blue", family=True),)}), "role", "A"),
    ],
)
def test_what_is_not_there_is_refused_with_the_nearest(
    asked: Limits, kind: str, nearest: str
) -> None:
    with pytest.raises(NotFound) as refused:
        limits(asked)

    assert (refused.value.kind, refused.value.nearest[0]) == (kind, nearest)


def test_a_colour_under_no_role_stands_for_all() -> None:
    red, navy = Named("red", family=True), Named("zephyr")

    found = limits(Limits(unwanted={"": (red,), "B": (navy,)})).unwanted

    assert found == {"A": (red,), "B": (red, navy)}


def test_fineness_is_a_span_or_a_share_of_the_designs_own() -> None:
    assert limits(Limits(asked_fineness=(200, 260))).fineness == {"A": (200, 260), "B": (200, 260)}
    share = limits(Limits(asked_fineness=0.1), with_put_up(200)).fineness["A"]
    assert share == pytest.approx((180, 220))


def test_a_share_of_nothing_is_refused_when_typed_and_passed_over_as_a_setting() -> None:
    with refuses("no_put_up_for_share", role="A"):
        limits(Limits(asked_fineness=0.1))
    assert limits(Limits(), usual=0.1).fineness == {}
    assert limits(Limits(), with_put_up(200), usual=0.1).fineness["B"] == pytest.approx((180, 220))
    assert limits(Limits(asked_fineness=(1, 9)), usual=0.1).fineness["A"] == (1, 9)
