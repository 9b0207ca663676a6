"""A pattern's own figure: an interval where it is whole skeins, and where it lies."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from requirements.some_designs import sideways_hat

from stash.measures.length import metres, yards
from stash.measures.mass import grams
from stash.measures.put_up import PutUp
from stash.requirements.design.design import Design
from stash.requirements.yarn.estimate import need_of
from stash.requirements.yarn.need import RoleNeed, Source
from stash.requirements.yarn.printed import PrintedPlace
from stash.requirements.yarn.tails import JOIN_M

BALL = PutUp(grams(50), metres(87))


def bought(count: int) -> RoleNeed:
    length = metres(87 * count)
    (role,) = need_of(Design(put_up=BALL, stated=(("A", length),), bought=(("A", count),))).roles
    return role


@pytest.mark.parametrize("count", [1, 2, 3, 5, 12])
def test_whole_skeins_are_an_interval_and_enough(count: int) -> None:
    """An even spread over the last skein (of one, its second half): its width by root twelve."""
    role = bought(count)
    width = 87 if count > 1 else 87 / 2

    assert role.source is Source.STATED
    assert role.estimate.expected_m == pytest.approx(87 * count - width / 2)
    assert role.estimate.spread_m == pytest.approx(width / math.sqrt(12))
    assert role.set_aside_m == pytest.approx(87 * count - JOIN_M * (count - 1))


def test_a_margin_that_is_asked_for_is_used_as_it_is() -> None:
    plan = Design(put_up=BALL, stated=(("A", metres(174)),), bought=(("A", 2),))

    assert need_of(plan, margin=0.5).margin == 0.5


@pytest.mark.parametrize(
    ("yd", "place"),
    [(120, PrintedPlace.BELOW), (232, PrintedPlace.BETWEEN), (450, PrintedPlace.ABOVE)],
)
def test_where_a_printed_figure_lies_is_told(yd: int, place: PrintedPlace) -> None:
    """By its gauge the hat is expected to take 198 yd and 254 yd are set aside."""
    need = need_of(replace(sideways_hat(), stated=(("A", yards(yd)),)))
    (facts,) = [note.facts for note in need.notes if note.kind == "printed_beside_estimate"]

    assert (facts["printed"], facts["place"]) == (yards(yd), place)
    assert facts["source"] is Source.GAUGE


def test_a_figure_that_stands_alone_lies_nowhere() -> None:
    need = need_of(Design(stated=(("A", yards(190)),)))

    kinds = [note.kind for note in need.notes]
    assert "printed_beside_estimate" not in kinds
    assert "printed_figure_may_hold_margin" in kinds
