"""Yarn that came onto the shelf: what was understood, what is not known, what to look at."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.money import Money, decimals
from stash.measures.note import Note
from stash.rendering.amounts import Page, colour, counted, dye_lot, numbers
from stash.rendering.her_words import hers
from stash.rendering.sentences.labels import QUIET
from stash.rendering.sentences.say import plain_facts, sentence
from stash.stock.incoming import Incoming
from stash.stock.yarn import Lot


@dataclass(frozen=True, slots=True)
class Added:
    """One line of yarn as it came in.

    `read` has what was understood of it, `unknown` the names of important facts it does not say.
    """

    entry: int
    line: Incoming
    lot: Lot
    skeins: Sequence[int]
    read: Sequence[Note] = ()
    unknown: Sequence[str] = ()
    notes: Sequence[Note | str] = ()


def keys(added: Added, currency: str) -> dict[str, Any]:
    """One line with stable keys; `read` has the facts that are known, and no others."""
    return {
        "entry": added.entry,
        "lot_ref": added.lot.ref,
        "numbers": [*added.skeins],
        "read": _facts(added.line, currency),
        "unknown": [*added.unknown],
        "notes": [
            plain_facts(note) if isinstance(note, Note) else {"kind": "", "words": note}
            for note in added.notes
        ],
    }


def rows(added: Sequence[Added]) -> list[dict[str, Any]]:
    """One row for each line."""
    return [
        {
            "entry": one.entry,
            "lot_ref": one.lot.ref,
            "numbers": [*one.skeins],
            "read": "; ".join(map(sentence, one.read)),
            "unknown": [*one.unknown],
        }
        for one in added
    ]


def text(added: Sequence[Added], page: Page) -> str:
    """Each line for reading, with what was understood of it."""
    return "\n".join(line for one in added for line in _lines(one, page))


def _lines(one: Added, page: Page) -> list[str]:
    head = page.strong(f"Added {_how_many(one.skeins)}: ")
    what = f"{page.patch(one.lot)}{_which(one.lot)}"
    opened = len(one.line.opened_amounts)
    left = f", {'' if opened == len(one.skeins) else f'{opened} '}opened" if opened else ""
    lines = [f"{head}{what}{left}  (entry {one.entry}, lot {one.lot.ref})"]
    lines += ["  read as: " + "; ".join(map(sentence, one.read))] if one.read else []
    lines += ["  not known: " + ", ".join(map(hers, one.unknown))] if one.unknown else []
    loud = [note for note in one.notes if isinstance(note, str) or note.kind not in QUIET]
    return [*lines, *(f"  note: {sentence(note)}" for note in loud)]


def added_words(skeins: Sequence[int], lot: Lot) -> str:
    """What came, in a line of its own."""
    return f"Added {_how_many(skeins)}: {_which(lot)}"


def _how_many(skeins: Sequence[int]) -> str:
    return f"{counted(len(skeins), 'skein')}, number {numbers(skeins)}"


def _which(lot: Lot) -> str:
    return f"{colour(lot)}, {lot.yarn}, {dye_lot(lot)}"


def _facts(line: Incoming, currency: str) -> dict[str, Any]:
    """Every fact of a line that is known, its unit in its name."""
    facts = {
        "yarn": line.name,
        "maker": line.maker,
        "colour": line.colour,
        "colour_no": line.colour_no,
        "colours_hex": [value.hex for value in line.colours],
        "lot": line.lot,
        "lot_state": line.lot_state.value,
        "thickness": line.thickness_from,
        "thickness_to": line.thickness_to,
        "fibre": line.fibre,
        "full_g": line.full_mass and line.full_mass.g,
        "full_m": line.full_length and line.full_length.m,
        "count": line.count,
        "left_g": [left.g for left in line.opened_amounts if isinstance(left, Mass)],
        "left_m": [left.m for left in line.opened_amounts if isinstance(left, Length)],
        "about": line.about,
        "measured": line.measured,
        "tare_g": None if line.tare is None else line.tare.g,
        "place": line.place,
        "owner": line.owner,
        "bought": line.bought and line.bought.isoformat(),
        "paid": None if line.paid is None else _money(line.paid, currency),
        "care": line.care,
        "note": line.note,
        "hand_dyed": line.hand_dyed,
        "conditions": [condition.value for condition in line.conditions],
        "dyed": line.dyed,
        "surface": line.surface,
    }
    # nothing paid and thickness 0 are facts too
    unknown: tuple[object, ...] = (None, "", [])
    return {n: fact for n, fact in facts.items() if fact is not False and fact not in unknown}


def _money(amount: Money, currency: str) -> float:
    return float(amount.coins / 10 ** decimals(currency))
