"""The page of a demo workshop, for tests that look and press without a browser."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from commands import Maker
from pages import Browser, at_the_page_of


@pytest.fixture(scope="session")
def demo_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The workshop of `stash demo`, made once: 129 skeins, a design, an item that is done."""
    file = tmp_path_factory.mktemp("demo") / "demo.stash"
    Maker(file).does("demo", "--keep", str(file))
    return file


@pytest.fixture
def demo(demo_file: Path, nobody: Maker) -> Maker:
    """The same, for one test alone."""
    return nobody.copy_of(demo_file)


@pytest.fixture
def browser(demo: Maker) -> Iterator[Browser]:
    """Somebody at the page of the demo workshop."""
    yield from at_the_page_of(demo.file)


@pytest.fixture
def nobody_browses(nobody: Maker) -> Iterator[Browser]:
    """Somebody at the page of a file that is yet to be begun."""
    yield from at_the_page_of(nobody.file)
