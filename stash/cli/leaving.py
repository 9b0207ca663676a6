"""What `stash gone` takes of an item, and of the price of yarn that was sold."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from stash.cli.common import day, open_book, page, refuse, say, settings_of

if TYPE_CHECKING:
    from stash.actions.use import YarnPrice


def yarn_price(price: str, fee: str, file: Path | None) -> YarnPrice | None:
    """What yarn was sold for, as typed; None where nothing was."""
    from stash.actions.use import YarnPrice
    from stash.parsing.coins import typed_together

    if fee and not price:
        refuse("fee_without_price")
    if not price:
        return None
    (paid, kept), currency = typed_together([price, fee], settings_of(file).currency)
    assert paid is not None
    return YarnPrice(paid, kept or paid * 0, currency)


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
    how = item_leaving(why)
    say(rendered.text(item_gone(open_book(file), item, how, on=day(on)), page()))
