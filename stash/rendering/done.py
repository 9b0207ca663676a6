"""A finished item, as words."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from stash.measures.mass import Mass
from stash.measures.note import Note
from stash.rendering import amounts, figures
from stash.rendering.amounts import Page, grams
from stash.rendering.columns import columns
from stash.rendering.her_words import hers
from stash.rendering.promises import from_skeins
from stash.rendering.sentences.say import sentence
from stash.stock.item import Weighed

if TYPE_CHECKING:
    from stash.actions.finished import Finished, UsedRole

#: What the next estimate of its design will learn, by how its yarn was weighed.
_LEARNED = {
    Weighed.BALLS: "the next {design} will be estimated from this one, colour by colour",
    Weighed.ROLES: "the next {design} will be estimated from this one, colour by colour",
    Weighed.ITEM: "the next {design} will be estimated from this one, as a whole",
    Weighed.AS_PLANNED: "not weighed, so the next {design} learns nothing from it",
}


def text(finished: Finished, cautions: Sequence[Note | str], page: Page) -> str:
    """What it used by colour against what was expected, what is free again, what the next one
    learns from it, and what to mind."""
    used = [figures.near(one.mass) for one in finished.used]
    head = page.strong(f"Item {finished.item} is done")
    lines = [f"{head}: {figures.total(used, Mass)} used  (entry {finished.entry})"]
    lines += [columns([_used_row(one, page) for one in finished.used], "  ")] if used else []
    lines += [f"  {one}" for one in what_it_does(finished)]
    return "\n".join([*lines, *map(sentence, cautions)])


def what_it_does(finished: Finished) -> list[str]:
    """What is free again, and what the next one learns."""
    back = from_skeins([p for p in finished.released if figures.near(p.mass)])
    return [*([f"no longer set aside: {back}"] if back else []), _learned(finished)]


def _learned(finished: Finished) -> str:
    how = finished.item.how or Weighed.AS_PLANNED
    if any(one.length is None for one in finished.used):
        return "a length is not known, so the next one learns nothing from it: set --full"
    return hers(_LEARNED[how]).format(design=finished.item.design)


def _used_row(used: UsedRole, page: Page) -> list[str]:
    expected = used.expected
    return [
        page.strong(used.role or "-"),
        f"{amounts.yarn(used.length)} used",
        grams(used.mass),
        f"expected {figures.near(expected)}" if expected else "",
        "shared out by the plan" if used.estimated else "",
    ]
