"""Labels of skeins, to stick on or tie round them: reading only."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass

from stash.actions.book import Book
from stash.errors import NotFound
from stash.stock.holding import HeldLot, HeldSkein
from stash.stock.yarn import Lot
from stash.store import skein_rows, weighing_rows
from stash.store.engine import Connection
from stash.store.kept_shelf import kept_lots
from stash.store.weighing_rows import OnScale


@dataclass(frozen=True, slots=True)
class LabelsAsked:
    """Which skeins: these numbers, those of a lot, those that lie in a place; what is left out
    does not narrow."""

    numbers: Sequence[int] = ()
    lot: int | None = None
    place: str = ""


@dataclass(frozen=True, slots=True)
class SkeinLabel:
    """A skein with its lot, and when it was last on the scale, if it ever was."""

    skein: HeldSkein
    lot: Lot
    weighed: OnScale | None


def skein_labels(book: Book, asked: LabelsAsked) -> tuple[SkeinLabel, ...]:
    """The labels of the skeins that hold yarn, by place and number.

    Raises NotFound for a number, a lot or a place that there is not, and where none holds any.
    """
    with book.reading() as db:
        lots = kept_lots(db)
        _refuse_unknown(db, asked, lots)
        found = [(skein, held.lot) for held in lots for skein in _meant(held, asked)]
        scale = weighing_rows.last_on_scale(db, [skein.number for skein, _ in found])
    if not found:
        raise NotFound("yarn_left", ", ".join(map(str, asked.numbers)))
    found.sort(key=lambda one: (one[0].place.casefold(), one[0].number))
    return tuple(SkeinLabel(skein, lot, scale.get(skein.number)) for skein, lot in found)


def _meant(held: HeldLot, asked: LabelsAsked) -> Iterator[HeldSkein]:
    if asked.lot not in (None, held.lot.id):
        return
    for skein in held.skeins:
        of_numbers = not asked.numbers or skein.number in asked.numbers
        in_place = not asked.place or _same(skein.place, asked.place)
        if skein.held and of_numbers and in_place:
            yield skein


def _same(place: str, asked: str) -> bool:
    return place.strip().casefold() == asked.strip().casefold()


def _refuse_unknown(db: Connection, asked: LabelsAsked, lots: Collection[HeldLot]) -> None:
    known = {skein.number for skein in skein_rows.held_skeins(db, asked.numbers)}
    for number in asked.numbers:
        if number not in known:
            raise NotFound("skein", str(number))
    if asked.lot is not None and all(held.lot.id != asked.lot for held in lots):
        raise NotFound("lot", f"L{asked.lot}")
    places = dict.fromkeys(skein.place for held in lots for skein in held.skeins if skein.place)
    if asked.place and not any(_same(place, asked.place) for place in places):
        raise NotFound("place_on_shelf", asked.place, [*places])
