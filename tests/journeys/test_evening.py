"""A maker's evening, from two labels to the yarn on the table, typed as people type."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest
from commands import Maker

#: The most that an evening may take from the shelf to a pair that is set aside.
COMMANDS = 6


def test_an_evening_from_the_shelf_to_a_pair_set_aside(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("STASH_FILE", str(tmp_path / "shelf.stash"))
    maker, typed = Maker(tmp_path / "shelf.stash"), 0

    def types(line: str) -> str:
        nonlocal typed
        typed += 1
        return maker.does(*shlex.split(line)[1:]).out

    types('stash add "Greycairn DK, 3 x 100g/230m, navy, lot 4821, wool"')
    types('stash add "Greycairn DK 100g/230m oatmeal, lot 77, 43g left"')
    types('stash design add "Winter hat" --shape beanie --size woman --gauge "17 sts x 13 rows" '
          '--fabric "1 hdc" --band "B 4cm bottom" --thickness DK')  # fmt: skip
    ideas = types("stash ideas")
    ((line,),) = [re.findall(r"(stash aside .+)", ideas)]
    picked = types(line)

    assert typed <= COMMANDS
    assert len(ideas.splitlines()) <= 24
    assert {"L1", "L2"} <= set(re.findall(r"\((L\d)\)", picked))
    assert [one["item"] for one in maker.ask("shelf", "--aside")] == [1, 1]
