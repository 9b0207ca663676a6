"""Prices as typed. Codes and minor units: ISO 4217 (from memory)."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.errors import Ambiguous, BadInput, Unreadable
from stash.measures.money import Money
from stash.wording.coins import currencies_of, money, show_money


@pytest.mark.parametrize(
    ("text", "coins"),
    [("£3.20", 320), ("3,20 €", 320), ("12", 1200), ("4.5", 450), ("75p", 75),
     ("$1,200.50", 120050), ("3.20 GBP", 320), ("GBP 3.20", 320), ("0", 0),
     ("kr 45", 4500), ("A$ 5", 500)],
)  # fmt: skip
def test_a_price_is_whole_smallest_coins(text: str, coins: int) -> None:
    assert money(text) == Money(coins)


def test_a_currency_keeps_its_own_decimals() -> None:
    assert money("500", "JPY") == Money(500)
    assert money("1.234", "KWD") == Money(1234)


@pytest.mark.parametrize(
    ("text", "codes"),
    [("£3", ("GBP",)), ("3 €", ("EUR",)), ("NZ$3", ("NZD",)), ("SEK 3", ("SEK",)), ("3", ())],
)
def test_a_sign_says_its_currency(text: str, codes: tuple[str, ...]) -> None:
    assert currencies_of(text) == codes


def test_a_sign_that_several_currencies_share_names_them() -> None:
    assert {"USD", "AUD", "CAD"} <= set(currencies_of("$3"))
    assert money("$3", "AUD") == Money(300)


def test_another_currency_than_the_files_is_refused() -> None:
    with pytest.raises(Unreadable, match="EUR"):
        money("£3", "EUR")


@pytest.mark.parametrize("text", ["", "abc", "-3", "£3 €", "3.2051", "1" * 17])
def test_what_is_no_price_is_refused(text: str) -> None:
    with pytest.raises(Unreadable):
        money(text)


def test_a_price_that_may_be_thousands_is_asked_about() -> None:
    with pytest.raises(Ambiguous):
        money("1,200")


@given(st.integers(0, 10**12), st.sampled_from(["", "GBP", "EUR", "USD", "SEK", "JPY", "KWD"]))
def test_a_price_shown_reads_back(coins: int, currency: str) -> None:
    assert money(show_money(Money(coins), currency), currency) == Money(coins)


@given(st.text(alphabet="0123456789.,£€$ kr", max_size=12))
def test_any_text_is_a_price_or_bad_input(text: str) -> None:
    try:
        found = money(text)
    except BadInput:
        return
    assert found.coins >= 0
