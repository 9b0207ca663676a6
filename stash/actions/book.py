"""The open book: one stash file, read in one view or written in one numbered entry."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path

from stash.actions import clock
from stash.actions.her_settings import Settings
from stash.errors import Refusal, StashError
from stash.measures.mass import Mass
from stash.measures.note import Note
from stash.measures.put_up import PutUp
from stash.stock.entry import Entry
from stash.stock.holding import HeldSkein
from stash.stock.movement import Movement
from stash.stock.promise import PromiseChange, shortages
from stash.stock.yarn import FullFrom
from stash.store import balance_rows, entry_rows, item_rows, skein_rows
from stash.store.engine import Connection, StashFile
from stash.store.memory import Memory
from stash.store.upgrade import begun_for, open_file, open_or_begin


@dataclass(slots=True)
class EntryWriter:
    """Writes one entry: what it moves is booked at once, the entry's own line at the end.

    `what` must be set before the block ends: the facts that the log shows. After the block,
    `shorts` holds the promises that this entry has made impossible to keep.
    """

    db: Connection
    number: int
    on: date
    settings: Settings
    what: Note | str = ""
    takes_back: int | None = None
    device: str = ""
    touched: set[int] = field(default_factory=set)
    shorts: tuple[Note, ...] = ()
    _before: dict[int, HeldSkein] = field(default_factory=dict)
    _moved: Counter[int] = field(default_factory=Counter)
    _promised: Counter[int] = field(default_factory=Counter)

    def skein(self, number: int) -> HeldSkein:
        """One skein with all that this entry has booked so far; it must be there."""
        held = skein_rows.held_skeins(self.db, [number])
        return held[0]

    def know(self, skeins: Iterable[HeldSkein]) -> None:
        """Skeins as they were read before this entry changed them: they are not read again."""
        self._before.update((s.number, s) for s in skeins if s.number not in self.touched)

    def touch(self, numbers: Sequence[int]) -> None:
        """Say which skeins are about to change, so that new shortages are noticed."""
        new = set(numbers) - self.touched
        if unread := sorted(new - self._before.keys()):
            self.know(skein_rows.held_skeins(self.db, unread))
        self.touched.update(new)

    def free(self, number: int) -> Mass:
        """What may still be promised of a skein inside this entry; it must be there."""
        self.touch([number])
        return self._now(number).free

    def _now(self, number: int) -> HeldSkein:
        """A skein before this entry, with what was moved and promised of it since."""
        was = self._before[number]
        held, promised = Mass(self._moved[number]), Mass(self._promised[number])
        return replace(was, held=was.held + held, promised=was.promised + promised)

    def move(self, moves: Sequence[Movement]) -> None:
        """Book movements; movements of nothing are left out."""
        self.touch([move.skein for move in moves])
        for move in moves:
            self._moved[move.skein] += move.change.mg
        entry_rows.add_movements(self.db, self.number, [move for move in moves if move.change])

    def promise(self, changes: Sequence[PromiseChange]) -> None:
        """Book changes of promises."""
        self.touch([change.skein for change in changes])
        for change in changes:
            self._promised[change.skein] += change.mass.mg
        entry_rows.add_promises(self.db, self.number, changes)

    def set_facts(self, thing: str, ref: str | int, **new: str | None) -> list[str]:
        """Put facts of one thing right together; the names of those that really changed."""
        return entry_rows.set_facts(self.db, self.number, thing, str(ref), new)

    def set_own_pair(self, skein: int, put_up: PutUp, origin: FullFrom) -> list[str]:
        """A skein keeps a pair of its own from now on."""
        own = {"own_mg": str(put_up.mass.mg), "own_um": str(put_up.length.um)}
        return self.set_facts("skein", skein, **own, own_from=origin.value)

    def newly_short(self) -> list[HeldSkein]:
        """Touched skeins that lack more of what is promised than before this entry."""
        # a skein that came in by this entry has nothing promised of it yet
        known = sorted(self.touched & self._before.keys())
        now = [self._now(number) for number in known]
        return [s for s in now if s.short > self._before[s.number].short]

    def close(self, kind: str) -> None:
        """The entry's own line, after the rules that look at the whole of it."""
        made = Entry(self.number, self.on, clock.now_utc(), kind, self.what, self.takes_back)
        entry_rows.add_entry(self.db, replace(made, device=self.device))
        newest = entry_rows.newest_day(self.db)
        if newest is not None and self.on < newest:
            balance_rows.refuse_if_ever_below_nothing(self.db, sorted(self.touched))
        self.shorts = tuple(self._shorts())

    def _shorts(self) -> Iterator[Note]:
        short = {s.number: s for s in self.newly_short()}
        if not short:
            return
        items = {a.number: a for a in item_rows.items(self.db)}
        promises = item_rows.promises(self.db, skeins=sorted(short))
        for number, skein in short.items():
            own = [p for p in promises if p.skein == number]
            for promise, missing in shortages(skein.held, own):
                item, role = items[promise.item], promise.role
                yield Note("promise_short", skein=number, missing=missing, item=item, role=role)


class _OnlyTried(Exception):
    """Leaves an entry that was not meant to be kept."""


@dataclass(frozen=True, slots=True)
class Book:
    """A stash file that is open for use, on the `device` whose name its entries keep."""

    file: StashFile
    device: str = ""

    @property
    def path(self) -> Path:
        """Where the file lies."""
        return self.file.path

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """One frozen view of the books."""
        with self.file.reading() as db:
            yield db

    @contextmanager
    def entry(self, kind: str, on: date | None = None) -> Iterator[EntryWriter]:
        """One numbered entry, kept whole or not at all; `on` is the day it happened.

        Raises Refusal for a day that has not come yet.
        """
        today = clock.today()
        day = on or today
        if day > today:
            raise Refusal("day_not_come", day=day, today=today)
        with self.file.writing() as db:
            number, settings = entry_rows.next_number(db), Settings.read(db)
            writer = EntryWriter(db, number, day, settings, device=self.device)
            yield writer
            writer.close(kind)
            _closed[:] = [(self, writer.number)]  # before it is kept: see `booked`

    @contextmanager
    def trying(self, kind: str, on: date | None = None) -> Iterator[EntryWriter]:
        """An entry that is forgotten at the end: what it would come to, or why it is refused."""
        with suppress(_OnlyTried), self.entry(kind, on) as writer:
            yield writer
            raise _OnlyTried


#: The newest entry that this process has closed, kept or not.
_closed: list[tuple[Book, int]] = []


def booked() -> int | None:
    """The newest entry that this process has booked, as the file itself says; None for none.

    For whoever has to tell what became of a command that broke off: it may have done so before the
    entry was kept, or after.
    """
    for book, number in _closed:
        try:
            with book.reading() as db:
                return number if entry_rows.entries(db, number=number) else None
        except StashError:
            return None
    return None


def none_booked() -> None:
    """A new command begins, which has booked nothing yet."""
    _closed.clear()


def open_book(path: Path, *, begin: bool = False) -> Book:
    """The book in this file, brought up to date first; with `begin`, made if there is none."""
    return Book(open_or_begin(path) if begin else open_file(path))


def staying_book(path: Path) -> Book:
    """The same for a program that stays: what it works out is kept until the file is changed."""
    return Book(replace(open_file(path), memory=Memory(path)))


@contextmanager
def begun_book(path: Path) -> Iterator[Book]:
    """The book that something is brought into, made if there is none.

    Where that fails, a file that was made for it is not left behind.
    """
    with begun_for(path) as file:
        yield Book(file)
