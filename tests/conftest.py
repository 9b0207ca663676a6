"""A shelf that is made once and copied for every test."""

import os
import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from unittest.mock import patch

import pytest
from commands import SHELF, Maker
from hypothesis import settings
from sqlalchemy import Connection

from stash.rendering import figures
from stash.store import upgrade

# A slow machine, or one with other work, is no fault of what is tested. The suite tries the same
# examples each time; `--hypothesis-profile=search` goes looking for new ones.
settings.register_profile("suite", deadline=None, derandomize=True)
settings.register_profile("search", deadline=None)
settings.load_profile("suite")


def pytest_ignore_collect(collection_path: Path, config: pytest.Config) -> bool | None:
    """Benchmarks are figures, and run where they are asked for: `--benchmark-enable`."""
    asked = config.getoption("--benchmark-enable")
    return True if collection_path.name == "benchmarks" and not asked else None


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    if shutil.which("chromium") is None and os.environ.get("STASH_BROWSER") != "1":
        terminalreporter.write_line(
            "Left out: the tests marked 'browser', since no chromium is on the PATH."
        )


@pytest.fixture(scope="session", autouse=True)
def migrated_once(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """A file that is begun gets the tables which the migrations made once: they take 30 ms each."""
    first = tmp_path_factory.mktemp("begun") / "first.stash"
    upgrade.open_or_begin(first)
    with closing(sqlite3.connect(first)) as made:
        asked = "SELECT sql FROM sqlite_master WHERE sql IS NOT NULL AND type != 'trigger'"
        tables = [sql for (sql,) in made.execute(asked) if "sqlite_sequence" not in sql]
        (revision,) = made.execute("SELECT version_num FROM alembic_version").fetchone()
    migrate = upgrade._migrate

    def quickly(db: Connection, to: str = "head") -> None:
        if to != "head" or db.exec_driver_sql("SELECT 1 FROM sqlite_master").first():
            return migrate(db, to)
        for sql in tables:
            db.exec_driver_sql(sql)
        db.exec_driver_sql("INSERT INTO alembic_version VALUES (?)", (revision,))
        return None

    with patch.object(upgrade, "_migrate", quickly):
        yield


@pytest.fixture(autouse=True)
def quiet_terminal(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    monkeypatch.setenv("STASH_FILE", str(tmp_path / "shelf.stash"))


@pytest.fixture(autouse=True)
def nobody_chose_units() -> None:
    """The units of the test before are not those of the next one."""
    figures.ask(figures.Units)


@pytest.fixture
def nobody(tmp_path: Path) -> Maker:
    """A maker whose file is yet to be begun."""
    return Maker(tmp_path / "shelf.stash")


@pytest.fixture(scope="session")
def stocked(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The shelf of `commands.SHELF`, a design, and yarn set aside for it: item 1."""
    file = tmp_path_factory.mktemp("stocked") / "shelf.stash"
    maker = Maker(file)
    for line in SHELF:
        maker.does("add", line, "--place", "blue box", "--file", str(file))
    stated = ("--stated", "A=100m", "--stated", "B=20m", "--thickness", "DK")
    maker.does("design", "add", "Hat", *stated, "--file", str(file))
    maker.does("aside", "Hat", "L1+L2", "--file", str(file))
    return file


@pytest.fixture
def maker(nobody: Maker, stocked: Path) -> Maker:
    """A maker at a stocked shelf."""
    return nobody.copy_of(stocked)
