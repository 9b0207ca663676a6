"""The screens of random shelves read as a person with a pencil reads them: units, steps and sums.

Nothing here asks the program for an exact amount but where the screen does not show what a figure
follows from; what is shown has to add up by itself.
"""

from __future__ import annotations

import math
import os
import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from decimal import Decimal
from random import Random
from unittest.mock import patch

import pytest
from commands import Maker

#: Her units of lengths of yarn, of weights and of sizes.
SYSTEMS = {"metric": ("m", "g", "cm"), "us": ("yd", "oz", "in"), "mixed": ("yd", "g", "cm")}
#: One yard and one ounce, from the international yard and pound agreement of 1959.
SIZES = {"m": 1.0, "yd": 0.9144, "g": 1.0, "oz": 28.349523125}
_KINDS = ({"m", "yd"}, {"g", "oz"}, {"cm", "in"})
_AMOUNT = re.compile(r"(?<![\w.,/])(\d+(?:\.\d+)?) (m|yd|g|oz|cm)\b")
_INCHES = re.compile(r"\d in\b(?! all\b| a row\b)")
_COLOURS = ("navy", "oatmeal", "rust", "teal", "plum", "white", "grey", "green", "red", "black")


@dataclass
class Desk:
    """A maker in one system of units, with every screen of her evening, and what is free by lot."""

    maker: Maker
    units: tuple[str, str, str]
    screens: list[tuple[str, str]] = field(default_factory=list)
    free: dict[str, int] = field(default_factory=dict)

    def sees(self, *words: str) -> None:
        self.screens.append((" ".join(words), self.maker.does(*words).out))

    def of(self, command: str) -> list[str]:
        """Her screens of one command."""
        return [screen for words, screen in self.screens if words.split()[0] == command]


def amounts(screen: str) -> Iterator[tuple[str, str]]:
    """Every amount of yarn or work that is shown, as its number and unit."""
    yield from _AMOUNT.findall(screen)
    yield from (("1", "in") for _ in _INCHES.findall(screen))


def numbers(pattern: str, screen: str) -> list[tuple[Decimal, ...]]:
    found = re.findall(pattern, screen, re.MULTILINE)
    return [tuple(map(Decimal, one if isinstance(one, tuple) else (one,))) for one in found]


@pytest.fixture(
    scope="module", params=[(system, seed) for system in SYSTEMS for seed in range(3)], ids=str
)
def desk(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Desk:
    """An evening at a shelf made up by a seed: from the question to the finished item."""
    system, seed = request.param
    file = tmp_path_factory.mktemp("desk") / "shelf.stash"
    with patch.dict(os.environ, {"STASH_FILE": str(file), "NO_COLOR": "1"}):
        desk = Desk(Maker(file), SYSTEMS[system])
        shelf(desk, Random(seed))
        evening(desk)
    return desk


def shelf(desk: Desk, random: Random) -> None:
    """Whole skeins and part balls of seven yarns, typed in both systems, and two designs."""
    maker = desk.maker
    for colour in random.sample(_COLOURS, 7):
        grams, metres = random.choice(((50, 125), (100, 230), (100, 248), (50, 113)))
        of = f"{grams}g/{metres}m" if random.random() < 0.6 else f"{grams}g/{metres + 7}yd"
        left = f", {random.randint(9, grams - 2)}g left" if random.random() < 0.5 else ""
        count = "" if left else f"{random.randint(1, 3)} x "
        lot = f"lot {random.randint(1, 99)}"
        maker.does("add", f"Fernlow DK, {count}{of}, {colour}, {lot}{left}, wool", "--place", "bin")
    for name, unit in zip(("length", "weight", "size"), desk.units, strict=True):
        maker.does("settings", name, unit)
    around, tall, band = random.randint(48, 60), random.randint(18, 25), random.randint(1, 3)
    worked = ("--gauge", "17 sts x 13 rows", "--fabric", "1 hdc", "--thickness", "DK")
    sides = ("--around", f"{around}cm", "--tall")
    maker.does("design", "add", "Hat", "--shape", "round hat", *sides, f"{tall}cm",
               "--band", "B 4cm bottom", *worked)  # fmt: skip
    maker.does("design", "add", "Cap", "--shape", "headband", *sides, "9cm",
               "--band", f"B {band}cm bottom", *worked)  # fmt: skip
    unit = SIZES[desk.units[0]]
    desk.free = {
        lot["lot_ref"]: math.floor(lot["free_m"] / unit + 1e-6) for lot in maker.ask("shelf")
    }


def evening(desk: Desk) -> None:
    for design in ("Hat", "Cap"):
        desk.sees("need", design)
        desk.sees("match", design)
        desk.sees("reach", design, "--have", "A=20m", "--have", "B=5m")
    desk.sees("match", "Hat", "--all")
    desk.sees("ideas")
    desk.sees("ideas", "1")
    desk.sees("aside", "Cap", "1")
    desk.sees("shelf")
    desk.sees("begin", "Cap")
    planned = desk.maker.ask("show", "item", "1")["set_aside"]
    held = {one["skein"]: desk.maker.skein(one["skein"])["held_g"] for one in planned}
    for one in planned:
        half = f"{held[one['skein']] - one['set_aside_g'] / 2:.1f}g"
        desk.maker.does("weigh", str(one["skein"]), half, "--row", "5")
    desk.sees("lasts", "Cap")
    left = [f"--left={n}={desk.maker.skein(n)['held_g'] - 1:.1f}g" for n in held]
    desk.sees("done", "1", *left)


def test_a_screen_has_one_unit_of_a_kind_and_one_step_of_a_unit(desk: Desk) -> None:
    for words, screen in desk.screens:
        shown = [*amounts(screen)]
        others = set().union(*_KINDS) - set(desk.units)
        assert not {unit for _, unit in shown} & others, (words, screen)
        values = [Decimal(number) for number, one in shown if one == desk.units[0]]
        if any(value >= 10 for value in values):
            assert all(value == int(value) for value in values), (words, screen)


def test_what_is_left_of_a_set_is_what_is_free_less_what_is_taken(desk: Desk) -> None:
    unit, checked = desk.units[0], 0
    for screen in desk.of("match"):
        for block in screen.split("\n\n"):
            head = re.match(r"\d+  (\S+)", block)
            taken = re.findall(rf"take (.+?)(?:, (\d+(?:\.\d+)?) {unit} left)?(?:;|$)", block, re.M)
            if not head or not taken:
                continue
            for lot, (takes, left) in zip(head[1].split("+"), taken, strict=True):
                cuts = sum(cut for (cut,) in numbers(rf"(\d+(?:\.\d+)?) {unit}\b", takes))
                assert cuts <= desk.free[lot], block
                if left:
                    checked += 1
                    assert Decimal(left) == desk.free[lot] - cuts, block
    assert checked


def test_what_an_idea_leaves_is_what_is_free_less_what_it_takes(desk: Desk) -> None:
    unit = desk.units[0]
    found = re.findall(rf"takes (\d+) {unit}(?:, (\d+) {unit} left)? +(L\d+) ", desk.of("ideas")[0])
    assert found
    for takes, left, lot in found:
        assert int(left or 0) == desk.free[lot] - int(takes) or not left


def test_what_is_missing_is_what_is_needed_less_what_there_is(desk: Desk) -> None:
    unit = desk.units[0]
    for screen in desk.of("match"):
        aside = dict(re.findall(rf"^([AB]) about .* set aside (\d+) {unit}", screen, re.M))
        for role, has, short in re.findall(
            rf"^ +([AB]): .* has (\d+) {unit}, (\d+) {unit} short", screen, re.M
        ):
            assert int(short) == int(aside[role]) - int(has), screen
    for reach in desk.of("reach"):
        rows = re.findall(rf"^  ([AB]) +(\d+) {unit}, needs (\d+) {unit}", reach, re.M)
        short_of = dict(re.findall(rf"([AB]) is (\d+) {unit} short", reach))
        assert rows, reach
        for role, has, needs in rows:
            assert int(short_of.get(role, 0)) == max(0, int(needs) - int(has)), reach


def test_what_was_used_adds_up_and_so_does_what_lasts(desk: Desk) -> None:
    weight, (done,), (lasts,) = desk.units[1], desk.of("done"), desk.of("lasts")
    ((total,),) = numbers(rf"is done: (\d+(?:\.\d+)?) {weight} used", done)
    rows = numbers(rf"^  [AB] .*? (\d+(?:\.\d+)?) {weight}\b", done)
    assert total == sum(one for (one,) in rows), done
    figures = re.findall(rf"(have|need|left over|short) +([\d.]+) {weight}", lasts)
    assert figures, lasts
    for (_, have), (_, need), (verdict, left) in zip(*[iter(figures)] * 3, strict=True):
        over = Decimal(have) - Decimal(need)
        assert Decimal(left) == (over if verdict == "left over" else -over), lasts


def test_the_shelf_is_the_sum_of_its_rows(desk: Desk) -> None:
    (screen,), unit = desk.of("shelf"), desk.units[0]
    ((whole,),) = numbers(rf"skeins: (\d+) {unit}\b", screen)
    free = sum(one for (one,) in numbers(rf"(\d+) {unit} free", screen))
    aside = sum(one for (one,) in numbers(rf"(\d+) {unit} set aside", screen))
    assert aside > 0, screen
    assert whole == free + aside, screen


def test_an_estimate_is_within_what_is_set_aside_and_a_take_covers_it(desk: Desk) -> None:
    unit = desk.units[0]
    for screen in desk.of("need"):
        roles = numbers(rf"about (\d+) {unit} \(± (\d+)\), set aside (\d+) {unit}", screen)
        assert len(roles) == 2, screen
        assert all(expected <= aside for expected, _, aside in roles), screen
    (picked,) = desk.of("aside")
    takes = numbers(rf"\] skein \d+ +[AB].*? (\d+) {unit}", picked)
    assert sum(one for (one,) in takes) >= sum(aside for _, _, aside in roles), picked
