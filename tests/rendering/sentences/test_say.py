"""A note as scripts read it: its kind, its words, and plain facts with the unit in the name."""

from __future__ import annotations

from fractions import Fraction

import pytest

from stash.errors import NotFound
from stash.measures.length import metres
from stash.measures.mass import grams
from stash.measures.note import Note
from stash.rendering import figures
from stash.rendering.sentences import say
from stash.rendering.sentences.say import plain_facts, sentence
from stash.requirements.design.extras import Extra, Kind
from stash.requirements.yarn.need import Source
from stash.stock.yarn import Lot, Yarn


def test_facts_are_plain_values_with_their_unit() -> None:
    note = Note(
        "any",
        length=metres(2),
        mass=grams(5),
        share=Fraction(1, 4),
        source=Source.GAUGE,
        lot=Lot(3, Yarn(1, "", "Fellside")),
        extra=Extra(Kind.CORD, "A", (metres(Fraction(2, 5)),)),
        sides=(metres(1), metres(2)),
        roles=("A", "B"),
        count=2,
        thing=object(),
    )

    assert plain_facts(note) == {
        "kind": "any",
        "words": "any",
        "length_m": 2,
        "mass_g": 5,
        "share": 0.25,
        "source": "gauge",
        "lot": "L3",
        "extra": "cord 40 cm",
        "sides_m": [1, 2],
        "roles": ["A", "B"],
        "count": 2,
    }


def test_a_note_in_json_has_its_words_beside_its_facts() -> None:
    assert plain_facts(Note("figure_for_buying", role="A", skeins=1)) == {
        "kind": "figure_for_buying",
        "words": "A: 1 skein is what to buy; it uses some of it, at most 1.",
        "role": "A",
        "skeins": 1,
    }


def test_a_measure_in_a_template_is_in_her_units(monkeypatch: pytest.MonkeyPatch) -> None:
    """100 m are 109.4 yd (1 yd is 0.9144 m, NIST SP 811)."""
    monkeypatch.setattr(say, "kinds", lambda: {"any": "{length} and {mass}, off by {less}"})
    note = Note("any", length=metres(100), mass=grams(150), less=grams(-200))

    assert sentence(note) == "100 m and 150 g, off by -200 g"
    figures.use(figures.Units.of("yd", "g", "in"))
    assert sentence(note) == "109 yd and 150 g, off by -200 g"


def test_what_was_not_found_has_the_nearest_choice() -> None:
    assert sentence(NotFound("colour_on_shelf", "blu", ("blue",))) == (
        "no colour 'blu' on your shelf; did you mean blue?"
    )
    assert sentence(NotFound("design", "", ("Hat", "Cowl"))) == "name the design: Hat or Cowl"
    assert sentence(NotFound("skein", "99")) == "no skein 99; `stash shelf` lists yours"
