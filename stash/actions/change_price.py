"""What was paid, put right: shared over the skeins it was paid for."""

from __future__ import annotations

from collections.abc import Sequence

from stash.actions.book import EntryWriter
from stash.measures.money import Money
from stash.stock.holding import HeldSkein
from stash.stock.movement import Kind, standing
from stash.stock.turnover import basis_mg, settled_mg
from stash.store import entry_rows, skein_rows


def share_price(
    writer: EntryWriter, skeins: Sequence[HeldSkein], paid: Money | None, postage: Money | None
) -> bool:
    """What was paid shared over skeins by what each came with, postage by what was paid for each.

    Yarn that was unravelled was paid for with the skein it was of, and has no price of its own.
    False where neither was given.
    """
    if not skeins or (paid is None and postage is None):
        return False
    came = {skein.number: _came_with(writer, skein.number) for skein in skeins}
    if any(came.values()):
        came = {number: mg for number, mg in came.items() if mg}
    numbers = [*came]
    coins = [skein_rows.skein_facts(writer.db, number)["paid_coins"] for number in numbers]
    if paid is not None:
        coins = [each.coins for each in paid.shared([mg or 1 for mg in came.values()])]
    if postage is not None:
        known = [each or 0 for each in coins]
        more = postage.shared(known if any(known) else [1] * len(numbers))
        coins = [each + one.coins for each, one in zip(known, more, strict=True)]
    for number, each in zip(numbers, coins, strict=True):
        writer.set_facts("skein", number, paid_coins=str(each))
    return True


def _came_with(writer: EntryWriter, number: int) -> int:
    """The milligrams a skein's price is of; nothing for yarn that came back from an item."""
    booked = entry_rows.movements(writer.db, skeins=[number])
    moves = standing(one.movement for one in booked)
    if not moves or moves[0].kind is Kind.UNRAVELLED:
        return 0
    return max(0, round(basis_mg(moves, settled_mg(moves))))
