"""What several items cost: each as one alone is shown, and what all of them come to."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from stash.measures.money import Money
from stash.measures.written import show_money
from stash.rendering import cost
from stash.rendering.amounts import Page
from stash.rendering.columns import columns
from stash.rendering.work import show_hours

if TYPE_CHECKING:
    from stash.actions.cost import Costed


def costs_keys(found: Sequence[Costed]) -> dict[str, Any] | list[dict[str, Any]]:
    """The cost of one with stable keys; of several a list of them."""
    each = [cost.keys(one) | _hours_keys(one) for one in found]
    return each[0] if len(each) == 1 else each


def _hours_keys(found: Costed) -> dict[str, Any]:
    item = found.item
    planned = None if item is None or item.asked.minutes is None else item.asked.minutes / 60
    took = None if item is None or item.made_minutes is None else item.made_minutes / 60
    asked = None if item is None or item.asked.price is None else item.asked.price.coins
    return {"hours_planned": planned, "hours_taken": took, "asked_coins": asked}


def costs_rows(found: Sequence[Costed]) -> list[dict[str, Any]]:
    """The yarn line by line, for a sheet; of several with the item of each line."""
    if len(found) == 1:
        return list(cost.rows(found[0]))
    return [
        {"item": one.item.number if one.item else None, **row}
        for one in found
        for row in cost.rows(one)
    ]


def costs_text(found: Sequence[Costed], page: Page) -> str:
    """The same for reading: one in full, several in a line each."""
    if len(found) == 1:
        planned = planned_line(found[0])
        return "\n".join([cost.text(found[0], page), *([f"  {planned}"] if planned else [])])
    head = ["item", "", "yarn", "lowest", "to earn your wage", "asked", "sold for"]
    rows = [head, *(_row(one) for one in found)]
    known = all(one.costing.known for one in found)
    yarn = sum((one.costing.yarn_cost for one in found), Money(0))
    least = "" if known else "at least "
    in_all = f"  yarn in all of them: {least}{show_money(yarn, found[0].currency)}"
    return f"{columns(rows, '  ')}\n{in_all}"


def _row(one: Costed) -> list[str]:
    costing, currency, item = one.costing, one.currency, one.item
    asked = item.asked.price if item is not None else None
    wanted, sale = costing.wanted, one.sale
    return [
        str(item.number) if item is not None else "",
        one.design,
        cost.yarn_cost(costing.yarn, currency),
        show_money(costing.floor.price, currency),
        "" if wanted is None else show_money(wanted.price, currency),
        "" if asked is None else show_money(asked, currency),
        "" if sale is None else show_money(sale.price, currency),
    ]


def planned_line(found: Costed) -> str:
    """What was planned for an item beside what it really took; nothing where neither was said."""
    item = found.item
    if item is None:
        return ""
    said = []
    if item.asked.price is not None:
        said.append(f"asked for it: {show_money(item.asked.price, found.currency)}")
    if item.asked.minutes is not None:
        said.append(f"planned: {_hours(item.asked.minutes)}")
    if item.made_minutes is not None:
        said.append(f"took {_hours(item.made_minutes)}")
    return ", ".join(said)


def _hours(minutes: int) -> str:
    from fractions import Fraction

    return show_hours(Fraction(minutes, 60))


def costs_notes(found: Sequence[Costed]) -> list[str]:
    """What the figures lack, each said once."""
    return [*dict.fromkeys(said for one in found for said in cost.cost_notes(one))]
