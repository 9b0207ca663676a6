"""Will the yarn last: weighings so far and rows left."""

from __future__ import annotations

import sys
from typing import Annotated

import typer

from stash.cli.booking import tare_typed
from stash.cli.common import (
    As,
    AsOption,
    File,
    answer,
    begun,
    item_meant,
    open_book,
    page,
    refuse,
    say_notes,
    settings_of,
)


def register(app: typer.Typer) -> None:
    """Put these commands on the command line."""
    app.command()(lasts)


def lasts(
    item: Annotated[str, typer.Argument(help="An item you have begun; or type --readings.")] = "",
    readings: Annotated[
        str, typer.Option(help="Rows done and what the ball weighed: '0:98g 20:81g 40:63g'.")
    ] = "",
    rows_left: Annotated[str, typer.Option(help="Rows still to make, as 36.")] = "",
    stitches_left: Annotated[
        str, typer.Option(help="Stitches still to make, if --readings count stitches (0st:98g).")
    ] = "",
    rows_done: Annotated[
        str,
        typer.Option(help="Rows done when you weighed: 40; twice: 20,40; by skein: 1=50,4=20."),
    ] = "",
    stitches: Annotated[
        str, typer.Option(help="For rows that grow: '80 +2' is 80 first and 2 more each row.")
    ] = "",
    keep: Annotated[
        str,
        typer.Option(
            metavar="AMOUNT", help="Keep some for the crown or an edging: 4g, 6m or '3 rows'."
        ),
    ] = "",
    tare: Annotated[
        str, typer.Option(help="Core or bowl on the scale, as 12g or its name in your settings.")
    ] = "",
    put_up: Annotated[
        str, typer.Option("--full", help="A full skein, as 100g/230m (to --keep a length).")
    ] = "",
    role: Annotated[
        str, typer.Option("--colour", metavar="A", help="One colour of the item, as A.")
    ] = "",
    how: AsOption = As.TEXT,
    file: File = None,
) -> None:
    """Will the yarn last? How sure that is, and for how many rows."""
    described = bool(readings or stitches_left or tare or put_up)
    if item or (not described and begun(file)):
        item = item_meant(file, item, "lasts")
    if item:
        if described:
            refuse("books_know_weighings")
        _of_item(item, rows_done, rows_left, stitches, keep, role, how, file)
        return
    if rows_done or role:
        refuse("goes_with_an_item")
    from stash.parsing.weighings import BallWords, of_ball
    from stash.rendering import lasts as rendered

    settings = settings_of(file)
    words = BallWords(readings, rows_left, stitches_left, stitches, keep, put_up)
    found = of_ball(words, settings.scale_step, tare_typed(tare, settings) if tare else None)
    unit = "stitch" if stitches_left else "row"
    keys = rendered.ball_keys(found, unit)
    answer(how, lambda: keys, lambda: rendered.ball_text(found, unit, page()), lambda: [keys])


def _of_item(
    item: str,
    rows_done: str,
    rows_left: str,
    stitches: str,
    keep: str,
    role: str,
    how: As,
    file: File,
) -> None:
    from stash.actions.lasts import LastsAsked, will_last
    from stash.parsing import weighings
    from stash.rendering import lasts as rendered

    counts, by_skein = weighings.rows_done(rows_done)
    asked = LastsAsked(
        item,
        counts,
        weighings.count(rows_left, "no_count_of_rows_left") if rows_left else None,
        weighings.growing(stitches) if stitches else None,
        weighings.keep(keep),
        role.strip().upper(),
        by_skein,
    )
    found = will_last(open_book(file), asked)
    say_notes(rendered.outlook_notes(found))
    answer(
        how,
        lambda: rendered.keys(found),
        lambda: rendered.text(found, page(), brief=sys.stdout.isatty()),
        lambda: rendered.rows(found),
    )
