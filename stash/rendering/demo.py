"""The walk through an invented workshop, as words."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from stash.rendering.amounts import Page


def step_text(why: str, words: Sequence[str], page: Page) -> str:
    """Why a command is given, and the command as one would type it."""
    typed = " ".join(f'"{word}"' if " " in word else word for word in words)
    return f"{why}\n{page.strong(f'$ stash {typed}')}"


def kept_text(file: Path) -> str:
    """Where the workshop is kept."""
    return f"Kept as {file}. Look around: stash shelf --file {file}"
