"""An order as it is typed: its colours, its day; and what it wants, read off its own words."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date, timedelta

from stash.errors import Unreadable
from stash.matching.question.wish import Named
from stash.parsing import days
from stash.parsing.design import runs
from stash.parsing.design.runs import Chart
from stash.parsing.wish import limits as limits_typed
from stash.planning.model.asked import WantAsked
from stash.requirements.design.design import Design
from stash.requirements.fit.grading import Run
from stash.stock.order import Order

#: What is typed to clear a size, a colour or a note.
NONE = "none"


def order_colours(texts: Sequence[str]) -> dict[str, str]:
    """`A=blue`, `B=teal,rust` by role, in plain words; nothing for `none`."""
    if [text.strip().lower() for text in texts] == [NONE]:
        return {}
    named = limits_typed.colours(texts, "--colour")
    return {role: ", ".join(one.word for one in words) for role, words in named.items()}


def order_named(texts: Sequence[str]) -> tuple[Named, ...]:
    """The same colours as the shelf is searched for them."""
    if not order_colours(texts):
        return ()
    return tuple(one for words in limits_typed.colours(texts, "--colour").values() for one in words)


def day_to_come(text: str, today: date) -> date:
    """The day something is to be ready: `2026-12-12`, `12 Dec 2026`, `tomorrow`.

    Days that have gone by are for the caller to refuse.
    """
    if text.strip().lower() == "tomorrow":
        return today + timedelta(days=1)
    return days.any_day(text, today)


def order_run(text: str, plan: Design, chart: Chart) -> Run:
    """The one size that is ordered of a plan: as for a batch. Raises Unreadable for several."""
    found = runs.sizes(text, plan, chart)
    if len(found) != 1:
        raise Unreadable(text, "several_choices")
    return Run(found)


def order_want(order: Order, plan_of: Callable[[str], Design], chart: Chart) -> WantAsked:
    """What is still to be made of an order, as a want of a batch."""
    run = order_run(order.size, plan_of(order.design), chart) if order.size else None
    texts = [f"{role}={words}" for role, words in sorted(order.colours.items())]
    return WantAsked(
        order.design,
        run,
        order.size,
        at_least=order.left,
        at_most=order.left,
        coins=0 if order.price is None else order.price.coins,
        wanted=limits_typed.colours(texts, "--colour"),
        order=order.number,
    )
