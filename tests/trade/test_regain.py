"""Moisture, against the Regulation's table and worked values."""

from __future__ import annotations

import pytest

from stash.measures.mass import Mass, grams
from stash.trade.regain import (
    Dry,
    RegainSet,
    Share,
    agreed_regain,
    at_dampness,
    at_regain,
    blend_regain,
    labelled,
)


def test_a_sock_yarn_has_the_regain_its_makers_print() -> None:
    """75 % combed wool and 25 % staple polyamide: 15.25 % (two yarn makers print it)."""
    blend = [Share("wool", 0.75, second=True), Share("nylon", 0.25)]
    assert blend_regain(blend) == pytest.approx(15.25)


@pytest.mark.parametrize(
    ("fibre", "eu", "us"),
    [("wool", 17.0, 13.6), ("silk", 11.0, 11.0), ("cotton", 8.5, 8.5), ("jute", 17.0, 13.75)],
)
def test_the_two_sets_keep_their_own_values(fibre: str, eu: float, us: float) -> None:
    """Regulation (EU) No 1007/2011, Annex IX; ASTM D1909-13 as quoted in a paper of 2020."""
    assert agreed_regain(Share(fibre, 1)) == eu
    assert agreed_regain(Share(fibre, 1), RegainSet.US) == us


@pytest.mark.parametrize(("room", "weighs"), [(14.0, 48_203), (9.0, 46_089)])
def test_a_wool_ball_weighs_less_in_a_dry_room(room: float, weighs: int) -> None:
    """A 50 g ball of combed wool, conditioned at 18.25 %: 48.20 g at 14 %, 46.09 g at 9 %."""
    assert at_regain(grams(50), 18.25, room) == Mass(weighs)


def test_cotton_in_a_dry_room() -> None:
    """100 g of cotton at 8.5 % weighs 97.70 g at 6 %."""
    assert at_regain(grams(100), 8.5, 6.0).g == pytest.approx(97.70, abs=0.005)


def test_a_fibre_nobody_agreed_on_has_no_regain() -> None:
    assert agreed_regain(Share("moonbeam", 1)) is None
    assert blend_regain([Share("wool", 0.5), Share("moonbeam", 0.5)]) is None


@pytest.mark.parametrize(
    ("dry", "printed"),
    [
        ({"wool": 10.30, "polyamide": 50.00, "cotton": 39.70}, (10.97, 48.37, 40.66)),
        ({"wool": 10.27, "viscose": 48.71, "cotton": 41.02}, (10.61, 48.62, 40.77)),
    ],
)
def test_the_two_worked_blends_of_the_regulation(
    dry: dict[str, float], printed: tuple[float, ...]
) -> None:
    """Regulation (EU) No 1007/2011, Annex VIII, chapter 3: cotton lost 4 % in its cleaning.

    The last figure of the second is printed as what the others leave of 100.
    """
    parts = [Dry(Share(name, mass), 4.0 if name == "cotton" else 0.0) for name, mass in dry.items()]

    assert labelled(parts) == pytest.approx(printed, abs=0.006)


def test_a_label_of_an_unknown_fibre_is_not_made_up() -> None:
    with pytest.raises(ValueError, match="moonbeam"):
        labelled([Dry(Share("moonbeam", 1.0))])


def test_at_the_agreed_dampness_yarn_has_its_agreed_regain() -> None:
    assert at_dampness(17.0, 0.65) == pytest.approx(17.0)
    assert at_dampness(17.0, 0.35) < at_dampness(17.0, 0.5) < 17.0
