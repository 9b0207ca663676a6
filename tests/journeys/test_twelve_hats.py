"""Twelve hats from a batch to the last sale, typed as people type: commands and keys counted."""

from __future__ import annotations

import shlex
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from commands import Maker

#: The most that either way may take (the seller's season, as it was asked for).
COMMANDS, KEYS = 7, 300


@dataclass
class Typist:
    """Somebody who types lines at a shell; what she types is counted."""

    maker: Maker
    lines: list[str] = field(default_factory=list)

    def __call__(self, line: str) -> str:
        self.lines.append(line)
        return self.maker.does(*shlex.split(line)[1:]).out

    @property
    def keys(self) -> int:
        """Every letter and the Enter behind each line."""
        return sum(len(line) + 1 for line in self.lines)


@pytest.fixture
def types(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Typist:
    """A shelf of two colours, and a design of a hat."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("STASH_FILE", str(tmp_path / "shelf.stash"))
    maker = Maker(tmp_path / "shelf.stash")
    maker.does("settings", "currency", "GBP")
    maker.does("add", "Fell Wool DK, 12 x 100g/240m, navy, lot 1", "--paid", "60")
    maker.does("add", "Fell Wool DK, 6 x 100g/240m, oatmeal, lot 2", "--paid", "30")
    maker.does("design", "add", "Winter hat", "--stated", "A=120m", "--stated", "B=24m")
    return Typist(maker)


def all_sold(maker: Maker) -> None:
    items = maker.ask("items")
    assert [one["number"] for one in items] == list(range(1, 13))
    assert all(one["sold_for"] == 28 for one in items)
    assert maker.does("check").status == 0


def test_twelve_hats_take_few_commands_and_few_keys(types: Typist) -> None:
    types('stash batch --want "Winter hat=12" --save plan')
    types("stash batch --aside plan")
    types("stash begin 1-12")
    types("stash done 1-12 --as-planned")
    types("stash cost 1-12")
    types("stash tag 1-12 --print tags.txt")
    types("stash sold 1-12 --for 28")

    assert len(types.lines) <= COMMANDS
    assert types.keys <= KEYS
    all_sold(types.maker)


def test_the_same_with_every_skein_weighed_takes_one_line_a_skein(types: Typist) -> None:
    types('stash batch --want "Winter hat=12" --save plan')
    types("stash batch --aside plan")
    types("stash begin 1-12")
    items: dict[int, list[str]] = {}
    taken: dict[int, float] = {}
    for line in types.maker.ask("shelf", "--aside"):
        items.setdefault(line["skein"], []).append(str(line["item"]))
        taken[line["skein"]] = taken.get(line["skein"], 0) + line["set_aside_g"]
    rows = [f'"{",".join(of)}",{n},{100 - round(0.9 * taken[n])}g' for n, of in items.items()]
    Path("weighed.csv").write_text("\n".join(["items,ball,reading", *rows]))
    types("stash done --from weighed.csv")
    types("stash cost 1-12")
    types("stash tag 1-12 --print tags.txt")
    types("stash sold 1-12 --for 28")

    assert len(types.lines) <= COMMANDS
    assert len(rows) == len(taken)
    all_sold(types.maker)
    held = {n: types.maker.skein(n)["held_g"] for n in taken}
    assert held == {n: 100 - round(0.9 * grams) for n, grams in taken.items()}
