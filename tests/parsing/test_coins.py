"""Prices as typed. Codes and minor units: ISO 4217 (from memory)."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.errors import Ambiguous, BadInput, Unreadable
from stash.measures.money import Money
from stash.measures.written import show_money
from stash.parsing.coins import currencies_of, currency_in, money, typed


@pytest.mark.parametrize(
    ("text", "coins"),
    [("£3.20", 320), ("3,20 €", 320), ("12", 1200), ("4.5", 450), ("75p", 75),
     ("US$1,200.50", 120050), ("3.20 GBP", 320), ("GBP 3.20", 320), ("0", 0),
     ("A$ 5", 500), ("AU$5", 500), ("CA$ 5.10", 510), ("NZ$5", 500), ("HK$ 12", 1200),
     ("S$3", 300), ("$2.99 USD", 299), ("99 ct", 99), ("50 öre", 50), ("3 euros", 300),
     ("free", 0), ("Gift", 0)],
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


@pytest.mark.parametrize(
    ("text", "readings"),
    [("$2.99", {"2.99 USD", "2.99 AUD", "2.99 CAD"}), ("kr 45", {"45 SEK", "45 NOK", "45 DKK"}),
     ("5 dollars", {"5 USD", "5 NZD"}), ("75c", {"0.75 USD", "0.75 EUR"}),
     ("50 øre", {"0.50 NOK", "0.50 DKK"}), ("¥ 500", {"500 JPY", "500 CNY"})],
)  # fmt: skip
def test_a_shared_sign_is_asked_about_while_the_file_has_no_currency(
    text: str, readings: set[str]
) -> None:
    with pytest.raises(Ambiguous) as asked:
        money(text)

    assert readings <= set(asked.value.readings)
    for reading in asked.value.readings:  # each can be typed as it stands, and means one currency
        assert len(currencies_of(reading)) == 1
        money(reading)


@pytest.mark.parametrize(
    ("text", "currency"),
    [("£3", "EUR"), ("$3", "GBP"), ("kr 3", "USD"), ("75p", "EUR"), ("AU$3", "CAD")],
)
def test_a_sign_against_the_files_currency_is_refused(text: str, currency: str) -> None:
    with pytest.raises(Unreadable) as refused:
        money(text, currency)
    assert refused.value.kind == "other_currency"
    assert refused.value.facts["currency"] == currency


def test_signs_before_and_after_a_figure_must_agree() -> None:
    assert currencies_of("$5 CAD") == ("CAD",)
    with pytest.raises(Unreadable):
        money("€5 CAD")


def test_a_price_that_begins_with_a_point_may_have_lost_its_sign_to_the_shell() -> None:
    assert typed("2.99") == Money(299)
    with pytest.raises(Unreadable) as refused:
        typed(".99")
    assert refused.value.kind == "sign_taken_by_the_shell"
    assert refused.value.facts["figure"] == ".99"


@pytest.mark.parametrize(
    ("text", "code"),
    [("navy, AU$ 4.50 each", "AUD"), ("navy 75p", "GBP"), ("navy $4", ""), ("$4 CAD, navy", "CAD"),
     ("navy 2/28 50 g", ""), ("4 balls, DK", "")],
)  # fmt: skip
def test_the_currency_of_a_text_is_that_of_a_sign_that_means_one(text: str, code: str) -> None:
    assert currency_in(text) == code


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
