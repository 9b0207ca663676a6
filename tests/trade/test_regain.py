"""Moisture, against the Regulation's table and worked values."""

from __future__ import annotations

import pytest

from stash.trade.regain import (
    RegainSet,
    Share,
    agreed_regain,
    at_dampness,
    blend_regain,
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


def test_a_fibre_nobody_agreed_on_has_no_regain() -> None:
    assert agreed_regain(Share("moonbeam", 1)) is None
    assert blend_regain([Share("wool", 0.5), Share("moonbeam", 0.5)]) is None


def test_at_the_agreed_dampness_yarn_has_its_agreed_regain() -> None:
    assert at_dampness(17.0, 0.65) == pytest.approx(17.0)
    assert at_dampness(17.0, 0.35) < at_dampness(17.0, 0.5) < 17.0
