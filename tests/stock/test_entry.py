"""What an entry keeps, written down and read again."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.note import Note
from stash.stock.entry import KINDS, as_json, from_json
from stash.stock.weighing import Verdict
from stash.stock.yarn import LotState

WHOLE = st.integers(-(10**12), 10**12)
#: Facts that are no words and no counts.
VALUES: dict[str, st.SearchStrategy[Any]] = {
    **dict.fromkeys(("mass", "held", "net"), st.builds(Mass, WHOLE)),
    "length": st.builds(Length, WHOLE),
    "lot_state": st.sampled_from(LotState),
    "verdict": st.sampled_from(Verdict),
    "looked_at": st.booleans(),
    "numbers": st.lists(st.integers(), max_size=3).map(tuple),
    "choice": st.lists(
        st.tuples(st.text(), st.lists(st.integers(), max_size=3).map(tuple)), max_size=3
    ).map(tuple),
}
COUNTS = {
    *("skeins", "lots", "skein", "part", "lot", "item", "items", "first", "last", "entry"),
    *("right", "corrected", "not_found", "lost", "order", "count"),
}


def a_fact(name: str) -> st.SearchStrategy[Any]:
    if name == "what":
        return st.one_of(st.text(), notes("skein_gone", "design_kept"))
    if name == "done":
        return st.lists(notes("fact_now", "lot_now"), max_size=2).map(tuple)
    if name == "takes":
        return st.none() | st.lists(notes("yarn_taken"), max_size=2).map(tuple)
    return VALUES.get(name, st.integers() if name in COUNTS else st.text())


@st.composite
def notes(draw: st.DrawFn, *kinds: str) -> Note:
    kind = draw(st.sampled_from(kinds))
    return Note(kind, **{name: draw(a_fact(name)) for name in KINDS[kind]})


@given(notes(*KINDS))
def test_the_facts_of_every_kind_come_back(what: Note) -> None:
    assert from_json(as_json(what)) == what


def test_a_fact_that_may_be_missing_is_left_out_and_comes_back_as_none() -> None:
    what = Note("skein_used", mass=Mass(5_000), skein=2, item=None, name=None)

    assert json.loads(as_json(what)) == {"kind": "skein_used", "mass_mg": 5_000, "skein": 2}
    assert from_json(as_json(what)) == what


def test_an_entry_from_before_its_takes_were_kept_is_still_read() -> None:
    kept = '{"kind": "proposal_set_aside", "key": "L1+L2", "item": 1, "name": "hat"}'

    assert from_json(kept) == Note(
        "proposal_set_aside", key="L1+L2", item=1, name="hat", takes=None
    )


@pytest.mark.parametrize(
    "text",
    [
        "twelve grams",
        "[]",
        '"design_kept"',
        '{"name": "hat"}',
        '{"kind": "rained", "name": "hat"}',
        '{"kind": ["design_kept"], "name": "hat"}',
        '{"kind": "choice_set_aside", "choice": [1], "item": 1, "name": "hat"}',
        '{"kind": "skein_gone", "skein": 2, "why": "lost"}',
        '{"kind": "skein_gone", "mass_mg": 1.5, "skein": 2, "why": "lost"}',
        '{"kind": "skein_gone", "mass_mg": 1, "skein": "2", "why": "lost"}',
        '{"kind": "skein_gone", "mass_mg": 1, "skein": true, "why": "lost"}',
        '{"kind": "skein_gone", "mass_mg": 1, "skein": 2, "why": "lost", "weather": "rain"}',
        '{"kind": "skein_weighed", "skein": 1, "net_mg": 1, "verdict": "maybe", "mass_mg": 1}',
        '{"kind": "skein_changed", "skein": 1, "done": ["tare"]}',
        '{"kind": "choice_set_aside", "choice": [["A", ["1"]]], "item": 1, "name": "hat"}',
    ],
)
def test_what_no_entry_keeps_is_not_read(text: str) -> None:
    with pytest.raises((ValueError, LookupError, TypeError)):
        from_json(text)


@pytest.mark.parametrize(
    "what",
    [
        Note("item_begun", item=1),
        Note("item_begun", item=1, name="hat", weather="rain"),
        Note("rained"),
    ],
)
def test_facts_that_would_not_come_back_are_not_written(what: Note) -> None:
    with pytest.raises((ValueError, LookupError)):
        as_json(what)
