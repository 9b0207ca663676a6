"""Every row of a file read as what it means: what a reader cannot take is found here first."""

from __future__ import annotations

import json
import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import astuple
from datetime import date, datetime
from typing import Any

from stash.actions.her_settings import Settings
from stash.errors import StashError
from stash.measures.note import Note
from stash.requirements.design.serialise import deserialise, serialise
from stash.stock import entry
from stash.stock.yarn import Dyed, LotState, Surface
from stash.store import exchange_rows, order_rows, skein_rows
from stash.store.engine import Connection

_Row = Mapping[str, Any]

#: More than any shelf holds of anything, and so little that sums of it stay whole numbers of 64
#: bits (SQLite): a thousand tonnes, a million kilometres, ten thousand million in money.
MOST = 10**15
#: A design's spread, margin or count is never near this.
_MOST_IN_PLAN = 10**12
#: How a reader of ours says that it cannot take a value.
_CANNOT = (
    *(StashError, ValueError, LookupError, TypeError, AttributeError),
    *(ArithmeticError, RecursionError),
)
_NOT_NEGATIVE = ("paid_coins", "tare_mg", "reading_mg", "expected_um", "set_aside_um")


class _Wrong(ValueError):
    """A value that no reader of ours takes, with what is wrong with it."""

    def __init__(self, kind: str, **facts: object) -> None:
        self.note = Note(kind, **facts)
        super().__init__(kind)


def unreadable(db: Connection) -> Iterator[Note]:
    """Rows that cannot be read as what they mean."""
    for table, row in exchange_rows.each_row(db):
        try:
            _read(table, row)
        except _CANNOT as bad:
            yield _finding(table, next(iter(row.values())), bad)


def _finding(table: str, key: object, bad: Exception) -> Note:
    if isinstance(bad, _Wrong):
        return Note("row_unreadable", table=table, key=key, error="ValueError", why=bad.note)
    why = bad if isinstance(bad, StashError) else str(bad)
    return Note("row_unreadable", table=table, key=key, error=type(bad).__name__, why=why)


def _read(table: str, row: _Row) -> None:
    for name, value in row.items():
        if value is not None:
            _read_value(name, value)
    if table in _READERS:
        _READERS[table](row)


def _read_value(name: str, value: Any) -> None:
    """What a column's name says of its values, in every table alike."""
    if isinstance(value, int) and abs(value) > MOST:
        raise _Wrong("column_out_of_range", column=name, value=value)
    if name in _NOT_NEGATIVE and value < 0:
        raise _Wrong("column_out_of_range", column=name, value=value)
    if name.endswith(("on_day", "bought_on", "begun_on", "by_day")):
        date.fromisoformat(value)


def _entry(row: _Row) -> None:
    datetime.fromisoformat(row["at_utc"])
    if row["facts"] is not None:
        what = entry.from_json(row["facts"])
        if json.loads(entry.as_json(what)) != json.loads(row["facts"]):
            raise ValueError("facts")
        _refuse_endless(json.loads(row["facts"]))


def _lot(row: _Row) -> None:
    skein_rows.colours_from(row["colours_hex"])
    skein_rows.conditions_from(row["conditions"])
    LotState(row["lot_state"])
    skein_rows.said_of(Dyed, row["dyed"])
    skein_rows.said_of(Surface, row["surface"])
    if row["full_mg"] is not None and row["full_mg"] <= 0:
        raise _Wrong("column_out_of_range", column="full_mg", value=row["full_mg"])


def _yarn(row: _Row) -> None:
    if not row["name"].strip():
        raise _Wrong("yarn_without_name")


def _design(row: _Row) -> None:
    """A plan is read, and says the same when it is written again."""
    plan = json.loads(row["plan"])
    _refuse_endless(plan)
    again = json.loads(json.dumps(serialise(deserialise(plan))))
    for key, value in plan.items():
        if not _kept_in(value, again.get(key, value)):
            raise _Wrong("plan_not_written_alike", key=key, value=json.dumps(value)[:40])


def _kept_in(value: Any, again: Any) -> bool:
    """Whether a value is written again as it is; what older plans lack may have come beside it."""
    if isinstance(value, dict) and isinstance(again, dict):
        return value.keys() <= again.keys() and all(_kept_in(value[k], again[k]) for k in value)
    if isinstance(value, list) and isinstance(again, list):
        return len(value) == len(again) and all(map(_kept_in, value, again))
    return bool(value == again)


def _refuse_endless(value: Any) -> None:
    if isinstance(value, dict | list | tuple):
        for part in value.values() if isinstance(value, dict) else value:
            _refuse_endless(part)
    elif isinstance(value, float | int) and not (
        math.isfinite(value) and abs(value) <= _MOST_IN_PLAN
    ):
        raise _Wrong("endless_in_plan", value=value)


def _order(row: _Row) -> None:
    order_rows.wanted_from(row["colours"])


def _setting(row: _Row) -> None:
    name, value = row["name"], row["value"]
    kept = Settings.of({name: value})
    if name.startswith("size ") and not kept.own_size(name.removeprefix("size ")):
        raise _Wrong("size_without_sides")
    if name.startswith(("hours ", "tare ")):
        int(value)
    for number in _amounts(kept):
        if not (math.isfinite(number) and 0 <= number <= _MOST_IN_PLAN):
            raise _Wrong("column_out_of_range", column=name, value=value)


def _amounts(kept: Settings) -> Iterator[float]:
    """The amounts among her settings, as numbers."""
    yield from (
        kept.scale_step.mg,
        kept.useful_end.um,
        kept.useful_size.um,
        kept.thickness_tolerance,
    )
    yield from (money.coins for money in (kept.wage, kept.sundries) if money is not None)
    yield from (float(share) for share in (kept.overhead, kept.fees) if share is not None)
    yield from kept.humidity
    yield from astuple(kept.ranking)
    yield 0 if kept.margin is None else kept.margin


_READERS: dict[str, Callable[[_Row], None]] = {
    "entry": _entry,
    "yarn": _yarn,
    "lot": _lot,
    "design": _design,
    "item_order": _order,
    "setting": _setting,
}
