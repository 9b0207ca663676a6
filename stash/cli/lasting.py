"""Will the yarn last: weighings so far and rows left."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Annotated

import typer

from stash.cli.booking import tare_typed
from stash.cli.common import (
    As,
    AsOption,
    File,
    answer,
    note,
    open_book,
    refuse,
    settings_of,
)
from stash.rendering.paint import strong

if TYPE_CHECKING:
    from stash.requirements.lasting.lasting import Lasting


def register(app: typer.Typer) -> None:
    """Put these commands on the command line."""
    app.command()(lasts)


def lasts(
    article: Annotated[
        str, typer.Argument(help="An article under way; else give --readings.")
    ] = "",
    readings: Annotated[
        str, typer.Option(help="Rows worked and what the ball weighed: '0:98g 20:81g 40:63g'.")
    ] = "",
    rows_left: Annotated[str, typer.Option(help="Rows still to work.")] = "",
    stitches_left: Annotated[
        str, typer.Option(help="Where readings count stitches, as 0st:98g: those still to work.")
    ] = "",
    rows_done: Annotated[
        str,
        typer.Option(help="Rows at an article's newest weighings: 40; 20,40; by skein 1=50,4=20."),
    ] = "",
    stitches: Annotated[
        str, typer.Option(help="Rows that grow: '80 +2' is 80 at first and 2 more each row.")
    ] = "",
    keep: Annotated[
        str, typer.Option(help="Kept back for crown, edging, bind-off: 4g, 6m or 3 rows.")
    ] = "",
    tare: Annotated[
        str, typer.Option(help="Core, bowl or needle on the scale, as 12g or a name.")
    ] = "",
    put_up: Annotated[
        str, typer.Option(help="What a full ball holds, to keep back metres: 100g/230m.")
    ] = "",
    role: Annotated[str, typer.Option(help="With an article: one colour, as A.")] = "",
    how: AsOption = As.TEXT,
    file: File = None,
) -> None:
    """Will the yarn last? By how much, with what chance, for how many rows."""
    if article:
        if readings or stitches_left or tare or put_up:
            refuse("an article's books know its weighings: give --rows-done, as in --rows-done 40")
        _of_article(article, rows_done, rows_left, stitches, keep, role, how, file)
        return
    if rows_done or role:
        refuse("--rows-done and --role go with an article; else give --readings '0:98g 20:81g'")
    from stash.parsing.weighings import BallWords, of_ball
    from stash.rendering import lasts as lasts_words

    settings = settings_of(file)
    words = BallWords(readings, rows_left, stitches_left, stitches, keep, put_up)
    found = of_ball(words, settings.scale_step, tare_typed(tare, settings) if tare else None)
    counted = "stitch" if stitches_left else "row"
    keys = lasts_words.keys(found, counted)
    answer(how, lambda: keys, lambda: _told(found, counted), lambda: [keys])


def _of_article(
    article: str,
    rows_done: str,
    rows_left: str,
    stitches: str,
    keep: str,
    role: str,
    how: As,
    file: File,
) -> None:
    from stash.actions.lasts import Asked, will_last
    from stash.parsing import weighings
    from stash.rendering import lasts as lasts_words

    counts, by_skein = weighings.rows_done(rows_done)
    asked = Asked(
        article,
        counts,
        weighings.count(rows_left, "the rows left") if rows_left else None,
        weighings.growing(stitches) if stitches else None,
        weighings.keep(keep),
        role.strip().upper(),
        by_skein,
    )
    found = will_last(open_book(file), asked)
    for words in (*found.notes, *map(lasts_words.stale, found.stale)):
        note(f"note: {words}")
    rows = {one: lasts_words.keys(lasting, "row") for one, lasting in found.roles.items()}
    answer(
        how,
        lambda: {**rows[found.least_sure], "role": found.least_sure, "roles": rows},
        lambda: "\n".join(_of_role(one, found.roles) for one in found.roles),
        lambda: [{"role": one, **row} for one, row in rows.items()],
    )


def _of_role(role: str, roles: Mapping[str, Lasting]) -> str:
    head = f"{role}  " if role and len(roles) > 1 else ""
    return head + _told(roles[role], "row")


def _told(found: Lasting, counted: str) -> str:
    from stash.rendering import lasts as lasts_words

    return f"{strong(lasts_words.verdict_words(found))}: {lasts_words.text(found, counted)}"
