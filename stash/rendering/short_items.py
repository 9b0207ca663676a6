"""Items whose yarn is no longer there."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from stash.rendering import amounts
from stash.rendering.amounts import Page, colour_name, dye_lot, grams
from stash.rendering.keys import metres

if TYPE_CHECKING:
    from stash.actions.short import ItemShort

NOTHING_SHORT = (
    "Everything that is set aside is there. Ask what a want lacks with "
    "--want 'DESIGN=6', or --need A=1250yd"
)


def keys(shorts: Sequence[ItemShort]) -> list[dict[str, Any]]:
    """Each promise that cannot be kept, with stable keys; the same are the rows of a sheet."""
    return [
        {
            "item": one.item.number,
            "design": one.item.design or None,
            "role": one.promise.role or None,
            "skein": one.skein.number,
            "lot_ref": one.lot.lot.ref,
            "short_g": one.mass.g if one.skein.mass_known else None,
            "short_m": metres(one.length),
            "same_lot_free_m": metres(one.free),
        }
        for one in shorts
    ]


def text(shorts: Sequence[ItemShort], page: Page) -> str:
    """What each lacks, and the ways out."""
    return "\n".join(_item_lines(one, page) for one in shorts) or NOTHING_SHORT


def _item_lines(one: ItemShort, page: Page) -> str:
    lot, number = one.lot.lot, one.item.number
    role = f", {one.promise.role}" if one.promise.role else ""
    length = f"{amounts.take(one.length)}, " if one.length else ""
    lacks = f"{length}{grams(one.mass)} of skein {one.skein.number} are no longer there"
    free = f"{amounts.yarn(one.free)} more of its lot are free" if one.free else ""
    same = f"as much of {lot.ref}, {colour_name(lot)}, {lot.yarn}, {dye_lot(lot)}"
    return (
        f"{page.strong(f'Item {one.item}')}{role}: {lacks}\n"
        f"  {free or f'buy {same}'}; or `stash release {number}` and set other yarn aside"
    )
