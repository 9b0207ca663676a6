"""The program as a maker or a script uses it: words in, an exit status and two texts out."""

from __future__ import annotations

import csv
import io
import json
import os
import pty
import select
import shutil
import sqlite3
import subprocess
import sys
import time
from collections.abc import Sequence
from contextlib import closing, redirect_stderr, redirect_stdout
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from unittest.mock import patch

from stash.cli import run

#: An invented shelf: numbered lots, an unknown one, a part ball, a weight alone, a length alone.
SHELF = (
    "Fell Wool DK, 3 x 50g/120m, navy, lot 48213",  # 1-3, L1
    "Hedgebell DK 50g/120m, oatmeal, lot 9, 40g left",  # 4, L2
    "Loamy aran 100g/180m, plum, lot 4",  # 5, L3
    "Marlpit DK 50g, white",  # 6, L4
    "Hedgebell DK, 2 x 50g/120m, teal",  # 7-8, L5
    "Skerry DK 300m, grey",  # 9, L6
)


class Terminal(io.StringIO):
    """A person's terminal that keeps what it was shown."""

    def isatty(self) -> bool:
        return True


@dataclass(frozen=True, slots=True)
class Said:
    """What a command answered."""

    status: int
    out: str
    err: str

    @property
    def json(self) -> Any:
        return json.loads(self.out)

    @property
    def rows(self) -> list[dict[str, str]]:
        return list(csv.DictReader(io.StringIO(self.out)))


@dataclass(frozen=True, slots=True)
class Maker:
    """Somebody at a shelf: `maker("weigh", "1", "43g")` types a command about her file."""

    file: Path

    def __call__(self, *words: str) -> Said:
        out, err = io.StringIO(), io.StringIO()
        argv = ["stash", *words]
        with patch.object(sys, "argv", argv), redirect_stdout(out), redirect_stderr(err):
            try:
                run()
            except SystemExit as left:
                status = int(left.code or 0)
        return Said(status, out.getvalue(), err.getvalue())

    def does(self, *words: str) -> Said:
        """A command that must go well."""
        said = self(*words)
        assert said.status == 0, said.err
        return said

    def ask(self, *words: str) -> Any:
        """A question answered as json, which stands alone on standard output."""
        return self.does(*words, "--as", "json").json

    def skein(self, number: int) -> dict[str, Any]:
        found: dict[str, Any] = self.ask("show", str(number))
        return found

    def entries(self) -> int:
        with closing(sqlite3.connect(self.file)) as db:
            count: int = db.execute("SELECT count(*) FROM entry").fetchone()[0]
            return count

    def copy_of(self, other: Path) -> Maker:
        shutil.copyfile(other, self.file)
        return self


def refused_in_one_line(said: Said, status: int, *words: str) -> None:
    """One line for a person, its way out in it, and nothing for a script to mistake."""
    assert said.status == status, said.err
    assert said.out == ""
    assert said.err.startswith("stash: ")
    assert said.err.count("\n") == 1
    for word in words:
        assert word in said.err


def tables(value: Any, skip: Sequence[str] = ()) -> Any:
    """A json answer without the keys named, however deep."""
    if isinstance(value, dict):
        return {k: tables(v, skip) for k, v in value.items() if k not in skip}
    return [tables(v, skip) for v in value] if isinstance(value, list) else value


#: Kinds of values in a json answer, as the keys promise them.
NUMBER = (int, float)
WORDS = (str,)
NONE = type(None)


def keeps_its_keys(value: dict[str, Any], promised: dict[str, tuple[type, ...]]) -> None:
    """Every promised key is there with a value of a promised kind."""
    assert promised.keys() <= value.keys()
    wrong = {k: value[k] for k, kinds in promised.items() if not _of_kind(value[k], kinds)}
    assert wrong == {}


def _of_kind(value: Any, kinds: tuple[type, ...]) -> bool:
    return isinstance(value, kinds) and (bool in kinds or not isinstance(value, bool))


#: No command takes longer at a terminal.
_LIMIT_S = 60


def at_a_terminal(file: Path, keys: str, *words: str, asked: str = "which one") -> tuple[int, str]:
    """A command with a terminal on every side, and keys typed when it asks: status and screen."""
    above, below = pty.openpty()
    process = subprocess.Popen(
        [sys.executable, "-c", "from stash.cli import run; run()", *words],
        stdin=below, stdout=below, stderr=below, close_fds=True,
        env={**os.environ, "STASH_FILE": str(file), "NO_COLOR": "1"},
    )  # fmt: skip
    os.close(below)
    screen, typed, end = "", 0, time.monotonic() + _LIMIT_S
    while time.monotonic() < end:
        ready, _, _ = select.select([above], [], [], 0.2)
        if ready:
            try:
                screen += os.read(above, 4096).decode()
            except OSError:  # the other side is closed
                break
        if screen.count(asked) > typed and typed < len(keys):
            os.write(above, f"{keys[typed]}\n".encode() if keys[typed] != "-" else b"\n")
            typed += 1
    os.close(above)
    return process.wait(timeout=_LIMIT_S), screen
