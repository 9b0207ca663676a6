"""A batch that was set aside: its items, and what to pick for them place by place."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from stash.rendering.amounts import Page, counted
from stash.rendering.columns import columns
from stash.rendering.pick_list import list_keys, list_lines, list_rows, of_items

if TYPE_CHECKING:
    from stash.actions.batch_aside import BatchAside


def keys(made: BatchAside) -> dict[str, Any]:
    """The items, and what to pick by place and by role."""
    return {
        "entry": made.entry,
        "items": [{"item": number, "design": name} for number, name in made.items],
        **list_keys(of_items(made.picked)),
    }


def made_words(made: BatchAside) -> str:
    """For how many items."""
    return f"Set aside for {counted(len(made.items), 'item')}"


def rows(made: BatchAside) -> list[dict[str, Any]]:
    """What to pick, one row for each skein and role of an item."""
    return list_rows(of_items(made.picked))


def text(made: BatchAside, page: Page) -> str:
    """The same for reading."""
    head = page.strong(made_words(made))
    named = columns([[f"item {number}", name] for number, name in made.items], "  ")
    to_pick = list_lines(of_items(made.picked), page)
    return "\n".join([f"{head}  (entry {made.entry})", named, "To pick:", *to_pick])
