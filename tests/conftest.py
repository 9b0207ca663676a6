"""A shelf that is made once and copied for every test."""

from pathlib import Path

import pytest
from commands import SHELF, Maker
from hypothesis import settings

# A slow machine, or one with other work, is no fault of what is tested. The suite tries the same
# examples each time; `--hypothesis-profile=search` goes looking for new ones.
settings.register_profile("suite", deadline=None, derandomize=True)
settings.register_profile("search", deadline=None)
settings.load_profile("suite")


@pytest.fixture(autouse=True)
def quiet_terminal(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    monkeypatch.setenv("STASH_FILE", str(tmp_path / "shelf.stash"))


@pytest.fixture
def nobody(tmp_path: Path) -> Maker:
    """A maker whose file is yet to be begun."""
    return Maker(tmp_path / "shelf.stash")


@pytest.fixture(scope="session")
def stocked(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The shelf of `commands.SHELF`, a piece, and yarn set aside for it: article 1."""
    file = tmp_path_factory.mktemp("stocked") / "shelf.stash"
    maker = Maker(file)
    for line in SHELF:
        maker.does("add", line, "--place", "blue box", "--file", str(file))
    stated = ("--stated", "A=100m", "--stated", "B=20m", "--class", "DK")
    maker.does("piece", "add", "Hat", *stated, "--file", str(file))
    maker.does("aside", "Hat", "L1+L2", "--file", str(file))
    return file


@pytest.fixture
def maker(nobody: Maker, stocked: Path) -> Maker:
    """A maker at a stocked shelf."""
    return nobody.copy_of(stocked)
