"""Stock-taking, winding off, unravelling, and safety copies."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from stash.cli.common import (
    As,
    AsOption,
    File,
    On,
    answer,
    day,
    items_typed,
    note,
    only_item,
    open_book,
    page,
    page_of,
    refuse,
    say,
    say_shorts,
)
from stash.cli.which_file import chosen_file

if TYPE_CHECKING:
    from stash.actions.count import Lost
    from stash.actions.weigh import ScaleReading


def register(app: typer.Typer) -> None:
    """Put these commands on the command line."""
    for command in (count, split, unravel, backup, restore):
        app.command()(command)


def count(
    place: Annotated[str, typer.Argument(help="The place to count, as 'blue box'.")],
    tick: Annotated[
        list[str] | None,
        typer.Option("--tick", help="Skeins you see there: 12,14-17. Repeat for more."),
    ] = None,
    weigh: Annotated[
        list[str] | None, typer.Option("--weigh", help="Skeins you weigh: 12=43g. Repeat for more.")
    ] = None,
    tare: Annotated[str, typer.Option(help="The bowl on the scale with them, as 12g.")] = "",
    close: Annotated[bool, typer.Option("--close", help="Finish the count and save it.")] = False,
    lost: Annotated[
        str,
        typer.Option(
            "--lost", help="With --close: skeins that are lost, as 42,44; or all-missing."
        ),
    ] = "",
    drop: Annotated[bool, typer.Option("--drop", help="Drop this count; nothing changes.")] = False,
    on: On = "",
    how: AsOption = As.TEXT,
    file: File = None,
) -> None:
    """Count what is in a place. Tick or weigh skeins as often as you like, then --close."""
    from stash.actions import count as count_action
    from stash.parsing.numbers import listed
    from stash.rendering import count as rendered

    written_off = _lost(lost)
    if lost and not close:
        refuse("lost_before_closing", lost=lost)
    book = open_book(file)
    if drop:
        count_action.drop(book, place)
        say(rendered.dropped_text(place))
        return
    if close and not (tick or weigh):
        count_action.refuse_unless_under_way(book, place)
    ticked = [part for text in tick or [] for part in listed(text)]
    counted = count_action.note(book, place, ticked, _weighed(weigh or [], tare))
    if close:
        closed = count_action.close(book, place, lost=written_off, on=day(on))
        say(rendered.closed_text(place, closed, page_of(counted.settings)))
        say_shorts(closed.shorts)
        return
    shown_on = page_of(counted.settings)
    answer(
        how,
        lambda: rendered.keys(counted),
        lambda: rendered.text(counted, shown_on),
        lambda: rendered.rows(counted),
    )


def _lost(text: str) -> Lost:
    """Skeins to be booked as lost: by number, or all that were not found."""
    from stash.actions.count import Lost
    from stash.parsing.numbers import listed

    if text.strip().lower() in ("all-missing", "all missing"):
        return Lost(all_missing=True)
    numbers = listed(text)
    if not all(map(str.isdecimal, numbers)) or bool(text) is not bool(numbers):
        refuse("no_lost_numbers", typed=text)
    return Lost(tuple(int(number) for number in numbers))


def _weighed(texts: Sequence[str], tare: str) -> dict[str, ScaleReading]:
    from stash.actions.weigh import ScaleReading
    from stash.parsing import quantities

    off = quantities.mass(tare) if tare else None
    found = {}
    for text in texts:
        skein, sign, reading = text.partition("=")
        if not sign or not skein.strip():
            refuse("no_skein_weight", typed=text)
        found[skein.strip()] = ScaleReading(quantities.mass(reading), tare=off)
    return found


def split(
    skein: Annotated[str, typer.Argument(help="Its number, or words: 12, navy.")],
    amount: Annotated[str, typer.Argument(help="How much to wind off, as 40g or 80m.")],
    place: Annotated[
        str | None, typer.Option(help="Where you keep the new one, as 'blue box'.")
    ] = None,
    on: On = "",
    file: File = None,
) -> None:
    """Wind part of a skein off as a skein of its own."""
    from stash.actions.split import split
    from stash.actions.use import Amount
    from stash.parsing import quantities
    from stash.rendering import figures
    from stash.rendering import split as rendered

    book = open_book(file)
    typed = Amount(amount, quantities.amount(amount))
    done = split(book, skein, typed, place=place, on=day(on))
    note(done.said)
    shown_on = page_of(done.settings)
    say(figures.settled(lambda: rendered.text(done, shown_on)))


def unravel(
    items: Annotated[
        str, typer.Argument(metavar="ITEMS", help="Numbers, as 3 or 1,4-12; or the design's name.")
    ],
    into: Annotated[
        list[str] | None,
        typer.Option(
            "--into",
            help="Wind onto a skein you have: 12=14 winds yarn of 12 onto 14. Repeat for more.",
        ),
    ] = None,
    loss: Annotated[str, typer.Option(help="Lost to ends and cuts; 5% if left out.")] = "",
    weighed: Annotated[
        str, typer.Option(help="What all the yarn weighs that came back, as 74g.")
    ] = "",
    on: On = "",
    file: File = None,
) -> None:
    """Unravel items. Their yarn goes back on your shelf, less a little for ends."""
    from stash.actions.unravel import USUAL_LOSS, unravel
    from stash.parsing import quantities
    from stash.parsing.design import design
    from stash.rendering import figures
    from stash.rendering import several as rendered

    if loss and weighed:
        refuse("weighed_and_reckoned")
    meant = items_typed(items)
    only_item(meant, into=into, weighed=weighed)
    book = open_book(file)
    share = design.margin(loss) if loss else USUAL_LOSS
    back = quantities.mass(weighed) if weighed else 1 - share
    done = unravel(book, meant, into=_wound_back(into or []), back=back, on=day(on))
    loss_taken, shown_on = None if weighed else share, page_of(done[0].settings)
    say(figures.settled(lambda: rendered.items_unravelled(done, loss_taken, shown_on)))


def _wound_back(texts: Sequence[str]) -> dict[int, int]:
    found = {}
    for text in texts:
        was, sign, onto = (part.strip() for part in text.partition("="))
        if not (sign and was.isdecimal() and onto.isdecimal()):
            refuse("no_two_skeins", typed=text)
        found[int(was)] = int(onto)
    return found


def backup(
    target: Annotated[Path, typer.Argument(help="A new file for the copy, as copy.stash.")],
    file: File = None,
) -> None:
    """Make a safety copy of everything. You can go on working meanwhile."""
    from stash.actions.backup import backup
    from stash.rendering import backup as rendered

    say(rendered.copied_text(target, backup(open_book(file), target), page()))


def restore(
    source: Annotated[Path, typer.Argument(help="A copy made by `stash backup`.")],
    over: Annotated[
        bool, typer.Option("--over", help="Even if you have added things since that copy.")
    ] = False,
    file: File = None,
) -> None:
    """Return to a safety copy. Your file of before is kept next to it."""
    from stash.actions.backup import restore
    from stash.rendering import backup as rendered

    path = chosen_file(file)
    done = restore(
        path, source, over=over, report=lambda kept: note(rendered.kept_beside_text(kept))
    )
    say(rendered.restored_text(path, source, done, page()))
