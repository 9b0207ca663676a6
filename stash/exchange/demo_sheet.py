"""The sheet of an invented workshop, to look around with."""

from __future__ import annotations

from pathlib import Path


def demo_sheet() -> Path:
    """Where it lies: inside the installed package, or in the fixtures of a checkout."""
    package = Path(__file__).resolve().parent.parent
    inside = package / "_demo"
    return (inside if inside.is_dir() else package.parent / "fixtures" / "demo") / "shelf.csv"
