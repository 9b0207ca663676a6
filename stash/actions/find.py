"""From what a person types to one skein, lot, item or design: a number, a reference or words."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass

from stash.errors import Ambiguous, NotFound
from stash.measures.mass import NO_MASS
from stash.measures.note import Note
from stash.requirements.design.serialise import deserialise
from stash.requirements.design.shapes import Shape
from stash.requirements.design.whom import Whom
from stash.stock.holding import HeldLot, HeldSkein
from stash.stock.item import Item
from stash.stock.yarn import Lot
from stash.store import item_rows, skein_rows
from stash.store.engine import Connection

#: More digits than any number has, and the file could not hold, are looked for as words.
_NUMBER = re.compile(r"#?(\d{1,15})")
_LOT = re.compile(r"[Ll](\d{1,15})")


@dataclass(frozen=True, slots=True)
class FoundSkein:
    """A skein, its record, and which one it is where words led to it (None for a number)."""

    skein: HeldSkein
    lot: Lot
    said: Note | None = None


def skein(db: Connection, asked: str) -> FoundSkein:
    """The skein of this number, or the one that words lead to.

    Words must lead to one lot: then its opened skein is taken, else the lowest whole one.
    """
    if number := _NUMBER.fullmatch(asked.strip()):
        held = skein_rows.held_skeins(db, [int(number[1])])
        if not held:
            raise NotFound("skein", asked)
        return FoundSkein(held[0], skein_rows.lots(db, [held[0].lot_id])[held[0].lot_id])
    lot = one_lot(db, asked)
    able = [s for s in lot.skeins if s.held > NO_MASS]
    if not able:
        raise NotFound("yarn_left", asked)
    first = min(able, key=lambda s: (not s.opened, s.number))
    return FoundSkein(first, lot.lot, Note("words_led_to", skein=first.number, lot=lot.lot))


def skein_among(db: Connection, shelf: Sequence[HeldLot], asked: str) -> HeldSkein:
    """The same where the shelf has been read; only a skein that holds nothing is read once more."""
    if number := _NUMBER.fullmatch(asked.strip()):
        known = (one for lot in shelf for one in lot.skeins if one.number == int(number[1]))
        if found := next(known, None):
            return found
    return skein(db, asked).skein


def one_lot(db: Connection, asked: str) -> HeldLot:
    """The only lot that a reference or words lead to; asked where they lead to several."""
    found = lots(db, asked)
    if len(found) > 1:
        shown = [_choice(held, asked) for held in found[:4]]
        raise Ambiguous(asked, [held.lot.ref for held in found[:4]], shown)
    return found[0]


def _choice(held: HeldLot, asked: str) -> Note:
    """One of several lots; where only its place has the words, that is said."""
    if matching([held], asked, places=False):
        return Note("lot_named", lot=held.lot)
    from stash.parsing import names

    places = sorted({skein.place for skein in held.skeins if skein.place})
    called = [place for place in places if names.best_matches(asked, [place])]
    return Note("lot_named", lot=held.lot, places=called or places)


def lots(db: Connection, asked: str) -> list[HeldLot]:
    """The lots on the shelf that a reference or words lead to; NotFound with the nearest names."""
    return lots_among(skein_rows.held_lots(db), asked)


def lots_among(shelf: Sequence[HeldLot], asked: str) -> list[HeldLot]:
    """The same where the shelf has been read; by the places where no yarn is called so itself."""
    if ref := _LOT.fullmatch(asked.strip()):
        found = [lot for lot in shelf if lot.lot.id == int(ref[1])]
        if not found:
            raise NotFound("lot_on_shelf", asked)
        return found
    named = matching(shelf, asked, places=False)
    return named or matching(shelf, asked) or _none(asked, shelf)


def matching(
    shelf: Sequence[HeldLot],
    asked: str,
    notes: Mapping[int, str] | None = None,
    *,
    places: bool = True,
) -> list[HeldLot]:
    """The lots that words name, best first; misspelt words still find.

    `notes` are those of skeins by number, where they are searched as well, as `places` are.
    """
    from stash.parsing import names

    texts = [_all_words(lot, notes, places) for lot in shelf]
    return [shelf[i] for i in names.best_matches(asked, texts)]


def nearest_words(shelf: Sequence[HeldLot], asked: str) -> tuple[str, ...]:
    """Words of the lots that are like one of those asked for, the nearest first."""
    from stash.parsing import names

    known = dict.fromkeys(
        word.casefold() for lot in shelf for word in re.findall(r"[^\W\d_]+", _all_words(lot, None))
    )
    near = (one for word in asked.split() for one in names.closest(word, [*known]))
    return tuple(dict.fromkeys(near))


def _none(asked: str, shelf: Sequence[HeldLot]) -> list[HeldLot]:
    from stash.parsing import names

    by_name = {_named(held.lot): held.lot for held in shelf}
    nearest = [by_name[name] for name in names.nearest(asked, [*by_name])]
    raise NotFound("yarn_on_shelf", asked, [Note("lot_named", lot=lot) for lot in nearest])


def _all_words(lot: HeldLot, notes: Mapping[int, str] | None, placed: bool = True) -> str:
    facts = lot.lot
    noted: list[str] = []
    if notes is not None:
        noted = [facts.note, *dict.fromkeys(notes.get(skein.number, "") for skein in lot.skeins)]
    places = sorted({s.place for s in lot.skeins if s.place and placed})
    numbered = f"lot {facts.lot}" if facts.lot else ""
    looks = (facts.dyed or "", facts.surface or "")
    of_lot = (str(facts.yarn), facts.colour, facts.colour_no, numbered, facts.fibre, *looks)
    return " ".join(part for part in (*of_lot, *places, *noted) if part)


def _named(lot: Lot) -> str:
    """What a misspelt name is looked for in."""
    return f"{lot.ref} ({lot.yarn} {lot.colour} {lot.colour_no})"


def lot_record(db: Connection, asked: str) -> Lot | None:
    """The record of a reference such as L12, None where the text is not a reference."""
    ref = _LOT.fullmatch(asked.strip())
    if not ref:
        return None
    found = skein_rows.lots(db, [int(ref[1])])
    if not found:
        raise NotFound("lot", asked)
    return found[int(ref[1])]


def item(db: Connection, asked: str) -> Item:
    """The item of this number, or the one open item of a design of this name."""
    if number := _NUMBER.fullmatch(asked.strip()):
        if one := item_rows.items(db, [int(number[1])]):
            return one[0]
        raise NotFound("item", asked)
    known = item_rows.items(db)
    named = [a for a in known if a.design.lower() == asked.strip().lower()]
    ready = [a for a in named if a.open]
    if len(ready) > 1:
        shown = [Note("item_named", item=one) for one in ready]
        raise Ambiguous(asked, [str(one.number) for one in ready], shown)
    if not ready:
        raise NotFound("open_item", asked, [str(a) for a in known if a.open][:3])
    return ready[0]


class Items:
    """Items found one after another; those typed as numbers are read in one question.

    What becomes of one is told to `becomes`, and found so from then on.
    """

    def __init__(self, db: Connection, asked: Iterable[str]) -> None:
        numbers = [int(found[1]) for one in asked if (found := _NUMBER.fullmatch(one.strip()))]
        self._db = db
        self._known = {one.number: one for one in item_rows.items(db, numbers)}

    @property
    def numbers(self) -> tuple[int, ...]:
        """The numbers of those that are known so far."""
        return tuple(self._known)

    def item(self, asked: str) -> Item:
        """As `item` finds it."""
        number = _NUMBER.fullmatch(asked.strip())
        known = self._known.get(int(number[1])) if number else None
        found = known or item(self._db, asked)
        return self._known.setdefault(found.number, found)

    def among(self, asked: str, able: Callable[[], Collection[int]], kind: str) -> Item:
        """As `item_among` finds it."""
        if _NUMBER.fullmatch(asked.strip()):
            return self.item(asked)
        found = item_among(self._db, asked, able, kind)
        return self._known.setdefault(found.number, found)

    def becomes(self, now: Item) -> Item:
        """An item is otherwise from now on."""
        self._known[now.number] = now
        return now


def item_among(db: Connection, asked: str, able: Callable[[], Collection[int]], kind: str) -> Item:
    """The item of this number, or the only one of a design's name among those that are able.

    Who is able is asked for a name alone.
    `kind` is what is not found where none of those has the name.
    """
    if _NUMBER.fullmatch(asked.strip()):
        return item(db, asked)
    ready = able()
    known = [a for a in item_rows.items(db) if a.number in ready]
    named = [a for a in known if a.design.lower() == asked.strip().lower()]
    if len(named) > 1:
        shown = [Note("item_named", item=one) for one in named]
        raise Ambiguous(asked, [str(one.number) for one in named], shown)
    if not named:
        raise NotFound(kind, asked, [str(a) for a in known][:3])
    return named[0]


def design(db: Connection, asked: str) -> item_rows.DesignRow:
    """The design of this name or nearly so called, else the one of a shape with that name."""
    return design_among(item_rows.designs(db), asked)


def design_among(known: Sequence[item_rows.DesignRow], asked: str) -> item_rows.DesignRow:
    """The same where the designs have been read."""
    for one in known:
        if one.name.lower() == asked.strip().lower():
            return one
    from stash.parsing import names

    nearly = [known[at] for at in names.nearly(asked, [one.name for one in known])]
    if len(nearly) > 1:
        raise Ambiguous(asked, [one.name for one in nearly])
    if nearly:
        return nearly[0]
    shapes, whom = names.shapes_named(asked)
    if shapes:
        return _of_shape(known, asked, shapes, whom)
    near = names.nearest(asked, [p.name for p in known]) or names.things_like(asked)
    raise NotFound("design", asked, near)


def _of_shape(
    known: Sequence[item_rows.DesignRow],
    asked: str,
    shapes: Sequence[Shape],
    whom: Whom | None,
) -> item_rows.DesignRow:
    """The only plan of such a shape, for such a person; of several the only one so called."""
    plans = [(row, deserialise(json.loads(row.plan))) for row in known]
    fit = [
        row
        for row, plan in plans
        if plan.shape in shapes and (whom is None or plan.wearer in (whom, None))
    ]
    called = [row for row in fit if asked.strip().lower() in row.name.lower()]
    if len(one := called or fit) == 1:
        return one[0]
    if fit:
        raise Ambiguous(asked, [row.name for row in fit])
    raise NotFound("design_of_shape", asked, [row.name for row in known][:3], shape=shapes[0])


def said_of(asked: str, row: item_rows.DesignRow) -> Note | None:
    """Which plan was taken, where another word than its name led to it."""
    if row.name.lower() == asked.strip().lower():
        return None
    return Note("design_meant", name=row.name)
