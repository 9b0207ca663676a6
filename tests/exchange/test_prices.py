"""What a sheet's prices come to, by the heading they stand below. House rule: Money."""

from __future__ import annotations

import re
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.exchange.take_in import Sheet, read_sheet
from stash.parsing.headings import KnownHeadings, mapped

TODAY = date(2030, 1, 1)


def read(heading: str, price: str, *, count: str = "1", left: str = "") -> Sheet:
    body = f"yarn;put up;skeins;left;{heading}\nDunmarle;100g/200m;{count};{left};{price}\n"
    return read_sheet("a.csv", body.encode(), TODAY, "EUR")


def paid(heading: str, price: str, **row: str) -> int | None:
    sheet = read(heading, price, **row)
    assert sheet.findings == ()
    money = sheet.rows[0][1].paid
    return None if money is None else money.coins


LINE = ("Paid", "Total price", "Line total", "Total paid", "What I paid", "Amount paid", "Total")
EACH = ("Price each", "Unit price", "Price per ball", "Cost/skein", "€ each", "Cost each (EUR)")
OF_FULL = (*EACH, "Price", "Price (EUR)", "Purchase price")
OPEN = ("Cost", "What did it cost?", "Value")


@pytest.mark.parametrize("heading", LINE)
def test_a_price_for_the_line_is_of_all_that_the_row_holds(heading: str) -> None:
    assert paid(heading, "10.00", count="4") == 1000
    assert paid(heading, "10.00", left="10g") == 1000


@pytest.mark.parametrize("heading", OF_FULL)
def test_a_price_of_a_full_skein_is_shared_by_weight_for_a_part_ball(heading: str) -> None:
    assert paid(heading, "10.00") == 1000
    assert paid(heading, "10.00", left="10g") == 100
    assert paid(heading, "10.00", left="50m") == 250
    assert paid(heading, "10.00", left="half") == 500


@pytest.mark.parametrize("heading", EACH)
def test_a_price_for_each_is_paid_for_every_skein(heading: str) -> None:
    assert paid(heading, "10.00", count="4") == 4000


@pytest.mark.parametrize("heading", ["Price", "Price (EUR)", *OPEN])
def test_a_price_of_several_skeins_that_may_be_of_one_or_all_is_asked_about(heading: str) -> None:
    sheet = read(heading, "10.00", count="4")

    assert len(sheet.findings) == 1
    assert re.search(r"`10.00( EUR)? each` or `10.00", sheet.findings[0].text)
    assert any('=price each"' in note.text and '=paid"' in note.text for note in sheet.notes)


@pytest.mark.parametrize("heading", OPEN)
def test_a_cost_of_a_part_ball_is_asked_about(heading: str) -> None:
    assert read(heading, "10.00", left="40g").findings
    assert paid(heading, "10.00") == 1000


@pytest.mark.parametrize("heading", ["Price", "Cost", "Paid"])
@pytest.mark.parametrize(
    ("typed", "coins"),
    [("10.00 each", 4000), ("10.00 total", 1000), ("free", 0), ("€10 for all", 1000)],
)
def test_a_cell_that_says_what_it_is_of_is_not_asked_about(
    heading: str, typed: str, coins: int
) -> None:
    assert paid(heading, typed, count="4") == coins


def test_what_map_says_settles_the_whole_column() -> None:
    body = b"yarn;put up;skeins;Price\nA;50g;4;10\nB;50g;2;6\n"

    def all_paid(column: str) -> list[int | None]:
        known = KnownHeadings(mapped([f"Price={column}"]))
        rows = read_sheet("a.csv", body, TODAY, "EUR", known).rows
        return [line.paid and line.paid.coins for _, line in rows]

    assert all_paid("price each") == [4000, 1200]
    assert all_paid("paid") == [1000, 600]


def test_a_part_ball_of_no_known_size_is_paid_as_the_row_says() -> None:
    body = b"yarn;left;Price\nDunmarle;40g;3.00\n"

    assert read_sheet("a.csv", body, TODAY, "EUR").rows[0][1].paid.coins == 300  # type: ignore[union-attr]


def test_the_total_is_kept_where_it_is_not_the_sum_of_prices_and_that_is_said() -> None:
    body = b"yarn;put up;skeins;Price;Total\nA;50g;4;10.00;32.00\nB;50g;2;3.00;6.00\n"

    sheet = read_sheet("a.csv", body, TODAY, "EUR")

    assert [line.paid.coins for _, line in sheet.rows if line.paid] == [3200, 600]
    assert [note.line for note in sheet.notes if note.column == "paid"] == [2]


def test_a_shared_price_is_said_once_for_the_sheet() -> None:
    body = "yarn;put up;left;Price\n" + "A;50g/100m;20g;5.00\n" * 3 + "B;50g/100m;;5.00\n"

    notes = [
        note for note in read_sheet("a.csv", body.encode(), TODAY).notes if "share" in note.text
    ]

    assert [(note.line, "3 part balls" in note.text) for note in notes] == [(0, True)]


@pytest.mark.parametrize("sign", ["$", "kr", "¥"])
def test_a_sign_that_several_currencies_share_is_asked_about_once(sign: str) -> None:
    body = "yarn;put up;paid\n" + f"A;50g;{sign} 350\n" * 20

    sheet = read_sheet("a.csv", body.encode(), TODAY)

    assert len(sheet.findings) == 1
    assert "stash settings currency" in sheet.findings[0].text
    assert sheet.rows == ()


def test_a_shared_sign_is_read_in_the_files_currency() -> None:
    body = b"yarn;put up;paid\nA;50g;$3.50\n"

    assert read_sheet("a.csv", body, TODAY, "CAD").rows[0][1].paid.coins == 350  # type: ignore[union-attr]


@pytest.mark.parametrize("other", ["£3.50", "3.50 USD", "75p", "kr 3"])
def test_a_second_currency_in_a_sheet_is_a_finding(other: str) -> None:
    body = f"yarn;put up;paid\nA;50g;€3.50\nB;50g;{other}\n"

    assert [f.line for f in read_sheet("a.csv", body.encode(), TODAY).findings] == [3]


@given(
    st.integers(0, 10**6),
    st.lists(st.integers(1, 99_999), min_size=1, max_size=6),
)
def test_shares_of_a_price_are_to_the_nearest_coin(coins: int, parts: list[int]) -> None:
    rows = "".join(f"A;100g/200m;{mg / 1000:.4f}g;{coins / 100:.2f}\n" for mg in parts)

    sheet = read_sheet("a.csv", ("yarn;put up;left;Price\n" + rows).encode(), TODAY, "EUR")

    for mg, (_, line) in zip(parts, sheet.rows, strict=True):
        assert line.paid is not None
        assert abs(line.paid.coins - coins * mg / 100_000) <= 0.5
