"""The page of a demo workshop, for tests that look and press without a browser."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from commands import Maker
from pages import Browser, at_the_page_of
from rooms import Room, a_room


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


#: Designs of several shapes, so that every kind of drawing is on a page.
DESIGNS = (
    ("Pebble cowl", "cowl", "--around 62cm --tall 24cm", "16 sts x 12 rows", "1 hdc", "DK"),
    ("Thumbed mittens", "mitten", "--size woman", "20 sts x 26 rows", "1 sc", "DK"),
    ("Lane scarf", "scarf", "--wide 20cm --long 150cm", "16 sts x 12 rows", "1 hdc", "worsted"),
    ("Garden blanket", "blanket", "--wide 70cm --long 90cm", "14 sts x 10 rows", "1 dc", "worsted"),
    ("Ridge headband", "headband", "--around 52cm --tall 9cm", "18 sts x 14 rows", "1 hdc", "DK"),
)
#: Which of them have a band in a second colour.
BANDS = {"Pebble cowl": "B 2cm top", "Thumbed mittens": "B 6cm bottom", "Lane scarf": "B 8cm top"}


@pytest.fixture(scope="session")
def lively_file(demo_file: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo workshop with more designs, and items planned, begun, done and sold."""
    file = tmp_path_factory.mktemp("lively") / "lively.stash"
    maker = Maker(file).copy_of(demo_file)

    def does(*words: str) -> None:
        maker.does(*words, "--file", str(file))

    for name, shape, size, gauge, fabric, thickness in DESIGNS:
        band = ["--band", BANDS[name]] if name in BANDS else []
        plan = ("--shape", shape, *size.split(), "--gauge", gauge, "--fabric", fabric)
        does("design", "add", name, *plan, "--thickness", thickness, *band)
    for design in ("Pebble cowl", "Thumbed mittens", "Lane scarf", "Tidewrack hat"):
        does("aside", design, "--contrast", "clear")
    does("begin", "2-3")
    does("done", "5", "--as-planned", "--hours", "3h30")
    does("sold", "1", "--for", "28")
    return file


@pytest.fixture
def lively(lively_file: Path, nobody: Maker) -> Maker:
    """The same, for one test alone."""
    return nobody.copy_of(lively_file)


@pytest.fixture
def lively_browser(lively: Maker) -> Iterator[Browser]:
    """Somebody at the page of the lively workshop."""
    yield from at_the_page_of(lively.file)


@pytest.fixture
def room(demo: Maker) -> Iterator[Room]:
    """The page of the demo workshop, shared in a room."""
    with a_room(demo.file) as shared:
        yield shared
