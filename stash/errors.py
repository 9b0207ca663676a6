"""Everything that can go wrong, as one tree; each kind carries its exit status.

::

    StashError
    ├── BadInput            2   words or rows that cannot be read
    │   ├── Unreadable          one text, what is wrong with it
    │   ├── Ambiguous           one text, its two readings
    │   ├── BadSheet            a sheet with findings, row by row
    │   └── BadPlan             lines of a batch's plan that cannot be read
    ├── NotFound            3   no such thing; the nearest names are given
    ├── Refusal             4   understood, refused by the rules
    │   ├── Undecided           more than one way to go on, each with what to type
    │   ├── NotEnoughYarn       more was asked than a skein has
    │   └── InTheWay            an entry cannot be taken back: later ones rest on it
    └── FileTrouble         5
        ├── Damaged             the file is a stash and cannot be read
        ├── NotAStash           the file is something else
        └── NewerFile           the file was written by a newer program

An error keeps its facts as attributes and makes its one line from them. All of them survive being
pickled, because `StashError.__reduce__` rebuilds them from those facts.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from stash.measures.mass import Mass


class StashError(Exception):
    """The root of the family; `facts` are what it was made from, in order."""

    exit_status = 1

    def __init__(self, *facts: Any) -> None:
        self.facts = facts
        super().__init__(self._sentence(*facts))

    def _sentence(self, *facts: Any) -> str:
        """The one line a person reads."""
        return str(facts[0])

    def __reduce__(self) -> tuple[type[StashError], tuple[Any, ...]]:
        return type(self), self.facts


class BadInput(StashError):
    """Words or rows that cannot be read; `field` is the column, where one is known."""

    exit_status = 2
    field = ""


class Unreadable(BadInput):
    """A text that is not what was asked for: `Unreadable(text, wanted, way_out)`."""

    def _sentence(self, text: str, wanted: str, way_out: str) -> str:
        self.text, self.wanted, self.way_out = text, wanted, way_out
        return f"cannot read {text!r} as {wanted}: {way_out}"


class Ambiguous(BadInput):
    """A text with more than one meaning: `Ambiguous(text, readings)`, readings as to type them."""

    def _sentence(self, text: str, readings: Sequence[str]) -> str:
        self.text, self.readings = text, tuple(readings)
        told = " or ".join(" ".join(reading.split()) for reading in self.readings)
        return f"{text!r} can mean more than one thing: write {told}"


class BadSheet(BadInput):
    """A sheet that was not taken in: `BadSheet(name, lines)`; `lines` tells each finding."""

    def _sentence(self, name: str, lines: Sequence[str]) -> str:
        self.name, self.lines = name, tuple(lines)
        rows = "1 row" if len(self.lines) == 1 else f"{len(self.lines)} rows"
        return (
            f"{name}: nothing was taken in, {rows} cannot be read; "
            "mend them, or take the others with --good-rows"
        )


class BadPlan(BadInput):
    """Lines of a plan that cannot be read: `BadPlan(name, lines)`; each line says where."""

    def _sentence(self, name: str, lines: Sequence[str]) -> str:
        self.name, self.lines = name, tuple(lines)
        return f"{name}: {'; '.join(self.lines)}"


#: Which command shows the things of a kind; the first that fits.
_SHOWN_BY = (
    ("article", "stash shelf --aside"),
    ("piece", "stash piece list"),
    ("entry", "stash log"),
    ("yarn", "stash shelf"),
    ("lot", "stash shelf"),
    ("skein", "stash shelf"),
)


class NotFound(StashError):
    """No such thing: `NotFound(kind, asked, nearest)`."""

    exit_status = 3

    def _sentence(self, kind: str, asked: str, nearest: Sequence[str] = ()) -> str:
        self.kind, self.asked, self.nearest = kind, asked, tuple(nearest)
        shown = next((f"; `{c}` shows what there is" for k, c in _SHOWN_BY if k in kind), "")
        hint = f"; nearest: {', '.join(self.nearest)}" if self.nearest else shown
        return f"no {kind} {asked!r}{hint}"


class Refusal(StashError):
    """Understood, and refused by the rules: `Refusal(line)`."""

    exit_status = 4


class Undecided(Refusal):
    """More than one way to go on: `Undecided(what, ways)`, each way its words and what to type."""

    def _sentence(self, what: str, ways: Sequence[tuple[str, str]]) -> str:
        self.what, self.ways = what, tuple(ways)
        told = "; ".join(f"{words}: {typed}" for words, typed in self.ways)
        return f"{what}: {told}"


class NotEnoughYarn(Refusal):
    """More was asked of a skein than it has free: `NotEnoughYarn(skein, asked, free, hint)`."""

    def _sentence(self, skein: int, asked: Mass, free: Mass, hint: str = "") -> str:
        self.skein, self.asked, self.free = skein, asked, free
        tail = f"; {hint}" if hint else ""
        return f"skein {skein}: {asked} asked for, {free} free{tail}"


class InTheWay(Refusal):
    """An entry that later ones rest on: `InTheWay(entry, later, why)`."""

    def _sentence(self, entry: int, later: Sequence[int], why: str) -> str:
        self.entry, self.later, self.why = entry, tuple(later), why
        way = (
            f"; take back {', '.join(str(n) for n in self.later)} first, newest first"
            if self.later
            else ""
        )
        return f"entry {entry} cannot be taken back: {why}{way}"


class FileTrouble(StashError):
    """The file cannot be used: `FileTrouble(path, why)`."""

    exit_status = 5

    def _sentence(self, path: Path | str, why: str) -> str:
        self.path, self.why = path, why
        return f"{path}: {why}"


class Damaged(FileTrouble):
    """The file is a stash that cannot be read any more: `Damaged(path)`."""

    def _sentence(self, path: Path | str, why: str = "") -> str:
        self.path = path
        return f"{path}: the file is damaged; go back to a copy with `stash restore`"


class NotAStash(FileTrouble):
    """The file is something else: `NotAStash(path)`."""

    def _sentence(self, path: Path | str, why: str = "") -> str:
        self.path = path
        return f"{path} is not a stash file; name another with --file, or a new path to begin one"


class NewerFile(FileTrouble):
    """Written by a newer program: `NewerFile(path, revision)`."""

    def _sentence(self, path: Path | str, revision: str) -> str:
        self.path, self.revision = path, revision
        return (
            f"{path} was written by a newer version of stash (revision {revision}); "
            "nothing was touched: install the newer version"
        )
