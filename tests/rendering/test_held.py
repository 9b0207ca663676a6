"""What skeins hold adds up as it is shown, in every unit."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.measures.length import metres
from stash.measures.mass import Mass, grams
from stash.measures.put_up import PutUp
from stash.rendering import figures
from stash.rendering.held import Held, held, held_in_rows, state, thickness
from stash.stock.holding import HeldSkein
from stash.stock.yarn import FullFrom, Lot, Pair, Yarn

SYSTEMS = [
    figures.Units("m", "g", "cm"),
    figures.Units("yd", "oz", "in"),
    figures.Units("yd", "g", "in"),
]
BAND = Pair(PutUp(grams(100), metres(230)), FullFrom.BAND)


def a_skein(
    held_mg: int, promised_mg: int = 0, pair: Pair = BAND, opened: bool = True
) -> HeldSkein:
    return HeldSkein(1, 1, Mass(held_mg), Mass(promised_mg), pair, opened)


skeins = st.lists(
    st.builds(a_skein, st.integers(0, 300_000), st.integers(0, 300_000)), min_size=1, max_size=5
)


@pytest.mark.parametrize("units", SYSTEMS)
@given(skeins=skeins)
def test_held_is_free_and_set_aside_and_no_part_is_larger(
    units: figures.Units, skeins: list[HeldSkein]
) -> None:
    figures.use(units)
    shown: list[Held] = []
    figures.settled(lambda: str(shown.append(held(skeins))))
    one = shown[-1]

    for free, aside, whole in (
        (one.free.length, one.aside.length, one.held.length),
        (one.free.weight, one.aside.weight, one.held.weight),
    ):
        assert free is not None
        assert aside is not None
        assert whole is not None
        assert whole.steps == free.steps + aside.steps
        assert whole.unit in (units.length, units.weight)


@pytest.mark.parametrize("units", SYSTEMS)
@given(skeins=skeins)
def test_a_total_above_rows_is_the_sum_of_the_rows(
    units: figures.Units, skeins: list[HeldSkein]
) -> None:
    figures.use(units)
    shown: list[tuple[Held, list[Held]]] = []
    figures.settled(lambda: str(shown.append((held_in_rows(skeins), [held([s]) for s in skeins]))))
    whole, rows = shown[-1]

    for part in ("free", "aside", "held"):
        for measure in ("length", "weight"):
            steps = [getattr(getattr(row, part), measure).steps for row in rows]
            assert getattr(getattr(whole, part), measure).steps == sum(steps)


def test_typed_ounces_are_shown_as_typed() -> None:
    """3.5 oz is 99.223 g to the milligram (an ounce is 28.349523125 g, NIST Handbook 44)."""
    figures.use(figures.Units("yd", "oz", "in"))

    assert str(held([a_skein(99_223)] * 4).free.weight) == "14 oz"


def test_what_is_not_known_is_named() -> None:
    figures.use(figures.Units())
    no_length = held([a_skein(50_000, pair=Pair(None, FullFrom.MISSING))])
    no_weight = held([a_skein(50_000, pair=Pair(BAND.put_up, FullFrom.ASSUMED))])

    assert no_length.free.words("free") == "50 g free, length not known"
    assert no_weight.free.words("free") == "115 m free, not weighed"


@pytest.mark.parametrize(
    ("skein", "called"),
    [
        (a_skein(100_000, opened=False), "whole"),
        (a_skein(60_000), "opened"),
        (a_skein(0), "used up"),
    ],
)
def test_a_skein_is_called_by_how_far_it_is_used(skein: HeldSkein, called: str) -> None:
    assert state(skein) == called


@pytest.mark.parametrize(
    ("low", "high", "called"),
    [(3, 3, "DK (3)"), (3, 4, "DK to worsted (3-4)"), (4, None, "worsted (4)"),
     (None, None, "thickness not known")],
)  # fmt: skip
def test_a_thickness_is_said_as_makers_say_it(
    low: int | None, high: int | None, called: str
) -> None:
    lot = Lot(1, Yarn(1, "", "Moor"), thickness_from=low, thickness_to=high)

    assert thickness(lot) == called


def test_a_length_never_stays_below_nothing() -> None:
    figures.use(figures.Units())
    short = held([a_skein(10_000, 20_000)])

    assert str(short.free.length) == "0 m"
    assert str(short.held.length) == "23 m"
