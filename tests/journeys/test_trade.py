"""What people who make hats and keep leftovers know, asked of the whole program."""

from __future__ import annotations

import pytest
from commands import Maker

YARD_M = 0.9144  # NIST Handbook 44, appendix C


@pytest.mark.parametrize("rows", ["20", "21.5", "23"])
def test_a_sideways_hat_takes_what_makers_say(nobody: Maker, rows: str) -> None:
    """Common practice, no source: about 200 yd of A; 30 to 40 yd of B is said to be plenty."""
    makers = (
        "--shape", "sideways hat", "--around", "18in", "--tall", f"{44 * 4 / 14:.4f}in",
        "--gauge", f"14 sts x {rows} rows", "--fabric", "1 sc, 3 sl st blo",
        "--band", "B 3 sts bottom", "--thickness", "4",
    )  # fmt: skip

    roles = nobody.ask("need", *makers)["roles"]

    assert 160 <= roles["A"]["expected_m"] / YARD_M <= 240
    assert 10 <= roles["B"]["expected_m"] / YARD_M <= 40


#: A hat of our own: 36 stitches of A and 6 of B to a row.
HAT = (
    "--shape", "sideways hat", "--around", "52cm", "--tall", "28.5cm",
    "--gauge", "15 sts x 19 rows", "--fabric", "1 hdc, 2 sl st blo",
    "--band", "B 6 sts bottom", "--thickness", "4",
)  # fmt: skip


def test_one_full_skein_of_each_is_more_than_enough(nobody: Maker) -> None:
    nobody.does("add", "Skerry worsted 150g/345m, navy, lot 1")
    nobody.does("add", "Skerry worsted 150g/345m, cream, lot 2")
    nobody.does("design", "add", "Sideways hat", *HAT)

    keys = [p["key"] for p in nobody.ask("match", "Sideways hat")["proposals"]]

    assert sorted(keys) == ["L1+L2", "L2+L1"]


def test_a_part_ball_is_not_enough_for_the_main_colour(nobody: Maker) -> None:
    nobody.does("add", "Skerry worsted 150g/345m, navy, lot 1, 140m left")
    nobody.does("add", "Skerry worsted 150g/345m, cream, lot 2")
    nobody.does("design", "add", "Sideways hat", *HAT)

    found = nobody.ask("match", "Sideways hat", "--with", "A=navy", "--with", "B=cream")

    assert found["proposals"] == []
    (miss,) = found["near_misses"]
    wanted = found["need"]["roles"]["A"]["set_aside_m"]
    assert miss["short_m"] == pytest.approx(wanted - 140, abs=0.01)
    assert miss["short_g"] == pytest.approx(miss["short_m"] / 345 * 150, abs=0.01)
    assert miss["short_rows"] >= 1


# makers' accounts, public threads


def test_a_part_skein_told_in_length(nobody: Maker) -> None:
    """Maker's account, public thread: 70 g left of 100 g / 210 yd are 147.0 yd, 134.4 m."""
    nobody.does("add", "Skerry 100g/210yd, 70g left")

    (lot,) = nobody.ask("shelf")

    assert lot["held_m"] == pytest.approx(134.4, abs=0.05)
    assert lot["held_m"] / YARD_M == pytest.approx(147.0, abs=0.01)
    assert "147 yd" in nobody.does("shelf").out


def test_a_part_skein_in_ounces(nobody: Maker) -> None:
    """Maker's account, public thread: 3.36 oz of 3.5 oz / 195 yd are 187.2 yd."""
    nobody.does("add", "Skerry 3.5 oz/195yd, 3.36 oz left")

    assert nobody.ask("shelf")[0]["held_m"] / YARD_M == pytest.approx(187.2, abs=0.01)


def test_one_skein_and_three_uses(nobody: Maker) -> None:
    """Maker's account, public thread: 100 g / 220 yd less 15 g and 72 g leave 13 g, 28.6 yd;
    a second design of 72 g is short by 59 g."""
    nobody.does("add", "Skerry 100g/220yd")
    nobody.does("use", "1", "15g")
    nobody.does("use", "1", "72g")

    skein = nobody.skein(1)
    second = nobody("use", "1", "72g")

    assert skein["held_g"] == 13
    assert skein["held_m"] / YARD_M == pytest.approx(28.6, abs=0.01)
    assert second.status == 4
    assert "has 13 g free, not 72 g" in second.err  # 72 - 13 = 59 g short
    assert nobody.skein(1)["held_g"] == 13


@pytest.mark.parametrize(("stated_yd", "short"), [(108, 0.14), (113, 0.18)])
def test_the_same_grams_of_fewer_yards_are_not_enough(
    nobody: Maker, stated_yd: int, short: float
) -> None:
    """Maker's account, public thread: a 25 g / 93 yd ball for a 25 g ball of 108 to 113 yd is
    short by 14 to 18 % of that."""
    nobody.does("add", "Skerry 25g/93yd, navy, lot 1")

    asked = ("match", "--need", f"A={stated_yd}yd", "--margin", "0", "--with", "A=navy")
    found = nobody.ask(*asked)

    assert found["proposals"] == []
    assert found["near_misses"][0]["short_m"] / YARD_M / stated_yd == pytest.approx(
        short, abs=0.005
    )
