"""What a screen of `match` shows adds up, in every system of units."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from shelves import a_need, random_shelf

from stash.actions.her_settings import Settings
from stash.actions.match import Answer
from stash.matching.match import match
from stash.matching.question.wish import Wish
from stash.measures.length import INCH_UM
from stash.rendering import figures
from stash.rendering.figures import Units
from stash.rendering.match import text

SYSTEMS = [Units("m", "g", "cm"), Units("yd", "oz", "in"), Units("yd", "g", "in")]
#: A yard is 36 inches.
METRES_IN = {"m": 1.0, "yd": 36 * INCH_UM / 1_000_000}


def screens(units: Units) -> Iterator[tuple[Answer, str]]:
    for seed in range(8):
        need = a_need(4, A=20.0 + 37.3 * seed, B=3.3 + 11.7 * seed)
        found = match(random_shelf(seed, 60), need, Wish(top=20, thickness_tolerance=7))
        answer = Answer(found, None, Settings())
        figures.use(units)
        yield answer, figures.settled(lambda: text(answer, everything=True, chosen=False))  # noqa: B023


@pytest.mark.parametrize("units", SYSTEMS)
def test_what_is_taken_and_left_is_what_is_free(units: Units) -> None:
    checked = 0
    for answer, shown in screens(units):
        lines = [line for line in shown.split("\n") if " take " in line]
        roles = [filled for one in answer.match.proposals for filled in one.roles]
        for line, filled in zip(lines, roles, strict=True):
            takes = [float(n) for n in re.findall(rf"([\d.]+) {units.length} of skein", line)]
            left = re.search(rf", ([\d.]+) {units.length} left", line)
            free = filled.free_m / METRES_IN[units.length]
            together = sum(takes) + (float(left[1]) if left else 0)
            step = 0.1 if "." in line.split(" take ")[1].split(" of ")[0] else 1
            assert len(takes) == len(filled.takes)
            if left:
                assert free - step < together <= free + 1e-6
            checked += 1
    assert checked > 100


@pytest.mark.parametrize("units", SYSTEMS)
def test_what_is_there_and_short_is_what_is_to_be_set_aside(units: Units) -> None:
    """But for what the tails of more than one skein take."""
    checked = 0
    for _, shown in screens(units):
        needs = dict(
            re.findall(rf"^([AB]) about .*, set aside ([\d.]+) {units.length}", shown, re.M)
        )
        said = rf"([AB]): \S+.* has ([\d.]+) {units.length}, ([\d.]+) {units.length} short"
        for role, has, short in re.findall(said, shown):
            assert float(has) + float(short) == pytest.approx(float(needs[role]), abs=1e-6)
            checked += 1
    assert checked >= 5


@pytest.mark.parametrize("units", SYSTEMS)
def test_a_screen_has_one_unit_of_a_kind_and_one_step(units: Units) -> None:
    other = "yd" if units.length == "m" else "m"
    for _, shown in screens(units):
        lengths = re.findall(rf"([\d.]+) {units.length}\b", shown)
        assert not re.search(rf"[\d.]+ {other}\b", shown)
        if any(float(length) >= 10 for length in lengths):
            assert all("." not in length for length in lengths)
