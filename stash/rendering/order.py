"""Orders: who wants what by when, how they are doing, and what they lack."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING, Any

from stash.errors import StashError
from stash.matching.answer.proposal import NearMiss
from stash.measures.money import Money, decimals
from stash.measures.note import Note
from stash.measures.written import show_minutes, show_money
from stash.planning.model.batch import Batch, Unfilled
from stash.rendering import amounts
from stash.rendering.amounts import Page, counted
from stash.rendering.columns import columns
from stash.rendering.reasons import why_not
from stash.rendering.sentences.fixes import fixes_in_words
from stash.rendering.sentences.say import sentence
from stash.stock.order import Order, OrderState

if TYPE_CHECKING:
    from stash.actions.order import OrderBooked, Orders
    from stash.actions.ordered import OrdersShort

Keys = dict[str, Any]
UNFINISHED = "note: stopped before it was done; an order may lack less than is shown"
NO_ORDERS = (
    'no orders yet; `stash order add "blue, collected Friday" "Winter hat" --by 2026-12-12` '
    "adds one"
)


def keys(orders: Orders, short: OrdersShort) -> list[Keys]:
    """Every order in its turn, with what it lacks today."""
    currency = orders.settings.currency
    return [
        {
            "number": one.number,
            "who": one.who,
            "design": one.design,
            "size": one.size or None,
            "colours": dict(one.colours),
            "count": one.count,
            "filled": one.filled,
            "items": list(one.items),
            "by": one.by.isoformat(),
            "price": _price(one.price, currency),
            "note": one.note or None,
            "state": one.state(orders.today).value,
            "short": _short_keys(short, one),
        }
        for one in orders.all
    ]


def _price(price: Money | None, currency: str) -> float | None:
    return None if price is None else price.coins / 10 ** decimals(currency)


def _short_keys(short: OrdersShort, order: Order) -> list[Keys]:
    lack, fault = short.of(order.number), short.faults.get(order.number)
    if fault is not None:
        return [{"kind": fault.kind, "words": sentence(fault), "count": order.left}]
    return [] if lack is None else [unfilled_keys(lack)]


def unfilled_keys(lack: Unfilled) -> Keys:
    """What the next one of an order lacks, and how many cannot be made."""
    near = lack.near and _as_planned(lack.near)
    return {
        "kind": "order_short",
        "words": lacks(lack),
        "count": lack.count,
        "roles": {role: lot.lot.ref for role, lot in near.roles} if near else {},
        "short_m": near and near.short_m,
        "short_g": near and near.short_g,
        "fixes": fixes_in_words(near.fixes) if near else None,
        "roles_without_yarn": list(lack.empty),
        "hours": lack.minutes / 60,
    }


def rows(orders: Orders, short: OrdersShort) -> list[Keys]:
    """The same, one row for each order."""
    return [
        {
            **one,
            "colours": [f"{role}={words}" for role, words in sorted(one["colours"].items())],
            "short": "; ".join(lack["words"] for lack in one["short"]),
        }
        for one in keys(orders, short)
    ]


def text(orders: Orders, short: OrdersShort, page: Page) -> str:
    """The open ones in their turn, each with what it lacks; then those filled or dropped."""
    if not orders.all:
        return NO_ORDERS
    closed = [one for one in orders.all if not one.left]
    shown = [*orders.open, *closed]
    cells = columns([_cells(one, orders.today, page) for one in shown]).split("\n")
    lines = []
    for one, line in zip(shown, cells, strict=True):
        lines.append(line)
        lines += [f"   {words}" for words in _under(one, short)]
    return "\n".join(lines)


def _cells(order: Order, today: date, page: Page) -> list[str]:
    count = f"{order.count} x " if order.count > 1 else ""
    return [
        f"{order.number}",
        order.who,
        f"{count}{asked_for(order)}",
        f"by {order.by}",
        "" if order.price is None else show_money(order.price, page.currency),
        state_words(order, today),
    ]


def asked_for(order: Order) -> str:
    """The design with its size and colours: `Winter hat, woman, A blue`."""
    colours = [f"{role} {words}" for role, words in sorted(order.colours.items())]
    return ", ".join([order.design, *([order.size] if order.size else []), *colours])


def state_words(order: Order, today: date) -> str:
    """How it is doing: `open`, `late, 1 of 3 filled`, `dropped`."""
    state = order.state(today)
    if state in (OrderState.OPEN, OrderState.LATE) and order.filled:
        return f"{state}, {order.filled} of {order.count} filled"
    return state.value


def _under(order: Order, short: OrdersShort) -> Iterator[str]:
    if order.note:
        yield order.note
    lack, fault = short.of(order.number), short.faults.get(order.number)
    if fault is not None:
        yield f"cannot be planned: {sentence(fault)}"
    if lack is not None:
        yield f"{_how_many(lack, order)}{lacks(lack)}"


def _how_many(lack: Unfilled, order: Order) -> str:
    return "short: " if order.left == 1 else f"{lack.count} of {order.left} short: "


def lacks(lack: Unfilled) -> str:
    """What the next one lacks, in one line, with the first way to get it."""
    if lack.near is not None:
        near = _as_planned(lack.near)
        why, way = why_not(near), fixes_in_words(near.fixes)
        return f"{why}; or: {way}" if way else why
    if lack.minutes:
        return f"{show_minutes(lack.minutes)} more than the plan has"
    if lack.empty:
        return f"no yarn left that will do for {' and '.join(lack.empty)}"
    return "what is left does not go together, or a limit of the plan keeps it back"


def _as_planned(near: NearMiss) -> NearMiss:
    """Without what is promised of a lot: here that is what earlier orders are to have."""
    blockers = (
        Note(one.kind, **{name: fact for name, fact in one.facts.items() if name != "promised"})
        for one in near.blockers
    )
    fixes = tuple(fix for fix in near.fixes if fix.kind != "release_promised")
    return replace(near, blockers=tuple(blockers), fixes=fixes)


def booked_text(booked: OrderBooked, page: Page) -> str:
    """An order as it is now."""
    order = booked.order
    count = f"{order.count} x " if order.count > 1 else ""
    price = "" if order.price is None else f", {show_money(order.price, page.currency)}"
    each = " each" if price and order.count > 1 else ""
    head = page.strong(f"Order {order}")
    return f"{head}: {count}{asked_for(order)}, by {order.by}{price}{each}  (entry {booked.entry})"


def order_changed_text(booked: OrderBooked, page: Page) -> str:
    """What was changed of an order."""
    done = "; ".join(map(sentence, booked.done))
    return f"{page.strong(f'Order {booked.order}')}: {done}  (entry {booked.entry})"


def order_dropped_text(booked: OrderBooked, page: Page) -> str:
    """That an order is off, and what becomes of its items."""
    items = amounts.numbers(booked.order.items)
    made = f"; item {items} made for it stays as it is" if items else ""
    return f"{page.strong(f'Order {booked.order}')} is dropped{made}  (entry {booked.entry})"


def late_words(orders: Sequence[Order], today: date) -> list[str]:
    """Each order whose day has gone by."""
    return [
        f"order {one} is late: it was for {one.by}, {counted((today - one.by).days, 'day')} ago"
        for one in orders
        if one.state(today) is OrderState.LATE
    ]


def left_out_words(orders: Sequence[Order], faults: Mapping[int, StashError]) -> list[str]:
    """Each order that cannot be planned, and why."""
    return [
        f"order {one} is left out: {sentence(faults[one.number])}"
        for one in orders
        if one.number in faults
    ]


def short_words(orders: Sequence[Order], taken: Mapping[str, Sequence[Unfilled]]) -> list[str]:
    """Which orders are left short by what is taken, said once for all takes that do it.

    A take without a name is one that is made.
    """
    by_number = {one.number: one for one in orders}
    found: dict[int, tuple[list[str], Unfilled]] = {}
    for name, short in taken.items():
        for lack in short:
            found.setdefault(lack.order, ([], lack))[0].append(name)
    return [
        f"{_takes(names)} order {by_number[number]}, for {by_number[number].by}, short: "
        f"{lacks(lack)}"
        for number, (names, lack) in sorted(found.items(), key=lambda f: by_number[f[0]].turn)
    ]


def _takes(names: Sequence[str]) -> str:
    named = [name for name in names if name]
    if not named:
        return "this leaves"
    return f"{', '.join(named)} would leave"


def unmet(batch: Batch) -> list[Keys]:
    """The orders of a plan that cannot be made whole, as wants that are not met."""
    by_order = {want.order: want for want in batch.wants}
    return [
        {
            "design": by_order[lack.order].design,
            "size": by_order[lack.order].size or None,
            "order": lack.order,
            "count": lack.count,
            "short": unfilled_keys(lack),
        }
        for lack in batch.unfilled
    ]


def with_orders(text: str, batch: Batch, orders: Orders | None) -> str:
    """A plan with its orders under it: the items of each, and which cannot be met."""
    table = orders_planned(batch, orders)
    if not orders or not table:
        return text
    lines = ["Orders, the earliest day first:", columns(table, "  ")]
    unmet = [f"  {words}" for words in orders_unmet(batch, orders)]
    return "\n".join([text, "", *lines, *unmet])


def orders_planned(batch: Batch, orders: Orders | None) -> list[list[str]]:
    """The orders of a plan, each with its items in it."""
    wanted = {want.order for want in batch.wants}
    known = [one for one in orders.open if one.number in wanted] if orders else []
    return [_planned(batch, one, orders.today) for one in known] if orders else []


def orders_unmet(batch: Batch, orders: Orders) -> list[str]:
    """Which of them cannot be met, and why."""
    lacking = {lack.order: lack for lack in batch.unfilled}
    return [
        f"order {one} cannot be met: {_how_many(lack, one)}{lacks(lack)}"
        for one in orders.open
        if (lack := lacking.get(one.number)) is not None
    ]


def _planned(batch: Batch, order: Order, today: date) -> list[str]:
    items = [
        number
        for made in batch.made
        if batch.wants[made.want].order == order.number
        for number in made.items
    ]
    late = " (late)" if order.state(today) is OrderState.LATE else ""
    made = f"no. {amounts.numbers(items)}" if items else "none"
    return [f"order {order.number}", order.who, asked_for(order), f"by {order.by}{late}", made]
