"""What a test of rendering leaves behind: nothing."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from stash.rendering import figures
from stash.rendering.figures import Units


@pytest.fixture(autouse=True)
def _in_metric() -> Iterator[None]:
    """Every test begins in metric units, whatever the one before has shown."""
    figures.ask(Units)
    yield
    figures.ask(Units)
