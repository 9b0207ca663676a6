"""A length of yarn weighed by itself: the skein's own pair, from a kitchen scale and a tape."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from stash.actions import find
from stash.actions.book import Book
from stash.actions.her_settings import Settings
from stash.errors import Refusal
from stash.measures.note import Note
from stash.measures.put_up import PutUp
from stash.stock.holding import HeldSkein
from stash.stock.restating import restated_promises, restatement
from stash.stock.yarn import FullFrom
from stash.store import item_rows, skein_rows


@dataclass(frozen=True, slots=True)
class Measured:
    """A skein by its own weighed length; `was` is what its metres per 100 g were before."""

    entry: int
    after: HeldSkein
    pair: PutUp
    was: float | None
    said: Note | None
    shorts: tuple[Note, ...]
    settings: Settings


def weigh_metre(book: Book, asked: str, pair: PutUp, *, on: date | None = None) -> Measured:
    """From now on the skein is reckoned by a length she weighed.

    Grams that were weighed or printed stay, so its length changes; a length that was typed stays
    where its grams were only inferred. Promises keep their metres. Raises Refusal for a length
    that is no sample but a ball.
    """
    if pair.length > skein_rows.LONGEST_WEIGHED:
        most = skein_rows.LONGEST_WEIGHED
        raise Refusal("too_long_to_weigh", length=pair.length, most=most)
    with book.entry("weigh", on) as writer:
        found = find.skein(writer.db, asked)
        skein = found.skein
        writer.know([skein])
        held = skein.held
        if not skein.mass_known and skein.held_length is not None:
            held = pair.mass_of(skein.held_length)
        writer.touch([skein.number])
        writer.set_own_pair(skein.number, pair, FullFrom.MEASURED)
        writer.move(restatement(skein, held, str(pair)))
        promises = item_rows.promises(writer.db, skeins=[skein.number])
        writer.promise(restated_promises(skein, pair, held, promises))
        writer.what = Note("metre_weighed", skein=skein.number, length=pair.length, mass=pair.mass)
        after = writer.skein(skein.number)
    was = skein.pair.put_up.m_per_100g if skein.pair.put_up else None
    return Measured(writer.number, after, pair, was, found.said, writer.shorts, writer.settings)
