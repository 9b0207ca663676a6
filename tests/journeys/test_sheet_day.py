"""A day with her spreadsheet: taken in, mended, given out and taken in elsewhere."""

from __future__ import annotations

from pathlib import Path

import pytest
from commands import Maker, refused_in_one_line

#: Mixed units, decimal commas, part balls, an unknown lot, a price for each, a row of totals.
SHEET = """\
Shelf, spring;;;;;;;;;
;;;;;;;;;
Yarn name;Color;Dye lot;Thickness;On the band;Qty;Left;Where;Price;Notes
Barleygate DK;navy;48213;DK;50g/120m;3;;blue box;4,95 € each;
Barleygate DK;oatmeal;77/B;3;50g/120m;1;22,5 g;blue box;;left over
Lindrel;rust;?;worsted;3.5 oz / 220 yds;2;;drawer;;
Lindrel;moss;none;4;100g/200m;1;80yd;drawer;12,00;
Total;;;;;7;;;;
"""
BROKEN = SHEET.replace("100g/200m", "100/200")


def typed(sheet: str, folder: Path) -> str:
    file = folder / "spring shelf.csv"
    file.write_text(sheet)
    return str(file)


def test_a_broken_row_keeps_the_whole_sheet_out(nobody: Maker, tmp_path: Path) -> None:
    said = nobody("import", typed(BROKEN, tmp_path))

    assert (said.status, said.out) == (2, "")
    assert "row 7, On the band: '100/200'" in said.err
    assert "100g/200m" in said.err
    assert not nobody.file.exists()


def test_a_preview_writes_nothing(nobody: Maker, tmp_path: Path) -> None:
    said = nobody.does("import", "--preview", typed(BROKEN, tmp_path))

    assert "3 rows to import, 6 skeins; 1 row to fix; nothing imported yet" in said.out
    assert "On the band as full" in said.out
    assert "row 7" in said.err
    assert not nobody.file.exists()


def test_the_good_rows_alone_are_taken_in_where_that_is_asked_for(
    nobody: Maker, tmp_path: Path
) -> None:
    nobody.does("import", "--good-rows", typed(BROKEN, tmp_path))

    assert [len(lot["skeins"]) for lot in nobody.ask("shelf")] == [3, 1, 2]


def test_the_mended_sheet_comes_in_whole_and_once(nobody: Maker, tmp_path: Path) -> None:
    sheet = typed(SHEET, tmp_path)
    nobody.does("import", sheet)

    lots = nobody.ask("shelf")
    refused_in_one_line(nobody("import", sheet), 4, "--again")

    assert nobody.ask("shelf") == lots
    assert [(lot["lot"], lot["lot_state"]) for lot in lots] == [
        ("48213", "numbered"),
        ("77/B", "numbered"),
        (None, "claimed none"),
        (None, "unknown"),
    ]
    assert lots[1]["held_g"] == 22.5
    # 80 yd are 73.152 m; 220 yd 201.168 m (NIST Handbook 44, appendix C)
    assert lots[2]["held_m"] == pytest.approx(73.152, abs=0.002)
    assert lots[3]["held_m"] == pytest.approx(2 * 201.168, abs=0.001)
    nobody.does("import", "--again", sheet)
    assert sum(len(lot["skeins"]) for lot in nobody.ask("shelf")) == 14


def test_a_copy_is_made_before_more_is_taken_in(nobody: Maker, tmp_path: Path) -> None:
    nobody.does("add", "Skerry 50g/120m")
    nobody.does("import", typed(SHEET, tmp_path))

    (copy,) = tmp_path.glob("shelf.before-*.stash")

    assert len(nobody.ask("shelf", "--file", str(copy))) == 1


@pytest.mark.parametrize("name", ["out.csv", "out.xlsx", "out.json"])
def test_what_was_given_out_makes_the_same_shelf_elsewhere(
    maker: Maker, tmp_path: Path, name: str
) -> None:
    maker.does("import", typed(SHEET, tmp_path))
    maker.does("release", "hat")
    maker.does("use", "11", "5g")
    maker.does("gone", "3", "--why", "given")
    maker.does("change", "2", "--tare", "4g", "--place", "tin", "--full", "50g/110m")
    maker.does("weigh", "5", "96g")
    maker.does("export", str(tmp_path / name))
    elsewhere = Maker(tmp_path / "elsewhere.stash")
    there = ("--file", str(elsewhere.file))

    elsewhere.does("import", str(tmp_path / name), *there)

    assert elsewhere.ask("shelf", *there) == maker.ask("shelf")
    assert elsewhere.ask("check", *there)["ok"]


def test_a_whole_file_takes_items_promises_and_settings_along(maker: Maker, tmp_path: Path) -> None:
    maker.does("settings", "margin", "20%")
    maker.does("begin", "hat")
    maker.does("use", "1", "5g", "--for", "hat")
    maker.does("export", str(tmp_path / "all.json"))
    there = ("--file", str(tmp_path / "elsewhere.stash"))

    maker.does("import", str(tmp_path / "all.json"), *there)

    for asked in (("shelf",), ("shelf", "--aside"), ("log",), ("settings",), ("design", "list"),
                  ("show", "item", "1"), ("show", "1")):  # fmt: skip
        assert maker.ask(*asked, *there) == maker.ask(*asked)
