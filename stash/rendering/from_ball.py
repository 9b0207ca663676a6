"""What one ball of yarn can become, as keys, rows and text."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from stash.rendering import amounts, reach
from stash.rendering.columns import columns
from stash.rendering.match import lot_words
from stash.rendering.paint import patch, strong
from stash.rendering.shelf_survey import NO_DESIGN

if TYPE_CHECKING:
    from stash.actions.reach import FromBall

Keys = dict[str, Any]


def keys(found: FromBall) -> Keys:
    """A skein with what it makes of each kept design."""
    return {
        "skein": found.skein.number,
        "lot_ref": found.lot.ref,
        "free_m": found.free_m,
        "uses": [reach.use_keys(use.reach, use.role, use.steps) for use in found.uses],
    }


def rows(found: FromBall) -> list[Keys]:
    """One row for each use."""
    lists = ("sizes", "bands")
    return [{k: v for k, v in use.items() if k not in lists} for use in keys(found)["uses"]]


def text(found: FromBall) -> str:
    """The skein, and a line for each use."""
    head = f"Skein {found.skein.number}: {amounts.estimate(found.free_m)} free"
    what = f"{strong(head)}, {patch(found.lot)}{lot_words(found.lot)}"
    if not found.uses:
        return f"{what}\n  {NO_DESIGN}"
    uses = [reach.use_row(use.reach, use.role, use.steps) for use in found.uses]
    return "\n".join([what, columns(uses, "  ")])
