"""Prices in a line; the sums are plain arithmetic."""

from __future__ import annotations

import pytest

from stash.errors import Ambiguous, Unreadable
from stash.measures.money import Money
from stash.parsing.label import read

_FIRST = {"4": "USD", "h": "CAD", "r": "SEK", "c": "EUR"}


@pytest.mark.parametrize(
    ("line", "coins"),
    [
        ("3 skeins, £3.20 ea", 960),
        ("3 skeins, £3.20 each", 960),
        ("3 skeins at £3.20 a ball", 960),
        ("3 skeins, £12 for all", 1200),
        ("3 skeins, £12 the lot", 1200),
        ("5 skeins, 85p each", 425),
        ("3 skeins, je 3,95 €", 1185),
        ("3 skeins, 4 € la pelote", 1200),
        ("43g left of 100g, £4 each", 172),
        ("2 x 50g + 25g, £4 each", 1000),
        ("free", 0),
        ("3 skeins, paid 12.50", 1250),
        ("4 skeins, £3.20 ea or 4 for £11", 1100),
        ("5 skeins, £3.20 ea or 4 for £11", 1420),
        ("3 skeins, £3.20 ea or 4 for £11", 960),
        ("2 @ 4.99 + ship 6.50", 1648),
        ("3 @ £4 + p&p £2.50", 1450),
        ("4,50 €", 450),
        ("gift", 0),
    ],
)
def test_what_was_paid_is_for_the_whole_line(line: str, coins: int) -> None:
    assert read(f"Fern, {line}").incoming.paid == Money(coins)


def test_so_many_for_so_much_says_how_many() -> None:
    assert read("Fern, 4 for £11").incoming.count == 4


@pytest.mark.parametrize("line", ["3 skeins, £12", "43g left of 100g, £4", "2.5 balls 50g, £4"])
def test_a_bare_price_of_several_skeins_or_a_part_ball_is_asked_about(line: str) -> None:
    with pytest.raises(Ambiguous) as asked:
        read(f"Fern, {line}")
    price = asked.value.text
    assert asked.value.readings == (f"{price} each", f"paid {price}")


@pytest.mark.parametrize("price", ["$4", "$4 each", "240 kr", "paid 99c"])
def test_a_sign_of_several_currencies_is_asked_about_once(price: str) -> None:
    with pytest.raises(Ambiguous):
        read(f"Fern, 50g, {price}")
    assert read(f"Fern, 50g, {price}", currency=_FIRST[price[-1]]).incoming.paid is not None


def test_no_price_is_unknown_not_nothing() -> None:
    assert read("Fern, 50g").incoming.paid is None


def test_a_deal_that_does_not_fit_the_count_is_refused() -> None:
    with pytest.raises(Unreadable) as refused:
        read("Fern, 3 for £10, 4 skeins")
    assert refused.value.kind == "deal_and_more"
    assert refused.value.facts["count"] == 4


def test_another_currency_than_the_files_is_refused() -> None:
    with pytest.raises(Unreadable):
        read("Fern, £3", currency="EUR")


def test_the_files_currency_sets_the_smallest_coin() -> None:
    assert read("Fern, paid 500", currency="JPY").incoming.paid == Money(500)


@pytest.mark.parametrize(("line", "figure"), [("Fern 50g 2.99", "2.99"), ("Fern, .99", "99")])
def test_a_price_whose_sign_a_shell_took_is_explained(line: str, figure: str) -> None:
    with pytest.raises(Unreadable) as asked:
        read(line)
    assert asked.value.kind == "figure_without_meaning"
    assert asked.value.facts["figure"] == figure
