"""Sheets and whole files, in and out, as the command line takes them."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from commands import Maker, refused_in_one_line

SHEETS = Path(__file__).resolve().parents[2] / "fixtures" / "sheets"


@pytest.mark.parametrize(
    ("name", "data", "status", "words"),
    [
        ("empty.csv", b"", 2, "yarn"),
        ("names.csv", b"a,b,c\n1,2,3\n", 2, "yarn"),
        ("headings.csv", b"yarn,put_up\n", 2, "none of its rows"),
        ("noise.csv", bytes(range(256)) * 8, 5, "csv"),
        ("noise.xlsx", b"PK\x03\x04 and then nothing", 5, "xlsx"),
        ("noise.json", b"\xff\xfe\x00", 2, "stash export"),
        ("list.json", b"[1]", 2, "stash export"),
        ("deep.json", b"[" * 100_000, 2, "stash export"),
        ("other.json", b'{"tables": {"entry": []}}', 5, "stash export"),
    ],
)
def test_a_file_that_is_no_sheet_begins_nothing(
    nobody: Maker, tmp_path: Path, name: str, data: bytes, status: int, words: str
) -> None:
    (tmp_path / name).write_bytes(data)

    refused_in_one_line(nobody("import", str(tmp_path / name)), status, name, words)

    assert not nobody.file.exists()


def test_a_sheet_that_is_not_there_or_is_a_folder(nobody: Maker, tmp_path: Path) -> None:
    refused_in_one_line(nobody("import", str(tmp_path / "none.csv")), 5, "none.csv")
    refused_in_one_line(nobody("import", str(tmp_path)), 5, "cannot be read")
    refused_in_one_line(nobody("import", "n" * 300 + ".csv"), 5, "cannot be read")


def test_each_finding_is_told_once_by_its_row(nobody: Maker) -> None:
    said = nobody("import", str(SHEETS / "broken_rows.csv"))
    findings = said.err.splitlines()[:-1]

    assert said.status == 2
    assert said.out == ""
    assert said.err.splitlines()[-1].startswith("stash: broken_rows.csv: nothing was imported")
    assert "--good-rows" in said.err.splitlines()[-1]
    assert [line.split(",")[0] for line in findings] == [
        f"broken_rows.csv: row {row}" for row in range(3, 15)
    ]
    assert not nobody.file.exists()


def test_counts_are_told_as_people_count(nobody: Maker, tmp_path: Path) -> None:
    (tmp_path / "one.csv").write_text("yarn,put_up\nSkerry,50g/120m\n")

    assert (
        "1 row to import, 1 skein"
        in nobody.does("import", "--preview", str(tmp_path / "one.csv")).out
    )
    assert "1 skein in 1 lot" in nobody.does("import", str(tmp_path / "one.csv")).out


def test_giving_out_writes_over_nothing_by_itself(maker: Maker, tmp_path: Path) -> None:
    target = tmp_path / "shelf.csv"
    target.write_text("her own")

    refused_in_one_line(maker("export", str(target)), 5, "--over")

    assert target.read_text() == "her own"
    maker.does("export", str(target), "--over")
    assert target.read_text().startswith("number,yarn,")


def test_giving_out_where_nothing_can_be_written_is_one_line(maker: Maker, tmp_path: Path) -> None:
    refused_in_one_line(maker("export", str(tmp_path / "no" / "shelf.csv")), 5, "make the folder")
    refused_in_one_line(maker("export", "n" * 300 + ".csv"), 5, "name too long")


def test_a_whole_file_goes_into_an_empty_one_only(maker: Maker, tmp_path: Path) -> None:
    maker.does("export", str(tmp_path / "all.json"))
    before = maker.file.read_bytes()

    refused_in_one_line(maker("import", str(tmp_path / "all.json")), 4, "--file")

    assert maker.file.read_bytes() == before


@pytest.mark.parametrize(
    ("table", "spoil"),
    [
        ("movement", {"change_mg": "much"}),
        ("movement", {"skein_number": 999}),
        ("skein", {"lot_id": 999}),
        ("entry", {"number": "soon"}),
    ],
)
def test_a_whole_file_that_was_tampered_with_is_refused_whole(
    maker: Maker, tmp_path: Path, table: str, spoil: dict[str, object]
) -> None:
    maker.does("export", str(tmp_path / "all.json"))
    given = json.loads((tmp_path / "all.json").read_text())
    given["tables"][table][0].update(spoil)
    (tmp_path / "bad.json").write_text(json.dumps(given))
    new = Maker(tmp_path / "new.stash")

    said = maker("import", str(tmp_path / "bad.json"), "--file", str(new.file))

    assert said.status in (2, 4, 5)
    assert said.err.startswith("stash: ")
    assert said.err.count("\n") == 1
    assert not new.file.exists() or new.entries() == 0


GARN = "Garn;Farbe;Menge;Meters\nDunmarle;grau;50;125\nTansel;rot;100;225\n"
MAPS = ("--map", "Garn=yarn", "--map", "Farbe=colour", "--map", "Menge=mass g")


@pytest.fixture
def garn(tmp_path: Path) -> str:
    sheet = tmp_path / "garn.csv"
    sheet.write_text(GARN)
    return str(sheet)


def test_a_preview_shows_every_heading_and_what_it_was_taken_for(nobody: Maker) -> None:
    said = nobody.does("import", "--preview", str(SHEETS / "kept_by_hand.csv"))

    assert "8 rows to import, 11 skeins; nothing imported yet" in said.out
    assert "Colur as colour (a guess)" in said.out
    assert "Metres / skein as length m" in said.out
    assert "Price each as price each" in said.out


def test_a_preview_shows_the_first_rows_as_they_would_come_in(nobody: Maker) -> None:
    lines = nobody.does("import", "--preview", str(SHEETS / "kept_by_hand.csv")).out.splitlines()
    rows = {line.split()[0]: line for line in lines if line.startswith("  ")}

    for said in ("Dunmarle DK", "grey", "48213/B", "3 skeins", "€14.85"):
        assert said in rows["4"]
    assert "about 50 g" in rows["6"]
    assert rows["…"].strip() == "… and 3 more"
    assert not nobody.file.exists()


def test_a_guess_is_told_beside_the_answer_when_the_sheet_is_taken_in(nobody: Maker) -> None:
    said = nobody.does("import", str(SHEETS / "kept_by_hand.csv"))

    assert "Imported 11 skeins" in said.out
    assert 'row 3, Colur: read as colour (a guess); if so add --map "Colur=colour"' in said.err
    assert "row 3, Mood: left out: not a column we know" in said.err
    assert "row 7, Dye-lott: 12-Mar may be spoilt by a spreadsheet" in said.err
    assert "row 6, Amount left: 'half' is read as about 50 g" in said.err


def test_a_figure_without_a_unit_is_a_finding_with_both_readings(nobody: Maker, garn: str) -> None:
    said = nobody("import", garn, "--map", "Garn=yarn", "--map", "Menge=mass")

    assert said.status == 2
    assert "row 2, Menge: '50' could be 50 g or 50 oz; type the one you mean" in said.err
    assert '--map "Menge=mass g" or --map "Menge=mass oz"' in said.err
    assert not nobody.file.exists()


def test_maps_are_remembered_for_the_next_sheet_and_can_be_looked_at(
    nobody: Maker, garn: str, tmp_path: Path
) -> None:
    nobody.does("import", garn, *MAPS)
    (tmp_path / "more.csv").write_text(GARN.replace("grau", "blau"))

    nobody.does("import", str(tmp_path / "more.csv"))

    assert sorted(lot["colour"] for lot in nobody.ask("shelf")) == ["blau", "grau", "rot", "rot"]
    assert nobody.ask("settings", "heading menge") == {"heading menge": "mass g"}
    assert "heading garn" in nobody.does("settings").out


def test_a_remembered_heading_can_be_put_right_and_forgotten(nobody: Maker, garn: str) -> None:
    nobody.does("import", garn, *MAPS)

    nobody.does("settings", "heading-farbe", "colour no")
    assert nobody.ask("settings", "heading farbe") == {"heading farbe": "colour_no"}
    assert "Farbe as colour_no" in nobody.does("import", "--preview", garn).out
    nobody.does("settings", "heading farbe", "usual")
    assert "Farbe as" not in nobody.does("import", "--preview", garn).out


def test_a_map_to_nothing_leaves_a_column_out(nobody: Maker, garn: str) -> None:
    said = nobody.does("import", "--preview", garn, *MAPS, "--map", "Meters=")

    assert "Meters" not in said.out
    assert "row 1, Meters: left out, as you asked" in said.err


@pytest.mark.parametrize(
    ("typed", "status", "words"),
    [
        ("Garn", 2, "HEADING=COLUMN"),
        ("=yarn", 2, "HEADING=COLUMN"),
        ("Garn=yran", 3, "did you mean yarn"),
        ("Garn=zzz", 2, "choose number, yarn"),
        ("Gran=yarn", 2, "it has Garn, Farbe, Menge, Meters"),
        ("Meters=mass g", 2, "keep one"),
    ],
)
def test_a_map_that_says_nothing_is_refused_in_one_line(
    nobody: Maker, garn: str, typed: str, status: int, words: str
) -> None:
    refused_in_one_line(nobody("import", garn, *MAPS, "--map", typed), status, words)

    assert not nobody.file.exists()


def test_a_name_with_and_without_its_thickness_is_pointed_at(nobody: Maker, tmp_path: Path) -> None:
    nobody.does("add", "Skerry DK 50g/120m, red, lot 1")
    sheet = tmp_path / "two.csv"
    sheet.write_text("yarn,put_up\nSkerry,50g/120m\nFarlow DK,50g/120m\nFarlow,50g/120m\n")

    told = nobody.does("import", str(sheet)).err

    assert "row 2, yarn: is Skerry the same yarn as Skerry DK (L1)?" in told
    assert "row 4, yarn: is Farlow the same yarn as Farlow DK?" in told


def test_a_label_in_a_cell_may_hold_whole_skeins_and_an_opened_one(
    nobody: Maker, tmp_path: Path
) -> None:
    sheet = tmp_path / "labels.csv"
    sheet.write_text('yarn,place\n"Farlow DK, 2 x 50g/120m plus 20g of another, red, lot 3",tin\n')

    nobody.does("import", str(sheet))

    (lot,) = nobody.ask("shelf")
    assert [skein["held_g"] for skein in lot["skeins"]] == [50, 50, 20]


def test_a_file_that_is_not_there_is_named_with_the_nearest_that_is(
    nobody: Maker, tmp_path: Path
) -> None:
    (tmp_path / "stock.csv").write_text("yarn\n")

    refused_in_one_line(nobody("import", str(tmp_path / "stok.csv")), 5, "did you mean stock.csv?")
    refused_in_one_line(nobody("import", str(tmp_path / "other.csv")), 5, "check its name")
