"""The account of a span as it is read: every column adds up to what stands under it."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.actions.her_settings import Settings
from stash.actions.log_sum import Group, LogSum
from stash.costing.pools import Method
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.money import Money
from stash.rendering import figures
from stash.rendering.amounts import Page
from stash.rendering.figures import Units
from stash.rendering.log_sum import account_notes, text
from stash.stock.movement import Kind
from stash.stock.turnover import NOTHING, Total, Turnover, Way

UNITS = (Units(), Units("yd", "oz", "in"), Units("yd", "g", "in"))
AMOUNT = st.tuples(st.integers(0, 400_000), st.integers(0, 900_000_000))
#: Every way that yarn comes and goes, and whether it is less afterwards.
WAYS = ((Way.IN, Kind.ARRIVED, 1), (Way.OUT, Kind.USED, -1), (Way.OUT, Kind.SOLD, -1),
        (Way.RESTATED, Kind.RESTATED, -1), (Way.WOUND_OFF, Kind.WOUND_OFF, 1))  # fmt: skip

MOVED = st.lists(AMOUNT, min_size=len(WAYS), max_size=len(WAYS))


def a_total(amount: tuple[int, int], times: int = 1) -> Total:
    return Total(Mass(amount[0] * times), Length(amount[1] * times), Money(0))


def a_turnover(moved: list[tuple[int, int]]) -> Turnover:
    """It opens with 9 kg and 9 km, so that nothing can fall below nothing."""
    opening = Total(Mass(9_000_300), Length(9_000_300_000))
    moves = {
        (way, kind): a_total(amount, sign)
        for amount, (way, kind, sign) in zip(moved, WAYS, strict=True)
    }
    return Turnover(opening, moves, sum(moves.values(), opening))


def an_account(*groups: list[tuple[int, int]]) -> LogSum:
    parts = [a_turnover(moved) for moved in groups]
    keys = parts[0].moved
    whole = Turnover(
        sum((part.opening for part in parts), NOTHING),
        {key: sum((part.moved[key] for part in parts), NOTHING) for key in keys},
        sum((part.closing for part in parts), NOTHING),
    )
    named = tuple(Group(f"Fell Wool {n}", part) for n, part in enumerate(parts))
    return LogSum(None, date(2026, 12, 31), Method.FIFO, whole, named, (), (), (), (), Settings(),
                  tuple(parts))  # fmt: skip


def shown(line: str, unit: str) -> list[Decimal]:
    found = re.findall(rf"([+-]?[\d.]+) {unit}\b", line)
    return [Decimal(number) for number in found]


@pytest.mark.parametrize("units", UNITS)
@given(groups=st.lists(MOVED, min_size=1, max_size=4))
def test_what_was_there_and_all_that_moved_is_what_is_there_as_shown(
    units: Units, groups: list[list[tuple[int, int]]]
) -> None:
    figures.use(units)
    account = an_account(*groups)

    said = figures.settled(lambda: text(account, Page()))
    lines = said.splitlines()
    (heading,) = [at for at, line in enumerate(lines) if line.split()[:2] == ["before", "in"]]
    _, *rows, after = lines[:heading]
    weights = [number for line in rows for number in shown(line, units.weight)[:1]]
    assert sum(weights) == shown(after, units.weight)[0]
    table = [line.partition("Fell Wool ")[2][1:] for line in lines[heading + 1 : -1]]
    assert len(table) == len(groups)
    for line in table:
        *parts, left = shown(line, units.weight)
        assert sum(parts) == left
    # and the groups together are the whole
    assert sum(shown(line, units.weight)[-1] for line in table) == shown(after, units.weight)[0]
    assert sum(shown(line, units.length)[-1] for line in table) == shown(after, units.length)[0]


@pytest.mark.parametrize("units", UNITS)
@given(groups=st.lists(MOVED, min_size=1, max_size=5))
def test_the_whole_is_the_same_however_it_is_divided(
    units: Units, groups: list[list[tuple[int, int]]]
) -> None:
    figures.use(units)
    by_lot = an_account(*groups)
    one_yarn = Group("Fell Wool", by_lot.whole, by_lot.lots)

    def whole_of(account: LogSum) -> list[str]:
        said = figures.settled(lambda: text(account, Page())).splitlines()
        return [line.strip() for line in said if not line.strip().startswith(("Fell", "before"))]

    alone = whole_of(replace(by_lot, groups=()))
    assert whole_of(by_lot) == alone
    assert whole_of(replace(by_lot, groups=(one_yarn,))) == alone
    said = figures.settled(lambda: text(replace(by_lot, groups=(one_yarn,)), Page()))
    (row,) = [line for line in said.splitlines() if "Fell Wool" in line]
    (after,) = [line for line in said.splitlines() if "on the shelf after" in line]
    assert shown(row, units.weight)[-1] == shown(after, units.weight)[0]
    assert shown(row, units.length)[-1] == shown(after, units.length)[0]


@pytest.mark.parametrize("units", UNITS)
@given(moved=MOVED)
def test_lengths_add_up_likewise(units: Units, moved: list[tuple[int, int]]) -> None:
    figures.use(units)
    said = figures.settled(lambda: text(an_account(moved), Page()))

    names = {kind.value: sign for _, kind, sign in WAYS} | {"weight corrected": -1}
    there = sum(
        sign * shown(line, units.length)[0]
        for line in said.splitlines()
        for name, sign in {**names, "on the shelf before": 1}.items()
        if line.strip().startswith(f"{name}  ")
    )
    (after,) = [line for line in said.splitlines() if "on the shelf after" in line]
    assert there == shown(after, units.length)[0]


def test_what_the_figures_lack_names_the_skeins_and_what_to_type() -> None:
    account = an_account([(0, 0)] * len(WAYS))
    lacking = LogSum(None, account.last, account.method, account.whole, (), (3, 4, 5), (7,), (9,),
                     (), Settings())  # fmt: skip

    assert account_notes(lacking) == [
        "no full size known for skeins 3-5, so no length is counted: add it, as in "
        "`stash change 3 --full 100g/200m`",
        "no price known for skein 7: add it, as in `stash change 7 --paid 9.80` (0 for a gift)",
        "the weight of skein 9 is worked out from a length: `stash weigh 9 50g` settles it",
    ]
    assert text(account, Page()).endswith(
        "Costs: first in, first out (the oldest yarn is used first)."
    )
