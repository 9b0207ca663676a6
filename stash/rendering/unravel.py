"""An item taken apart, as words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.rendering import amounts
from stash.rendering.amounts import Page, grams

if TYPE_CHECKING:
    from stash.actions.unravel import Returned, Unravelled


def text(done: Unravelled, loss: float | None, page: Page) -> str:
    """The skeins its yarn went back to; `loss` is the share it was reckoned with, if it was."""
    lines = [page.strong(f"Item {done.item} is unravelled") + f"  (entry {done.entry})"]
    lines += [_returned_line(back, page) for back in done.returned]
    if loss is not None:
        lines.append(f"  reckoned with a loss of {loss:.0%}; weigh the skeins to be sure")
    return "\n".join(lines)


def _returned_line(back: Returned, page: Page) -> str:
    skein, how = back.skein, "a new skein" if back.made else "wound back"
    return (
        f"  skein {skein.number} ({how}, was {back.was}): {grams(back.mass)} back, "
        f"holds {amounts.amount(skein.held_length, skein.held)}"
    )
