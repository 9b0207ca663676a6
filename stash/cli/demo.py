"""The whole job once, in an invented workshop, on a throwaway file."""

from __future__ import annotations

import math
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Annotated, Any

import typer

from stash.cli.common import page, say

#: What the workshop does: why, and the command that does it. `SHEET` is its spreadsheet.
STEPS: tuple[tuple[str, tuple[str, ...]], ...] = (
    (
        "Import a workshop's shelf from the spreadsheet it was kept in.",
        ("import", "SHEET"),
    ),
    ("Which DK yarn has at least 100 m free?", ("shelf", "--thickness", "3", "--free", "100m")),
    (
        "A design: a hat in the round, 54 cm around, with a band in a second colour.",
        (
            "design", "add", "Tidewrack hat", "--shape", "round hat", "--around", "54cm",
            "--tall", "23cm", "--gauge", "17 sts x 13 rows", "--fabric", "1 hdc",
            "--band", "B 5cm bottom", "--thickness", "3",
        ),
    ),
    (
        "Which two yarns can make it, clearly apart even in a grey photo?",
        ("match", "Tidewrack hat", "--contrast", "clear"),
    ),
    ("Set the best pair aside; the list says what to fetch from where.",
     ("aside", "Tidewrack hat", "1", "--contrast", "clear")),
    ("Start making it.", ("begin", "Tidewrack hat")),
    ("Half-way through, weigh the ball of A.", ("weigh",)),
    ("Done: weigh what is left of both balls; the rest is free again.",
     ("done", "Tidewrack hat")),
    ("The next estimate for this hat knows more.", ("need", "Tidewrack hat")),
    ("What was recorded?", ("log", "--newest", "6")),
    ("Does it all add up?", ("check",)),
)  # fmt: skip


def register(app: typer.Typer) -> None:
    """Put this command on the command line."""
    app.command()(demo)


def demo(
    context: typer.Context,
    keep: Annotated[
        Path | None,
        typer.Option("--keep", metavar="FILE", help="Keep the file, to try more in it."),
    ] = None,
) -> None:
    """Watch the whole job once. A shelf, a two-colour hat; your own yarn is not touched."""
    from stash.actions.backup import backup
    from stash.actions.book import open_book
    from stash.actions.writing import refuse_to_write
    from stash.rendering import demo as rendered

    if keep is not None:
        refuse_to_write(keep, over=False)
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "workshop.stash"
        _walk(context.obj, file)
        if keep is not None:
            backup(open_book(file), keep)
            say(rendered.kept_text(keep))


def _walk(command_line: Callable[[str], Any], file: Path) -> None:
    from stash.exchange.demo_sheet import demo_sheet
    from stash.rendering.demo import step_text

    sheet = demo_sheet()
    for why, command in STEPS:
        words = [str(sheet) if word == "SHEET" else word for word in command]
        if command[0] == "weigh":
            words += _first_ball(file)
        elif command[0] == "done":
            words += [part for ball in _balls(file, 0.95) for part in ("--left", "=".join(ball))]
        shown = [sheet.name if word == str(sheet) else word for word in words]
        say(step_text(why, shown, page()))
        # the very command a person would type, in this process
        stash = command_line(words[0])
        stash.main([*words, "--file", str(file)], prog_name="stash", standalone_mode=False)
        say("")


def _first_ball(file: Path) -> list[str]:
    """Half-way, the ball in work on the workshop's scale."""
    return list(_balls(file, 0.5)[0])


def _balls(file: Path, worked: float) -> list[tuple[str, str]]:
    """What the workshop's scale, in whole grams, would show for each ball of the one item.

    `worked` is the share of what was expected that has gone into it so far.
    """
    from stash.actions.book import open_book
    from stash.actions.show import item_story

    story = item_story(open_book(file), "1")
    skeins = {skein.number: skein for skein, _ in story.skeins}
    balls = []
    for planned in story.planned:
        before = [b.movement for b in story.history.moved if b.movement.role == planned.role]
        metres = worked * planned.expected.m - math.fsum(
            length.m for m in before if (length := skeins[m.skein].length(-m.change))
        )
        for promise in story.promises:
            if promise.role == planned.role and promise.length is not None:
                skein = skeins[promise.skein]
                used = min(metres, promise.length.m) / promise.length.m * promise.mass.g
                metres -= min(metres, promise.length.m)
                balls.append((str(skein.number), f"{round(skein.held.g - used)}g"))
    return balls
