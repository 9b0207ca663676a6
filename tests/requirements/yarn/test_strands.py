"""Strands held together: tex adds, so metres to 100 g are divided."""

from __future__ import annotations

import math

import pytest

from stash.measures.length import Length, metres, yards
from stash.measures.mass import grams
from stash.measures.put_up import PutUp
from stash.requirements.design.design import Design
from stash.requirements.design.evidence import OwnItem
from stash.requirements.design.extras import Extra, Kind
from stash.requirements.yarn.estimate import need_of
from stash.requirements.yarn.experience import Experience
from stash.requirements.yarn.extras_yarn import Ground, extras_yarn

#: A designer's web page (800, 400, 300 doubled) and a table of stranded yarn weights in PDF, which
#: rounds to 5 m.
TABLE = [
    (800, 2, 400), (400, 2, 200), (300, 2, 150), (800, 3, 265), (800, 4, 200), (800, 8, 100),
    (600, 2, 300), (600, 4, 150), (500, 2, 250), (500, 4, 125), (425, 2, 210), (425, 3, 140),
]  # fmt: skip


@pytest.mark.parametrize(("single", "strands", "together"), TABLE)
def test_the_strand_tables(single: int, strands: int, together: int) -> None:
    design = Design(
        stated=(("A", metres(100)),), put_up=PutUp(grams(100), metres(single)), strands=strands
    )

    (facts,) = [note.facts for note in need_of(design).notes if note.kind == "strands_together"]
    assert facts["m_per_100g"] == pytest.approx(together, abs=3)


def hats(*, margin: float | None, own: tuple[int, ...], chart: int) -> int:
    """How many hats 497 yd make by the amount to set aside."""
    made = Experience(tuple(OwnItem(total_m=yards(one).m) for one in own))
    need = need_of(
        Design(stated=(("A", yards(chart)),), thickness_from=2, thickness_to=2), margin, made
    )
    return math.floor(yards(497).m / need.roles[0].set_aside_m)


def test_her_own_hats_against_a_chart() -> None:
    """Maker's account, public thread: 182 g of 100 g / 273 yd; her own three hats averaged 165 yd,
    a chart says 230 to 360 each."""
    own = (158, 164, 170)  # invented, about her average
    assert hats(margin=0.0, own=own, chart=295) == 3
    assert hats(margin=0.15, own=own, chart=295) == 2
    assert [hats(margin=0.0, own=(), chart=chart) for chart in (230, 360)] == [2, 1]


def test_both_are_shown_her_own_first() -> None:
    own = Experience((OwnItem(total_m=yards(165).m),))
    (role,) = need_of(Design(stated=(("A", yards(295)),)), None, own).roles

    assert role.source == "own items"
    assert [figure.source for figure in role.others] == ["stated"]


def test_pompoms_of_one_size_add_up() -> None:
    """Maker's account, public thread: 277 yd made eight, so fourteen take 485 yd, 208 yd more."""
    size = (Length(85_725),)  # 3 3/8 in
    eight, fourteen = (
        extras_yarn(Design(extras=(Extra(Kind.POMPOM, "A", size, count),)), Ground(None, 180))[0]
        for count in (8, 14)
    )

    assert fourteen.expected_m / eight.expected_m == pytest.approx(485 / 277, abs=0.001)
