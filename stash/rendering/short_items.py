"""Items whose yarn is no longer there."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from stash.rendering import figures
from stash.rendering.amounts import Page, colour_name, dye_lot
from stash.rendering.keys import metres
from stash.rendering.short import full_skein

if TYPE_CHECKING:
    from stash.actions.short import ItemShort

NOTHING_SHORT = (
    "All the yarn you set aside is there. To see what to buy for more, use "
    "--want 'DESIGN=6' or --need A=1250yd"
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
    """What each lacks, and what to do."""
    return "\n".join(_item_lines(one, page) for one in shorts) or NOTHING_SHORT


def _item_lines(one: ItemShort, page: Page) -> str:
    role = f", {one.promise.role}" if one.promise.role else ""
    lacks = f"is short of {_missing(one)}: skein {one.skein.number} has less than was set aside"
    return (
        f"{page.strong(f'Item {one.item}')}{role}, {lacks}\n"
        f"  {_more(one)}; or `stash release {one.item.number}` and set other yarn aside"
    )


def _missing(one: ItemShort) -> str:
    weight = str(figures.up(one.mass))
    return f"{figures.up(one.length)} ({weight})" if one.length else weight


def _more(one: ItemShort) -> str:
    """What else of its lot is free, else what to buy of it, in whole skeins where it has a size."""
    if one.free:
        return f"{figures.down(one.free)} more of its lot is free"
    lot, full = one.lot.lot, one.skein.pair.put_up
    named = f"{colour_name(lot)}, {lot.yarn}, {dye_lot(lot)} ({lot.ref})"
    if full is None or one.length is None:
        return f"buy {figures.up(one.mass)} more of {named}"
    skeins = -(-one.length.um // full.length.um)
    size = full_skein(full.mass, full.length)
    return f"buy {skeins} more {'skein' if skeins == 1 else 'skeins'} of {size}, {named}"
