"""What a design takes for granted, and what it asks for."""

from __future__ import annotations

from dataclasses import replace

import pytest
from requirements.some_designs import SC, cm, plain_scarf, sideways_hat

from stash.errors import Refusal
from stash.requirements.design.design import Design
from stash.requirements.design.shapes import Crown, Seam, Shape, Start


def test_a_crown_is_closed_as_its_craft_usually_does() -> None:
    knitted = replace(plain_scarf(), shape=Shape.ROUND_HAT)

    assert knitted.closing is Crown.DECREASED
    assert replace(knitted, fabric=SC).closing is Crown.FLAT
    assert sideways_hat().closing is Crown.GATHERED
    assert plain_scarf().closing is None


def test_only_what_has_edges_to_join_is_seamed() -> None:
    assert sideways_hat().seaming is Seam.WHIP
    assert replace(plain_scarf(), shape=Shape.FLAT_HAT).seaming is Seam.MATTRESS
    assert replace(plain_scarf(), seam=Seam.WHIP).seaming is Seam.NONE


@pytest.mark.parametrize(
    ("design", "kind"),
    [
        (replace(sideways_hat(), crown=Crown.FLAT), "wrong_crown"),
        (replace(plain_scarf(), crown=Crown.FLAT), "wrong_crown"),
    ],
)
def test_a_crown_that_the_shape_cannot_have_is_refused(design: Design, kind: str) -> None:
    with pytest.raises(Refusal) as refused:
        _ = design.closing
    assert refused.value.kind == kind


@pytest.mark.parametrize(
    ("design", "kind"),
    [
        (replace(plain_scarf(), brim=cm(6)), "no_brim_to_fold"),
        (replace(sideways_hat(), brim=cm(16)), "brim_too_high"),
    ],
)
def test_a_brim_is_part_of_a_hats_height(design: Design, kind: str) -> None:
    assert replace(sideways_hat(), brim=cm(6)).folded == cm(6)
    assert sideways_hat().folded is None
    with pytest.raises(Refusal) as refused:
        _ = design.folded
    assert refused.value.kind == kind


def test_what_usually_comes_in_pairs_is_made_twice() -> None:
    mitten = replace(plain_scarf(), shape=Shape.MITTEN)

    assert (mitten.made, replace(mitten, count=1).made, plain_scarf().made) == (2, 1, 1)


def test_the_work_begins_where_it_usually_does() -> None:
    hat = replace(plain_scarf(), shape=Shape.ROUND_HAT)

    assert hat.beginning is Start.BRIM
    assert replace(hat, start=Start.CROWN).beginning is Start.CROWN
    assert plain_scarf().beginning is None


def test_a_put_up_tells_the_thickness_where_none_is_given() -> None:
    """120 g to 210 m are 175 m to 100 g: medium in every chart."""
    assert plain_scarf().classes == (4, 4)
    assert replace(plain_scarf(), thickness_from=3, thickness_to=3).classes == (3, 3)
    assert Design().classes is None
