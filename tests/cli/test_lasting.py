"""`stash lasts`: weighings so far and rows left."""

from __future__ import annotations

import pytest
from commands import NUMBER, WORDS, Maker, keeps_its_keys, refused_in_one_line

READINGS = ("--readings", "0:98g 20:81g 40:63g", "--rows-left", "36", "--keep", "4g")


def test_a_ball_that_no_book_knows(nobody: Maker) -> None:
    told = nobody.does("lasts", *READINGS).out

    assert told.startswith("Yes, it lasts: about 27.5 g left over.\n")
    assert not nobody.file.exists()


def test_scripts_read_what_the_contract_promises(nobody: Maker) -> None:
    found = nobody.ask("lasts", *READINGS)

    numbers = dict.fromkeys(("need_g", "have_g", "spread_g", "chance", "as_of_row"), NUMBER)
    keeps_its_keys(found, {**numbers, "verdict": WORDS})
    assert (found["verdict"], found["have_g"], found["as_of_row"]) == ("yes", 63, 40)
    assert found["need_g"] == pytest.approx(36 * 35 / 40 + 4)  # 35 g in 40 rows, and 4 g kept
    (row,) = nobody.does("lasts", *READINGS, "--as", "csv").rows
    assert row["verdict"] == "yes"


def test_a_tare_of_her_own_name(maker: Maker) -> None:
    maker.does("settings", "tare bowl", "12g")

    bare = maker.ask("lasts", *READINGS)
    bowl = maker.ask("lasts", "--readings", "0:110g 20:93g 40:75g", *READINGS[2:], "--tare", "bowl")

    assert bowl == bare


def test_an_item_under_way(maker: Maker) -> None:
    maker.does("weigh", "1", "38g", "--for", "hat")
    maker.does("weigh", "4", "38g", "--for", "hat")

    found = maker.ask("lasts", "hat", "--rows-done", "1=10,4=10", "--rows-left", "20")
    told = maker.does("lasts", "hat", "--rows-done", "1=10,4=10", "--rows-left", "20").out

    assert found["role"] == "A"
    assert found["as_of_row"] == 10
    assert found["roles"]["A"]["need_g"] == pytest.approx(24)
    assert "A, navy  Yes, it lasts: about 14 g left over." in told
    assert "B, oatmeal  Yes, it lasts: about 34 g left over." in told


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
        (("9", "--rows-done", "10", "--rows-left", "20"), 3, "stash items"),
        (("--rows-done", "10"), 2, "--readings"),
    ],
)
def test_what_does_not_go_together_is_said_in_one_line(
    maker: Maker, typed: tuple[str, ...], status: int, way_out: str
) -> None:
    refused_in_one_line(maker("lasts", *typed), status, way_out)


COWL = (
    "--shape", "cowl", "--around", "60cm", "--tall", "60cm", "--gauge", "18 sts x 20 rows",
    "--fabric", "1 hdc", "--stripes", "A 2 rows, B 2 rows", "--thickness", "DK",
)  # fmt: skip


@pytest.fixture
def worked(nobody: Maker) -> Maker:
    """A cowl of 118 rows under way: A from skeins 1 and 2, B from skeins 4 and 5."""
    nobody.does("add", "Fellmoor DK, 3 x 100g/230m, navy, lot 1")
    nobody.does("add", "Fellmoor DK, 2 x 100g/230m, cream, lot 2")
    nobody.does("design", "add", "Cowl", *COWL)
    nobody.does("aside", "Cowl", "--skeins", "A=1,2", "--skeins", "B=4,5")
    nobody.does("begin", "Cowl")
    return nobody


def test_a_row_said_with_a_weighing_is_known_next_time(worked: Maker) -> None:
    worked.does("weigh", "1", "80g", "--row", "20")
    worked.does("weigh", "4", "90g", "--row", "20")

    found = worked.ask("lasts", "1")

    assert found["roles"]["A"]["as_of_row"] == found["roles"]["B"]["as_of_row"] == 20
    assert found["roles"]["A"]["left"] == 118 - 20
    assert found == worked.ask("lasts", "1", "--rows-done", "20")


def test_a_colour_weighed_earlier_speaks_from_that_row_and_asks_for_a_weighing(
    worked: Maker,
) -> None:
    """B gave 10 g by row 20: half a gram a row, and not a fifth of one over 50 rows."""
    worked.does("weigh", "4", "90g", "--row", "20")
    worked.does("weigh", "1", "50g", "--row", "50")

    said = worked.does("lasts", "1", "--rows-done", "50", "--rows-left", "400")
    found = worked.ask("lasts", "1", "--rows-done", "50", "--rows-left", "400")["roles"]["B"]

    assert "B: this is as of row 20, when skein 4 was last weighed" in said.err
    assert "stash weigh 4 63g --row 50" in said.err
    assert (found["as_of_row"], found["left"]) == (20, 430)
    assert found["need_g"] == pytest.approx(0.5 * 430)
    assert found["verdict"] != "yes"


def test_a_later_row_than_any_ball_was_weighed_at_is_no_weighing(worked: Maker) -> None:
    worked.does("weigh", "1", "80g", "--row", "20")

    said = worked.does("lasts", "1", "--rows-done", "50")
    found = worked.ask("lasts", "1", "--rows-done", "50")

    assert "this is as of row 20, when skein 1 was last weighed" in said.err
    assert (found["as_of_row"], found["left"], found["have_g"]) == (20, 98, 180)


def test_balls_weighed_at_rows_that_are_not_known_are_asked_for_each(worked: Maker) -> None:
    worked.does("weigh", "4", "90g", "--for", "1")
    worked.does("weigh", "1", "50g", "--for", "1")

    asked = worked("lasts", "1", "--rows-done", "50")
    found = worked.ask("lasts", "1", "--rows-done", "1=50,4=20")

    refused_in_one_line(asked, 2, "skein 1 and skein 4", "--rows-done 1=50,4=50", "--row 50")
    assert found["roles"]["B"]["as_of_row"] == 20
    assert found["roles"]["A"]["as_of_row"] == 50


def test_a_ball_weighed_since_without_its_row_is_asked_for(worked: Maker) -> None:
    worked.does("weigh", "1", "80g", "--row", "20")
    worked.does("weigh", "1", "60g")

    refused_in_one_line(worked("lasts", "1"), 2, "skein 1", "--rows-done 1=40")
    assert worked.ask("lasts", "1", "--rows-done", "45")["as_of_row"] == 45


def test_two_balls_held_together_count_each_to_its_own_row(nobody: Maker) -> None:
    nobody.does("add", "Fellmoor DK, 2 x 100g/230m, navy, lot 1")
    held = ("--tall", "12cm", *COWL[6:-4], "--thickness", "DK", "--strands", "2")
    nobody.does("design", "add", "Cowl", *COWL[:4], *held)
    nobody.does("aside", "Cowl", "--skeins", "A=1,2")
    nobody.does("begin", "Cowl")
    nobody.does("weigh", "1", "75g", "--row", "50", "--for", "1")
    alone = nobody("lasts", "1", "--rows-left", "140")
    nobody.does("weigh", "2", "90g", "--row", "20", "--for", "1")

    found = nobody.ask("lasts", "1", "--rows-left", "140")

    refused_in_one_line(alone, 4, "stash weigh 2 63g --for 1")

    assert found["as_of_row"] == 20
    assert found["need_g"] == pytest.approx(170 * (0.5 + 0.5))
    assert found["verdict"] != "yes"


def test_a_ball_used_up_needs_no_weighing_at_later_rows(worked: Maker) -> None:
    worked.does("weigh", "1", "0g", "--row", "30")
    worked.does("weigh", "2", "70g", "--row", "39")

    found = worked.ask("lasts", "1", "--colour", "A")

    assert found["as_of_row"] == 39
    assert found["have_g"] == 70
    assert found["need_g"] == pytest.approx(79 * 130 / 39, rel=0.06)


def test_a_row_is_said_of_one_item(worked: Maker) -> None:
    refused_in_one_line(worked("weigh", "3", "99g", "--row", "5"), 4, "1 (Cowl)", "--for 1")
    refused_in_one_line(worked("weigh", "1", "50g", "--row", "-1"), 2, "--row")
    refused_in_one_line(worked("weigh", "1", "--metre", "10m=4g", "--row", "3"), 2, "63g --row 3")


def test_a_row_told_against_the_books_is_refused(worked: Maker) -> None:
    worked.does("weigh", "1", "80g", "--row", "20")

    refused_in_one_line(worked("lasts", "1", "--rows-done", "10"), 4, "at row 20 (entry 6)")
    refused_in_one_line(worked("lasts", "1", "--rows-done", "9=10"), 3, "1=10")
    refused_in_one_line(worked("lasts", "1", "--rows-done", "x=10"), 2, "1=50,4=20")


def test_a_row_taken_back_with_its_weighing_is_forgotten(worked: Maker) -> None:
    worked.does("weigh", "1", "80g", "--row", "20")
    worked.does("undo")
    worked.does("weigh", "1", "85g", "--row", "15")

    assert worked.ask("lasts", "1")["as_of_row"] == 15


@pytest.fixture
def hat(nobody: Maker) -> Maker:
    """A hat of 29 rows under way: its first 5 rows in B, skein 2, the others in A, skein 1."""
    nobody.does("add", "Fellmoor DK, 100g/230m, navy, lot 1")
    nobody.does("add", "Fellmoor DK, 100g/230m, cream, lot 2")
    plan = ("--shape", "round hat", "--size", "woman", "--gauge", "17 sts x 13 rows")
    nobody.does("design", "add", "Hat", *plan, "--fabric", "1 hdc", "--band", "B 4cm bottom",
                "--thickness", "DK")  # fmt: skip
    nobody.does("aside", "Hat", "--skeins", "A=1", "--skeins", "B=2")
    nobody.does("begin", "Hat")
    return nobody


@pytest.mark.parametrize("before", [("100g@5",), ("95g@5",), ("99g@2", "95g@4", "95g@5")])
def test_weighings_before_the_first_row_of_a_colour_are_its_beginning(
    hat: Maker, before: tuple[str, ...]
) -> None:
    for reading in before:
        grams, row = reading.split("@")
        hat.does("weigh", "1", grams, "--for", "1", "--row", row)
    began = float(before[-1].split("g")[0])
    hat.does("weigh", "1", "88g", "--row", "12")
    hat.does("weigh", "1", "80g", "--row", "18")

    found = hat.ask("lasts", "1")["roles"]["A"]

    assert (found["have_g"], found["as_of_row"]) == (80, 18)
    assert found["each_g"] == pytest.approx((began - 80) / 13, rel=0.1)


def test_weighings_after_the_last_row_of_a_colour_change_nothing(hat: Maker) -> None:
    hat.does("weigh", "2", "81g", "--row", "5")
    hat.does("weigh", "2", "81g", "--row", "9")
    hat.does("weigh", "1", "90g", "--row", "12")

    said = hat.does("lasts", "1")
    found = hat.ask("lasts", "1")["roles"]["B"]

    assert (found["need_g"], found["weigh_again"]) == (0, None)
    assert "none of them has it" in said.out
    assert "as of row" not in said.err, "no row since had this yarn"


def test_an_answer_names_its_yarn_and_the_colours_it_knows_nothing_of(hat: Maker) -> None:
    hat.does("weigh", "2", "81g", "--row", "5")
    early = hat.does("lasts", "1")
    hat.does("weigh", "2", "81g", "--row", "9")
    later = hat.does("lasts", "1")

    assert early.out.startswith("B, cream  Yes, it lasts:")
    assert "nothing is known of A yet: it begins at row 6" in early.err
    assert "nothing is known of A yet; weigh its ball" in later.err
    assert "stash weigh 1 63g --row 9" in later.err
    assert hat.ask("lasts", "1")["not_known"] == ["A"]


def test_where_nothing_is_known_of_any_colour_it_says_what_to_weigh(hat: Maker) -> None:
    hat.does("weigh", "1", "95g", "--for", "1", "--row", "5")

    refused_in_one_line(hat("lasts", "1"), 4, "begins at row 6", "stash weigh 1 63g")
