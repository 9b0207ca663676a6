"""What of the shelf is set aside, and for what."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from stash.rendering.amounts import Page, colour
from stash.rendering.columns import columns
from stash.rendering.figures import up
from stash.rendering.keys import metres

if TYPE_CHECKING:
    from stash.actions.shelf import AsideLine


def keys(lines: Sequence[AsideLine]) -> list[dict[str, Any]]:
    """Each promise with stable keys; the same are the rows of a sheet."""
    return [
        {
            "item": line.item.number,
            "design": line.item.design or None,
            "note": line.item.note or None,
            "state": line.item.state.value,
            "role": line.promise.role or None,
            "skein": line.promise.skein,
            "lot_ref": line.lot.ref,
            "place": line.place or None,
            "set_aside_g": line.promise.mass.g,
            "set_aside_m": metres(line.promise.length),
        }
        for line in lines
    ]


def text(lines: Sequence[AsideLine], page: Page) -> str:
    """Each promise for reading."""
    return columns([_row(line, page) for line in lines]) or "Nothing is set aside."


def _row(line: AsideLine, page: Page) -> list[str]:
    promise, lot = line.promise, line.lot
    return [
        f"item {line.item}",
        line.item.state.value,
        promise.role,
        f"skein {promise.skein}",
        f"{page.patch(lot)}{colour(lot)}, {lot.yarn}",
        ", ".join(str(up(one)) for one in (promise.length, promise.mass) if one),
        line.place,
    ]
