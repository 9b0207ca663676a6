"""What came in and went out over a span of days, and what its figures lack."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from stash.measures.written import show_money
from stash.rendering.amounts import Page
from stash.rendering.balance import Balance, balance, sum_of, together
from stash.rendering.columns import columns
from stash.rendering.cost import no_price, of_skeins
from stash.rendering.figures import Figure
from stash.rendering.her_words import hers
from stash.rendering.sentences.say import sentence
from stash.rendering.value import METHODS
from stash.stock.movement import Kind
from stash.stock.turnover import Total, Turnover, Way

if TYPE_CHECKING:
    from stash.actions.log_sum import LogSum


def keys(account: LogSum) -> dict[str, Any]:
    """The whole shelf with stable keys, and each yarn or lot by itself where that was asked for."""
    return {
        "from": account.first.isoformat() if account.first else None,
        "to": account.last.isoformat(),
        "method": account.method.value,
        "currency": account.currency or None,
        **_turnover_keys(account.whole),
        "groups": [
            {"name": sentence(g.name), **_turnover_keys(g.turnover)} for g in account.groups
        ],
        "notes": account_notes(account),
    }


def rows(account: LogSum) -> list[dict[str, Any]]:
    """Every line of each group, else of the whole."""
    groups = [(sentence(g.name), g.turnover) for g in account.groups] or [("", account.whole)]
    return [
        {"name": name or None, "line": line, "kind": kind or None, **_measures(total)}
        for name, turnover in groups
        for line, kind, total in _lines(turnover)
    ]


def text(account: LogSum, page: Page) -> str:
    """The same for reading: all of it by what came and went, then each group in one line."""
    currency = account.currency
    span = page.strong(f"{account.first or 'From the beginning'} to {account.last}")
    shown = [_shown(group.turnover, group.lots) for group in account.groups]
    whole = _shown(account.whole, account.lots)
    blocks = [span, columns(list(_whole_rows(whole, currency)), "  ")]
    if account.groups:
        names = [sentence(group.name) for group in account.groups]
        rows = [_group_row(n, s, currency) for n, s in zip(names, shown, strict=True)]
        blocks.append(columns([_HEADING, *rows], "  "))
    return "\n".join([*blocks, f"Costs: {METHODS[account.method]}."])


@dataclass(frozen=True, slots=True)
class _Shown:
    """A turnover with its balances as they are shown."""

    turnover: Turnover
    weight: Balance
    length: Balance


def _shown(turnover: Turnover, lots: Sequence[Turnover]) -> _Shown:
    """Its figures as the sum of what is shown of each of its lots."""
    each = [_balances(one) for one in lots or (turnover,)]
    return _Shown(turnover, sum_of([one for one, _ in each]), sum_of([one for _, one in each]))


def _balances(turnover: Turnover) -> tuple[Balance, Balance]:
    """The weight and the length of one lot."""
    moved = turnover.moved.items()
    return (
        balance(turnover.opening.mass, {key: total.mass for key, total in moved}),
        balance(turnover.opening.length, {key: total.length for key, total in moved}),
    )


def account_notes(account: LogSum) -> list[str]:
    """What the figures lack, each with what to do about it."""
    said = []
    if skeins := account.unmeasured:
        said.append(
            f"no full size known for {of_skeins(skeins)}, so no length is counted: add it, as in "
            f"`stash change {skeins[0]} --full 100g/200m`"
        )
    if account.unpriced:
        said.append(no_price(account.unpriced))
    if skeins := account.unweighed:
        said.append(
            f"the weight of {of_skeins(skeins)} is worked out from a length: "
            f"`stash weigh {skeins[0]} 50g` settles it"
        )
    return [
        *said,
        *(
            f"entry {entry.number} of {entry.on} is left out: "
            f"{hers('it was cancelled later, by entry')} {entry.taken_back_by}"
            for entry in account.left_out
        ),
    ]


def _turnover_keys(turnover: Turnover) -> dict[str, Any]:
    """A span with stable keys: opening + in - out + restated + wound_off = closing."""
    ways: dict[Way, dict[str, Any]] = {Way.IN: {}, Way.OUT: {}}
    for (way, kind), total in turnover.moved.items():
        if way in ways:
            ways[way][kind.value] = _measures(-total if way is Way.OUT else total)
    return {
        "opening": _measures(turnover.opening),
        "in": ways[Way.IN],
        "out": ways[Way.OUT],
        "restated": _measures(turnover.of(Way.RESTATED)),
        "wound_off": _measures(turnover.of(Way.WOUND_OFF)),
        "closing": _measures(turnover.closing),
    }


def _measures(total: Total) -> dict[str, Any]:
    return {
        "g": total.mass.g,
        "m": total.length.m,
        "m_at_least": not total.all_measured,
        "cost_coins": total.cost.coins,
        "cost_at_least": not total.all_priced,
    }


def _lines(turnover: Turnover) -> Iterator[tuple[str, str, Total]]:
    """Every line that is not empty: what it is, why, and how much."""
    yield "opening", "", turnover.opening
    for (way, kind), total in turnover.moved.items():
        if way in (Way.IN, Way.OUT):
            yield way.value, kind.value, -total if way is Way.OUT else total
        elif total:
            yield way.value, "", total
    yield "closing", "", turnover.closing


def _whole_rows(whole: _Shown, currency: str) -> Iterator[list[str]]:
    """A line each for what was there, what came, what went, and what that leaves."""
    turnover, weight, length = whole.turnover, whole.weight, whole.length
    before = _cells(turnover.opening, length.opening, currency)
    yield ["on the shelf before", str(weight.opening), *before]
    for (way, kind), total in turnover.moved.items():
        if total:
            cost = -total if total.cost.coins < 0 else total
            cells = _cells(cost, length.moved[way, kind].figure, currency)
            yield [_called(way, kind, total), str(weight.moved[way, kind]), *cells]
    after = _cells(turnover.closing, length.closing, currency)
    yield ["on the shelf after", str(weight.closing), *after]


def _called(way: Way, kind: Kind, total: Total) -> str:
    if way is Way.WOUND_OFF and not (total.mass or total.length):
        return "rounded where wound off"  # a coin that neither of two skeins holds whole
    return "weight corrected" if way is Way.RESTATED else kind.value


def _group_row(name: str, group: _Shown, currency: str) -> list[str]:
    """One group in one line: its weight before, in, out and after, with length and cost after."""
    moved = group.weight.moved.values()
    came, went = ([one for one in moved if one.less is less] for less in (False, True))
    return [
        name,
        str(group.weight.opening),
        *(str(together(ones)) if any(one.figure for one in ones) else "" for ones in (came, went)),
        str(group.weight.closing),
        *_cells(group.turnover.closing, group.length.closing, currency),
    ]


#: The headings of the columns of `_group_row`.
_HEADING = ["", "before", "in", "out", "after", "", ""]


def _cells(total: Total, length: Figure, currency: str) -> list[str]:
    cost = show_money(total.cost, currency)
    return [
        _at_least(str(length), total.all_measured, bool(total.length), "length not known"),
        _at_least(cost, total.all_priced, bool(total.cost.coins), "cost not known"),
    ]


def _at_least(text: str, all_known: bool, some_known: bool, unknown: str) -> str:
    if all_known:
        return text
    return f"at least {text}" if some_known else unknown
