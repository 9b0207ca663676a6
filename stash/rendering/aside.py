"""Yarn set aside for an item, or no longer, and the item begun."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from stash.measures.note import Note
from stash.rendering import pick_list
from stash.rendering.amounts import Page
from stash.rendering.promises import from_skeins
from stash.rendering.sentences.say import sentence
from stash.stock.item import Item
from stash.stock.promise import Promised

if TYPE_CHECKING:
    from stash.actions.aside import SetAside


def keys(made: SetAside, cautions: Sequence[Note | str]) -> dict[str, Any]:
    """The item, what to pick for it by place and by role, and what to mind."""
    item = made.item
    return {
        "entry": made.entry,
        "item": item.number,
        "design": item.design or None,
        "note": item.note or None,
        "order": item.asked.order,
        **pick_list.list_keys(pick_list.of_picked(made.picked)),
        "notes": list(map(sentence, made.notes)),
        "cautions": list(map(sentence, cautions)),
    }


def rows(made: SetAside) -> list[dict[str, Any]]:
    """What to pick, one row for each skein and role."""
    return pick_list.list_rows(pick_list.of_picked(made.picked))


def text(made: SetAside, cautions: Sequence[Note | str], page: Page) -> str:
    """The same for reading."""
    ordered = "" if made.item.asked.order is None else f", order {made.item.asked.order}"
    head = page.strong(f"Set aside for item {made.item}{ordered}") + f"  (entry {made.entry})"
    to_pick = pick_list.list_lines(pick_list.of_picked(made.picked), page)
    notes = [f"note: {sentence(one)}" for one in made.notes]
    return "\n".join([head, "To pick:", *to_pick, *notes, *map(sentence, cautions)])


def released_text(entry: int, item: Item, promised: Sequence[Promised]) -> str:
    """What is no longer set aside."""
    return f"No longer set aside for item {item}: {from_skeins(promised)}  (entry {entry})"


def begun_text(entry: int, item: Item) -> str:
    """That an item is begun."""
    return f"Began item {item}  (entry {entry})"
