"""What several items cost: each as one alone is shown, and what all of them come to."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from stash.measures.written import show_money
from stash.rendering import cost
from stash.rendering.amounts import Page
from stash.rendering.columns import columns
from stash.rendering.work import as_hours, asked_words

if TYPE_CHECKING:
    from stash.actions.cost import Costed


def costs_keys(found: Sequence[Costed]) -> dict[str, Any] | list[dict[str, Any]]:
    """The cost of one with stable keys; of several a list of them."""
    each = [cost.keys(one) | _asked_keys(one) for one in found]
    return each[0] if len(each) == 1 else each


def _asked_keys(found: Costed) -> dict[str, Any]:
    item = found.item
    if item is None:
        return {"hours_planned": None, "hours_taken": None, "asked_coins": None}
    planned, taken = item.asked.minutes, item.made_minutes
    return {
        "hours_planned": as_hours(planned),
        "hours_taken": as_hours(taken),
        "asked_coins": item.asked.price and item.asked.price.coins,
    }


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
        item = found[0].item
        asked = asked_words(item, found[0].currency) if item else ""
        return "\n".join([cost.text(found[0], page), *([f"  {asked}"] if asked else [])])
    head = ["item", "", "yarn", "lowest", "to earn your wage", "asked", "sold for"]
    rows = [head, *(_row(one) for one in found)]
    yarn = cost.yarn_cost([line for one in found for line in one.costing.yarn], found[0].currency)
    in_all = f"  yarn in all of them: {yarn}"
    return f"{columns(rows, '  ')}\n{in_all}"


def _row(one: Costed) -> list[str]:
    costing, currency, item = one.costing, one.currency, one.item
    least = "" if costing.known else "at least "
    unknown = not costing.known and not costing.materials.coins
    asked = item.asked.price if item is not None else None
    wanted, sale = costing.wanted, one.sale
    return [
        str(item.number) if item is not None else "",
        one.design,
        cost.yarn_cost(costing.yarn, currency),
        "" if unknown else f"{least}{show_money(costing.floor.price, currency)}",
        "" if wanted is None or unknown else f"{least}{show_money(wanted.price, currency)}",
        "" if asked is None else show_money(asked, currency),
        "" if sale is None else show_money(sale.price, currency),
    ]


def costs_notes(found: Sequence[Costed]) -> list[str]:
    """What the figures lack, each said once."""
    return [*dict.fromkeys(said for one in found for said in cost.cost_notes(one))]
