"""What is built holds all that the program needs, and puts nothing else beside it."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path
from zipfile import ZipFile

import pytest

TOP = Path(__file__).resolve().parents[1]


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel, built with what is installed already: no network is asked for."""
    folder = tmp_path_factory.mktemp("wheel")
    subprocess.run(
        [sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", folder, TOP],
        check=True,
        capture_output=True,
    )
    (built,) = folder.glob("*.whl")
    return built


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel as an installer lays it out: a folder to import from."""
    folder = tmp_path_factory.mktemp("installed")
    with ZipFile(wheel) as packed:
        packed.extractall(folder)
    return folder


def test_nothing_but_the_package_goes_into_site_packages(wheel: Path) -> None:
    tops = {name.split("/")[0] for name in ZipFile(wheel).namelist()}

    assert {top for top in tops if not top.endswith(".dist-info")} == {"stash"}


def test_migrations_demo_and_the_mark_of_types_are_inside(wheel: Path) -> None:
    names = set(ZipFile(wheel).namelist())

    assert {
        "stash/py.typed",
        "stash/_migrations/env.py",
        "stash/_migrations/versions/0001_first.py",
        "stash/_demo/shelf.csv",
    } <= names
    assert not [name for name in names if "__pycache__" in name or name.endswith(".stash")]


def test_the_package_names_its_command(wheel: Path) -> None:
    with ZipFile(wheel) as packed:
        (name,) = [n for n in packed.namelist() if n.endswith("entry_points.txt")]

        assert "stash = stash.cli:run" in packed.read(name).decode()


def from_elsewhere(installed: Path, folder: Path, *code: str) -> str:
    """Python in another folder, with the installed package first on its path."""
    done = subprocess.run(
        [sys.executable, "-c", *code],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(installed)},
        capture_output=True,
        check=False,
        text=True,
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


def test_the_demo_runs_from_the_installed_package_in_any_folder(
    installed: Path, tmp_path: Path
) -> None:
    where = from_elsewhere(installed, tmp_path, "import stash; print(stash.__file__)")
    told = from_elsewhere(installed, tmp_path, "from stash.cli import run; run()", "demo")

    assert where.startswith(str(installed))
    assert "All good: every gram adds up." in told
