"""What each source says, and how sure it is."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from requirements.some_designs import MEDIUM, cm, plain_scarf, sideways_hat

from stash.errors import Refusal
from stash.measures.estimate import Estimate
from stash.measures.length import metres
from stash.measures.mass import Mass, grams
from stash.measures.put_up import PutUp
from stash.requirements.design.bands import Band, Rows
from stash.requirements.design.design import Design
from stash.requirements.design.evidence import OwnItem, Swatch
from stash.requirements.yarn.sources import from_own, from_stated, from_swatch, weighed_item

SCARF = replace(plain_scarf(), gauge=None, fabric=None, put_up=PutUp(grams(100), metres(180)))
SWATCH = Swatch(grams(12), cm(15), cm(14))


def test_a_swatch_is_enlarged_by_area() -> None:
    """12 g of 180 m to 100 g are 21.6 m; 3000 cm2 over 210 cm2, and two tails."""
    said = from_swatch(SCARF, SWATCH)["A"]

    assert said.expected_m == pytest.approx(21.6 * 3000 / 210 + 0.4)


@pytest.mark.parametrize(("step", "about"), [(Mass(1000), 0.08), (Mass(100), 0.05)])
def test_an_eight_gram_swatch_is_as_sure_as_its_scale(step: Mass, about: float) -> None:
    """Error of a product, 4 in sides to 1/16 in: 8 % on a 1 g scale, 5 % on a 0.1 g one."""
    four_inches = cm(10.16)

    said = from_swatch(SCARF, Swatch(grams(8), four_inches, four_inches, step))["A"]

    assert said.relative == pytest.approx(about, abs=0.01)


def test_with_only_a_thickness_a_swatch_is_less_sure() -> None:
    by_thickness = replace(SCARF, put_up=None, thickness_from=4, thickness_to=4)

    assert (
        from_swatch(by_thickness, SWATCH)["A"].relative > from_swatch(SCARF, SWATCH)["A"].relative
    )


def test_grams_alone_cannot_be_told_in_metres() -> None:
    with pytest.raises(Refusal) as refused:
        from_swatch(replace(SCARF, put_up=None), SWATCH)
    assert refused.value.kind == "mass_not_in_metres"


def test_a_swatch_without_a_gauge_places_bands_by_length_only() -> None:
    by_length = replace(SCARF, bands=(Band("B", cm(15)),))
    said = from_swatch(by_length, SWATCH)

    assert said["B"].expected_m == pytest.approx(21.6 * 300 / 210 + 0.4)
    with pytest.raises(Refusal) as refused:
        from_swatch(replace(SCARF, bands=(Band("B", Rows(3)),)), SWATCH)
    assert refused.value.kind == "extent_cannot_be_placed"


def test_a_printed_figure_is_taken_as_expected() -> None:
    assert from_stated(Design(stated=(("A", metres(200)),))) == {"A": Estimate(200, 16)}


def test_one_own_item_is_within_seven_percent_and_five_within_five() -> None:
    """Bounds of the house; a maker's own scatter of 4 % is an assumption, no study was found."""
    five = [OwnItem((("A", length_m),)) for length_m in (96, 98, 100, 102, 104)]

    assert from_own(SCARF, five[2:3], {})["A"].relative <= 0.07
    assert from_own(SCARF, five, {})["A"].relative <= 0.05
    assert from_own(SCARF, five, {})["A"].expected_m == pytest.approx(100, rel=0.001)


def test_items_that_disagree_widen_the_spread() -> None:
    """A maker's account, public thread: the first motif took 30 yd, later ones 35 to 42.

    The forecast for 24 comes from all samples: from 30 + 23 x 35 to 30 + 23 x 42.
    """
    yards = (30, 35, 36, 38, 40, 42)
    said = from_own(SCARF, [OwnItem((("A", yd),)) for yd in yards], {})["A"]

    assert 835 <= 24 * said.expected_m <= 996
    assert said.relative > 0.07


def test_the_mean_of_three_own_hats_is_their_total_by_three() -> None:
    """A maker's account, public notes: three caps weighed 182 g of 100 g / 273 yd, 165 yd each."""
    total = 182 / 100 * 273
    said = from_own(SCARF, 3 * [OwnItem(total_m=total / 3)], {})["A"]

    assert said.expected_m == pytest.approx(165.6, abs=0.1)


def test_a_total_is_shared_as_the_next_source_says() -> None:
    next_best = {"A": Estimate(190, 38), "B": Estimate(10, 2)}

    said = from_own(sideways_hat(), [OwnItem(total_m=180)], next_best)

    assert said["A"].expected_m == pytest.approx(171, rel=0.005)
    assert said["B"].expected_m == pytest.approx(9, rel=0.005)
    assert said["B"].relative > 0.10 > said["A"].relative


def test_a_total_is_shared_first_as_items_told_apart_were() -> None:
    told_apart = OwnItem((("A", 150.0), ("B", 50.0)))

    said = from_own(sideways_hat(), [told_apart, OwnItem(total_m=200)], {"A": Estimate(1, 0)})

    assert said["B"].expected_m == pytest.approx(50)


def test_a_total_of_two_colours_with_nothing_to_share_it_by_is_refused() -> None:
    with pytest.raises(Refusal) as refused:
        from_own(sideways_hat(), [OwnItem(total_m=200)], {})
    assert refused.value.kind == "shares_not_known"


def test_a_weighed_item_becomes_metres_by_its_put_up() -> None:
    hat = replace(sideways_hat(), weighed=(("A", grams(71)), ("B", grams(9))))

    item = weighed_item(hat)

    assert item is not None
    assert dict(item.by_role)["A"] == pytest.approx(MEDIUM.length_of(grams(71)).m)
    # A reading is off by step/sqrt(12), a difference of two by 0.41 of a step.
    assert item.scale_m == pytest.approx(0.41 * MEDIUM.length_of(grams(1)).m, rel=0.01)


def test_a_small_colour_is_less_sure_on_a_coarse_scale() -> None:
    """0.41 g on 9 g are 4.5 %; with 4 % on each of two items, 7.2 %."""
    hat = replace(sideways_hat(), weighed=(("A", grams(71)), ("B", grams(9))))
    item = weighed_item(hat)
    assert item is not None

    said = from_own(hat, [item], {})

    assert said["B"].relative == pytest.approx(math.hypot(0.04 * math.sqrt(2), 0.0454), abs=0.001)
    assert said["A"].relative < said["B"].relative
