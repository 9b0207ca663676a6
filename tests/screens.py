"""Sessions kept as files: what was typed on a shelf, and every letter that was answered.

A line of a session begins with `$` (typed), `@` (a file that lies there from now on, its name),
`|` (standard output, or a line of that file), `!` (standard error) or `=` (an exit status other
than 0). Run as a program, it writes the answers of today into the sessions.
"""

from __future__ import annotations

import json
import os
import shlex
import tempfile
from collections.abc import Iterable, Iterator
from contextlib import chdir, contextmanager
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import Any
from unittest.mock import patch

from commands import Maker, Said

from stash.actions import clock

SESSIONS = Path(__file__).resolve().parent.parent / "fixtures" / "screens"
#: The day on which every session takes place.
DAY = date(2026, 6, 1)
QUIET = {"NO_COLOR": "1", "COLUMNS": "100", "STASH_FILE": "shelf.stash"}


@dataclass
class Step:
    """One command with its answer, or a file with its lines."""

    head: str
    out: list[str] = field(default_factory=list)
    err: list[str] = field(default_factory=list)
    status: int = 0

    @property
    def is_file(self) -> bool:
        return self.head.startswith("@")

    @property
    def words(self) -> list[str]:
        return shlex.split(self.head[1:])

    @property
    def json(self) -> Any:
        """The answer as json, None where it is for people."""
        asked = "--as json" in self.head and self.status == 0
        return json.loads("\n".join(self.out)) if asked else None


def read(session: Path) -> list[Step]:
    steps: list[Step] = []
    for line in session.read_text("utf-8").split("\n"):
        mark, rest = line[:1], line[2:]
        if mark in ("$", "@"):
            steps.append(Step(line))
        elif mark == "|":
            steps[-1].out.append(rest)
        elif mark == "!":
            steps[-1].err.append(rest)
        elif mark == "=":
            steps[-1].status = int(rest)
    return steps


def replayed(steps: Iterable[Step]) -> Iterator[Step]:
    """Each step with what is answered now, on a new shelf in a folder of its own."""
    with tempfile.TemporaryDirectory() as folder, chdir(folder), patch.dict(os.environ, QUIET):
        maker = Maker(Path("shelf.stash"))
        for step in steps:
            if step.is_file:
                Path(step.words[0]).write_text("\n".join(step.out) + "\n", "utf-8")
                yield step
            else:
                yield _answered(step, maker(*step.words[1:]))


def _answered(step: Step, said: Said) -> Step:
    out = said.out
    if "--as json" in step.head and said.status == 0:
        out = json.dumps(json.loads(out), ensure_ascii=False)
    return Step(step.head, _lines(out), _lines(said.err), said.status)


def _lines(text: str) -> list[str]:
    return text.removesuffix("\n").split("\n") if text else []


@contextmanager
def on_the_day() -> Iterator[None]:
    """The clock stands still at noon of the day."""
    noon = f"{DAY}T12:00:00.000+00:00"
    with patch.multiple(clock, today=lambda: DAY, now_utc=lambda: noon):
        yield


def holds(kept: Any, now: Any) -> bool:
    """Whether json lost or changed nothing: keys may come, none may go."""
    if isinstance(kept, dict) and isinstance(now, dict):
        return all(key in now and holds(kept[key], now[key]) for key in kept)
    if isinstance(kept, list) and isinstance(now, list):
        return len(kept) == len(now) and all(map(holds, kept, now))
    return bool(kept == now)


def written(steps: Iterable[Step]) -> str:
    lines: list[str] = []
    for step in steps:
        lines += [step.head, *(f"| {line}" if line else "|" for line in step.out)]
        lines += [f"! {line}" for line in step.err]
        lines += [f"= {step.status}"] if step.status else []
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    with on_the_day():
        for session in sorted(SESSIONS.glob("*.txt")):
            session.write_text(written(replayed(read(session))), "utf-8")
