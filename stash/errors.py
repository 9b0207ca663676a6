"""Everything that can go wrong, as one tree; each kind carries its exit status.

::

    StashError
    ├── BadInput            2   words or rows that cannot be read
    │   ├── Unreadable          one text, and what it was to be
    │   ├── Ambiguous           one text, its two readings
    │   ├── BadSheet            a sheet with findings, row by row
    │   ├── BadRows             rows of a list of which nothing was booked
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

An error has a kind and facts, and no sentence: `stash.rendering.sentences` finds the words. All of
them survive being pickled.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from stash.measures.mass import Mass
    from stash.measures.note import Note


class StashError(Exception):
    """The root of the family: `kind` says what is wrong, `facts` of what, by name."""

    exit_status = 1
    kind: str
    facts: dict[str, Any]

    def __init__(self, kind: str, /, **facts: Any) -> None:
        self.kind, self.facts = kind, facts
        super().__init__(kind)

    def __str__(self) -> str:
        facts = "".join(f", {name}={value!r}" for name, value in self.facts.items())
        return f"{self.kind}{facts}"

    def __reduce__(self) -> tuple[Any, ...]:
        return _remade, (type(self), self.kind, self.facts, self.__dict__)


def _remade(
    cls: type[StashError], kind: str, facts: dict[str, Any], more: dict[str, Any]
) -> StashError:
    error = cls.__new__(cls, kind)
    StashError.__init__(error, kind, **facts)
    error.__dict__.update(more)
    return error


class BadInput(StashError):
    """Words or rows that cannot be read; `field` is the column, where one is known."""

    exit_status = 2
    field = ""


class Unreadable(BadInput):
    """A text that is not what was asked for: `kind` is what it was to be, and what is wrong."""

    def __init__(self, text: str, kind: str, /, **facts: Any) -> None:
        super().__init__(kind, **facts)
        self.text = text


class Ambiguous(BadInput):
    """A text with more than one meaning: `Ambiguous(text, readings)`, readings as to type them.

    `shown` says what each reading is, where that is more than what is to be typed.
    """

    def __init__(self, text: str, readings: Sequence[str], shown: Sequence[Note] = ()) -> None:
        super().__init__("ambiguous", text=text, readings=tuple(readings), shown=tuple(shown))
        self.text, self.readings, self.shown = text, tuple(readings), tuple(shown)


class BadSheet(BadInput):
    """A sheet that was not taken in: `BadSheet(name, findings)`, one for each row."""

    def __init__(self, name: str, findings: Sequence[object]) -> None:
        super().__init__("bad_sheet", name=name, findings=tuple(findings))
        self.name, self.findings = name, tuple(findings)


class BadRows(BadInput):
    """A list of which nothing was booked: `BadRows(name, problems)`, each a line and what is wrong
    with it."""

    def __init__(self, name: str, problems: Sequence[tuple[int, StashError]]) -> None:
        super().__init__("bad_rows", name=name, count=len(problems))
        self.name, self.problems = name, tuple(problems)


class BadPlan(BadInput):
    """Lines of a plan that cannot be read: `BadPlan(name, findings)`; each note says where."""

    def __init__(self, name: str, findings: Sequence[Note]) -> None:
        super().__init__("bad_plan", name=name, findings=tuple(findings))
        self.name, self.findings = name, tuple(findings)


class NotFound(StashError):
    """No such thing: `NotFound(kind, asked, nearest)`, and what more there is to say of it."""

    exit_status = 3

    def __init__(
        self, kind: str, asked: str, nearest: Sequence[str | Note] = (), /, **facts: Any
    ) -> None:
        super().__init__(kind, asked=asked, nearest=tuple(nearest), **facts)
        self.asked, self.nearest = asked, tuple(nearest)


class Refusal(StashError):
    """Understood, and refused by the rules: `Refusal(kind, **facts)`."""

    exit_status = 4


class Undecided(Refusal):
    """More than one way to go on: `Undecided(what, ways)`, each way its words and what to type."""

    def __init__(self, what: str | Note, ways: Sequence[tuple[str | Note, str | Note]]) -> None:
        super().__init__("undecided", what=what, ways=tuple(ways))
        self.what, self.ways = what, tuple(ways)


class NotEnoughYarn(Refusal):
    """More was asked of a skein than it has free: `NotEnoughYarn(skein, asked, free, hint)`."""

    def __init__(self, skein: int, asked: Mass, free: Mass, hint: str | Note = "") -> None:
        super().__init__("not_enough_yarn", skein=skein, asked=asked, free=free, hint=hint)
        self.skein, self.asked, self.free = skein, asked, free


class InTheWay(Refusal):
    """An entry that later ones rest on: `InTheWay(entry, later, why)`."""

    def __init__(self, entry: int, later: Sequence[int], why: str | Note) -> None:
        super().__init__("in_the_way", entry=entry, later=tuple(later), why=why)
        self.entry, self.later, self.why = entry, tuple(later), why


class FileTrouble(StashError):
    """The file cannot be used: `FileTrouble(path, kind, **facts)`."""

    exit_status = 5

    def __init__(self, path: Path | str, kind: str = "", /, **facts: Any) -> None:
        super().__init__(kind, **facts)
        self.path = path


class Damaged(FileTrouble):
    """The file is a stash that cannot be read any more: `Damaged(path)`."""

    def __init__(self, path: Path | str) -> None:
        super().__init__(path, "damaged")


class NotAStash(FileTrouble):
    """The file is something else: `NotAStash(path)`."""

    def __init__(self, path: Path | str) -> None:
        super().__init__(path, "not_a_stash")


class NewerFile(FileTrouble):
    """Written by a newer program: `NewerFile(path, revision)`."""

    def __init__(self, path: Path | str, revision: str) -> None:
        super().__init__(path, "newer_file", revision=revision)
        self.revision = revision
