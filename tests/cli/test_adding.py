"""Quick entry: the same again, what is known already, many lines at once."""

from __future__ import annotations

import io
from pathlib import Path
from unittest.mock import patch

import pytest
from commands import Maker, Said, refused_in_one_line

FIRST = "Greycairn DK, 2 x 100g/230m, navy, lot 4821, 75% wool 25% nylon"


@pytest.fixture
def keeper(nobody: Maker) -> Maker:
    """A shelf with two skeins of one yarn in a box."""
    nobody.does("add", FIRST, "--place", "blue box")
    return nobody


def lot(maker: Maker, ref: str) -> dict[str, object]:
    found: dict[str, object] = next(x for x in maker.ask("shelf") if x["lot_ref"] == ref)
    return found


def test_the_same_again_in_another_colour_takes_all_but_colour_and_lot(keeper: Maker) -> None:
    keeper.does("add", "--like", "L1", "rust, lot 77", "--count", "12")

    old, new = lot(keeper, "L1"), lot(keeper, "L2")
    same = ("yarn", "thickness", "fibre")
    assert [new[key] for key in same] == [old[key] for key in same]
    assert (new["colour"], new["lot"], new["held_m"]) == ("rust", "77", 12 * 230)


def test_a_word_that_is_no_colour_of_ours_is_the_colour_all_the_same(keeper: Maker) -> None:
    keeper.does("add", "--like", "navy", "gloaming")

    assert lot(keeper, "L2")["colour"] == "gloaming"
    assert lot(keeper, "L2")["lot_state"] == "unknown"


def test_the_very_same_again_joins_its_record(keeper: Maker) -> None:
    keeper.does("add", "--like", "1", "--count", "2")

    assert [s["number"] for s in lot(keeper, "L1")["skeins"]] == [1, 2, 3, 4]


def test_what_the_line_leaves_out_comes_from_yarn_that_is_known(keeper: Maker) -> None:
    said = keeper.does("add", "greycairn dk rust lot 9")

    assert "filled in from your greycairn dk" in said.out
    assert lot(keeper, "L2")["held_m"] == 230
    assert lot(keeper, "L2")["fibre"] == lot(keeper, "L1")["fibre"]


def test_records_that_disagree_fill_nothing_in(keeper: Maker) -> None:
    keeper.does("add", "Greycairn DK 50g/110m teal")

    both = ("Greycairn DK 100 g / 230 m", "Greycairn DK 50 g / 110 m")
    refused_in_one_line(keeper("add", "Greycairn DK rust lot 9"), 2, *both)
    said = keeper.does("add", "Greycairn DK rust lot 9, 43g left")
    assert "you have Greycairn DK in 100 g / 230 m and 50 g / 110 m; say which" in said.out
    assert lot(keeper, "L3")["held_m"] is None


def test_what_was_taken_back_is_not_known(keeper: Maker) -> None:
    keeper.does("add", "Greycairn DK 100g/320m teal")
    keeper.does("undo")

    keeper.does("add", "Greycairn DK rust lot 9")
    assert keeper.ask("shelf", "rust")[0]["held_m"] == 230


def test_a_guessed_pair_does_not_pass_for_what_a_band_says(keeper: Maker) -> None:
    keeper.does("add", "Farlow 240m red")

    refused_in_one_line(keeper("add", "Farlow blue"), 4, "how much is it")


def test_yarns_without_a_name_are_not_the_same_yarn(keeper: Maker) -> None:
    keeper.does("add", "100g/230m, red, 100% wool")

    assert "from what you have" not in keeper.does("add", "50g/110m, red").out


def test_what_is_said_beside_the_label_is_kept(keeper: Maker) -> None:
    keeper.does(
        "add", "--like", "L1", "teal", "--maker", "Old Mill", "--owner", "the guild",
        "--bought", "2020-02-29", "--note", "from the fair",
    )  # fmt: skip

    skein = keeper.skein(3)
    told = [skein[key] for key in ("yarn", "owner", "bought", "note")]
    assert told == ["Old Mill Greycairn DK", "the guild", "2020-02-29", "from the fair"]


def test_the_like_on_the_shelf_is_pointed_out(keeper: Maker) -> None:
    assert (
        "you already have 2 skeins of it: L1, lot 4821, blue box"
        in keeper.does("add", "Greycairn DK navy lot 9").out
    )


def test_a_name_that_is_nearly_known_is_asked_about_and_kept(keeper: Maker) -> None:
    said = keeper.does("add", "Greycarn DK 50g/110m teal")

    assert "did you mean Greycairn DK?" in said.out
    assert lot(keeper, "L2")["yarn"] == "Greycarn DK"


def typed_in(maker: Maker, lines: str) -> Said:
    with patch("sys.stdin", io.StringIO(lines)):
        return maker("add", "-")


def test_many_lines_are_one_entry(keeper: Maker) -> None:
    typed_in(keeper, "Farlow 50g/120m red\n\nFarlow blue lot 3, 2 x 50g/120m\n")

    assert keeper.entries() == 2
    assert [x["lot_ref"] for x in keeper.ask("shelf", "farlow")] == ["L2", "L3"]


def test_one_line_that_cannot_be_read_keeps_all_out(keeper: Maker) -> None:
    said = typed_in(keeper, "Farlow 50g/120m red\n42\n")

    assert said.status == 2
    assert "line 2: " in said.err
    assert keeper.entries() == 1


def test_a_remark_is_passed_over_and_a_colour_number_is_not(keeper: Maker) -> None:
    typed_in(keeper, "# from the market\nFarlow 50g/120m #12 red\n")

    (found,) = keeper.ask("shelf", "farlow")
    assert found["colour"] == "red"


def test_many_colours_of_one_yarn_are_the_same_again(keeper: Maker) -> None:
    with patch("sys.stdin", io.StringIO("rust, lot 77\ngloaming, lot 8\n")):
        keeper.does("add", "--like", "L1", "-", "--count", "3")

    new = [
        (x["colour"], x["lot"], x["held_m"])
        for x in keeper.ask("shelf")
        if x["lot_ref"] > "L1" and x["colour"]
    ]
    assert sorted(new) == [("gloaming", "8", 690), ("rust", "77", 690)]


def test_the_first_label_says_once_which_units_it_chose(nobody: Maker) -> None:
    told = "Amounts are in yards, grams and inches, as you typed; `stash settings units metric`"

    assert told in nobody.does("add", "Farlow, 50g/130yd, red").err
    assert nobody.does("add", "Farlow, 50g/130yd, teal").err == ""
    nobody.does("settings", "units", "metric")
    assert nobody.does("add", "Farlow, 50g/130yd, rust").err == ""


@pytest.mark.parametrize(
    "words",
    [
        ("add", "Farlow, red"),
        ("add", "Farlow 50g/120m, red", "--on", "2999-01-01"),
        ("design", "add", "Hat", "--shape", "round hat"),
    ],
    ids=" ".join,
)
def test_a_first_command_that_is_refused_leaves_no_file_behind(
    tmp_path: Path, words: tuple[str, ...]
) -> None:
    first = Maker(tmp_path / "folder" / "shelf.stash")
    said = first(*words, "--file", str(first.file))

    assert said.status in (2, 4)
    assert list(tmp_path.iterdir()) == []


def test_a_file_that_was_there_stays_whatever_is_refused(nobody: Maker) -> None:
    nobody.file.touch()

    assert nobody("add", "Farlow, red").status == 4
    assert nobody.file.exists()


def test_a_yarn_typed_without_its_word_for_thickness_is_asked_about(keeper: Maker) -> None:
    line = "Greycairn, 100g/230m, teal, lot 9"
    ways = (f'--like L1 "{line}"', f'--new "{line}"')

    refused_in_one_line(keeper("add", line), 4, *ways)
    keeper.does("add", "--new", line)
    keeper.does("add", line)
    assert {x["yarn"] for x in keeper.ask("shelf")} == {"Greycairn DK", "Greycairn"}


def test_another_yarn_of_the_same_maker_does_not_join_its_lot(keeper: Maker) -> None:
    keeper.does("add", "Greycairn 4ply, 100g/400m, navy, lot 4821")

    assert [x["lot_ref"] for x in keeper.ask("shelf")] == ["L2", "L1"]


def test_another_thickness_under_one_name_and_lot_is_asked_about(keeper: Maker) -> None:
    line = "Greycairn DK, 4ply, 100g/400m, navy, lot 4821"

    refused_in_one_line(keeper("add", line), 4, "another thickness", f'--like L1 "{line}"')
    assert keeper.entries() == 1


def test_a_chosen_way_is_typed_in_front_of_the_line(keeper: Maker) -> None:
    keeper.does("add", "--like", "L1", "Greycairn, teal, lot 9")

    assert lot(keeper, "L2")["yarn"] == "Greycairn DK"
    assert lot(keeper, "L2")["colour"] == "teal"


def test_whole_skeins_and_an_opened_one_are_one_lot(keeper: Maker) -> None:
    said = keeper.does("add", "Farlow DK, 2 x 50g/120m plus 20g of another, red, £2 each")

    assert "Added 3 skeins" in said.out
    assert "1 opened" in said.out
    skeins = lot(keeper, "L2")["skeins"]
    assert [(s["state"], s["held_g"]) for s in skeins] == [
        ("whole", 50), ("whole", 50), ("opened", 20),
    ]  # fmt: skip


def test_what_came_in_can_be_read_by_a_script(nobody: Maker) -> None:
    said = nobody.ask("add", "Farlow DK, 2 x 50g/130yd, red, lot 7", "--paid", "6.40 EUR")

    assert said.keys() == {"entry", "lot_ref", "numbers", "read", "unknown", "notes"}
    assert (said["entry"], said["lot_ref"], said["numbers"]) == (1, "L1", [1, 2])
    assert said["unknown"] == ["fibre"]
    read = said["read"]
    assert (read["yarn"], read["colour"], read["lot"], read["count"]) == (
        "Farlow DK", "red", "7", 2
    )  # fmt: skip
    assert (read["thickness"], read["thickness_to"], read["paid"]) == (3, 3, 6.4)
    assert (read["full_g"], read["full_m"]) == (50, 118.872)  # 130 yd (NIST Handbook 44)
    assert None not in read.values()


def test_many_lines_are_a_list_for_a_script(nobody: Maker) -> None:
    with patch("sys.stdin", io.StringIO("Farlow 50g/130yd red\nFarlow 50g/130yd teal\n")):
        said = nobody.does("add", "-", "--as", "json")

    assert [one["numbers"] for one in said.json] == [[1], [2]]
    assert said.err.startswith("Amounts are in yards")


def test_a_note_that_changes_no_answer_is_for_scripts_alone(nobody: Maker) -> None:
    label = "Tansel 1.75 oz/130 yd, wool, red, lot 3"

    assert "note:" not in nobody.does("add", label).out
    kinds = {note["kind"] for note in nobody.ask("add", label)["notes"]}
    assert {"rounded_ounces", "fibre_without_shares"} <= kinds


def test_the_same_yarn_in_another_colour_has_its_surface_and_not_how_it_is_dyed(
    nobody: Maker,
) -> None:
    nobody.does("add", "Fell Brushed DK, 50g/100m, speckled navy, lot 7")
    nobody.does("add", "--like", "L1", "rust, lot 8")

    looks = {lot["colour"]: (lot["dyed"], lot["surface"]) for lot in nobody.ask("shelf")}
    assert looks == {"speckled navy": ("speckled", "brushed"), "rust": ("solid", "brushed")}


def test_a_surface_is_filled_in_from_the_yarn_that_is_known(nobody: Maker) -> None:
    nobody.does("add", "Fell DK, 50g/100m, navy, brushed")

    read = nobody.ask("add", "Fell DK, 50g/100m, rust")["read"]
    assert read["surface"] == "brushed"
