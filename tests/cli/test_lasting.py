"""`stash lasts`: weighings so far and rows left."""

from __future__ import annotations

import pytest
from commands import NUMBER, WORDS, Maker, keeps_its_keys, refused_in_one_line

READINGS = ("--readings", "0:98g 20:81g 40:63g", "--rows-left", "36", "--keep", "4g")


def test_a_ball_that_no_book_knows(nobody: Maker) -> None:
    told = nobody.does("lasts", *READINGS).out

    assert told.startswith("Yes, it lasts: 63 g left, 35 g needed, about 28 g to spare")
    assert not nobody.file.exists()


def test_scripts_read_what_the_contract_promises(nobody: Maker) -> None:
    found = nobody.ask("lasts", *READINGS)

    numbers = dict.fromkeys(("need_g", "have_g", "spread_g", "chance"), NUMBER)
    keeps_its_keys(found, {**numbers, "verdict": WORDS})
    assert found["verdict"] == "yes"
    (row,) = nobody.does("lasts", *READINGS, "--as", "csv").rows
    assert row["verdict"] == "yes"


def test_a_tare_of_her_own_name(maker: Maker) -> None:
    maker.does("prefer", "tare bowl", "12g")

    bare = maker.ask("lasts", *READINGS)
    bowl = maker.ask("lasts", "--readings", "0:110g 20:93g 40:75g", *READINGS[2:], "--tare", "bowl")

    assert bowl == bare


def test_an_article_under_way(maker: Maker) -> None:
    maker.does("weigh", "1", "38g", "--for", "hat")
    maker.does("weigh", "4", "38g", "--for", "hat")

    found = maker.ask("lasts", "hat", "--rows-done", "10", "--rows-left", "20")
    told = maker.does("lasts", "hat", "--rows-done", "10", "--rows-left", "20").out

    assert found["role"] == "A"
    assert found["roles"]["A"]["need_g"] == pytest.approx(24)
    assert "A  Yes, it lasts: 38 g left" in told
    assert "B  Yes, it lasts: 38 g left" in told


@pytest.mark.parametrize(
    ("typed", "status", "way_out"),
    [
        ((), 2, "--readings"),
        (("--readings", "0:98g 20:81g"), 2, "--rows-left 36"),
        (("--readings", "some", "--rows-left", "3"), 2, "0:98g 20:81g"),
        (("--readings", "0:98g", "--rows-left", "3"), 4, "again"),
        (("hat", *READINGS), 2, "--rows-done"),
        (("hat",), 2, "--rows-done 40"),
        (("hat", "--rows-done", "10"), 4, "--rows-left 36"),
        (("hat", "--rows-done", "10", "--rows-left", "20"), 4, "stash weigh"),
        (("9", "--rows-done", "10", "--rows-left", "20"), 3, "1 (Hat)"),
        (("--rows-done", "10"), 2, "--readings"),
    ],
)
def test_what_does_not_go_together_is_said_in_one_line(
    maker: Maker, typed: tuple[str, ...], status: int, way_out: str
) -> None:
    refused_in_one_line(maker("lasts", *typed), status, way_out)
