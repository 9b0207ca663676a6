"""What a row's prices come to for the whole line, by the column they stand in."""

from __future__ import annotations

from stash.exchange.row_merge import RowFacts, size
from stash.exchange.tables import SheetRow
from stash.measures.money import Money
from stash.parsing.facts import Of

_Said = tuple[Money, Of | None]


def settle(facts: RowFacts, row: SheetRow) -> None:
    """What was paid for the line: as it says, or what so many skeins cost at so much each.

    `paid` is of the line, `price` of a full skein, `cost` of either; a cell may say otherwise. A
    part ball carries its share of a full skein by what it holds. What stays open is a problem.
    """
    line, price, cost = (facts.said.pop(column, None) for column in ("paid", "price", "cost"))
    paid = _of_line(facts, line)
    if paid is None:
        if price:
            paid = _of_each(facts, price, row.cells["price"])
        elif cost:
            paid = _open(facts, cost, row.cells["cost"])
    elif price and price[1] is not Of.LINE:
        _compare(facts, paid, price[0])
    if paid is not None:
        facts.said["paid"] = paid


def _of_line(facts: RowFacts, line: _Said | None) -> Money | None:
    if line is None:
        return None
    money, of = line
    return _at_each(facts, money) if of is Of.EACH else money


def _of_each(facts: RowFacts, price: _Said, typed: str) -> Money | None:
    money, of = price
    if of is Of.LINE or not money.coins:
        return money
    if of is None and facts.count > 1:
        _ask(facts, typed, "price")
        return None
    return _at_each(facts, money)


def _open(facts: RowFacts, cost: _Said, typed: str) -> Money | None:
    money, of = cost
    if of is Of.EACH:
        return _at_each(facts, money)
    if of is None and money.coins and (facts.count > 1 or "left" in facts.said):
        _ask(facts, typed, "cost")
        return None
    return money


def _at_each(facts: RowFacts, money: Money) -> Money:
    """The price of a full skein for so many; a part ball's share of one, to the nearest coin."""
    left = facts.said.get("left")
    full = next((half for half in facts.full if type(half) is type(left)), None)
    if left is None or full is None:
        return money * facts.count
    part, whole = size(left), size(full)
    facts.shared_price = part != whole
    return Money((2 * money.coins * part + whole) // (2 * whole))


def _ask(facts: RowFacts, typed: str, column: str) -> None:
    facts.open_price = True
    what = (
        f"for each of the {facts.count}, or for all"
        if facts.count > 1
        else "of a full skein, or for what is left of it"
    )
    facts.problems.append((column, f"is that {what}? Write `{typed} each` or `{typed} total`"))


def _compare(facts: RowFacts, paid: Money, each: Money) -> None:
    if "left" not in facts.said and each.coins * facts.count not in (paid.coins, 0):
        facts.notes.append(
            ("paid", f"not {facts.count} x the price of one; what you paid in all is kept")
        )
