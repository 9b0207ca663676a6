"""The log, and taking an entry back whole by its opposite."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from itertools import groupby

from stash.actions.book import Book, EntryWriter
from stash.errors import InTheWay, NotFound, Refusal, Unreadable
from stash.measures.mass import NO_MASS
from stash.measures.note import Note
from stash.stock.entry import ALL_ENTRIES, WRITING, Entry, EntryFilter
from stash.stock.holding import HeldSkein
from stash.stock.item import ItemState
from stash.stock.movement import Kind, Movement
from stash.stock.promise import PromiseChange
from stash.store import balance_rows, entry_rows, item_rows, sale_rows, skein_rows, undo_blockers
from stash.store.engine import Connection


def log(book: Book, newest: int | None = 20, which: EntryFilter = ALL_ENTRIES) -> list[Entry]:
    """The entries, newest first. Raises NotFound for a device that wrote none."""
    with book.reading() as db:
        if which.device:
            _refuse_unknown(which.device, entry_rows.devices(db))
        return entry_rows.entries(db, newest, which=which)


def _refuse_unknown(device: str, known: Sequence[str]) -> None:
    if device not in known:
        raise NotFound("device", device, [one for one in known if one])


def devices(book: Book) -> list[str]:
    """The devices that entries were written on, the last to write first; `""` is this computer."""
    with book.reading() as db:
        return entry_rows.devices(db)


def entries_meant(
    span: tuple[date | None, date | None] = (None, None),
    commands: Iterable[str] = (),
    device: str | None = None,
) -> EntryFilter:
    """Which entries are meant by the names of commands; `design` means all that begin so.

    Raises Unreadable for a word that no entry is of.
    """
    kinds: list[str] = []
    for word in (" ".join(command.split()).lower() for command in commands):
        of_word = [kind for kind in WRITING if word in (kind, kind.split()[0])]
        if not of_word:
            choices = tuple(dict.fromkeys(kind.split()[0] for kind in WRITING))
            raise Unreadable(word, "kind_of_entry", choices=choices)
        kinds += of_word
    return EntryFilter(*span, tuple(dict.fromkeys(kinds)), device)


def undo(book: Book, number: int | None = None) -> tuple[int, Entry]:
    """Take back one entry whole: its number, or the newest that can be meant.

    The number of the answering entry comes back with the entry it answers. Raises InTheWay with
    the later entries that rest on it.
    """
    with book.entry("undo") as writer:
        wrong = _taken_back(writer, number)
    return writer.number, wrong


@dataclass(frozen=True, slots=True)
class Unmade:
    """What cancelling an entry would come to: each of its skeins as it is, and as it would be."""

    entry: Entry
    skeins: tuple[tuple[HeldSkein, HeldSkein], ...]


def try_undo(book: Book, number: int) -> Unmade:
    """What `undo` would do; nothing is written. Raises what it would."""
    with book.trying("undo") as writer:
        wrong = _taken_back(writer, number)
        after = skein_rows.held_skeins(writer.db, sorted(writer.touched))
    with book.reading() as db:
        before = {s.number: s for s in skein_rows.held_skeins(db, [s.number for s in after])}
    return Unmade(wrong, tuple((before[skein.number], skein) for skein in after))


def _taken_back(writer: EntryWriter, number: int | None) -> Entry:
    """The entry that is meant, answered by its opposite in the open one."""
    wrong = _meant(writer.db, number)
    _refuse_if_rested_on(writer, wrong)
    writer.takes_back = wrong.number
    writer.what = Note("entry_taken_back", entry=wrong.number, what=wrong.what)
    _answer(writer, wrong)
    _refuse_if_ever_below_nothing(writer, wrong)
    _refuse_if_newly_short(writer, wrong)
    _refuse_if_named_twice(writer, wrong)
    return wrong


def changed_since(book: Book, number: int, skeins: Collection[int] | None = None) -> list[Entry]:
    """Entries after that number, newest first; with `skeins` those that moved or promised any."""
    with book.reading() as db:
        if skeins is not None:
            later = undo_blockers.later_on_skeins(db, number, skeins)
            return entry_rows.entries(db, only=later) if later else []
        last = entry_rows.next_number(db) - 1
        return entry_rows.entries(db, max(0, last - number))


def to_undo(book: Book, number: int | None = None, *, of: Collection[str] | None = None) -> Entry:
    """The entry that `undo` would take back; `of`: the newest that any of these devices wrote."""
    with book.reading() as db:
        return _meant(db, number, of)


def _meant(db: Connection, number: int | None, devices: Collection[str] | None = None) -> Entry:
    if number is None:
        for entry in entry_rows.entries(db):
            standing = entry.takes_back is None and entry.taken_back_by is None
            if standing and (devices is None or entry.device in devices):
                return entry
        raise Refusal("nothing_to_take_back")
    known = 0 < number < entry_rows.next_number(db)
    found = entry_rows.entries(db, number=number) if known else []
    if not found:
        raise NotFound("entry", str(number))
    if found[0].taken_back_by is not None:
        raise Refusal("taken_back_before", entry=number, by=found[0].taken_back_by)
    if found[0].takes_back is not None:
        raise Refusal("entry_is_take_back", entry=number)
    return found[0]


def _refuse_if_rested_on(writer: EntryWriter, wrong: Entry) -> None:
    for why, later in _resting(writer, wrong.number):
        if later:
            raise InTheWay(wrong.number, sorted(later, reverse=True), why)


def _resting(writer: EntryWriter, number: int) -> list[tuple[Note, set[int]]]:
    """Reasons that later entries give, each with those entries."""
    db = writer.db
    moves = [booked.movement for booked in entry_rows.movements(db, entry_number=number)]
    changes = [one.change for one in entry_rows.promise_changes(db, entry_number=number)]
    used = {m.item for m in moves if m.item is not None}
    stepped = {step.item for step in entry_rows.steps(db, entry_number=number)}
    stepped |= sale_rows.items_sold_in(db, number)
    touched = used | stepped | {c.item for c in changes} | {*undo_blockers.items_made(db, number)}
    restated = {m.skein for m in moves if m.kind is Kind.RESTATED}
    designs = undo_blockers.designs_made(db, number)
    resting = [
        (Note("skeins_used_since"), _later_skeins(writer, number)),
        (
            Note("item_went_on"),
            undo_blockers.later_on_items(db, number, sorted(touched)),
        ),
        (Note("skeins_moved_on"), undo_blockers.later_on_skeins(db, number, sorted(restated))),
        (Note("items_made_since"), undo_blockers.later_of_designs(db, number, designs)),
        (Note("ordered_since"), undo_blockers.later_orders_of(db, number, designs)),
        (
            Note("items_for_order_since"),
            undo_blockers.later_for_orders(db, number, undo_blockers.orders_made(db, number)),
        ),
    ]
    for (thing, ref), facts in _facts_by_thing(writer, number):
        names = [fact.name for fact in facts]
        later = undo_blockers.later_facts(db, number, thing, ref, names)
        resting.append((Note("put_right_again"), later))
    return resting


def _later_skeins(writer: EntryWriter, number: int) -> set[int]:
    made = undo_blockers.skeins_made(writer.db, number)
    return undo_blockers.later_on_skeins(writer.db, number, made)


def _facts_by_thing(
    writer: EntryWriter, number: int
) -> list[tuple[tuple[str, str], list[entry_rows.Fact]]]:
    facts = sorted(
        entry_rows.facts(writer.db, entry_number=number), key=lambda fact: (fact.thing, fact.ref)
    )
    return [(key, list(group)) for key, group in groupby(facts, lambda f: (f.thing, f.ref))]


def _answer(writer: EntryWriter, wrong: Entry) -> None:
    """Every row of the entry answered by its opposite; facts get their old values again."""
    booked = [b.movement for b in entry_rows.movements(writer.db, entry_number=wrong.number)]
    opposite = [taken_back(move) for move in booked]
    _refuse_below_nothing(writer, wrong, opposite)
    writer.move(sorted(opposite, key=lambda move: (-move.change.mg, move.undoes)))
    changes = entry_rows.promise_changes(writer.db, entry_number=wrong.number)
    writer.promise([_promise_back(one.row, one.change) for one in reversed(changes)])
    for step in reversed(entry_rows.steps(writer.db, entry_number=wrong.number)):
        _step_back(writer, step)
    for (thing, ref), facts in _facts_by_thing(writer, wrong.number):
        writer.set_facts(thing, ref, **{fact.name: fact.old for fact in facts})


def taken_back(wrong: Movement) -> Movement:
    """The movement that cancels a wrong one; the wrong one stays on the books."""
    return replace(wrong, change=-wrong.change, undoes=wrong.id, id=None)


def _promise_back(row: int, wrong: PromiseChange) -> PromiseChange:
    length = None if wrong.length is None else -wrong.length
    return replace(wrong, mass=-wrong.mass, length=length, undoes=row)


def _step_back(writer: EntryWriter, wrong: entry_rows.Step) -> None:
    """The item gets the state from before the step again; a first step simply goes."""
    earlier = [
        s
        for s in entry_rows.steps(writer.db, item_number=wrong.item)
        if (s.id or 0) < (wrong.id or 0)
    ]
    before = earlier[-1] if earlier else entry_rows.Step(wrong.item, ItemState.PLANNED)
    writer.step([replace(before, undoes=wrong.id, id=None)])


def _refuse_below_nothing(writer: EntryWriter, wrong: Entry, opposite: list[Movement]) -> None:
    falls: dict[int, int] = {}
    for move in opposite:
        falls[move.skein] = falls.get(move.skein, 0) + move.change.mg
    held = skein_rows.held_skeins(writer.db, sorted(falls))
    low = [s.number for s in held if s.held.mg + falls[s.number] < 0]
    if low:
        later = undo_blockers.later_lowering(writer.db, wrong.number, low)
        why = Note("below_nothing", skeins=tuple(low))
        raise InTheWay(wrong.number, sorted(later, reverse=True), why)


def _refuse_if_ever_below_nothing(writer: EntryWriter, wrong: Entry) -> None:
    """Yarn that is back since does not undo that it was not there on the day it was used."""
    low = balance_rows.lowest_on_any_day(writer.db, sorted(writer.touched))
    if low:
        number, day, held = low[0]
        later = undo_blockers.later_lowering(writer.db, wrong.number, [number])
        why = Note("below_nothing_on", skein=number, held=held, day=day)
        raise InTheWay(wrong.number, sorted(later, reverse=True), why)


def _refuse_if_named_twice(writer: EntryWriter, wrong: Entry) -> None:
    """A design cannot have its old name again where another one bears it now."""
    named: dict[str, item_rows.DesignRow] = {}
    for design in item_rows.designs(writer.db):
        other = named.setdefault(design.name.lower(), design)
        if other is not design:
            later = undo_blockers.later_naming(writer.db, wrong.number, [other.id, design.id])
            why = Note("name_borne_by_another", design=design.name)
            raise InTheWay(wrong.number, sorted(later, reverse=True), why)


def _refuse_if_newly_short(writer: EntryWriter, wrong: Entry) -> None:
    """A gram that was promised again since cannot go back to where it was."""
    short = [s.number for s in writer.newly_short() if s.short > NO_MASS]
    if short:
        later = undo_blockers.later_lowering(writer.db, wrong.number, short)
        why = Note("promised_since", skeins=tuple(short))
        raise InTheWay(wrong.number, sorted(later, reverse=True), why)
