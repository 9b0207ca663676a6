"""An entry: what one writing command did, as one numbered line of the books.

An entry keeps its facts, and whoever shows it finds the words. They are kept for good, so their
kinds and names are those that stay (item, design), whatever a table or a screen calls them today.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from typing import Any

from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.note import Note
from stash.stock.item import Item
from stash.stock.weighing import Verdict
from stash.stock.yarn import Lot, LotState


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of the log; `taken_back_by` names the entry that answered it, if one did.

    `what` are its facts; for an entry written before facts were kept, its sentence.
    `device` is the phone it was written on, by the name she gave it; nothing for this computer.
    """

    number: int
    on: date
    at_utc: str
    kind: str
    what: Note | str
    takes_back: int | None = None
    taken_back_by: int | None = None
    device: str = ""


#: The commands that write, as an entry's kind names them.
WRITING = (
    *("add", "import", "opening", "aside", "release", "begin", "weigh", "use", "done", "unravel"),
    *("gone", "split", "count", "change", "sold", "returned", "settings", "undo"),
    *("design add", "design change", "design copy", "design drop"),
    *("order add", "order change", "order drop"),
)


@dataclass(frozen=True, slots=True)
class EntryFilter:
    """Which entries: of a span of days, both ends included, of some kinds, of one device.

    No `kinds` are all of them; the device `""` is this computer, None is any.
    """

    first: date | None = None
    last: date | None = None
    kinds: tuple[str, ...] = ()
    device: str | None = None


ALL_ENTRIES = EntryFilter()


def of_item(item: Item | None) -> dict[str, Any]:
    """The facts an item goes by: its number, and its design or what yarn is held aside for."""
    if item is None:
        return {"item": None, "name": None}
    return {"item": item.number, "name": item.design or item.note}


def of_lot(lot: Lot) -> dict[str, Any]:
    """The facts by which an entry names a lot as it came in."""
    return {
        "maker": lot.yarn.maker,
        "yarn": lot.yarn.name,
        "colour": lot.colour,
        "colour_no": lot.colour_no,
        "lot_text": lot.lot,
        "lot_state": lot.lot_state,
    }


#: What an entry of each kind keeps. `item` and `name` are those of `of_item`.
KINDS: dict[str, tuple[str, ...]] = {
    "yarn_added": ("skeins", "maker", "yarn", "colour", "colour_no", "lot_text", "lot_state"),
    "lots_added": ("skeins", "lots"),
    "sheet_taken_in": ("skeins", "lots", "sheet", "opening_of"),
    "proposal_set_aside": ("key", "item", "name", "takes"),
    "saved_and_set_aside": ("done",),
    "choice_set_aside": ("choice", "item", "name", "takes"),
    "skein_set_aside": ("mass", "skein", "note"),
    "batch_set_aside": ("items", "first", "last"),
    "item_released": ("item", "name"),
    "items_released": ("numbers",),
    "colour_released": ("role", "item", "name"),
    "colours_released": ("role", "numbers"),
    "item_begun": ("item", "name"),
    "items_begun": ("numbers",),
    "item_done": ("item", "name", "mass", "how"),
    "items_done": ("numbers", "mass", "how"),
    "item_unravelled": ("item", "name", "mass"),
    "items_unravelled": ("numbers", "mass"),
    "item_sold": ("item", "name"),
    "items_sold": ("numbers",),
    "item_returned": ("item", "name"),
    "items_returned": ("numbers",),
    "item_gone": ("item", "name", "why"),
    "skein_used": ("mass", "skein", "item", "name"),
    "skein_gone": ("mass", "skein", "why"),
    "skein_split": ("mass", "skein", "part"),
    "skein_agrees": ("skein", "held"),
    "skein_weighed": ("skein", "net", "verdict", "mass", "item", "name"),
    "skeins_weighed": ("numbers",),
    "metre_weighed": ("skein", "length", "mass"),
    "place_counted": ("place", "right", "corrected", "not_found", "lost"),
    "skein_changed": ("skein", "done"),
    "skeins_changed": ("numbers", "done"),
    "lot_changed": ("lot", "done"),
    "items_changed": ("numbers", "done"),
    "design_kept": ("name",),
    "design_dropped": ("name",),
    "design_changed": ("name",),
    "order_added": ("order", "who", "count", "name"),
    "order_changed": ("order", "who", "done"),
    "order_dropped": ("order", "who"),
    "setting_set": ("setting", "value"),
    "entry_taken_back": ("entry", "what"),
    # what a change has done, each in `done`
    "fact_now": ("fact", "value"),
    "tare_now": ("mass",),
    "put_up_now": ("mass", "length"),
    "lot_now": ("lot_text", "lot_state", "lot"),
    "daylight_now": ("looked_at",),
    "value_stays": ("value", "why"),
    "price_now": (),
    "left_now": ("mass",),
    "yarn_now": ("maker", "yarn"),
    # what was set aside of one skein, each in `takes`
    "yarn_taken": ("skein", "length", "mass", "colour", "yarn"),
}
#: Facts that may be missing.
_MAY_LACK = ("item", "name", "opening_of", "value", "lot", "takes", "order", "who")
_COUNTS = (
    *("skeins", "lots", "skein", "part", "lot", "item", "items", "first", "last", "entry"),
    *("right", "corrected", "not_found", "lost", "order", "count"),
)
_MASSES, _LENGTHS = ("mass", "held", "net"), ("length",)
#: The key of a fact that has a unit.
_KEYS = {name: f"{name}_mg" for name in _MASSES} | {name: f"{name}_um" for name in _LENGTHS}


def as_json(what: Note) -> str:
    """The facts as they are kept, units in their keys: `{"kind": "skein_gone", "mass_mg": …}`.

    What would not come back the same is not written. Raises ValueError or LookupError.
    """
    text = json.dumps(_plain(what), ensure_ascii=False)
    if from_json(text) != what:
        raise ValueError(what.kind)
    return text


def _plain(value: Any) -> Any:
    if isinstance(value, Note):
        facts = ((_KEYS.get(name, name), fact) for name, fact in value.facts.items())
        return {"kind": value.kind} | {k: _plain(fact) for k, fact in facts if fact is not None}
    if isinstance(value, tuple | list):
        return [_plain(part) for part in value]
    if isinstance(value, Mass):
        return value.mg
    return value.um if isinstance(value, Length) else value


def from_json(text: str) -> Note:
    """The same facts again. Raises ValueError, LookupError or TypeError for what no entry
    keeps."""
    return _note(json.loads(text))


def _note(kept: Any) -> Note:
    names = KINDS[_text(_kept(dict, kept)["kind"])]
    facts = {name: _fact(name, kept.get(_KEYS.get(name, name))) for name in names}
    if more := kept.keys() - {"kind", *(_KEYS.get(name, name) for name in names)}:
        raise ValueError(f"unknown: {sorted(more)}")
    return Note(kept["kind"], **facts)


def _fact(name: str, value: Any) -> Any:
    if value is None and name in _MAY_LACK:
        return None
    read: Callable[[Any], Any] = _READ.get(name, _text)
    return read(value)


def _kept(kind: type, value: Any) -> Any:
    if type(value) is not kind:
        raise ValueError(f"not {kind.__name__}: {str(value)[:40]!r}")
    return value


def _text(value: Any) -> str:
    return str(_kept(str, value))


def _count(value: Any) -> int:
    return int(_kept(int, value))


def _choice(value: Any) -> tuple[tuple[str, tuple[int, ...]], ...]:
    """The numbers of the skeins named for each role."""
    return tuple((_text(role), tuple(_count(skein) for skein in skeins)) for role, skeins in value)


#: How a fact is read that is not a text.
_READ: dict[str, Callable[[Any], Any]] = {
    **dict.fromkeys(_COUNTS, _count),
    **dict.fromkeys(_MASSES, lambda value: Mass(_count(value))),
    **dict.fromkeys(_LENGTHS, lambda value: Length(_count(value))),
    "lot_state": LotState,
    "verdict": Verdict,
    "looked_at": lambda value: _kept(bool, value),
    "choice": _choice,
    "numbers": lambda value: tuple(_count(number) for number in _kept(list, value)),
    **dict.fromkeys(
        ("done", "takes"), lambda value: tuple(_note(part) for part in _kept(list, value))
    ),
    "what": lambda value: value if isinstance(value, str) else _note(value),
}
