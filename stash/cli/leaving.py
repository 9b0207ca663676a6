"""What `stash gone` says of an item, and of the price of yarn that was sold."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from stash.cli.common import day, open_book, page, refuse, say

if TYPE_CHECKING:
    from stash.actions.use import YarnPrice


def say_yarn_price(paid: YarnPrice | None, currency: str) -> None:
    """The price under what is gone."""
    from stash.rendering.gone_item import price_text

    if paid is not None:
        say(price_text(paid, currency or paid.currency))


def show_item_gone(item: str, why: str, paid: str, on: str, file: Path | None) -> None:
    """A finished item is given away or lost."""
    from stash.actions.gone_item import item_gone, item_leaving
    from stash.rendering import gone_item as rendered

    if not item:
        refuse("no_item_named")
    if paid:
        refuse("price_of_unsold_item", item=item)
    how = item_leaving(why, item)
    say(rendered.text(item_gone(open_book(file), item, how, on=day(on)), page()))
