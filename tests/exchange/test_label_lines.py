"""Label lines with facts beside them: each is read as a cell of a sheet is, and wins."""

from __future__ import annotations

import csv
from datetime import date
from pathlib import Path

import pytest

from stash.errors import BadInput, Refusal
from stash.exchange.label_lines import Beside, LineRead, Reader
from stash.exchange.tables import with_unit
from stash.parsing import facts
from stash.rendering.arriving import typed_facts
from stash.rendering.her_words import named_thickness

_LINES = Path(__file__).parents[2] / "fixtures" / "checks" / "label_lines.csv"
_READER = Reader(None, date(2026, 11, 26), "EUR")


def readable() -> list[LineRead]:
    """Every seventeenth line of the table that can be read."""
    with _LINES.open(encoding="utf-8") as file:
        lines = [row["line"] for row in csv.DictReader(file)][::17]
    found = []
    for line in lines:
        try:
            found.append(_READER.line(line, Beside()))
        except (BadInput, Refusal):
            continue
    return found


def test_what_a_field_shows_reads_back_to_the_very_same_fact() -> None:
    lines = readable()
    assert len(lines) > 30
    for read in lines:
        for column, text in typed_facts(read.line, "EUR").items():
            if not text:
                continue
            again = _READER.line(read.typed, Beside(facts={column: text}))
            shown = typed_facts(again.line, "EUR")
            assert shown[column] == text, (read.typed, column)


def test_a_fact_that_is_empty_is_cleared_and_no_other() -> None:
    for read in readable():
        before = typed_facts(read.line, "EUR")
        for column in ("colour", "lot", "fibre", "place", "paid", "mass", "thickness", "dyed"):
            after = typed_facts(_READER.line(read.typed, Beside(facts={column: ""})).line, "EUR")
            changed = {name for name in after if after[name] != before[name]}
            assert after[column] == ""
            assert changed <= {column}


def test_a_price_of_each_counts_the_skeins_said_beside_it() -> None:
    read = _READER.line("Otter 50g/112m, sage", Beside(facts={"paid": "3.20 each", "count": "3"}))
    assert typed_facts(read.line, "EUR")["paid"] == "€9.60"


def test_a_bad_fact_names_its_column() -> None:
    with pytest.raises(BadInput) as refused:
        _READER.line("Otter 50g", Beside(facts={"thickness": "banana"}))
    assert refused.value.field == "thickness"


def test_a_bare_figure_takes_the_unit_of_its_field() -> None:
    read = _READER.line("Otter 50g", Beside(facts={"length": with_unit("length", "112", "m")}))
    assert typed_facts(read.line, "EUR")["length"] == "112 m"


def test_a_thickness_reads_as_it_is_shown() -> None:
    for low in range(8):
        for high in range(low, 8):
            assert facts.thickness(named_thickness(low, high)) == (low, high)
    with pytest.raises(BadInput):
        facts.thickness("DK (5)")
