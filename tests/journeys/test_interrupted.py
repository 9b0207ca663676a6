"""A process killed in the middle of an import leaves a sound file that holds nothing of it."""

from __future__ import annotations

import signal
import subprocess
import sys
from pathlib import Path

import pytest
from commands import Maker

TOP = Path(__file__).resolve().parents[2]
#: Runs the real command and kills its own process, without notice, at the place named.
KILLED = """
import os, signal, sys
import stash.{module} as where
def killed(*given, **more):
    kept(*given, **more)
    os.kill(os.getpid(), signal.SIGKILL)
kept = where.{name}
where.{name} = killed
from stash.cli import run
run()
"""


def killed_import(sheet: Path, file: Path, module: str, name: str) -> int:
    return subprocess.run(
        [sys.executable, "-c", KILLED.format(module=module, name=name), "import", str(sheet)],
        env={"PYTHONPATH": str(TOP), "STASH_FILE": str(file)},
        capture_output=True,
        check=False,
    ).returncode


@pytest.fixture
def sheet(tmp_path: Path) -> Path:
    sheet = tmp_path / "many.csv"
    rows = "".join(f"Skerry {i},50g/120m,3\n" for i in range(200))
    sheet.write_text(f"yarn,put_up,count\n{rows}")
    return sheet


#: After the first movements; after the entry's own line, just before all of it is kept.
PLACES = [("store.entry_rows", "add_movements"), ("store.entry_rows", "add_entry")]


@pytest.mark.parametrize(("module", "name"), PLACES, ids=[name for _, name in PLACES])
def test_nothing_of_an_import_that_was_killed_is_there(
    maker: Maker, sheet: Path, module: str, name: str
) -> None:
    before = maker.ask("shelf")

    assert killed_import(sheet, maker.file, module, name) == -signal.SIGKILL

    assert maker.ask("check") == {"ok": True, "findings": []}
    assert maker.ask("shelf") == before
    assert maker.entries() == 8
    assert "600 skeins" in maker.does("import", str(sheet)).out


def test_a_first_import_that_was_killed_can_be_done_again(nobody: Maker, sheet: Path) -> None:
    assert killed_import(sheet, nobody.file, "store.entry_rows", "add_entry") == -signal.SIGKILL

    assert "600 skeins" in nobody.does("import", str(sheet)).out
    assert nobody.ask("check")["ok"]


def test_a_file_that_was_killed_while_it_was_made_is_begun_again(
    nobody: Maker, sheet: Path
) -> None:
    assert killed_import(sheet, nobody.file, "store.guards", "remake") == -signal.SIGKILL

    assert "600 skeins" in nobody.does("import", str(sheet)).out
    assert nobody.ask("check")["ok"]
