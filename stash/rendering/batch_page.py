"""A planned batch for the page: its sentences, each by itself, as the command says them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from stash.measures.money import Money
from stash.measures.written import show_minutes, show_money
from stash.planning.model.batch import Batch, Made, SoFar, Wanted
from stash.planning.model.problem import Aim
from stash.rendering.amounts import colour_name, counted
from stash.rendering.batch import UNFINISHED, cautions_of, clash_lines, note_lines, short_lines
from stash.rendering.batch_aims import proof
from stash.rendering.batch_profit import profit_lines
from stash.rendering.not_made import not_made_lines, with_more_time


@dataclass(frozen=True, slots=True)
class HoursShown:
    """Her hours: what the plan uses, of what there is, and what a little more would do."""

    used: str
    of: str
    share: float
    more: str


def count_and_worth(plan: Batch | SoFar, currency: str) -> tuple[str, str]:
    """How many items and what they bring in; no money where none was named."""
    coins = sum(len(made.items) * plan.wants[made.want].coins for made in plan.made)
    return counted(plan.items, "item"), show_money(Money(coins), currency) if coins else ""


def says_worth(batch: Batch) -> bool:
    """Whether the proof of the plan says what it brings in."""
    return any(one.aim is Aim.VALUE for one in batch.attained)


def proofs(batch: Batch, currency: str) -> Iterator[str]:
    """What the plan reaches of each aim, how good that is proved, and what is not sure of it."""
    yield from (proof(batch, one, currency) for one in batch.attained)
    yield from profit_lines(batch, currency)
    if not batch.finished:
        yield UNFINISHED.removeprefix("note: ")


def hours(batch: Batch, currency: str) -> HoursShown | None:
    """Nothing where no design takes a known time."""
    limit = batch.terms.minutes
    if not batch.minutes and limit is None:
        return None
    return HoursShown(
        show_minutes(batch.minutes),
        "" if limit is None else show_minutes(limit),
        1.0 if not limit else min(1.0, batch.minutes / limit),
        _more(batch, currency),
    )


def _more(batch: Batch, currency: str) -> str:
    limit, found = batch.terms.minutes, with_more_time(batch)
    if limit is None:
        return ""
    left = limit - batch.minutes
    spare = "All used." if not left else f"{show_minutes(left)} left."
    if found is None:
        return spare
    want = batch.wants[found[0].want]
    price = f", {price_of(want, currency)}" if want.coins else ""
    return f"{spare} With {found[1]} more, another {want.name}{price}."


def unmade_lines(batch: Batch) -> list[str]:
    """What was wanted at most and is not made, with the reason."""
    return [line.strip() for line in not_made_lines(batch)]


def unmet_lines(batch: Batch) -> list[str]:
    """What must be and cannot be, and the smallest change that would do."""
    lines = [*short_lines(batch), *clash_lines(batch, colour_name)]
    return [line.strip() for line in lines]


def warnings(batch: Batch) -> list[str]:
    """What may go wrong with yarns side by side, and what holds of all of it."""
    return [*(line.strip() for line in note_lines(batch)), *cautions_of(batch)]


def price_of(want: Wanted, currency: str) -> str:
    """What one brings; "" where nothing was said."""
    return show_money(Money(want.coins), currency) if want.coins else ""


def made_of(made: Made) -> str:
    """Its colours, the main one first."""
    return ", ".join(colour_name(lot.lot) for lot in made.lots)
