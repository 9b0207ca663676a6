"""Files broken, or made to hurt: one line, bounded in time and memory, nothing taken in."""

from __future__ import annotations

import io
import json
import resource
import time
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from commands import Maker, refused_in_one_line
from openpyxl import Workbook

#: Seconds that a file which is refused may take, on a busy machine.
BRIEF = 20.0
_HEAD = "yarn,put_up,colour\n"


def workbook(fill: Callable[[Any], object]) -> bytes:
    book = Workbook()
    sheet = book.active
    sheet.append(["yarn", "put up", "colour"])
    sheet.append(["Dunmarle", "50g/100m", "navy"])
    fill(sheet)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def bomb(letters: int) -> bytes:
    """A workbook of a few hundred kB with one cell of so many letters."""
    small, out = io.BytesIO(workbook(lambda _: None)), io.BytesIO()
    with zipfile.ZipFile(small) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        for part in old.namelist():
            data = old.read(part)
            if part == "xl/worksheets/sheet1.xml":
                cell = (
                    f'<c r="D2" t="inlineStr"><is><t>{"a" * letters}</t></is></c></row></sheetData>'
                )
                data = data.replace(b"</row></sheetData>", cell.encode())
            new.writestr(part, data)
    return out.getvalue()


SHEETS = {
    "cell.csv": (_HEAD + f"{'a' * 131_073},50g/100m,navy\n").encode(),
    "quoted.csv": (_HEAD + f'"{"a, " * 60_000}",50g/100m,navy\n').encode(),
    "heading.csv": f"{'a' * 131_073},put_up\nA,50g\n".encode(),
    "digits.csv": (_HEAD + f"A,{'9' * 90_000}g/100m,navy\n").encode(),
    "spaces.csv": (_HEAD + f"A,{'1 000 ' * 15_000},navy\n").encode(),
    "wide.csv": (_HEAD + f"A,50g/100m{',x' * 2_000}\n").encode(),
    "bom-soup.csv": b"\xef\xbb\xbf" * 40_000,
    "bomb.xlsx": bomb(80_000_000),
    "entities.xlsx": b"PK\x03\x04" + b"\x00" * 400,
}


@pytest.mark.parametrize("name", SHEETS)
def test_a_sheet_larger_than_any_is_refused_in_one_line(
    nobody: Maker, tmp_path: Path, name: str
) -> None:
    (tmp_path / name).write_bytes(SHEETS[name])

    begun = time.monotonic()
    said = nobody("import", str(tmp_path / name))

    assert time.monotonic() - begun < BRIEF
    assert said.status in (2, 5)
    assert all(len(line) < 1_000 for line in said.err.splitlines())
    assert "Traceback" not in said.err
    assert not nobody.file.exists()


@pytest.mark.parametrize(
    "merged", ["C2:C1048576", "A2:XFD2", "A2:C1048576", "C2:XFD1048576"], ids=str
)
def test_a_range_merged_to_the_end_of_the_sheet_ends_with_its_rows(
    nobody: Maker, tmp_path: Path, merged: str
) -> None:
    def fill(sheet: Any) -> None:
        sheet.append(["Tansel", "50g/100m", None])
        # written by itself: openpyxl would make a cell of every place of it
        sheet.merged_cells.add(merged)

    (tmp_path / "merged.xlsx").write_bytes(workbook(fill))
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss

    begun = time.monotonic()
    nobody("import", str(tmp_path / "merged.xlsx"))

    assert time.monotonic() - begun < BRIEF
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < 300_000  # kB


def test_merged_cells_are_filled_in_all_their_rows(nobody: Maker, tmp_path: Path) -> None:
    def fill(sheet: Any) -> None:
        sheet.append(["Tansel", "50g/100m", None])
        sheet.merge_cells("C2:C3")

    (tmp_path / "merged.xlsx").write_bytes(workbook(fill))
    nobody.does("import", str(tmp_path / "merged.xlsx"))

    assert {lot["colour"] for lot in nobody.ask("shelf")} == {"navy"}


def given_out(maker: Maker, folder: Path) -> dict[str, Any]:
    maker.does("export", str(folder / "all.json"))
    found: dict[str, Any] = json.loads((folder / "all.json").read_text())
    return found


def put(table: str, column: str, value: object) -> Callable[[dict[str, Any]], None]:
    def change(tables: dict[str, Any]) -> None:
        tables[table][0][column] = value

    return change


def setting(name: str, value: str) -> Callable[[dict[str, Any]], None]:
    return lambda tables: tables["setting"].append({"name": name, "value": value})


def band(**said: object) -> Callable[[dict[str, Any]], None]:
    def change(tables: dict[str, Any]) -> None:
        plan = json.loads(tables["design"][0]["plan"])
        plan["bands"] = [{"role": "B", "place": "bottom", **said}]
        tables["design"][0]["plan"] = json.dumps(plan)

    return change


BROKEN: dict[str, Callable[[dict[str, Any]], None]] = {
    "a colour that is none": put("lot", "colours_hex", "zz"),
    "a colour with a sign": put("lot", "colours_hex", "#12345g"),
    "a condition that is none": put("lot", "conditions", "haunted"),
    "an empty plan": put("design", "plan", "{}"),
    "a plan that is a list": put("design", "plan", "[]"),
    "a plan of brackets": put("design", "plan", "[" * 90_000),
    "a plan without end": put("design", "plan", '{"name": 1e400}'),
    "a band of two widths": band(extent={"rows": 4, "um": 30000}),
    "a band with a word of no program": band(extent={"rows": 4}, lace=True),
    "a margin without end": setting("margin", "1e400"),
    "a margin that is no number": setting("margin", "nan"),
    "a wage that is a word": setting("wage", "much"),
    "a negative wage": setting("wage", "-5"),
    "a weight without end": setting("ranking join", "inf"),
    "a room of one end": setting("humidity", "0.5"),
    "a valuation of no kind": setting("valuation", "hope"),
    "a size of odd words": setting("size mine", "around"),
    "hours in words": setting("hours hat", "three"),
    "a day that does not exist": put("entry", "on_day", "2024-02-31"),
    "a day in words": put("skein", "bought_on", "Tuesday"),
    "an instant that is none": put("entry", "at_utc", "then"),
    "a number over 2^63": put("movement", "change_mg", 2**63),
    "a number near 2^63": put("movement", "change_mg", 2**63 - 1),
    "a price below nothing": put("skein", "paid_coins", -5),
    "a price over 2^63": put("skein", "paid_coins", 10**30),
    "a number that is text": put("movement", "change_mg", "many"),
    "a column there is not": put("lot", "shade", "x"),
    "a full skein of nothing": put("lot", "full_um", 0),
    "a yarn without a name": put("yarn", "name", "  "),
    "a state there is not": put("lot", "lot_state", "hoped"),
    "a row that is a word": lambda tables: tables["lot"].append("x"),
    "a table that is a word": lambda tables: tables.update(lot="x"),
}


@pytest.mark.parametrize("broken", BROKEN.values(), ids=[*BROKEN])
def test_a_whole_file_that_cannot_be_read_is_refused_whole(
    maker: Maker, tmp_path: Path, broken: Callable[[dict[str, Any]], None]
) -> None:
    given = given_out(maker, tmp_path)
    broken(given["tables"])
    (tmp_path / "broken.json").write_text(json.dumps(given))
    new = tmp_path / "new.stash"

    said = maker("import", str(tmp_path / "broken.json"), "--file", str(new))

    assert said.status in (2, 5), said.err
    assert len(said.err.splitlines()) == 1
    assert "Traceback" not in said.err
    assert not new.exists()


def test_the_whole_file_unbroken_comes_in(maker: Maker, tmp_path: Path) -> None:
    given_out(maker, tmp_path)
    new = ("--file", str(tmp_path / "new.stash"))

    maker.does("import", str(tmp_path / "all.json"), *new)

    assert maker.does("check", *new).status == 0


def test_orders_to_a_terminal_in_a_whole_file_are_left_out(maker: Maker, tmp_path: Path) -> None:
    given = given_out(maker, tmp_path)
    given["tables"]["yarn"][0]["name"] = "Fell\x1b[2J\x9b\u202eWool"
    (tmp_path / "orders.json").write_text(json.dumps(given))
    new = ("--file", str(tmp_path / "new.stash"))

    maker.does("import", str(tmp_path / "orders.json"), *new)

    assert maker.ask("shelf", *new)[0]["yarn"].endswith("Fell[2JWool")


PLANS = {
    "deep.toml": b"want = " + b"[" * 5_000,
    "deep-table.toml": b"limits = " + b"{a=" * 5_000,
    "many.toml": b"[[want]]\npiece = 'hat'\nat_least = " + b"1" + b"0" * 30 + b"\n",
    "digits.toml": b"[[want]]\npiece = 'hat'\nat_least = " + b"9" * 10_000 + b"\n",
    "hours.toml": b"[[want]]\npiece = 'hat'\n[limits]\nhours = 1e400\n",
    "cell.csv": b"design,at_least\n" + b"a" * 131_073 + b",2\n",
    "heading.csv": b"a" * 131_073 + b",design\n",
    "many.csv": b"design,at_least\nhat," + b"9" * 40 + b"\n",
    "long.toml": b"#" * 1_000_001,
}


@pytest.mark.parametrize("name", PLANS)
def test_a_plan_made_to_hurt_is_refused_in_one_line(
    maker: Maker, tmp_path: Path, name: str
) -> None:
    (tmp_path / name).write_bytes(PLANS[name])

    begun = time.monotonic()
    refused_in_one_line(maker("batch", str(tmp_path / name)), 2, name)

    assert time.monotonic() - begun < BRIEF


@pytest.mark.parametrize("data", [b"[" * 100_000, b'{"kind": 1e999}', b"9" * 10_000])
def test_a_saved_batch_made_to_hurt_is_refused(maker: Maker, tmp_path: Path, data: bytes) -> None:
    (tmp_path / "saved.json").write_bytes(data)

    said = maker("batch", "--aside", str(tmp_path / "saved.json"))

    assert said.status == 2, said.err
    assert "Traceback" not in said.err


NASTY = "x\x1b]0;o\x07y\x9bz\u202ea\u2066b\u200fc\u2028d"


def test_letters_that_are_orders_never_reach_an_answer(nobody: Maker, tmp_path: Path) -> None:
    rows = f'yarn,put_up,colour,note\n"{NASTY}",50g/100m,"{NASTY}","{NASTY}"\n'
    (tmp_path / "nasty.csv").write_text(rows)
    nobody.does("import", str(tmp_path / "nasty.csv"))
    nobody.does("change", "1", "--place", NASTY, "--note", NASTY)
    nobody.does("export", str(tmp_path / "out.csv"))

    shown = [(tmp_path / "out.csv").read_text()]
    for words in (("shelf",), ("show", "1"), ("log",)):
        for how in ("text", "csv", "json"):
            said = nobody.does(*words, "--as", how)
            shown += [said.out, said.err]

    assert not set("\x1b\x07\x9b\u202e\u2066\u200f\u2028") & set("".join(shown))


def test_a_csv_answer_holds_no_formula(nobody: Maker) -> None:
    nobody.does("add", "Larkspur 50g/100m navy", "--place", "=1+1")

    assert nobody.does("shelf", "--as", "csv").rows[0]["place"] == "'=1+1"
