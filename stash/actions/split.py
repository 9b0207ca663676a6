"""Winding off: part of a skein becomes a skein of its own, of the same lot, its parent noted."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from stash.actions import find
from stash.actions.book import Book, EntryWriter
from stash.actions.her_settings import Settings
from stash.actions.use import Amount, mass_in, to_release
from stash.errors import NotEnoughYarn, Refusal
from stash.measures.mass import Mass
from stash.measures.money import Money
from stash.measures.note import Note
from stash.stock.holding import HeldSkein
from stash.stock.movement import Kind, Movement, standing
from stash.stock.turnover import basis_mg, settled_mg
from stash.store import entry_rows, skein_rows


@dataclass(frozen=True, slots=True)
class Split:
    """The new skein and what is left of the one it was wound from."""

    entry: int
    said: Note | None
    parent: HeldSkein
    made: HeldSkein
    settings: Settings


def split(
    book: Book, skein: str, amount: Amount, *, place: str | None = None, on: date | None = None
) -> Split:
    """Wind so much off a skein; its share of what was paid goes with it, by weight.

    Only what is free can be wound off: a promise stays with the skein it was made of.
    """
    with book.entry("split", on) as writer:
        found = find.skein(writer.db, skein)
        mass = mass_in(found.skein, amount)
        if mass > found.skein.free:
            hint = to_release(writer, found.skein)
            raise NotEnoughYarn(found.skein.number, mass, found.skein.free, hint)
        if mass == found.skein.held:
            raise Refusal("all_of_skein", skein=found.skein.number)
        made = new_part(writer, found.skein, place)
        _share_price(writer, found.skein, made, mass)
        writer.move(
            [
                Movement(found.skein.number, Kind.WOUND_OFF, -mass, amount.typed),
                Movement(made, Kind.WOUND_OFF, mass, amount.typed),
            ]
        )
        writer.what = Note("skein_split", mass=mass, skein=found.skein.number, part=made)
    with book.reading() as db:
        numbers = [found.skein.number, made]
        parent, part = skein_rows.held_skeins(db, numbers)
    return Split(writer.number, found.said, parent, part, writer.settings)


def new_part(writer: EntryWriter, parent: HeldSkein, place: str | None) -> int:
    """A skein of the same lot and pair that holds nothing yet, opened, its parent noted."""
    row = dict(skein_rows.skein_facts(writer.db, parent.number))
    number = skein_rows.highest_number(writer.db) + 1
    row |= {
        "number": number,
        "entry_number": writer.number,
        "parent": parent.number,
        "opened": 1,
        "tare_mg": None,
        "paid_coins": None,
        "place": parent.place if place is None else place,
    }
    skein_rows.add_skeins(writer.db, [row])
    return number


def _share_price(writer: EntryWriter, parent: HeldSkein, made: int, mass: Mass) -> None:
    """What was paid goes over by weight: of all that the skein came with, used or not."""
    coins = skein_rows.skein_facts(writer.db, parent.number)["paid_coins"]
    if coins is None:
        return
    booked = entry_rows.movements(writer.db, skeins=[parent.number])
    moves = standing(b.movement for b in booked)
    whole_mg = max(round(basis_mg(moves, settled_mg(moves))), parent.held.mg)
    stays, goes = Money(coins).shared([whole_mg - mass.mg, mass.mg])
    writer.set_facts("skein", parent.number, paid_coins=str(stays.coins))
    writer.set_facts("skein", made, paid_coins=str(goes.coins))
