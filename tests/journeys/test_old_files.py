"""What makers saved with the programs of before still comes in: sheets, files, batches, plans.

`fixtures/revisions/NNNN` was written by the last program whose files had that revision, about one
invented shelf: part balls, unknown lots, no lot claimed, prices, gifts, places, a tare, yarn
by mass or by length alone, a hat of two colours with a band, and every kind of setting.

- `shelf.csv`, `shelf.xlsx`: what `export` gave out; `whole.json`: everything, by `export` too.
- `plan.toml`, `plan.csv`: plans of a batch, written by hand for the programs that knew `batch`.
- `saved_batch.json`: what `batch --save` kept of the first.
- `answer_*.json`: what that program itself said of its shelf, its items and those plans.

A file of its database is put together from `fixtures/schemas`, which has the tables, and
`whole.json`, which has every row; it was compared with the program's own, table by table.
Nothing here is ever written anew: what today's program says is held against what those said.
"""

from __future__ import annotations

import csv
import io
import json
import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from commands import Maker

FIXTURES = Path(__file__).parents[2] / "fixtures"
FOLDERS = sorted((FIXTURES / "revisions").iterdir())

# What is called otherwise today than in the files: all that a new name has to change here. -------

#: Commands.
SETTINGS_COMMAND = "settings"
#: Keys of `shelf --as json`.
SHELF_KEYS = {"class": "thickness", "class_to": "thickness_to", "pair": "full_from"}
#: What is made, in `batch --as json`, and the one made thing, in `show ITEM 1`.
DESIGN, ITEM = "design", "item"
#: Where a need comes from, in `show ITEM 1 --as json`.
SOURCES = {"own article": "own items"}
#: Headings of a sheet, which `heading NAME` keeps as well.
HEADINGS = {"class": "thickness", "put_up": "full", "pair_from": "full_from"}
#: Settings; where two of before are one today, the later of these is kept.
SETTINGS = {
    "regain": "rules",
    "place": "rules",
    "room": "humidity",
    "class tolerance": "thickness tolerance",
    "fineness": "per 100g",
    "weight join": "ranking join",
    "weight class step": "ranking thickness step",
}
#: The contrast kept in these files: `soft` was any gap in lightness from 12 up, and is 12 to 25
#: today, so that a number says it now.
CONTRAST = "12"
#: What her units are today.
UNITS = {"yards": {"length": "yd", "size": "in"}, "metres": {"length": "m", "size": "cm"}}

# ------------------------------------------------------------------------------------------------

Answer = list[dict[str, Any]]

LOT_FACTS = ("yarn", "colour", "colours_hex", "lot", "lot_state", "class", "class_to", "fibre")
SKEIN_FACTS = ("number", "state", "pair", "place")
HELD = ("held_g", "held_m")
PROMISED = ("free_g", "free_m", "set_aside_g")

every_revision = pytest.mark.parametrize("folder", FOLDERS, ids=lambda f: f.name)
with_a_batch = pytest.mark.parametrize(
    "folder", [f for f in FOLDERS if (f / "saved_batch.json").exists()], ids=lambda f: f.name
)
SHEETS = [sheet for folder in FOLDERS for sheet in sorted(folder.glob("shelf.*"))]


def said(path: Path) -> Any:
    return json.loads(path.read_text("utf-8"))


def rows(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text)))


def rows_kept(folder: Path) -> dict[str, list[dict[str, Any]]]:
    tables: dict[str, list[dict[str, Any]]] = said(folder / "whole.json")["tables"]
    return tables


def old_file(folder: Path, path: Path) -> None:
    """The database that the program of `folder` had: its tables, and every row of its own."""
    with closing(sqlite3.connect(":memory:")) as dump, closing(sqlite3.connect(path)) as db:
        dump.executescript((FIXTURES / "schemas" / f"{folder.name}.sql").read_text("utf-8"))
        (mark,) = dump.execute("PRAGMA application_id").fetchone()
        made = dump.execute(
            "SELECT type, sql FROM sqlite_master WHERE sql NOT NULL AND name NOT LIKE 'sqlite_%'"
        ).fetchall()
        db.execute(f"PRAGMA application_id = {mark}")
        for sql in [sql for kind, sql in made if kind == "table"]:
            db.execute(sql)
        for table, kept in rows_kept(folder).items():
            for row in kept:
                marks = ", ".join("?" * len(row))
                db.execute(
                    f"INSERT INTO {table} ({', '.join(row)}) VALUES ({marks})", [*row.values()]
                )
        for sql in [sql for kind, sql in made if kind != "table"]:
            db.execute(sql)
        db.execute("INSERT INTO alembic_version VALUES (?)", [folder.name])
        db.commit()


@pytest.fixture
def old(nobody: Maker, folder: Path) -> Maker:
    """A maker who goes on with today's program on the file of before."""
    old_file(folder, nobody.file)
    return nobody


def of_before(shelf: Answer, *amounts: str) -> Answer:
    """What a program of before said of its shelf, under the keys that it had."""
    return picture(shelf, {} if "class" in shelf[0] else SHELF_KEYS, amounts)


def of_today(shelf: Answer, *amounts: str) -> Answer:
    return picture(shelf, SHELF_KEYS, amounts)


def picture(shelf: Answer, keys: dict[str, str], amounts: tuple[str, ...]) -> Answer:
    """Lots and their skeins with so many amounts, to the milligram and the micrometre."""
    lots = [
        {
            **{key: lot[keys.get(key, key)] for key in LOT_FACTS},
            **{key: round(lot[key] or 0, 6) for key in HELD},
            "skeins": sorted(
                (
                    {
                        **{key: skein[keys.get(key, key)] for key in SKEIN_FACTS},
                        **{key: round(skein[key] or 0, 6) for key in amounts},
                    }
                    for skein in lot["skeins"]
                ),
                key=lambda skein: skein["number"],
            ),
        }
        for lot in shelf
    ]
    return sorted(lots, key=lambda lot: lot["skeins"][0]["number"])


def settings_now(kept: dict[str, str]) -> dict[str, str]:
    """Settings of an old file, by name and value, as a file of today keeps them."""
    now = {}
    for name in sorted(kept, key=lambda name: [*SETTINGS].index(name) if name in SETTINGS else -1):
        value = kept[name]
        if name == "units":
            now |= UNITS[value]
        else:
            value = HEADINGS.get(value, value) if name.startswith("heading ") else value
            now[SETTINGS.get(name, name)] = CONTRAST if name == "contrast" else value
    return now


def whole_today(maker: Maker) -> dict[str, list[dict[str, Any]]]:
    """Every row of the file, as today's program gives it out."""
    target = maker.file.with_name("today.json")
    maker.does("export", str(target), "--over")
    tables: dict[str, list[dict[str, Any]]] = said(target)["tables"]
    return tables


def test_there_is_something_of_every_revision() -> None:
    dumps = sorted((FIXTURES / "schemas").glob("*.sql"))

    assert [folder.name for folder in FOLDERS] == [dump.stem for dump in dumps][: len(FOLDERS)]
    assert len(FOLDERS) >= 9


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda s: f"{s.parent.name}{s.suffix}")
def test_a_sheet_given_out_before_is_the_same_shelf(nobody: Maker, sheet: Path) -> None:
    nobody.does("import", str(sheet))

    before = said(sheet.parent / "answer_shelf.json")
    assert of_today(nobody.ask("shelf"), *HELD) == of_before(before, *HELD)


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda s: f"{s.parent.name}{s.suffix}")
def test_a_sheet_given_out_before_says_the_same_cell_by_cell(nobody: Maker, sheet: Path) -> None:
    """Costs among them, which stand nowhere else: `paid` is what the row says it is."""
    nobody.does("import", str(sheet))
    again = nobody.file.with_name("again.csv")
    nobody.does("export", str(again))

    before = rows(sheet.with_suffix(".csv").read_text("utf-8"))
    named = [{HEADINGS.get(name, name): cell for name, cell in row.items()} for row in before]
    today = rows(again.read_text("utf-8"))
    assert [{name: row[name] for name in named[0]} for row in today] == named


@every_revision
def test_a_whole_file_given_out_before_comes_in(nobody: Maker, folder: Path) -> None:
    nobody.does("import", str(folder / "whole.json"))

    before = said(folder / "answer_shelf.json")
    today = nobody.ask("shelf")
    assert of_today(today, *HELD, *PROMISED) == of_before(before, *HELD, *PROMISED)
    assert nobody.ask("check") == {"ok": True, "findings": []}


@every_revision
def test_an_old_database_is_the_same_shelf_after_its_upgrade(old: Maker, folder: Path) -> None:
    before = said(folder / "answer_shelf.json")
    today = old.ask("shelf")

    assert of_today(today, *HELD, *PROMISED) == of_before(before, *HELD, *PROMISED)
    assert old.ask("check") == {"ok": True, "findings": []}


@every_revision
def test_a_whole_file_and_an_upgraded_one_have_the_same_rows(
    old: Maker, folder: Path, tmp_path: Path
) -> None:
    """Two ways in, one outcome: whatever an upgrade names anew, taking in does as well."""
    other = Maker(tmp_path / "other" / "shelf.stash")
    other.file.parent.mkdir()
    other.does("import", str(folder / "whole.json"), "--file", str(other.file))
    given = tmp_path / "other.json"
    other.does("export", str(given), "--file", str(other.file))

    assert said(given)["tables"] == whole_today(old)


@every_revision
def test_settings_of_before_are_kept_under_todays_names(old: Maker, folder: Path) -> None:
    kept = {row["name"]: row["value"] for row in rows_kept(folder)["setting"]}

    today = {row["name"]: row["value"] for row in whole_today(old)["setting"]}
    assert today == settings_now(kept)
    shown = old.ask(SETTINGS_COMMAND)
    del shown["units"]  # which sums up three of them
    assert {name for name, value in shown.items() if value is not None} == today.keys()


@every_revision
def test_headings_she_named_before_are_still_known(old: Maker, tmp_path: Path) -> None:
    """The settings `heading NAME` name columns as they were called then."""
    sheet = tmp_path / "hers.csv"
    sheet.write_text("yarn,strength,band says\nSparrow,5,100g/120m\n")
    old.does("import", str(sheet))

    (lot,) = [lot for lot in old.ask("shelf") if lot["yarn"] == "Sparrow"]
    assert (lot[SHELF_KEYS["class"]], lot["held_g"], lot["held_m"]) == (5, 100, 120)


@every_revision
def test_what_an_old_entry_changed_can_be_taken_back(old: Maker, folder: Path) -> None:
    """Entries keep the names of what they changed, and those are called otherwise today."""
    facts = rows_kept(folder)["fact"]
    (thickness,) = [f for f in facts if f["name"] in ("class_from", "thickness_from")]
    (tolerance,) = [f for f in facts if f["ref"].endswith(" tolerance")]
    old.does("undo", str(thickness["entry_number"]))
    old.does("undo", str(tolerance["entry_number"]))

    lot_ref = f"L{thickness['ref']}"
    (lot,) = [lot for lot in old.ask("shelf") if lot["lot_ref"] == lot_ref]
    assert lot[SHELF_KEYS["class"]] == int(thickness["old"])
    assert old.ask(SETTINGS_COMMAND)[SETTINGS["class tolerance"]] is None
    assert old.ask("check") == {"ok": True, "findings": []}


@every_revision
def test_sentences_of_old_entries_stay_as_they_were_said(old: Maker, folder: Path) -> None:
    kept = {row["number"]: row["words"] for row in rows_kept(folder)["entry"]}

    today = {row["number"]: row["words"] for row in old.ask("log", "--all")}
    assert today.keys() == kept.keys()
    assert all(today.values())  # entries with facts in place of words are given words today
    assert {n: today[n] for n in kept if kept[n]} == {n: kept[n] for n in kept if kept[n]}


@every_revision
def test_entries_of_before_were_all_written_on_this_computer(old: Maker, folder: Path) -> None:
    kept = {row["number"]: row.get("device", "") for row in rows_kept(folder)["entry"]}
    assert {row["number"]: row["device"] for row in old.ask("log", "--all")} == kept


def item(said: dict[str, Any], sources: dict[str, str]) -> dict[str, Any]:
    """One made thing: its state, what was expected of it and why, what was used, and its sales."""
    of_movement = ("entry", "on", "skein", "kind", "change_g", "role", "estimated")
    of_sale = ("entry", "on", "kind", "price_coins", "fee_coins")
    return {
        "state": said["state"],
        "needs": {
            role: (
                need["expected_m"],
                need["set_aside_m"],
                sources.get(need["source"], need["source"]),
            )
            for role, need in said["roles"].items()
        },
        "movements": [[one[key] for key in of_movement] for one in said["movements"]],
        "sales": [[one[key] for key in of_sale] for one in said.get("sales", [])],
    }


@every_revision
@pytest.mark.parametrize("number", ["1", "4"], ids=["finished", "planned"])
def test_an_item_made_before_is_the_same_item(old: Maker, folder: Path, number: str) -> None:
    before = said(folder / f"answer_item_{number}.json")

    assert item(old.ask("show", ITEM, number), {}) == item(before, SOURCES)


@every_revision
def test_no_row_is_lost_or_made_up_by_an_upgrade(old: Maker, folder: Path) -> None:
    """Whatever the tables are called; settings may be cut finer and have a test of their own."""
    before, today = (
        sorted(
            sum(row.get("thing") != "setting" for row in rows)
            for table, rows in tables.items()
            if rows and table != "setting"
        )
        for tables in (rows_kept(folder), whole_today(old))
    )
    assert today == before


@with_a_batch
def test_a_batch_saved_before_can_be_set_aside(old: Maker, folder: Path) -> None:
    saved = said(folder / "saved_batch.json")
    free = {s["number"]: s["free_m"] for lot in old.ask("shelf") for s in lot["skeins"]}
    old.does("batch", "--aside", str(folder / "saved_batch.json"))

    left = {s["number"]: s["free_m"] for lot in old.ask("shelf") for s in lot["skeins"]}
    taken: dict[int, float] = {}
    for cut in saved["cuts"]:
        taken[cut["skein"]] = taken.get(cut["skein"], 0) + cut["take_um"] / 1e6
    assert taken
    for number, metres in taken.items():
        # grams are booked whole milligrams, which are a few millimetres of yarn
        assert free[number] - left[number] == pytest.approx(metres, abs=0.01)
    assert old.ask("check") == {"ok": True, "findings": []}


def made(answer: dict[str, Any], design: str) -> list[tuple[Any, ...]]:
    """What a batch makes, and of which lots, in any order."""
    lines = [
        (line[design], line["size"], line["count"], {r: of["lot_ref"] for r, of in roles.items()})
        for line in answer["made"]
        if (roles := line["roles"])
    ]
    return sorted(lines, key=repr)


@with_a_batch
@pytest.mark.parametrize("kind", ["toml", "csv"])
def test_a_plan_of_before_plans_the_same(old: Maker, folder: Path, kind: str) -> None:
    before = said(folder / f"answer_plan_{kind}.json")
    assert CONTRAST in old.does("settings", "contrast").out.split()
    today = old.ask("batch", str(folder / f"plan.{kind}"))

    assert today["unmet"] == before["unmet"] == []
    assert today["objective"] == before["objective"]
    aims = [aim.get("objective", aim.get("value")) for aim in before["aims"]]
    assert [aim["value"] for aim in today["aims"]] == aims
    assert made(today, DESIGN) == made(before, "piece" if "piece" in before["made"][0] else DESIGN)
