"""What a batch reaches of each aim, as numbers for scripts and as one plain sentence each."""

from __future__ import annotations

import math
from typing import Any

from stash.measures.estimate import to_books
from stash.measures.length import Length
from stash.measures.money import Money, decimals
from stash.measures.written import show_money
from stash.planning.model.attained import Attained
from stash.planning.model.batch import Batch, Wanted
from stash.planning.model.problem import Aim
from stash.rendering import figures
from stash.rendering.amounts import counted


def aim_keys(batch: Batch, one: Attained, currency: str) -> dict[str, Any]:
    """An aim with stable keys; gap = (bound - value) / max(|bound|, 1)."""
    value, bound = (_reported(batch, one.aim, total, currency) for total in (one.total, one.bound))
    return {
        "aim": one.aim and one.aim.value,
        "value": value,
        "bound": bound,
        "gap": (bound - value) / max(abs(bound), 1),
    }


def _reported(batch: Batch, aim: Aim | None, total: int, currency: str) -> float:
    """In whole money, items, metres of part balls; of buying the metres to buy, below 0."""
    if aim in (Aim.VALUE, Aim.PROFIT):
        return total / float(10 ** decimals(currency))
    if aim is Aim.LEFTOVERS:
        return total / 1_000_000
    if aim is Aim.BUYING:
        return (total - _wanted_um(batch)) / 1_000_000
    return total


def _wanted_um(batch: Batch) -> int:
    """All yarn of all that is wanted at most."""
    return sum((want.at_most or 0) * _need_um(want) for want in batch.wants)


def _need_um(want: Wanted) -> int:
    """All yarn to set aside for one."""
    return sum(to_books(role.set_aside_m).um for role in want.need.roles)


def proof(batch: Batch, one: Attained, currency: str) -> str:
    """What the plan reaches of an aim, and how much better any plan could be."""
    if one.aim is Aim.VALUE:
        money, most = (show_money(Money(coins), currency) for coins in (one.total, one.bound))
        return _sentence(f"Brings in {money}: ", "no plan brings in more", most, one)
    if one.aim is Aim.PROFIT:
        money, most = (show_money(Money(coins), currency) for coins in (one.total, one.bound))
        least = "at most " if batch.profit and batch.profit.unpriced else ""
        return _sentence(f"Profit {least}{money}: ", "no plan leaves more", most, one)
    if one.aim is Aim.LEFTOVERS:
        used, most = (str(figures.near(Length(um))) for um in (one.total, one.bound))
        same = not figures.near(Length(one.bound - one.total))
        reached = Attained(one.aim, one.total, one.total if same else one.bound)
        return _sentence(f"Uses up {used} of part balls: ", "no plan uses more", most, reached)
    if one.aim is Aim.BUYING:
        return _to_buy(_wanted_um(batch), one)
    made = counted(one.total, "item")
    return _sentence(f"Makes {made}: ", "no plan makes more", f"{one.bound}", one)


def _sentence(reached: str, best: str, most: str, one: Attained) -> str:
    more = one.bound - one.total
    if more <= 0:
        return f"{reached}{best}."
    if one.total <= 0:
        return f"{reached}at most {most} is possible."
    return f"{reached}at most {_percent(more / one.total)} more is possible."


def _to_buy(wanted_um: int, one: Attained) -> str:
    left, least = (max(0, wanted_um - um) for um in (one.total, one.bound))
    if not left:
        return "Leaves nothing to buy."
    reached = f"Leaves {figures.near(Length(left))} to buy: "
    if not figures.near(Length(left - least)):
        return f"{reached}no plan leaves less."
    return f"{reached}at most {_percent((left - least) / left)} less is possible."


def _percent(share: float) -> str:
    """Up to the next tenth: never less than what was proved."""
    return f"{math.ceil(1000 * share - 1e-9) / 10:g}%"
