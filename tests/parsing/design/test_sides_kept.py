"""A side that is not typed again stays as it is, to the micrometre, whatever it was typed in."""

from __future__ import annotations

from dataclasses import replace

import pytest
from commands import Maker
from hypothesis import given
from hypothesis import strategies as st

from stash.measures.length import Length
from stash.parsing import quantities
from stash.parsing.design import design
from stash.parsing.design import sizes as sizes_typed
from stash.parsing.design.design import DesignWords
from stash.requirements.design.design import Design
from stash.requirements.design.shapes import BUILDS, Shape, Size
from stash.requirements.design.sizing import kept_as, sides_of


@st.composite
def typed_sides(draw: st.DrawFn) -> str:
    """A length in eighths, thirds, sixteenths or decimals, as a maker writes it."""
    unit = draw(st.sampled_from(["in", "cm", "mm"]))
    whole = draw(st.integers(5, 99))
    below = draw(st.sampled_from([1, 2, 3, 8, 16, 10, 100]))
    above = draw(st.integers(0, below - 1))
    if below in (10, 100):
        return f"{whole}.{above:0{len(str(below)) - 1}d}{unit}"
    return f"{whole} {above}/{below} {unit}" if above else f"{whole}{unit}"


@given(typed_sides(), typed_sides(), st.sampled_from([*Shape]))
def test_a_plan_put_right_keeps_its_sides(first: str, second: str, shape: Shape) -> None:
    across, up = quantities.length(first), quantities.length(second)
    words = BUILDS[shape].words
    sides = (across, across) if len(words) == 1 else (across, up, up)[: len(words)]
    plan = Design(name="it", shape=shape, size=Size(*sides))

    changed = design.put_right(plan, DesignWords(strands="2", thickness="DK"))
    taller = design.put_right(plan, DesignWords(**{words[-1]: "37 5/8 in"}))

    assert changed == replace(plan, strands=2, thickness_from=3, thickness_to=3)
    assert taller.needed_size.sides[: len(words) - 1] == sides[: len(words) - 1]
    assert taller.needed_size.sides[len(words) - 1] == quantities.length("37 5/8 in")


@given(st.integers(30_000, 2_000_000), st.integers(30_000, 2_000_000))
def test_every_micrometre_is_kept(across: int, up: int) -> None:
    plan = Design(shape=Shape.COWL, size=Size(Length(across), Length(up)))

    assert design.put_right(plan, DesignWords(strands="2")).size == plan.size


@given(typed_sides(), typed_sides())
def test_a_size_of_her_own_is_the_size_that_was_typed(first: str, second: str) -> None:
    chart = sides_of(kept_as(sizes_typed.chart(f"around {first} tall {second}")))
    words = DesignWords(shape="round hat", size="mine", sides=tuple(chart.items()))

    assert design.design(words).size == Size(quantities.length(first), quantities.length(second))


HAT = (
    "--shape",
    "round hat",
    "--gauge",
    "17 sts x 13 rows",
    "--fabric",
    "1 hdc",
    "--thickness",
    "DK",
)


@pytest.mark.parametrize(
    ("around", "um"),
    [
        ("20 3/8in", 20.375 * 25_400), ("21 1/8 in", 21.125 * 25_400), ("20 5/8\"", 523_875),
        ("1/3 m", 333_333), ("20 1/3 in", 516_467), ("54.3cm", 543_000), ("543.25mm", 543_250),
        ("20⅞in", 20.875 * 25_400), ("1 2/3 ft", 508_000), ("22 1/16in", 560_387),
        ("0.5171m", 517_100), ("19 7/8 inches", 19.875 * 25_400),
    ],
)  # fmt: skip
def test_a_design_and_a_size_in_any_parts_of_a_unit_can_be_changed_and_used(
    nobody: Maker, around: str, um: float
) -> None:
    nobody.does("design", "add", "It", *HAT, "--around", around, "--tall", "8 5/8in")
    nobody.does("design", "change", "It", "--strands", "2")
    nobody.does("design", "change", "It", "--tall", "9 1/8in")
    nobody.does("settings", "size mine", f"around {around} tall 9 1/8in")
    nobody.does("design", "add", "Mine", *HAT, "--size", "mine", "--strands", "2")

    sizes = [nobody.ask("design", "show", name)["plan"]["size"] for name in ("It", "Mine")]
    assert sizes[0] == sizes[1]
    assert sizes[0]["across_um"] == pytest.approx(um, abs=1)
    assert sizes[0]["up_um"] == 231_775
    assert nobody.ask("need", "It")["roles"] == nobody.ask("need", "Mine")["roles"]
