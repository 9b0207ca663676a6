"""What a batch takes in and what goes off that, as numbers for scripts and as words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from stash.measures.money import Money, decimals
from stash.measures.written import show_money
from stash.planning.model.batch import Batch
from stash.rendering.amounts import counted, numbers


def profit_keys(batch: Batch, currency: str) -> dict[str, Any] | None:
    """In whole money, None where profit is no aim; with `at_least`, yarn costs that or more."""
    found = batch.profit
    if found is None:
        return None
    unit = float(10 ** decimals(currency))
    return {
        "takings": found.takings / unit,
        "yarn": found.yarn / unit,
        "at_least": bool(found.unpriced),
        "unpriced": list(found.unpriced),
        "sundries": found.sundries / unit,
        "fees": found.fees / unit,
        "profit": found.left / unit,
    }


#: More numbers than this are only counted.
MOST_NAMED = 8


def _skeins(unpriced: Sequence[int]) -> str:
    if len(unpriced) > MOST_NAMED:
        return counted(len(unpriced), "skein")
    return f"skein{'s' if len(unpriced) > 1 else ''} {numbers(unpriced)}"


def profit_lines(batch: Batch, currency: str) -> Iterator[str]:
    """What goes off the takings, to the coin, and what is not sure of it."""
    found = batch.profit
    if found is None:
        return
    at_least = "at least " if found.unpriced else ""
    off = [f"{at_least}{show_money(Money(found.yarn), currency)} for yarn"]
    if found.sundries:
        off.append(f"{show_money(Money(found.sundries), currency)} for sundries")
    if found.fees:
        off.append(f"{show_money(Money(found.fees), currency)} for fees")
    *first, last = off
    listed = f"{', '.join(first)} and {last}" if first else last
    yield f"Sells for {show_money(Money(found.takings), currency)}, less {listed}."
    if found.unpriced:
        yield (
            f"What you paid for {_skeins(found.unpriced)} is not known: "
            f"`stash change {found.unpriced[0]} --paid 5.50`."
        )
    if found.by_order:
        yield (
            "Yarn is counted at the average of what you hold; first in, first out, what each item "
            "costs depends on which you finish first."
        )
