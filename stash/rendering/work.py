"""Hours of work and shares of a price as a person reads them."""

from __future__ import annotations

from fractions import Fraction

from stash.measures.written import show_minutes, show_money
from stash.stock.item import Item


def show_hours(value: Fraction) -> str:
    """`3 h 20 min`, to the minute."""
    return show_minutes(round(value * 60))


def hours_number(minutes: int) -> str:
    """`2.5`, `3`: hours to a tenth, as a plan counts them."""
    return f"{minutes / 60:.1f}".removesuffix(".0")


def show_share(value: Fraction) -> str:
    """`6.5%`."""
    return f"{float(100 * value):g}%"


def asked_words(item: Item, currency: str) -> str:
    """What is asked for an item, and the hours planned beside those it took; "" where none was."""
    price, planned, taken = item.asked.price, item.asked.minutes, item.made_minutes
    said = [] if price is None else [f"asked for it: {show_money(price, currency)}"]
    if planned is not None:
        said.append(f"planned: {show_minutes(planned)}")
    if taken is not None:
        said.append(f"took {show_minutes(taken)}")
    return ", ".join(said)


def hours_keys(item: Item) -> dict[str, float | None]:
    """The hours it took, else those planned; and both by themselves."""
    planned, taken = as_hours(item.asked.minutes), as_hours(item.made_minutes)
    return {
        "hours": planned if taken is None else taken,
        "hours_planned": planned,
        "hours_taken": taken,
    }


def as_hours(minutes: int | None) -> float | None:
    """Minutes as hours, None where they are not known."""
    return None if minutes is None else minutes / 60
