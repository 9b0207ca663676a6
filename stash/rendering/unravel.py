"""An item taken apart, as words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.measures.mass import Mass
from stash.rendering import amounts, figures
from stash.rendering.amounts import Page
from stash.rendering.her_words import hers

if TYPE_CHECKING:
    from stash.actions.unravel import Returned, Unravelled


def text(done: Unravelled, loss: float | None, page: Page) -> str:
    """The skeins its yarn went back to; `loss` is the share that was taken off, if one was."""
    back = figures.total((figures.near(one.mass) for one in done.returned), Mass)
    head = page.strong(f"Item {done.item} {hers('is unravelled')}")
    lines = [f"{head}: {back} back on the shelf  (entry {done.entry})"]
    lines += [_returned_line(one) for one in done.returned]
    if loss:
        first = done.returned[0].skein.number
        lines.append(
            f"  {loss:.0%} off for ends and cuts; weigh them to be sure: `stash weigh {first} 20g`"
        )
    return "\n".join(lines)


def _returned_line(back: Returned) -> str:
    skein, onto = back.skein, "now skein" if back.made else "wound onto skein"
    where = f"{onto} {skein.number}"
    holds = "" if back.made else f", which holds {amounts.amount(skein.held_length, skein.held)}"
    length = skein.length(back.mass)
    return f"  {amounts.amount(length, back.mass)} of skein {back.was}, {where}{holds}"
