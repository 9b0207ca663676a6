"""Yarn and items at cost as they are read: what is in all is the sum of the rows shown."""

from __future__ import annotations

import re
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.actions.value import Value
from stash.costing.pools import Method
from stash.costing.valuation import Valuation, Where, Worth
from stash.measures.mass import Mass
from stash.measures.money import Money
from stash.rendering import figures
from stash.rendering.amounts import Page
from stash.rendering.figures import Units
from stash.rendering.value import text, value_notes
from stash.stock.turnover import NOTHING, Total

UNITS = (Units(), Units("yd", "oz", "in"))
GRAMS = st.integers(0, 200_000)


def a_total(mg: int, priced: bool = True) -> Total:
    return Total(Mass(mg), cost=Money(mg // 100), all_priced=priced)


def a_value(
    bought: int, used: int, gone: int, made: int, priced: bool = True, came: int = 0
) -> Value:
    """900 g to begin with, one item being made and one finished."""
    opening = a_total(900_000)
    items = {1: (Where.UNDER_WAY, a_total(made)), 2: (Where.FINISHED, a_total(used))}
    stock = Total(
        opening.mass + Mass(bought) + Mass(came) - Mass(used) - Mass(gone),
        cost=Money(900_000 // 100 + bought // 100 + came // 100 - used // 100 - gone // 100),
        all_priced=priced,
    )
    worth = Valuation(
        Method.SPECIFIC, date(2026, 1, 1), date(2026, 12, 31),
        Worth(opening, {}), Worth(stock, items),
        a_total(bought, priced), a_total(came), a_total(used), NOTHING, a_total(gone),
    )  # fmt: skip
    return Value(worth, Method.SPECIFIC, {}, () if priced else (4,), Money(0), Money(0), "EUR")


def column(said: str, pattern: str) -> list[Decimal]:
    return [Decimal(number) for number in re.findall(pattern, said)]


@pytest.mark.parametrize("units", UNITS)
@given(bought=GRAMS, came=GRAMS, used=GRAMS, gone=GRAMS, made=GRAMS)
def test_what_is_in_all_is_the_sum_of_the_rows(
    units: Units, bought: int, came: int, used: int, gone: int, made: int
) -> None:
    figures.use(units)
    found = a_value(bought, used, gone, made, came=came)

    said = figures.settled(lambda: text(found, Page()))
    there, _, moved = said.partition("Yarn since")
    moved, _, _ = moved.partition("Items since")

    for pattern in (rf"  ([\d.]+) {units.weight}\b", r"€(-?[\d.]+)"):
        *rows, whole = column(there, pattern)
        assert sum(rows) == whole
    *rows, end = column(moved, rf"  ([+-]?[\d.]+) {units.weight}\b")
    assert sum(rows) == end == column(there, rf"shelf +([\d.]+) {units.weight}\b")[0]


def test_without_a_price_totals_are_at_least_and_the_skein_is_named() -> None:
    found = a_value(100_000, 0, 0, 10_000, priced=False)

    (whole,) = [line for line in text(found, Page()).splitlines() if "in all" in line]
    assert "at least €" in whole
    assert value_notes(found)[0].startswith("no price known for skein 4: add it, as in")


@pytest.mark.parametrize(
    ("method", "words"),
    [
        (Method.SPECIFIC, "Costs: each skein's own cost."),
        (Method.FIFO, "Costs: first in, first out (the oldest yarn is used first)."),
        (Method.AVERAGE, "Costs: average (each yarn at the average of what it cost so far)."),
    ],
)
def test_the_way_of_valuing_is_explained_in_a_line(method: Method, words: str) -> None:
    found = a_value(0, 0, 0, 0)
    worth = found.valuation
    by = Valuation(method, *(getattr(worth, name) for name in worth.__slots__[1:]))

    said = text(Value(by, method, {}, (), Money(0), Money(0), "EUR"), Page())

    assert said.splitlines()[-1] == words
