"""The demo: the whole job, quick, offline, leaving sound books or nothing behind."""

from __future__ import annotations

import os
import socket
import subprocess
import sys
from pathlib import Path

import pytest
from commands import Maker, refused_in_one_line

TOP = Path(__file__).resolve().parents[2]


def test_the_demo_walks_the_whole_job_without_a_network(
    nobody: Maker, monkeypatch: pytest.MonkeyPatch
) -> None:
    def no_network(*_: object, **__: object) -> None:
        raise AssertionError("the demo asked for the network")

    monkeypatch.setattr(socket, "socket", no_network)
    monkeypatch.setattr(socket, "create_connection", no_network)

    told = nobody.does("demo").out

    for command in ("import", "shelf", "design", "match", "aside", "begin", "weigh", "done",
                    "need", "log", "check"):  # fmt: skip
        assert f"$ stash {command}" in told
    assert "from your finished ones" in told
    assert "All good: every gram adds up." in told
    assert not nobody.file.exists()  # her own file is left alone


def test_the_demo_keeps_its_file_where_it_is_told_to(nobody: Maker) -> None:
    nobody.does("demo", "--keep", str(nobody.file))

    assert nobody.ask("check") == {"ok": True, "findings": []}
    lots = nobody.ask("shelf")
    assert len(lots) >= 45
    assert sum(len(lot["skeins"]) for lot in lots) >= 120 - 5  # a few are used up on the way
    for lot in lots:
        if lot["held_g"] is not None:
            assert lot["held_g"] == pytest.approx(lot["free_g"] + lot["set_aside_g"])


def test_the_demo_writes_over_nothing(nobody: Maker, tmp_path: Path) -> None:
    nobody.file.write_text("her own")

    refused_in_one_line(nobody("demo", "--keep", str(nobody.file)), 5, "name another")
    refused_in_one_line(nobody("demo", "--keep", str(tmp_path / "no" / "x.stash")), 5, "folder")

    assert nobody.file.read_text() == "her own"


def test_the_demo_takes_less_than_five_seconds_from_any_folder(tmp_path: Path) -> None:
    before = os.times()

    done = subprocess.run(
        [sys.executable, "-c", "from stash.cli import run; run()", "demo"],
        cwd=tmp_path,
        env={"PYTHONPATH": str(TOP)},
        capture_output=True,
        check=False,
    )

    assert done.returncode == 0, done.stderr
    after = os.times()
    # the processor's time, so that other work on the machine does not count
    spent = after.children_user + after.children_system
    assert spent - before.children_user - before.children_system < 5
    assert list(tmp_path.iterdir()) == []
