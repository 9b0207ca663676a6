"""A finished item, as words."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from stash.measures.note import Note
from stash.rendering import amounts
from stash.rendering.amounts import Page, grams
from stash.rendering.columns import columns
from stash.rendering.promises import from_skeins
from stash.rendering.sentences.say import sentence

if TYPE_CHECKING:
    from stash.actions.done import Finished, UsedRole

#: Less than this of a skein is nothing to tell of, in milligrams.
_TOLD_FROM_MG = 50


def text(finished: Finished, cautions: Sequence[Note | str], page: Page) -> str:
    """What it used by colour against what was expected, what goes back, and what to mind."""
    head = page.strong(f"Item {finished.item} is done") + f"  (entry {finished.entry})"
    used = columns([_used_row(one, page) for one in finished.used], "  ")
    back = from_skeins([p for p in finished.released if p.mass.mg >= _TOLD_FROM_MG])
    released = [f"  back on the shelf: {back}"] if back else []
    return "\n".join([head, used, *released, *map(sentence, cautions)])


def _used_row(used: UsedRole, page: Page) -> list[str]:
    expected = used.expected
    return [
        page.strong(used.role or "-"),
        f"{grams(used.mass)} used",
        amounts.yarn(used.length),
        f"expected {amounts.estimate(expected.m)}" if expected else "",
        "estimated" if used.estimated else "",
    ]
