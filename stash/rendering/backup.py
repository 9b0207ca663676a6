"""Safety copies, as words."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from stash.rendering.amounts import Page
from stash.stock.entry import Entry

if TYPE_CHECKING:
    from stash.actions.backup import Restored


def copied_text(target: Path, newest: Entry | None, page: Page) -> str:
    """Where the copy is, and how many entries are in it."""
    booked = f"with {newest.number} entries" if newest else "with nothing booked yet"
    return f"{page.strong('Copied')} to {target}, {booked}"


def restored_text(path: Path, source: Path, done: Restored, page: Page) -> str:
    """That a file is as its copy again, and the newest entry in it."""
    newest = done.newest
    booked = f"its newest entry is {newest.number}" if newest else "nothing is booked in it"
    return f"{page.strong('Put back')}: {path.name} is as {source.name} again, {booked}"


def kept_beside_text(kept: Path) -> str:
    """Where that is what the file was before."""
    return f"what it was before is in {kept.name}"
