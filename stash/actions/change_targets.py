"""What is to be changed: skeins by number, lots, all that lies in a place, or a skein by words."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from stash.actions import find
from stash.actions.book import Book
from stash.actions.find import FoundSkein
from stash.errors import Ambiguous, NotFound
from stash.measures.mass import NO_MASS
from stash.measures.note import Note
from stash.stock.yarn import Lot
from stash.store import skein_rows
from stash.store.engine import Connection

_NUMBER = re.compile(r"#?\d{1,15}|[Ll]\d{1,15}")


@dataclass(frozen=True, slots=True)
class Targets:
    """Whole lots, and single skeins with their records; never the same skein twice."""

    lots: tuple[Lot, ...]
    skeins: tuple[FoundSkein, ...]

    @property
    def said(self) -> Note | None:
        """Which skein words led to."""
        return self.skeins[0].said if len(self.skeins) == 1 else None


def targets(db: Connection, asked: Sequence[str]) -> Targets:
    """What texts name: each a skein, a lot, or a place as its skeins have it.

    Raises NotFound for one that names nothing.
    """
    if len(asked) == 1 and not _NUMBER.fullmatch(asked[0].strip()):
        return _by_words(db, asked[0])
    lots = {lot.id: lot for text in asked if (lot := find.lot_record(db, text)) is not None}
    singly = [find.skein(db, text) for text in asked if not text.strip().lower().startswith("l")]
    skeins = {one.skein.number: one for one in singly if one.lot.id not in lots}
    return Targets(tuple(lots.values()), tuple(skeins.values()))


def _by_words(db: Connection, words: str) -> Targets:
    """All that lies in the place of this name; else the one skein that words lead to."""
    held = [s for s in skein_rows.held_skeins(db) if s.held > NO_MASS]
    there = [s for s in held if s.place and s.place.casefold() == words.strip().casefold()]
    if not there:
        return Targets((), (find.skein(db, words),))
    records = skein_rows.lots(db, sorted({s.lot_id for s in there}))
    return Targets((), tuple(FoundSkein(s, records[s.lot_id]) for s in there))


def lot_meant(book: Book, dye_lot: str) -> str:
    """The lot on the shelf that has this number on its band, as L and its own number.

    Raises Ambiguous where several have it, NotFound where none has.
    """
    with book.reading() as db:
        found = [one.lot for one in skein_rows.held_lots(db) if one.lot.lot == dye_lot.strip()]
    if not found:
        raise NotFound("lot_on_shelf", dye_lot)
    if len(found) > 1:
        shown = [Note("lot_named", lot=lot) for lot in found]
        raise Ambiguous(dye_lot, [lot.ref for lot in found], shown)
    return found[0].ref
