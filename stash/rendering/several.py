"""Items as words where one command is about several of them; one alone is said as it always was."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from stash.measures.mass import Mass
from stash.measures.money import Money
from stash.measures.note import Note
from stash.measures.written import show_money
from stash.rendering import aside, change, done, sale, unravel
from stash.rendering.amounts import Page, grams, numbers
from stash.rendering.columns import columns
from stash.rendering.figures import near, total
from stash.rendering.her_words import hers
from stash.rendering.promises import from_skeins
from stash.rendering.sentences.say import sentence
from stash.stock.item import Item
from stash.stock.promise import Promised

if TYPE_CHECKING:
    from stash.actions.change import Changed
    from stash.actions.change_item import ItemsChanged
    from stash.actions.finished import Finished
    from stash.actions.sold import SaleBooked
    from stash.actions.unravel import Unravelled


def _head(items: Sequence[Item], what: str, entry: int, page: Page) -> str:
    listed = page.strong(f"Items {numbers([item.number for item in items])}")
    return f"{listed} {what}  (entry {entry})"


def _name(item: Item) -> str:
    return item.design or item.note


def items_begun(entry: int, items: Sequence[Item], page: Page) -> str:
    """That items are begun."""
    if len(items) == 1:
        return aside.begun_text(entry, items[0])
    return _head(items, "are begun", entry, page)


def items_released(
    entry: int, released: Sequence[tuple[Item, Sequence[Promised]]], page: Page
) -> str:
    """What is free again, item by item."""
    if len(released) == 1:
        return aside.released_text(entry, *released[0])
    rows = [[str(item.number), _name(item), from_skeins(back)] for item, back in released]
    head = _head([item for item, _ in released], "no longer have yarn set aside", entry, page)
    return f"{head}\n{columns(rows, '  ')}"


def items_done(finished: Sequence[Finished], cautions: Sequence[Note | str], page: Page) -> str:
    """What each item took, by colour; what to mind is said once."""
    first = finished[0]
    if len(finished) == 1:
        return done.text(first, cautions, page)
    head = _head([one.item for one in finished], "are done", first.entry, page)
    rows = [[str(one.item.number), _name(one.item), _took(one)] for one in finished]
    return "\n".join([head, columns(rows, "  "), *map(sentence, cautions)])


def _took(finished: Finished) -> str:
    used = ", ".join(f"{one.role or '-'} {grams(one.mass)}" for one in finished.used)
    estimated = any(one.estimated for one in finished.used)
    return f"{used} used{', estimated' if estimated else ''}"


def items_unravelled(apart: Sequence[Unravelled], loss: float | None, page: Page) -> str:
    """The skeins that the yarn of each item went back to."""
    first = apart[0]
    if len(apart) == 1:
        return unravel.text(first, loss, page)
    head = _head([one.item for one in apart], hers("are unravelled"), first.entry, page)
    rows = [
        [str(one.item.number), _name(one.item), f"skein {back.skein.number} (was {back.was})",
         grams(back.mass)]
        for one in apart
        for back in one.returned
    ]  # fmt: skip
    masses = [near(back.mass) for one in apart for back in one.returned]
    lost = "" if loss is None else f"; {loss:.0%} off for ends and cuts, weigh them to be sure"
    return f"{head}\n{columns(rows, '  ')}\n  {total(masses, Mass)} back in all{lost}"


def items_sold(sold: Sequence[SaleBooked], page: Page) -> str:
    """What each item was sold for, and what that makes."""
    if len(sold) == 1:
        return sale.sold_text(sold[0], page)
    return _sales(sold, "are sold", ("{} earned in all", "less {}", "less {} in fees"), page)


def items_returned(back: Sequence[SaleBooked], page: Page) -> str:
    """What was given back for each item."""
    if len(back) == 1:
        return sale.returned_text(back[0], page)
    return _sales(
        back, "came back", ("{} refunded in all", "{} of the fee back", "{} of the fees back"), page
    )


def changed_skeins(changed: Changed, page: Page) -> str:
    """What was changed, and of which skeins."""
    if len(changed.numbers) <= 1 or changed.what.startswith("lot"):
        return change.text(changed, page)
    head = page.strong(f"Skeins {numbers(changed.numbers)}")
    return f"{head}: {'; '.join(map(sentence, changed.done))}  (entry {changed.entry})"


def changed_items(changed: ItemsChanged, page: Page) -> str:
    """What was changed, and of which items."""
    one = len(changed.items) == 1
    listed = changed.items[0] if one else numbers([item.number for item in changed.items])
    head = page.strong(f"{'Item' if one else 'Items'} {listed}")
    return f"{head}: {'; '.join(map(sentence, changed.done))}  (entry {changed.entry})"


def _sales(sales: Sequence[SaleBooked], what: str, words: tuple[str, str, str], page: Page) -> str:
    """A row for each; `words` say all that was paid, each fee, and all fees."""
    paid, each_fee, all_fees = words
    first = sales[0]
    head = _head([one.item for one in sales], what, first.sale.entry, page)
    rows = [
        [
            str(one.item.number),
            _name(one.item),
            show_money(one.sale.price, one.currency) if one.sale.price.coins else "",
            each_fee.format(show_money(one.sale.fee, one.currency)) if one.sale.fee.coins else "",
        ]
        for one in sales
    ]
    price = sum((one.sale.price for one in sales), Money(0))
    fees = sum((one.sale.fee for one in sales), Money(0))
    kept = f", {all_fees.format(show_money(fees, first.currency))}" if fees.coins else ""
    lines = [head, columns(rows, "  ")]
    if price.coins:
        lines.append(f"  {paid.format(show_money(price, first.currency))}{kept}")
    return "\n".join(lines)


def design_dropped(entry: int, name: str, page: Page) -> str:
    """That a design is dropped, and how it comes back."""
    return f"Dropped {page.strong(name)}; `stash undo {entry}` brings it back  (entry {entry})"
