"""What is said of weighings and of how sure a length is."""

from __future__ import annotations

import pytest

from stash.errors import Refusal
from stash.measures.length import metres
from stash.measures.mass import Mass, grams
from stash.measures.note import Note
from stash.rendering.sentences.say import sentence
from stash.rendering.sentences.stock import OPEN_BY
from stash.stock.spread import Why
from stash.trade.regain import RegainSet


@pytest.mark.parametrize(
    ("closing", "confirm"),
    [(False, "add --recount"), (True, "first `stash weigh 17 … --recount`")],
)
def test_more_than_a_full_skein_asks_for_the_bowl(closing: bool, confirm: str) -> None:
    error = Refusal(
        "more_than_full",
        skein=17,
        net=grams(113),
        full=grams(100),
        risen=grams(33),
        closing=closing,
    )

    assert sentence(error) == (
        "skein 17 would hold 113 g, but a full one holds 100 g. Something else on the scale? "
        f"Add its weight, as --tare 33g. All of it this yarn? Then {confirm}"
    )


def test_several_items_are_named() -> None:
    error = Refusal("several_items_under_way", skein=3, items=((4, "hat"), (6, "scarf")))

    assert sentence(error) == (
        "skein 3 is set aside for several items you have begun: 4 (hat), 6 "
        "(scarf); add --for with one of them, or --recount"
    )


@pytest.mark.parametrize(
    ("note", "said"),
    [
        (
            Note(
                "length_weighed",
                length=metres(10),
                mass=Mass(4_310),
                read_to=Mass(10),
                tape=0.01,
            ),
            ("10 m weighed 4.31 g, read to 0.01 g; 1% more for laying it along a tape"),
        ),
        (
            Note(
                "moisture_of_room",
                dry=9.7,
                damp=17.0,
                humidity=(0.35, 0.65),
                agreed=17.0,
                rules=RegainSet.EU,
            ),
            (
                "it holds 10 to 17% water in a room at 35% to 65% humidity; the "
                "trade counts 17.0% (eu rules)"
            ),
        ),
    ],
)
def test_a_spread_says_what_it_rests_on(note: Note, said: str) -> None:
    assert sentence(note) == said


def test_every_reason_of_a_spread_has_a_name() -> None:
    assert set(OPEN_BY) == set(Why)
