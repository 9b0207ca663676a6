"""What was sold over a span of days, and the year as a workbook."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from stash.cli.accounts import days_between
from stash.cli.common import (
    As,
    AsOption,
    File,
    answer,
    open_book,
    page_of,
    progress,
    refuse,
    say,
    say_notes,
)

if TYPE_CHECKING:
    from stash.actions.sales import Every


def register(app: typer.Typer) -> None:
    """Put these commands on the command line."""
    for command in (sales, year):
        app.command()(command)


def sales(
    begins: Annotated[
        str, typer.Option("--from", metavar="DAY", help="From this day on, as 2026-01-01.")
    ] = "",
    ends: Annotated[str, typer.Option("--to", help="Up to and with this day.")] = "",
    by: Annotated[
        str, typer.Option("--by", metavar="month|week|all", help="With a sum for each.")
    ] = "",
    how: AsOption = As.TEXT,
    file: File = None,
) -> None:
    """What you sold. Each sale with its profit and what an hour earned, and the totals."""
    from stash.actions.sales import Every, periods, sales, total_of
    from stash.rendering import sales as rendered

    span, every = days_between(begins, ends), _every(by)
    found = sales(open_book(file), *span)
    total = total_of(found.lines)
    divided = periods(found.lines, every) if every is not Every.ALL else []
    parts = [(on, some, total_of(some)) for on, some in divided]
    answer(
        how,
        lambda: rendered.keys(found, total, parts),
        lambda: rendered.text(found, total, parts, page_of(found.settings)),
        lambda: rendered.rows(found),
    )
    if how is not As.JSON:
        say_notes(rendered.sales_notes(found))


def _every(by: str) -> Every:
    from stash.actions.sales import Every

    word = by.strip().lower() or Every.ALL.value
    if word not in [one.value for one in Every]:
        refuse("no_such_period", by=by)
    return Every(word)


def year(
    which: Annotated[str, typer.Argument(metavar="YEAR", help="Which year, as 2026.")],
    target: Annotated[Path, typer.Argument(help="A new file ending in .xlsx.")],
    over: Annotated[bool, typer.Option("--over", help="Write over a file that is there.")] = False,
    file: File = None,
) -> None:
    """Your year as a workbook. Opening, bought, used, gone, closing, items, sales and profit."""
    from stash.actions import writing
    from stash.actions.year import year
    from stash.exchange.year_book import to_workbook
    from stash.rendering import year as rendered

    if not re.fullmatch(r"(19|20|21)[0-9]{2}", which.strip()):
        refuse("no_year", typed=which)
    if target.suffix.lower() != ".xlsx":
        refuse("year_is_a_workbook", file=target.name)
    book = open_book(file)
    writing.refuse_to_write(target, over=over)
    progress(f"adding up {which.strip()}")
    found = year(book, int(which))
    writing.write(target, to_workbook(rendered.sheets(found), found.settings.currency), over=over)
    say(rendered.text(found, target, page_of(found.settings)))
    say_notes(rendered.year_notes(found))
