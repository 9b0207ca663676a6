"""Two people at one shelf at the same moment: the last of a skein goes to one of them."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from commands import Maker

TOP = Path(__file__).resolve().parents[2]
TAKE_IT = "from stash.cli import run; run()"


def test_the_last_of_a_skein_is_taken_once(maker: Maker) -> None:
    taking = [
        subprocess.Popen(
            [sys.executable, "-c", TAKE_IT, "use", "2", "40g"],
            env={"PYTHONPATH": str(TOP), "STASH_FILE": str(maker.file)},
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )
        for _ in range(3)
    ]
    told = [(process.communicate()[1], process.returncode) for process in taking]

    assert sorted(status for _, status in told) == [0, 4, 4]
    assert all("10 g free" in err for err, status in told if status == 4)
    assert maker.skein(2)["held_g"] == 10
    assert maker.ask("check")["ok"]
