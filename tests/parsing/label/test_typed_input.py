"""Forty-eight ways makers type things, each through the reader it belongs to.

The table is `fixtures/checks/typed_input.csv`: invented values in a style common practice knows,
each with the reading a careful person gives it. `ask:` lists the readings a refusal must name,
`refused:` the kind of the error, `!` the kind of a doubt that must be shown.
"""

from __future__ import annotations

import csv
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from stash.errors import Ambiguous, Unreadable
from stash.measures.money import Money
from stash.parsing import numbers, quantities
from stash.parsing.days import day
from stash.parsing.label import Label, lots, read
from stash.trade.colour_words import colour_of
from stash.trade.thickness import named

_TABLE = Path(__file__).parents[3] / "fixtures" / "checks" / "typed_input.csv"
_ROWS = list(csv.DictReader(_TABLE.open(encoding="utf-8", newline="")))


def _lot(text: str) -> str:
    said = lots.lot(text)
    return "; ".join(part for part in (f"{said.state} {said.text}".strip(), said.doubt) if part)


def _class(text: str) -> str:
    low, high = named(text) or (None, None)
    return f"{low}-{high}"


_READERS: dict[str, Callable[[str], object]] = {
    "number": numbers.fraction,
    "mass": quantities.mass,
    "length": quantities.length,
    "amount": quantities.amount,
    "put_up": quantities.put_up,
    "density": quantities.density,
    "lot": _lot,
    "thickness": _class,
    "colours": lambda text: len(colour_of(text)),
    "day": lambda text: day(text, date(2025, 6, 1)),
    "label": read,
}


@pytest.mark.parametrize("row", _ROWS, ids=lambda row: f"{row['row']} {row['reader']}")
def test_what_a_maker_typed_is_read_as_a_careful_person_reads_it(row: dict[str, str]) -> None:
    reader, wanted = _READERS[row["reader"]], row["reading"]
    if wanted.startswith("ask: "):
        with pytest.raises(Ambiguous) as asked:
            reader(row["typed"])
        assert list(asked.value.readings) == wanted.removeprefix("ask: ").split(" | ")
    elif wanted.startswith("refused: "):
        with pytest.raises(Unreadable) as refused:
            reader(row["typed"])
        assert refused.value.kind == wanted.removeprefix("refused: ")
    elif row["reader"] == "label":
        _holds(read(row["typed"]), wanted)
    else:
        assert str(reader(row["typed"])) == wanted


def _holds(label: Label, wanted: str) -> None:
    for fact in wanted.split(" | "):
        if fact.startswith("!"):
            assert fact[1:] in [note.kind for note in label.notes]
        else:
            field, _, value = fact.partition("=")
            found = getattr(label.incoming, field)
            shown = str(found.coins) if isinstance(found, Money) else str(found)
            assert shown == value, field


def test_the_table_has_every_row() -> None:
    assert len({row["row"] for row in _ROWS}) == 48
