"""One plan's yarn in terms of another's; the ratios are those of swatch, model or area."""

from __future__ import annotations

from dataclasses import replace

import pytest
from requirements.some_designs import cm, plain_scarf, sideways_hat

from stash.errors import Refusal
from stash.measures.length import metres
from stash.requirements.design.design import Design
from stash.requirements.design.evidence import OwnItem
from stash.requirements.design.shapes import Size
from stash.requirements.yarn.experience import carried_over
from stash.requirements.yarn.growth import growth

SCARF = plain_scarf()
LONG = replace(SCARF, size=Size(SCARF.needed_size.across, SCARF.needed_size.up * 3))


def test_there_and_back_again_is_the_same() -> None:
    there, back = growth(SCARF, LONG), growth(LONG, SCARF)

    assert there.total * back.total == pytest.approx(1)
    assert there.of("A") == pytest.approx(there.total)


def test_a_colour_known_by_a_figure_alone_grows_with_the_whole() -> None:
    told = growth(SCARF, LONG).lengths((("A", metres(300)), ("B", metres(20))))

    assert [role for role, _ in told] == ["A", "B"]
    assert told[1][1].m / 20 == pytest.approx(growth(SCARF, LONG).total)


def test_a_colour_that_is_gone_is_left_out() -> None:
    hat = sideways_hat()

    told = growth(hat, replace(hat, bands=())).lengths((("A", metres(180)), ("B", metres(15))))

    assert [role for role, _ in told] == ["A"]


def test_an_item_of_another_size_is_less_sure_of_this_one() -> None:
    """The same rule for an item that was made before and for one that is graded."""
    took = OwnItem((("A", 300.0),))

    assert carried_over(took, SCARF, LONG).pair_spread > 0.1
    assert carried_over(took, SCARF, SCARF).pair_spread == 0


def test_without_shape_and_size_nothing_can_be_told() -> None:
    with pytest.raises(Refusal) as refused:
        growth(Design(stated=(("A", metres(100)),)), replace(SCARF, size=Size(cm(20), cm(90))))
    assert refused.value.kind == "another_size_not_known"
