"""Six shelves, and every letter of what was answered on them.

Text, csv and errors are what they were; json has lost nothing and changed nothing. An answer that
changes on purpose is written anew by `python tests/screens.py`, and read in the difference.
"""

from __future__ import annotations

from pathlib import Path

import pytest
import screens


@pytest.mark.parametrize(
    "session", sorted(screens.SESSIONS.glob("*.txt")), ids=lambda one: one.stem
)
def test_a_shelf_answers_as_it_did(session: Path) -> None:
    kept = screens.read(session)

    with screens.on_the_day():
        for was, now in zip(kept, screens.replayed(kept), strict=True):
            if was.json is not None:
                assert screens.holds(was.json, now.json), was.head
                was.out = now.out
            assert now == was
    assert len(kept) > 20
