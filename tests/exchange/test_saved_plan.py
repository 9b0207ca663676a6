"""A planned batch in a file of its own, there and back."""

from __future__ import annotations

import json
from datetime import date
from typing import Any

import pytest

from stash.errors import BadPlan
from stash.exchange.saved_plan import plan_written, saved_plan_from
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.planning.model.saved import Saved, SavedCut, SavedRole, SavedWant

SAVED = Saved(
    date(2026, 3, 1),
    (
        SavedWant(
            "Hat", "Hat", {"name": "Hat"}, None, (SavedRole("A", Length(9), Length(10), "gauge"),)
        ),
        SavedWant("Hat", "Hat, ü", {"name": "Hat"}, {"name": "Hat, ü"}, ()),
    ),
    {1: 0, 2: 1},
    (SavedCut(1, 12, "A", 1, Length(10)),),
    {12: Mass(43_000), 13: Mass(0)},
)


def test_it_reads_back_to_the_micrometre_and_milligram() -> None:
    assert saved_plan_from("plan.json", plan_written(SAVED).encode()) == SAVED


def told() -> dict[str, Any]:
    found: dict[str, Any] = json.loads(plan_written(SAVED))
    return found


@pytest.mark.parametrize(
    "change",
    [
        {"kind": "shopping list"},
        {"version": 2},
        {"items": {"1": 7}},
        {"items": [1]},
        {"cuts": [{"item": 1, "skein": 12, "role": "A", "strand": 1, "take_um": -1}]},
        {"cuts": [{"item": 1, "skein": 12, "role": "A", "strand": 1, "take_um": 1.5}]},
        {"cuts": [{"skein": 12}]},
        {"free_mg": {"x": 3}},
        {"as_of": "yesterday"},
        {"wants": None},
    ],
)
def test_anything_else_is_refused_in_one_line(change: dict[str, Any]) -> None:
    with pytest.raises(BadPlan, match="bad_plan"):
        saved_plan_from("plan.json", json.dumps({**told(), **change}).encode())


@pytest.mark.parametrize("data", [b"", b"[]", b"\xff\xfe", b"{", b"3"])
def test_what_is_no_json_is_refused_too(data: bytes) -> None:
    with pytest.raises(BadPlan, match="bad_plan"):
        saved_plan_from("plan.json", data)
