"""The movement of the shelf over a span of days, shown."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from stash.cli.common import As, answer, day, open_book, page_of, refuse, say_notes


def days_between(first: str, last: str) -> tuple[date | None, date | None]:
    """The ends of a span as typed with --from and --to, both included."""
    begins, ends = day(first), day(last)
    if begins and ends and begins > ends:
        refuse("from_after_to", begins=begins, ends=ends)
    return begins, ends


def show_account(
    span: tuple[date | None, date | None], by: str, how: As, file: Path | None
) -> None:
    """The account of a span, and beside it what its figures lack."""
    from stash.actions.log_sum import By, log_sum
    from stash.rendering import log_sum as rendered

    if by and by.strip().lower() not in set(By):
        refuse("cannot_tell_apart", by=by, ways=tuple(By))
    found = log_sum(open_book(file), *span, By(by.strip().lower()) if by else None)
    answer(
        how,
        lambda: rendered.keys(found),
        lambda: rendered.text(found, page_of(found.settings)),
        lambda: rendered.rows(found),
    )
    if how is not As.JSON:
        say_notes(rendered.account_notes(found))
