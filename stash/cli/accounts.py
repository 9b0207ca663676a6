"""The movement of the shelf over a span of days, shown."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

from stash.cli.common import (
    As,
    answer,
    day,
    note,
    open_book,
    refuse,
    units_in,
)
from stash.rendering.paint import strong

if TYPE_CHECKING:
    from stash.actions.log_sum import Account
    from stash.rendering.amounts import Units


def days_between(first: str, last: str) -> tuple[date | None, date | None]:
    """The ends of a span as typed with --from and --to, both included."""
    begins, ends = day(first), day(last)
    if begins and ends and begins > ends:
        refuse(f"--from {begins} is after --to {ends}: give the earlier day first")
    return begins, ends


def show_account(
    span: tuple[date | None, date | None], by: str, how: As, file: Path | None
) -> None:
    """The account of a span, and beside it what its figures lack."""
    from stash.actions.log_sum import By, account

    if by and by.strip().lower() not in set(By):
        refuse(f"cannot tell apart by {by!r}: choose {' or '.join(By)}")
    found = account(open_book(file), *span, By(by.strip().lower()) if by else None)
    notes = list(_notes(found))
    answer(
        how,
        lambda: _keys(found, notes),
        lambda: _text(found, units_in(found.settings)),
        lambda: list(_rows(found)),
    )
    for text in notes if how is not As.JSON else ():
        note(f"note: {text}")


def _keys(found: Account, notes: list[str]) -> dict[str, Any]:
    from stash.rendering import turnover as turnover_words

    return {
        "from": found.first.isoformat() if found.first else None,
        "to": found.last.isoformat(),
        "method": found.method.value,
        "currency": found.currency or None,
        **turnover_words.keys(found.whole),
        "groups": [{"name": g.name, **turnover_words.keys(g.turnover)} for g in found.groups],
        "notes": notes,
    }


def _rows(found: Account) -> Iterator[dict[str, Any]]:
    """Every line of each group, else of the whole."""
    from stash.rendering import turnover as turnover_words

    for name, turnover in [(g.name, g.turnover) for g in found.groups] or [("", found.whole)]:
        for row in turnover_words.rows(turnover):
            yield {"name": name or None, **row}


def _text(found: Account, units: Units) -> str:
    from stash.rendering import turnover as turnover_words
    from stash.rendering import value
    from stash.rendering.columns import columns

    told = turnover_words.words(found.whole, units, found.currency)
    span = strong(f"{found.first or 'From the beginning'} to {found.last}")
    blocks = [f"{span}, {value.TOLD[found.method]}"]
    blocks.append(columns(list(told), "  "))
    if found.groups:
        rows = [turnover_words.row(g.name, g.turnover, units, found.currency) for g in found.groups]
        blocks.append(columns([turnover_words.HEADING, *rows], "  "))
    return "\n".join(blocks)


def _notes(found: Account) -> Iterator[str]:
    """What the figures lack, each with the way to mend it."""
    from stash.rendering.amounts import numbers

    if found.unmeasured:
        yield (
            f"without a put-up, so in the grams and not in the length: skein "
            f"{numbers(found.unmeasured)}; give it with `stash change --put-up`"
        )
    if found.unpriced:
        yield (
            f"price not known, so in the grams and not in the cost: skein "
            f"{numbers(found.unpriced)}; give it with `stash change --paid`"
        )
    if found.unweighed:
        yield (
            f"never weighed, so its grams are only inferred from a length: skein "
            f"{numbers(found.unweighed)}; put it on the scale with `stash weigh`"
        )
    for entry in found.left_out:
        yield (
            f"entry {entry.number} of {entry.on} is left out: "
            f"it was taken back since, by entry {entry.taken_back_by}"
        )
