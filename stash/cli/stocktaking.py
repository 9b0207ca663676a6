"""Stock-taking, winding off, unravelling, and safety copies."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from stash.cli.common import (
    As,
    AsOption,
    File,
    On,
    answer,
    chosen_file,
    day,
    note,
    open_book,
    refuse,
    say,
    say_shorts,
    units_in,
)
from stash.rendering.paint import patch, strong

if TYPE_CHECKING:
    from stash.actions.count import Closed, Count, Lost
    from stash.actions.unravel import Unravelled
    from stash.actions.weigh import Asked
    from stash.rendering.amounts import Units
    from stash.stock.holding import HeldSkein


def register(app: typer.Typer) -> None:
    """Put these commands on the command line."""
    for command in (count, split, unravel, backup, restore):
        app.command()(command)


def count(
    place: Annotated[str, typer.Argument(help="The place to count, as its skeins have it.")],
    tick: Annotated[
        list[str] | None, typer.Option("--tick", help="Seen: 12,13 or 4-9; repeat it.")
    ] = None,
    weigh: Annotated[
        list[str] | None, typer.Option("--weigh", help="On the scale: 12=43g; repeat it.")
    ] = None,
    tare: Annotated[str, typer.Option(help="What stands on the scale with them, as 12g.")] = "",
    close: Annotated[bool, typer.Option("--close", help="Book what was found.")] = False,
    lost: Annotated[
        str,
        typer.Option(
            "--lost", help="With --close: 42,44 are lost; or all-missing, if any is seen."
        ),
    ] = "",
    drop: Annotated[bool, typer.Option("--drop", help="Forget this count.")] = False,
    on: On = "",
    how: AsOption = As.TEXT,
    file: File = None,
) -> None:
    """Count a place. Tick or weigh what lies there, as long as it takes; book it in one go."""
    from stash.actions import count as count_action

    written_off = _lost(lost)
    if lost and not close:
        refuse(f"what is lost is booked when the count is closed: --close --lost {lost}")
    book = open_book(file)
    if drop:
        count_action.drop(book, place)
        say(f"the count of {place} is forgotten; nothing was booked")
        return
    if close and not (tick or weigh):
        count_action.refuse_unless_under_way(book, place)
    counted = count_action.note(book, place, _ticked(tick or []), _weighed(weigh or [], tare))
    if close:
        closed = count_action.close(book, place, lost=written_off, on=day(on))
        say(_closed_text(place, closed))
        say_shorts(closed.shorts)
        return
    units = units_in(counted.settings)
    answer(
        how,
        lambda: {"place": place, "open": counted.open, "skeins": _count_rows(counted)},
        lambda: _count_text(counted, units),
        lambda: _count_rows(counted),
    )


def _ticked(texts: Sequence[str]) -> list[str]:
    """Skein numbers, runs drawn apart; anything else is words for a lot."""
    found: list[str] = []
    for text in texts:
        for part in text.split(","):
            first, dash, last = part.strip().partition("-")
            if dash and first.isdecimal() and last.isdecimal() and int(last) - int(first) < 1000:
                found += [str(number) for number in range(int(first), int(last) + 1)]
            elif part.strip():
                found.append(part.strip())
    return found


def _lost(text: str) -> Lost:
    """Skeins to be booked as lost: by number, or all that were not found."""
    from stash.actions.count import Lost

    if text.strip().lower() in ("all-missing", "all missing"):
        return Lost(all_missing=True)
    numbers = _ticked([text])
    if not all(number.isdecimal() for number in numbers) or bool(text) is not bool(numbers):
        refuse(f"cannot read {text!r} after --lost: write numbers, as in 42,44, or all-missing")
    return Lost(tuple(int(number) for number in numbers))


def _weighed(texts: Sequence[str], tare: str) -> dict[str, Asked]:
    from stash.actions.weigh import Asked
    from stash.parsing import quantities

    off = quantities.mass(tare) if tare else None
    found = {}
    for text in texts:
        skein, sign, reading = text.partition("=")
        if not sign or not skein.strip():
            refuse(f"cannot read {text!r} after --weigh: write a skein and its weight, as 12=43g")
        found[skein.strip()] = Asked(quantities.mass(reading), tare=off)
    return found


def _count_rows(counted: Count) -> list[dict[str, Any]]:
    from stash.rendering import keys

    return [
        {
            **keys.held_skein(line.skein),
            "lot_ref": line.lot.ref,
            "yarn": str(line.lot.yarn),
            "colour": line.lot.colour or None,
            "seen": line.seen,
            "reading_g": line.reading.gross.g if line.reading else None,
        }
        for line in counted.lines
    ]


def _count_text(counted: Count, units: Units) -> str:
    from stash.rendering import amounts
    from stash.rendering.columns import columns

    rows = [
        [
            "seen" if line.seen else "",
            str(line.skein.number),
            f"{patch(line.lot)}{amounts.colour(line.lot)}",
            f"{line.lot.yarn}, {line.lot.lot_words}",
            line.skein.state.value,
            f"{units.yarn(line.skein.held_length)}, {amounts.grams(line.skein.held)}",
            f"weighed {amounts.grams(line.reading.gross)}" if line.reading else "",
            "the books have it elsewhere" if line.elsewhere else "",
        ]
        for line in counted.lines
    ]
    left = f"{counted.open} of {len(rows)} still to look for"
    way = (
        f'tick with --tick, weigh with --weigh, book it with: stash count "{counted.place}" --close'
    )
    return f"{strong(counted.place)}, begun {counted.begun}\n{columns(rows, '  ')}\n{left}; {way}"


def _closed_text(place: str, closed: Closed) -> str:
    from stash.rendering import amounts

    parts = [amounts.counted(closed.right, "skein") + " right"]
    if closed.corrected:
        parts.append(f"put right by the scale: {amounts.numbers(closed.corrected)}")
    if closed.moved_here:
        parts.append(f"moved here: {amounts.numbers(closed.moved_here)}")
    kept = [number for number in closed.not_found if number not in closed.lost]
    if closed.lost:
        parts.append(f"booked as lost: {amounts.numbers(closed.lost)}")
    if kept:
        parts.append(f"not found, still on the books: {amounts.numbers(kept)}")
    return f"{strong(f'{place} counted')}: {'; '.join(parts)}  (entry {closed.entry})"


def split(
    skein: Annotated[str, typer.Argument(help="A skein's number, or words for its lot.")],
    amount: Annotated[str, typer.Argument(help="How much to wind off, as 40g or 80m.")],
    place: Annotated[str | None, typer.Option(help="Where the new one lies.")] = None,
    on: On = "",
    file: File = None,
) -> None:
    """Wind part of a skein off as a skein of its own."""
    from stash.actions.split import split
    from stash.actions.use import Amount
    from stash.parsing import quantities

    book = open_book(file)
    typed = Amount(amount, quantities.amount(amount))
    done = split(book, skein, typed, place=place, on=day(on))
    if done.said:
        note(done.said)
    units = units_in(done.settings)
    made, parent = _holds(done.made, units), _holds(done.parent, units)
    head = strong(f"Skein {done.made.number}")
    told = f"{made}, wound off skein {done.parent.number}, which keeps {parent}"
    say(f"{head}: {told}  (entry {done.entry})")


def _holds(skein: HeldSkein, units: Units) -> str:
    from stash.rendering import amounts

    return f"{units.yarn(skein.held_length)}, {amounts.grams(skein.held)}"


def unravel(
    article: Annotated[str, typer.Argument(help="An article's number, or its piece's name.")],
    into: Annotated[
        list[str] | None,
        typer.Option("--into", help="Wound back: 12=14, yarn of 12 onto 14; repeat it."),
    ] = None,
    loss: Annotated[str, typer.Option(help="What ends and cuts cost; 5% if not given.")] = "",
    weighed: Annotated[
        str, typer.Option(help="What the scale says of all that came back, as 74g.")
    ] = "",
    on: On = "",
    file: File = None,
) -> None:
    """Take an article apart. Its yarn goes back to the shelf, less the usual loss."""
    from stash.actions.unravel import USUAL_LOSS, unravel
    from stash.parsing import quantities
    from stash.parsing.design import piece

    if loss and weighed:
        refuse("what came back is weighed or reckoned: give --weighed or --loss, not both")
    book = open_book(file)
    share = piece.margin(loss) if loss else USUAL_LOSS
    back = quantities.mass(weighed) if weighed else 1 - share
    done = unravel(book, article, into=_wound_back(into or []), back=back, on=day(on))
    reckoned = f"reckoned with a loss of {share:.0%}; weigh the skeins to be sure"
    say(_unravelled_text(done, "" if weighed else reckoned, units_in(done.settings)))


def _wound_back(texts: Sequence[str]) -> dict[int, int]:
    found = {}
    for text in texts:
        was, sign, onto = (part.strip() for part in text.partition("="))
        if not (sign and was.isdecimal() and onto.isdecimal()):
            refuse(f"cannot read {text!r} after --into: write two skein numbers, as 12=14")
        found[int(was)] = int(onto)
    return found


def _unravelled_text(done: Unravelled, reckoned: str, units: Units) -> str:
    from stash.rendering import amounts

    lines = [strong(f"Article {done.article} is unravelled") + f"  (entry {done.entry})"]
    for back in done.returned:
        how = "a new skein" if back.made else "wound back"
        lines.append(
            f"  skein {back.skein.number} ({how}, was {back.was}): "
            f"{amounts.grams(back.mass)} back, holds {_holds(back.skein, units)}"
        )
    return "\n".join([*lines, f"  {reckoned}"] if reckoned else lines)


def backup(
    target: Annotated[Path, typer.Argument(help="A new file for the copy.")], file: File = None
) -> None:
    """A safety copy of the whole file. Whole even while it is in use."""
    from stash.actions.backup import backup

    newest = backup(open_book(file), target)
    told = f"with {newest.number} entries" if newest else "with nothing booked yet"
    say(f"{strong('Copied')} to {target}, {told}")


def restore(
    source: Annotated[Path, typer.Argument(help="A copy made by `stash backup`.")],
    over: Annotated[bool, typer.Option("--over", help="Even over later entries.")] = False,
    file: File = None,
) -> None:
    """Put the file back to a safety copy. What it was before is kept beside it."""
    from stash.actions.backup import restore

    path = chosen_file(file)
    done = restore(
        path, source, over=over, tell=lambda kept: note(f"what it was before is in {kept.name}")
    )
    told = f"its newest entry is {done.newest.number}" if done.newest else "nothing is booked in it"
    say(f"{strong('Put back')}: {path.name} is as {source.name} again, {told}")
