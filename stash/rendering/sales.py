"""Sales by period: what each brought, what it cost and what an hour of it earned."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from typing import TYPE_CHECKING, Any

from stash.measures.money import Money
from stash.measures.written import show_money
from stash.rendering.amounts import Page, numbers
from stash.rendering.columns import columns, width
from stash.rendering.decimal_money import as_number
from stash.rendering.items import item_named
from stash.rendering.value import METHODS
from stash.rendering.work import show_hours, show_share
from stash.stock.sale import SaleKind

if TYPE_CHECKING:
    from stash.actions.sales import Sales, SoldLine, SoldTotal

#: Periods as they are shown and answered: the first day, the lines and their sums.
Periods = Sequence[tuple[date, "Sequence[SoldLine]", "SoldTotal"]]
_HEADING = ["day", "item", "price", "fee", "yarn", "sundries", "profit", "hours", "an hour"]
#: These columns are left out where they hold nothing.
_MAY_BE_EMPTY = ("fee", "sundries", "hours", "an hour")
_UNSOLD = {SaleKind.GIVEN: "given away", SaleKind.LOST: "lost"}


def keys(found: Sales, total: SoldTotal, periods: Periods = ()) -> dict[str, Any]:
    """Sales with stable keys. `totals` are the sums of the rows; *at least* where `at_least` so."""
    currency = found.settings.currency
    return {
        "from": found.first.isoformat() if found.first else None,
        "to": found.last.isoformat(),
        "method": found.method.value,
        "currency": currency or None,
        "rows": [_row(one, currency) for one in found.lines],
        "totals": _totals(total, currency),
        "unsold": [_row(one, currency) for one in found.unsold],
        "periods": [
            {"from": begins.isoformat(), **_totals(sums, currency)} for begins, _, sums in periods
        ],
        "notes": sales_notes(found),
    }


def rows(found: Sales) -> list[dict[str, Any]]:
    """Every sale and return, for a sheet."""
    return [_row(one, found.settings.currency) for one in found.lines]


def _row(one: SoldLine, currency: str) -> dict[str, Any]:
    per_hour = one.per_hour
    return {
        "on": one.on.isoformat(),
        "item": one.item.number if one.item else None,
        "design": one.item.design or None if one.item else None,
        "price": None if one.price is None else as_number(one.price, currency),
        "fee": as_number(one.fee, currency),
        "yarn": as_number(one.yarn.cost, currency) if _some_known(one) else None,
        "sundries": as_number(one.sundries, currency),
        "profit": as_number(one.profit, currency),
        "hours": None if one.hours is None else float(one.hours),
        "per_hour": None if per_hour is None else as_number(per_hour, currency),
        "kind": happened(one),
        "skein": one.skein,
        "what": _what(one),
        "hours_from": None if one.hours is None else "noted" if one.noted else "planned",
        "at_least": not one.sure,
        "entry": one.entry,
    }


def _some_known(one: SoldLine) -> bool:
    """Whether anything of what its yarn cost is known."""
    return one.yarn.all_priced or bool(one.yarn.cost.coins)


def _some_yarn(total: SoldTotal) -> bool:
    """Whether anything of what the yarn cost is known."""
    return total.yarn_known or bool(total.yarn.coins)


def _totals(total: SoldTotal, currency: str) -> dict[str, Any]:
    return {
        "price": as_number(total.price, currency),
        "fee": as_number(total.fee, currency),
        "yarn": as_number(total.yarn, currency) if _some_yarn(total) else None,
        "sundries": as_number(total.sundries, currency),
        "profit": as_number(total.profit, currency),
        "hours": float(total.hours),
        "per_hour": None if total.per_hour is None else as_number(total.per_hour, currency),
        "at_least": not (total.price_known and total.yarn_known),
        "price_at_least": not total.price_known,
        "yarn_at_least": not total.yarn_known,
    }


def happened(one: SoldLine) -> str:
    """What became of it in a word: sold, returned, given, lost."""
    return SaleKind.RETURNED.value if one.back else one.way.value


def _what(one: SoldLine) -> str:
    """What it is: `item 12, Winter hat`, or the yarn and its skein."""
    if one.item is not None:
        return item_named(one.item)
    yarn = f"{one.lot.yarn} {one.lot.colour}".strip() if one.lot else ""
    return f"skein {one.skein}, {yarn}"


def text(found: Sales, total: SoldTotal, periods: Periods, page: Page) -> str:
    """The same for reading: each period with its sum, the sum of all, what went without a buyer."""
    currency = found.settings.currency
    span = f"{found.first or 'from the beginning'} to {found.last}"
    money = f", in {currency}" if currency else ""
    blocks = [page.strong(f"Sales {span}{money}")]
    if found.lines:
        blocks.append(_aligned(table(found.lines, total, periods)))
        blocks.append(f"Yarn: {METHODS[found.method]}.")
    else:
        blocks.append("  nothing sold; `stash sold 3 --for 28` notes a sale of item 3")
    if found.unsold:
        gone = [
            [
                f"{one.on}",
                _what(one),
                f"back, was {_UNSOLD[one.way]}" if one.back else _UNSOLD[one.way],
                _yarn_gone(one),
            ]
            for one in found.unsold
        ]
        blocks += ["Given away or lost, not in the sums above", columns(gone, "  ")]
    return "\n".join(blocks)


def _yarn_gone(one: SoldLine) -> str:
    if not _some_known(one):
        return "price of the yarn not known"
    return f"yarn {_least(show_money(one.yarn.cost), one.yarn.all_priced)}"


def table(lines: Sequence[SoldLine], total: SoldTotal, periods: Periods = ()) -> list[list[str]]:
    """The sales as cells: a heading, a row each, sums of periods where asked for, the sum of all.

    Columns that hold nothing are left out.
    """
    shown: list[list[str]] = [_HEADING]
    mixed = any(one.noted for one in lines)
    first = [begins for begins, _, _ in periods]

    def rows_of(some: Sequence[SoldLine]) -> list[list[str]]:
        return [_cells(one, mixed) for one in some]

    def called(begins: date) -> str:
        months = all(day.day == 1 for day in first)
        return f"{begins:%B %Y}" if months else f"week of {begins}"

    if periods:
        for begins, some, sums in periods:
            shown += [*rows_of(some), _sums(called(begins), sums)]
    else:
        shown += rows_of(lines)
    shown.append(_sums("in all", total))
    kept = [
        i
        for i, name in enumerate(_HEADING)
        if name not in _MAY_BE_EMPTY or any(row[i] not in ("", "0", "0.00") for row in shown[1:])
    ]
    return [[row[i] for i in kept] for row in shown]


def _aligned(shown: Sequence[Sequence[str]]) -> str:
    """In columns, figures to the right."""
    widths = [max(map(width, column)) for column in zip(*shown, strict=True)]
    return columns(
        [
            [
                cell if i < 2 else " " * (widths[i] - width(cell)) + cell
                for i, cell in enumerate(row)
            ]
            for row in shown
        ],
        "  ",
    )


def _cells(one: SoldLine, mixed: bool) -> list[str]:
    """One line; where some hours are noted (`mixed`), those that are only planned are told."""
    per_hour, priced = one.per_hour, one.price is not None
    return [
        f"{one.on}",
        f"{_what(one)}{' returned' if one.back else ''}",
        "not known" if one.price is None else show_money(one.price),
        show_money(one.fee),
        _least(show_money(one.yarn.cost), one.yarn.all_priced) if _some_known(one) else "not known",
        show_money(one.sundries),
        _bound(one.profit, priced, one.yarn.all_priced),
        _hours(one, mixed),
        "" if per_hour is None else _bound(per_hour, priced, one.yarn.all_priced),
    ]


def _hours(one: SoldLine, mixed: bool) -> str:
    if one.hours is None:
        return ""
    sign = "-" if one.hours < 0 else ""
    return f"{'about ' if mixed and not one.noted else ''}{sign}{show_hours(abs(one.hours))}"


def _sums(name: str, total: SoldTotal) -> list[str]:
    per_hour = total.per_hour
    sign = "-" if total.hours < 0 else ""
    return [
        name,
        "",
        _least(show_money(total.price), total.price_known),
        show_money(total.fee),
        _least(show_money(total.yarn), total.yarn_known) if _some_yarn(total) else "not known",
        show_money(total.sundries),
        _bound(total.profit, total.price_known, total.yarn_known),
        f"{sign}{show_hours(abs(total.hours))}" if total.hours else "",
        "" if per_hour is None else _bound(per_hour, True, total.hourly_known),
    ]


def _least(text: str, known: bool) -> str:
    return text if known else f"at least {text}"


def _bound(amount: Money, price_known: bool, yarn_known: bool) -> str:
    return f"{how_sure(price_known, yarn_known)}{show_money(amount)}"


def how_sure(price_known: bool, yarn_known: bool) -> str:
    """What stands before what is left of a price: least where that is, most where the cost is."""
    if price_known and yarn_known:
        return ""
    return "at most " if price_known else "at least " if yarn_known else "about "


def sales_notes(found: Sales) -> list[str]:
    """What the figures lack, and what an hour is worked out from."""
    return [*_lacking(found.lines), *_of_hours(found)]


def _lacking(lines: Sequence[SoldLine]) -> Iterator[str]:
    unpriced = sorted({one.item.number for one in lines if one.item and not one.yarn.all_priced})
    if unpriced:
        yield (
            f"the price of some yarn in item {numbers(unpriced)} is not known; "
            f"`stash cost {unpriced[0]}` says of which skein"
        )
    yarn = sorted({one.skein for one in lines if one.skein and not one.yarn.all_priced})
    if yarn:
        yield (
            f"what skein {numbers(yarn)} cost is not known; "
            f"add it with `stash change {yarn[0]} --paid`"
        )
    entries = [one.entry for one in lines if one.price is None]
    if entries:
        yield (
            f"what the yarn of entry {numbers(entries)} was sold for is not known; "
            f"`stash undo {entries[0]}`, then note it again with --for"
        )


def _of_hours(found: Sales) -> Iterator[str]:
    sold = [one for one in found.lines if one.item]
    lacking = sorted({one.item.number for one in sold if one.item and one.hours is None})
    if lacking and len(lacking) < len({one.item.number for one in sold if one.item}):
        yield f"no hours noted for item {numbers(lacking)}, so not in what an hour earned"
    if any(one.hours for one in sold) and not any(one.noted for one in sold):
        yield "hours are as planned; `stash done` takes --hours 2h10 for what an item took"
    if found.settings.overhead and any(one.hours for one in sold):
        share = show_share(found.settings.overhead)
        yield f"what an hour earned leaves out your overhead of {share}, as `stash cost` does"
