"""What happened to yarn or to an item, line by line: yarn that moved, was set aside or released."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Any, TypeVar

from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.note import Note
from stash.rendering import figures
from stash.rendering.amounts import numbers
from stash.rendering.columns import columns
from stash.rendering.her_words import hers
from stash.rendering.log import THIS_COMPUTER
from stash.rendering.sentences.say import sentence
from stash.stock.movement import Kind
from stash.stock.promise import PromiseKind

if TYPE_CHECKING:
    from stash.actions.history import History
    from stash.stock.entry import Entry
    from stash.stock.movement import Booked
    from stash.stock.promise import BookedPromise

_T = TypeVar("_T")
#: How a promise changes that is a line of its own; use shows as the movement it goes with.
_LINES = {PromiseKind.SET_ASIDE: "set aside", PromiseKind.RELEASED: "released"}


def moved_rows(history: History) -> list[dict[str, Any]]:
    """Movements as flat rows, oldest first."""
    return [
        {
            "entry": booked.entry,
            "on": booked.on.isoformat(),
            "skein": booked.movement.skein,
            "kind": booked.movement.kind.value,
            "change_g": booked.movement.change.g,
            "typed": booked.movement.typed or None,
            "item": booked.movement.item,
            "role": booked.movement.role or None,
            "estimated": booked.movement.estimated,
            "takes_back": booked.movement.undoes is not None,
        }
        for booked in history.moved
    ]


def promised_rows(history: History) -> list[dict[str, Any]]:
    """Each change of what is set aside as a flat row, oldest first, with its device."""
    return [
        {
            "entry": booked.entry,
            "on": (entry := history.entry(booked.entry)).on.isoformat(),
            "skein": booked.change.skein,
            "kind": booked.change.kind.value,
            "change_g": booked.change.mass.g,
            "change_m": None if booked.change.length is None else booked.change.length.m,
            "item": booked.change.item,
            "role": booked.change.role or None,
            "takes_back": booked.change.undoes is not None,
            "device": entry.device,
        }
        for booked in history.promised
    ]


def history_lines(history: History, *, several: bool = False) -> list[str]:
    """The same for reading, a line for what an entry did alike to all; `several` names skeins."""
    rows = [
        *((one[0].on, one[0].entry, 0, _moved_cells(history, one)) for one in _moved(history)),
        *((_on(history, one[0]), one[0].entry, 1, _promised_cells(history, one))
          for one in _asides(history)),
    ]  # fmt: skip
    rows.sort(key=lambda row: row[:3])
    elsewhere = any(history.entry(number).device for _, number, _, _ in rows)
    lines = [
        [
            f"entry {number}",
            on.isoformat(),
            *cells[:2],
            *([cells[2]] if several else []),
            cells[3],
            *([f"on {history.entry(number).device or THIS_COMPUTER}"] if elsewhere else []),
        ]
        for on, number, _, cells in rows
    ]
    return [columns(lines, "  ")] if lines else []


def _on(history: History, booked: BookedPromise) -> date:
    return history.entry(booked.entry).on


def _moved(history: History) -> Iterable[list[Booked]]:
    """Movements of one entry that differ by the skein alone, together."""
    return _together(
        (
            (b.on, b.entry, b.movement.kind, b.movement.item, b.movement.role,
             b.movement.estimated, b.movement.undoes is None, b.movement.change.mg < 0),
            b,
        )
        for b in history.moved
    )  # fmt: skip


def _asides(history: History) -> Iterable[list[BookedPromise]]:
    """What an entry set aside or released for a colour of an item, together."""
    return _together(
        (
            (b.entry, b.change.kind, b.change.item, b.change.role, b.change.undoes is None),
            b,
        )
        for b in history.promised
        if b.change.kind in _LINES
    )


def _together(found: Iterable[tuple[Hashable, _T]]) -> Iterable[list[_T]]:
    groups: dict[Hashable, list[_T]] = {}
    for key, one in found:
        groups.setdefault(key, []).append(one)
    return groups.values()


def _moved_cells(history: History, group: list[Booked]) -> list[str]:
    move = group[0].movement
    change = sum(one.movement.change.mg for one in group)
    aim = f"for item {move.item}" if move.item else ""
    if move.undoes is not None:
        aim = f"cancels entry {history.entry(group[0].entry).takes_back}"
    facts = [aim, _colour(move.role), "estimated" if move.estimated else ""]
    return [
        "recalculated" if move.kind is Kind.RESTATED else move.kind.value,
        f"{'-' if change < 0 else '+'}{figures.near(Mass(abs(change)))}",
        _skeins(one.movement.skein for one in group),
        ", ".join(fact for fact in facts if fact),
    ]


def _promised_cells(history: History, group: list[BookedPromise]) -> list[str]:
    change = group[0].change
    aim = f"for item {change.item}"
    if change.undoes is not None:
        aim = f"cancels entry {history.entry(group[0].entry).takes_back}"
    return [
        _LINES[change.kind],
        str(figures.up(_mass(group))),
        _skeins(one.change.skein for one in group),
        ", ".join(fact for fact in (aim, _colour(change.role)) if fact),
    ]


def _mass(group: Iterable[BookedPromise]) -> Mass:
    return Mass(abs(sum(one.change.mass.mg for one in group)))


def _colour(role: str) -> str:
    return f"{hers('colour')} {role}" if role else ""


def _skeins(found: Iterable[int]) -> str:
    each = sorted({*found})
    return f"skein{'s' if len(each) > 1 else ''} {numbers(each)}"


@dataclass(frozen=True, slots=True)
class Happened:
    """One entry about yarn or an item: what was done, and what facts were before.

    `words` are sentences, the first of what was done. `change`: what the weight of yarn changed
    by, or the row that an item was at.
    """

    entry: Entry
    words: tuple[str, ...]
    change: str
    before: tuple[str, ...]


def happened_to_item(history: History) -> Iterator[Happened]:
    """What was done with an item, newest first; beside a weighing the row it was at."""
    for entry in history.entries:
        row = history.rows.get(entry.number)
        yield Happened(entry, (_what(entry.what),), f"row {row}" if row is not None else "", ())


def happened_to_yarn(history: History, was: Iterable[tuple[int, str]]) -> Iterator[Happened]:
    """What was done with yarn, newest first; `was` says by its entry what a fact was before.

    An entry that only set yarn aside or released it is said by what it did to this yarn alone.
    """
    asides, old = _by_entry(_aside_words(history)), _by_entry(was)
    changes: dict[int, int] = {}
    for one in history.moved:
        changes[one.entry] = changes.get(one.entry, 0) + one.movement.change.mg
    for entry in history.entries:
        number = entry.number
        of_aside, before = asides.get(number, []), old.get(number, [])
        alone = of_aside and not before and number not in changes and entry.kind in _OF_ASIDE
        yield Happened(
            entry,
            tuple(of_aside) if alone else (_what(entry.what), *of_aside),
            _signed(changes[number]) if number in changes else "",
            tuple(dict.fromkeys(before)),
        )


def _by_entry(found: Iterable[tuple[int, str]]) -> dict[int, list[str]]:
    by: dict[int, list[str]] = {}
    for entry, words in found:
        by.setdefault(entry, []).append(words)
    return by


#: Kinds of entries that set yarn aside or release it, and do nothing else.
_OF_ASIDE = ("aside", "release")


def _aside_words(history: History) -> Iterator[tuple[int, str]]:
    """What each entry set aside or released for an item; what was cancelled says its own entry."""
    groups = _together(
        ((b.entry, b.change.kind, b.change.item), b)
        for b in history.promised
        if b.change.kind in _LINES and b.change.undoes is None
    )
    for group in groups:
        change, lengths = group[0].change, [one.change.length for one in group]
        known = [abs(length.um) for length in lengths if length is not None]
        item = history.items.get(change.item)
        yield group[0].entry, sentence(
            Note(
                "yarn_set_aside" if change.kind is PromiseKind.SET_ASIDE else "yarn_released",
                mass=_mass(group),
                length=Length(sum(known)) if len(known) == len(lengths) else None,
                item=change.item,
                design=item.design if item else "",
                note=item.note if item else "",
            )
        )  # fmt: skip


def _what(what: Note | str) -> str:
    """The entry's sentence; of changed facts what they are now, as the page says of what."""
    if isinstance(what, Note) and what.kind in ("lot_changed", "skein_changed"):
        return "; ".join(map(sentence, what.facts["done"]))
    return sentence(what)


def _signed(change_mg: int) -> str:
    sign = "–" if change_mg < 0 else "+"
    return f"{sign} {figures.near(Mass(abs(change_mg)))}"
