"""`stash log` over a span of days, as a seller reads it at the end of her year."""

from __future__ import annotations

import pytest
from commands import Maker, refused_in_one_line


@pytest.fixture
def seller(nobody: Maker) -> Maker:
    nobody.does(
        "add", "Fell Wool DK, 2 x 100g/250m, navy, lot 1, £20.00 for both", "--on", "2025-03-01"
    )
    nobody.does("use", "1", "40g", "--on", "2025-05-01")
    nobody.does("gone", "2", "30g", "--why", "sold", "--on", "2026-01-02")
    return nobody


def test_a_span_narrows_the_log(seller: Maker) -> None:
    year = seller.ask("log", "--from", "2025-04-01", "--to", "2025-12-31")

    assert [entry["number"] for entry in year] == [2]
    assert seller.ask("log", "--to", "2025-05-01", "--newest", "1")[0]["number"] == 2


def test_a_span_shows_more_than_the_newest_twenty(nobody: Maker) -> None:
    for _ in range(22):
        nobody.does("add", "Fell Wool DK 50g/120m", "--on", "2025-03-01")

    assert len(nobody.ask("log")) == 20
    assert len(nobody.ask("log", "--to", "2025-03-01")) == 22


def test_the_sum_of_a_year(seller: Maker) -> None:
    """By hand: 2.5 m and 10p to the gram."""
    year = seller.ask("log", "--sum", "--from", "2025-04-01", "--to", "2025-12-31")

    assert (year["opening"]["g"], year["opening"]["m"], year["opening"]["cost_coins"]) == (
        200.0, 500.0, 2000,
    )  # fmt: skip
    assert year["in"] == {}
    assert year["out"]["used"] == {
        "g": 40.0, "m": 100.0, "m_at_least": False, "cost_coins": 400, "cost_at_least": False,
    }  # fmt: skip
    assert year["closing"]["g"] == 160.0
    assert (year["from"], year["to"], year["currency"]) == ("2025-04-01", "2025-12-31", "GBP")


def test_the_sum_for_reading(seller: Maker) -> None:
    said = seller.does("log", "--sum", "--to", "2026-01-31", "--by", "lot")

    assert [" ".join(line.split()) for line in said.out.splitlines()] == [
        "From the beginning to 2026-01-31",
        "on the shelf before 0 g 0 m £0.00",
        "arrived +200 g 500 m £20.00",
        "used -40 g 100 m £4.00",
        "sold -30 g 75 m £3.00",
        "on the shelf after 130 g 325 m £13.00",
        "before in out after",
        "L1 Fell Wool DK, navy, lot 1 0 g +200 g -70 g 130 g 325 m £13.00",
        "Costs: each skein's own cost.",
    ]


def test_the_sum_for_a_sheet(seller: Maker) -> None:
    rows = seller.does("log", "--sum", "--by", "yarn", "--as", "csv").rows

    assert [(r["name"], r["line"], r["kind"], r["g"]) for r in rows] == [
        ("Fell Wool DK", "opening", "", "0.0"),
        ("Fell Wool DK", "in", "arrived", "200.0"),
        ("Fell Wool DK", "out", "used", "40.0"),
        ("Fell Wool DK", "out", "sold", "30.0"),
        ("Fell Wool DK", "closing", "", "130.0"),
    ]


def test_what_the_figures_lack_is_said(seller: Maker) -> None:
    seller.does("add", "Marlpit 50g, white", "--on", "2025-03-01")
    seller.does("undo", "2")
    said = seller.does("log", "--sum", "--to", "2025-12-31")

    assert "at least 500 m" in said.out
    assert "at least £20.00" in said.out
    assert "no full size known for skein 3" in said.err
    assert "no price known for skein 3: add it, as in `stash change 3 --paid" in said.err
    assert "entry 2 of 2025-05-01 is left out" in said.err
    assert seller.ask("log", "--sum", "--to", "2025-12-31")["notes"]


@pytest.mark.parametrize(
    ("words", "status", "said"),
    [
        (("--from", "2026-02-01", "--to", "2026-01-01"), 2, "after --to"),
        (("--from", "2999-01-01"), 4, "is in the future; use a day up to"),
        (("--sum", "--to", "31/31/2025"), 2, "as a day"),
        (("--by", "lot"), 2, "--sum"),
        (("--sum", "--by", "colour"), 2, "yarn or lot"),
        (("--sum", "--all"), 2, "--all"),
    ],
)
def test_a_span_that_is_none_is_refused(
    seller: Maker, words: tuple[str, ...], status: int, said: str
) -> None:
    refused_in_one_line(seller("log", *words), status, said)
