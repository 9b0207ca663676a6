"""An entry: what one writing command did, as one numbered line of the books.

An entry keeps its facts, and whoever shows it finds the words. They are kept for good, so their
kinds and names are those that stay (item, design), whatever a table or a screen calls them today.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import date
from typing import Any

from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.note import Note
from stash.stock.article import Article
from stash.stock.weighing import Verdict
from stash.stock.yarn import LotState


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of the log; `taken_back_by` names the entry that answered it, if one did.

    `what` are its facts; for an entry written before facts were kept, its sentence.
    """

    number: int
    on: date
    at_utc: str
    kind: str
    what: Note | str
    takes_back: int | None = None
    taken_back_by: int | None = None


def of_item(item: Article | None) -> dict[str, Any]:
    """The facts an item goes by: its number, and its design or what yarn is held aside for."""
    if item is None:
        return {"item": None, "name": None}
    return {"item": item.number, "name": item.piece or item.note}


#: What an entry of each kind keeps. `item` and `name` are as `of_item` gives
#: them.
KINDS: dict[str, tuple[str, ...]] = {
    "yarn_added": ("skeins", "maker", "yarn", "colour", "colour_no", "lot_text", "lot_state"),
    "lots_added": ("skeins", "lots"),
    "sheet_taken_in": ("skeins", "lots", "sheet", "opening_of"),
    "proposal_set_aside": ("key", "item", "name"),
    "choice_set_aside": ("choice", "item", "name"),
    "skein_set_aside": ("mass", "skein", "note"),
    "batch_set_aside": ("items", "first", "last"),
    "item_released": ("item", "name"),
    "item_begun": ("item", "name"),
    "item_done": ("item", "name", "mass", "how"),
    "item_unravelled": ("item", "name", "mass"),
    "item_sold": ("item", "name"),
    "item_returned": ("item", "name"),
    "skein_used": ("mass", "skein", "item", "name"),
    "skein_gone": ("mass", "skein", "why"),
    "skein_split": ("mass", "skein", "part"),
    "skein_agrees": ("skein", "held"),
    "skein_weighed": ("skein", "net", "verdict", "mass", "item", "name"),
    "length_weighed": ("skein", "length", "mass"),
    "place_counted": ("place", "right", "corrected", "not_found", "lost"),
    "skein_changed": ("skein", "done"),
    "lot_changed": ("lot", "done"),
    "design_kept": ("name",),
    "design_changed": ("name",),
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
}
#: Facts that may be missing.
_MAY_LACK = ("item", "name", "opening_of", "value", "lot")
_COUNTS = (
    *("skeins", "lots", "skein", "part", "lot", "item", "items", "first", "last", "entry"),
    *("right", "corrected", "not_found", "lost"),
)
_MASSES, _LENGTHS = ("mass", "held", "net"), ("length",)
_WORDS = {"lot_state": LotState, "verdict": Verdict}


def as_json(what: Note) -> str:
    """The facts as they are kept, units in their keys: `{"kind": "skein_gone", "mass_mg": …}`."""
    return json.dumps(_plain(what), ensure_ascii=False)


def _plain(value: Any) -> Any:
    if isinstance(value, Note):
        facts = {_key(name): _plain(fact) for name, fact in value.facts.items() if fact is not None}
        return {"kind": value.kind, **facts}
    if isinstance(value, tuple | list):
        return [_plain(part) for part in value]
    if isinstance(value, Mass):
        return value.mg
    return value.um if isinstance(value, Length) else value


def _key(name: str) -> str:
    return f"{name}_mg" if name in _MASSES else f"{name}_um" if name in _LENGTHS else name


def from_json(text: str) -> Note:
    """The same facts again. Raises ValueError or LookupError for what no entry keeps."""
    return _note(json.loads(text))


def _note(kept: Any) -> Note:
    if not isinstance(kept, dict):
        raise ValueError(f"{str(kept)[:40]!r} unreadable")
    names = KINDS[kept["kind"]]
    if more := kept.keys() - {"kind", *map(_key, names)}:
        raise ValueError(f"{sorted(more)} unknown")
    return Note(kept["kind"], **{name: _fact(name, kept) for name in names})


def _fact(name: str, kept: dict[str, Any]) -> Any:
    key = _key(name)
    value: Any = kept.get(key) if name in _MAY_LACK else kept[key]
    if value is None and name in _MAY_LACK:
        return None
    if name == "what":
        return value if isinstance(value, str) else _note(value)
    if name == "done":
        return tuple(_note(part) for part in value)
    if name == "choice":
        return tuple((_checked(str, role), _numbers(skeins)) for role, skeins in value)
    if name in _MASSES or name in _LENGTHS:
        return (Mass if name in _MASSES else Length)(_checked(int, value))
    if name == "looked_at":
        return _checked(bool, value)
    if name in _COUNTS:
        return _checked(int, value)
    return _WORDS.get(name, str)(_checked(str, value))


def _numbers(skeins: Any) -> tuple[int, ...]:
    return tuple(_checked(int, number) for number in skeins)


def _checked(kind: type, value: Any) -> Any:
    if type(value) is not kind:
        raise ValueError(f"{str(value)[:40]!r} is not {kind.__name__}")
    return value
