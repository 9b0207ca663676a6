"""What may share a wash: common practice, no source, where nothing else is named."""

from __future__ import annotations

import pytest

from stash.trade.fibres import FIBRES
from stash.trade.washing import BEAR_HEAT, bears_hot_wash, felts


@pytest.mark.parametrize(
    ("fibre", "care", "expected"),
    [
        ("100% wool", "", True),
        ("75% wool, 25% polyamide", "hand wash", True),
        ("60% cotton, 40% alpaca", "", True),
        ("75% merino wool, 25% polyamide", "superwash", False),
        ("100% wool", "Machine wash 30°C", False),
        ("100% wool", "do not machine wash", True),
        ("100% wool", "not superwash", True),
        ("100% cotton", "", False),
        ("100% silk", "", False),
        ("50% acrylic, 50% other fibre", "", None),
        ("60% cotton", "", None),
        ("", "", None),
    ],
)
def test_wool_and_hair_felt_unless_they_were_treated(
    fibre: str, care: str, expected: bool | None
) -> None:
    assert felts(fibre, care) is expected


@pytest.mark.parametrize(
    ("fibre", "care", "expected"),
    [
        ("100% cotton", "", True),
        ("100% cotton", "wash at 60", True),
        ("100% cotton", "wash at 40", False),
        ("100% cotton", "hand wash", False),
        ("60% cotton, 40% polyester", "", True),
        ("60% cotton, 40% acrylic", "", False),
        ("100% wool", "superwash", False),
        ("100% silk", "", False),
        ("100% acetate", "", False),
        ("", "", None),
        ("80% cotton, 20% other fibre", "", None),
        ("80% wool, 20% other fibre", "", False),
    ],
)
def test_a_hot_wash_is_for_fibres_that_bear_it(
    fibre: str, care: str, expected: bool | None
) -> None:
    assert bears_hot_wash(fibre, care) is expected


def test_the_fibres_that_bear_heat_are_names_of_the_regulation() -> None:
    """Regulation (EU) No 1007/2011, Annex I; none of wool, hair or silk (its numbers 1 to 4)."""
    numbers = {fibre.name: fibre.number for fibre in FIBRES}

    assert min(numbers[name] for name in BEAR_HEAT) > 4
