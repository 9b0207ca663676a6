"""Invented shelves with everything a lot can be limited or weighed by; same seed, same shelf."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from random import Random

from hypothesis import strategies as st
from shelves import AS_OF

from stash.matching.lots.shelf import Shelf
from stash.matching.question.wish import Gap, Limits, Named, Wash
from stash.measures.colour import lab
from stash.measures.money import Money
from stash.stock.holding import HeldLot, HeldSkein
from stash.stock.yarn import Condition
from stash.trade.colour_words import colour_of

FIBRES = (
    "", "100% wool", "100% acrylic", "100% cotton", "75% merino wool, 25% polyamide",
    "60% cotton, 40% polyester", "80% acrylic, 20% other fibre", "70% alpaca, 30% silk",
)  # fmt: skip
CARE = ("", "", "superwash", "hand wash", "wash at 60")
COLOURS = ("", "navy", "rust", "cream", "Storm")
OWNERS = ("", "", "Nell")


def dressed(shelf: Shelf, seed: int) -> Shelf:
    """The shelf with fibres, care, conditions, colour words, owners, days and prices on it."""
    random = Random(seed)
    return replace(shelf, lots=tuple(_dressed(random, held) for held in shelf.lots))


def _dressed(random: Random, held: HeldLot) -> HeldLot:
    lot = replace(
        held.lot,
        fibre=random.choice(FIBRES),
        care=random.choice(CARE),
        colour=random.choice(COLOURS),
        conditions=tuple(c for c in Condition if random.random() < 0.08),
        daylight=random.random() < 0.5,
    )
    return HeldLot(lot, tuple(_skein(random, skein) for skein in held.skeins))


def _skein(random: Random, skein: HeldSkein) -> HeldSkein:
    return replace(
        skein,
        owner=random.choice(OWNERS),
        since=AS_OF - timedelta(random.randrange(0, 2000)) if random.random() < 0.8 else None,
        paid=Money(random.randrange(0, 3000)) if random.random() < 0.7 else None,
    )


def _named(word: str) -> Named:
    return Named(word, near=lab(colour_of(word)[0]))


BLUE, RED, RUST, STORM = Named("blue", True), Named("red", True), _named("rust"), Named("storm")

limits = st.builds(
    Limits,
    fineness=st.sampled_from(
        [{}, {"A": (150.0, 300.0)}, {"A": (100.0, 250.0), "B": (180.0, 240.0)}]
    ),
    without=st.sampled_from([frozenset(), frozenset({"wool", "merino wool"})]),
    wash=st.sampled_from(Wash),
    let_in=st.sampled_from([frozenset(), frozenset({Condition.QUARANTINED})]),
    wanted=st.sampled_from([{}, {}, {"A": (BLUE, RUST)}, {"B": (STORM, RED)}]),
    unwanted=st.sampled_from([{}, {}, {"A": (RED,), "B": (RED, STORM)}]),
    barred=st.sampled_from([{}, {}, dict.fromkeys(range(1, 30, 3), "lies in the attic")]),
    no_bleeding=st.booleans(),
)
gaps = st.sampled_from([Gap(15), Gap(20, 40), Gap(0, 10)])
