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
    holds = f"all {newest.number} entries" if newest else "nothing in it yet"
    return f"{page.strong('Backed up')} to {target}: {holds}"


def restored_text(path: Path, source: Path, done: Restored, page: Page) -> str:
    """That a file is as its copy again, and the newest entry in it."""
    newest = done.newest
    holds = f"up to entry {newest.number}" if newest else "nothing in it yet"
    return f"{page.strong('Restored')} {path.name} from {source.name}, {holds}"


def kept_beside_text(kept: Path) -> str:
    """Where that is what the file was before."""
    return f"Your file as it was before is kept as {kept.name}."
