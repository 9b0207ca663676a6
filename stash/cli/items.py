"""Setting yarn aside, beginning an article and finishing it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING, Annotated

import typer

from stash.cli.common import (
    FOR_WHOM,
    As,
    AsOption,
    File,
    On,
    answer,
    day,
    note,
    open_book,
    refuse,
    say,
    say_shorts,
    units_in,
)
from stash.cli.match_options import asks_the_shelf, wish_typed
from stash.parsing.wish.typed import by_role
from stash.rendering.paint import patch, strong

if TYPE_CHECKING:
    from stash.actions.aside import SetAside
    from stash.actions.done import Finished, Known
    from stash.actions.use import Amount
    from stash.parsing.wish.typed import WishWords
    from stash.rendering.amounts import Units

ArticleName = Annotated[str, typer.Argument(help="An article's number, or its piece's name.")]


def register(app: typer.Typer) -> None:
    """Put these commands on the command line."""
    for command in (asks_the_shelf(aside), release, begin, done):
        app.command()(command)


def aside(
    piece: Annotated[str, typer.Argument(help="The kept piece.")] = "",
    which: Annotated[
        str, typer.Argument(help="A proposal's rank or key, as `stash match` shows.")
    ] = "",
    skeins: Annotated[
        list[str] | None, typer.Option("--skeins", help="Your own choice: A=12,13; repeat it.")
    ] = None,
    text: Annotated[
        str, typer.Option("--note", help="Hold yarn aside without a piece: what for.")
    ] = "",
    skein: Annotated[str, typer.Option("--skein", help="With --note: which skein.")] = "",
    whom: Annotated[str, typer.Option("--for", help=FOR_WHOM)] = "",
    on: On = "",
    how: AsOption = As.TEXT,
    file: File = None,
    *,
    words: WishWords,
) -> None:
    """Set yarn aside for an article. A proposal of `stash match`, your own choice, or a note."""
    from stash.actions import aside as act
    from stash.actions.cautions import cautions_of
    from stash.parsing.design import piece as piece_typed

    wearer = piece_typed.whom(whom)
    book = open_book(file)
    if text:
        made = act.aside_note(book, text, _skein(skein), _amount(piece), on=day(on))
    elif skeins:
        made = act.aside_own_choice(book, piece, _own_choice(skeins), on=day(on))
    elif piece and which:
        made = act.aside(book, piece, which, wish_typed(words), on=day(on))
    else:
        refuse("say what to set aside: PIECE and a rank or key, --skeins A=12,13, or --note TEXT")
    lots = [picked.lot for picked in made.picked]
    _answer_made(made, cautions_of(made.plan, lots, wearer), how, units_in(made.settings))


def _skein(text: str) -> str:
    return text or refuse("--note needs --skein as well: which skein is held aside")


def _amount(text: str) -> Amount | None:
    from stash.actions.use import Amount
    from stash.parsing import quantities

    return Amount(text, quantities.amount(text)) if text else None


def _own_choice(texts: Sequence[str]) -> dict[str, list[int]]:
    chosen = {}
    for role, listed in by_role(texts, "--skeins").items():
        numbers = [part.strip().removeprefix("#") for part in listed.split(",")]
        if not all(re.fullmatch(r"[0-9]{1,9}", number) for number in numbers):
            refuse(f"cannot read {listed!r} as skein numbers: write them like {role}=12,13")
        chosen[role] = [int(number) for number in numbers]
    return chosen


def _answer_made(made: SetAside, cautions: Sequence[str], how: As, units: Units) -> None:
    from stash.rendering import pick_list as picking

    found = picking.pick_list(
        [
            picking.Fetch(p.role, p.skein, p.lot, p.mass, p.length, p.strand, p.rows)
            for p in made.picked
        ]
    )
    head = strong(f"Set aside for article {made.article}") + f"  (entry {made.entry})"
    notes = [f"note: {text}" for text in made.notes]
    answer(
        how,
        lambda: {
            "entry": made.entry,
            "article": made.article.number,
            "piece": made.article.piece or None,
            "note": made.article.note or None,
            **picking.list_keys(found),
            "notes": list(made.notes),
            "cautions": list(cautions),
        },
        lambda: "\n".join(
            [head, "to pick:", *picking.list_lines(found, units, patch, strong), *notes, *cautions]
        ),
        lambda: [picking.fetch_keys(fetch) for fetch in found.fetches],
    )


def release(article: ArticleName, file: File = None) -> None:
    """Give back what is still set aside for an article."""
    from stash.actions.aside import release
    from stash.rendering import amounts

    number, found, promised = release(open_book(file), article)
    back = ", ".join(f"{amounts.grams(p.mass)} of skein {p.skein}" for p in promised)
    say(f"Released from article {found}: {back}  (entry {number})")


def begin(article: ArticleName, on: On = "", file: File = None) -> None:
    """An article is on the hook from now on."""
    from stash.actions.aside import begin

    number, found = begin(open_book(file), article, on=day(on))
    say(f"Article {found} is begun  (entry {number})")


def done(
    article: ArticleName,
    left: Annotated[
        list[str] | None, typer.Option("--left", help="What a ball weighs now: 17=43g; repeat it.")
    ] = None,
    weighed: Annotated[str, typer.Option(help="The article: 80g, or by colour: A=71g,B=9g.")] = "",
    as_planned: Annotated[
        bool, typer.Option("--as-planned", help="Book what was expected.")
    ] = False,
    whom: Annotated[str, typer.Option("--for", help=FOR_WHOM)] = "",
    on: On = "",
    file: File = None,
) -> None:
    """An article is finished. Books what it used, gives back the rest, teaches the next need."""
    from stash.actions.cautions import cautions_of
    from stash.actions.done import done
    from stash.parsing.design import piece as piece_typed

    wearer = piece_typed.whom(whom)
    known = _known(left or [], weighed, as_planned)
    finished = done(open_book(file), article, known, on=day(on))
    say(_finished_text(finished, units_in(finished.settings)))
    for text in cautions_of(finished.plan, finished.lots, wearer):
        say(text)
    for text in finished.notes:
        note(f"note: {text}")
    say_shorts(finished.shorts)


def _known(left: Sequence[str], weighed: str, as_planned: bool) -> Known:
    from stash.actions.done import Known
    from stash.parsing import quantities
    from stash.parsing.design import piece as piece_typed

    balls = {}
    for text in left:
        skein, sign, reading = text.partition("=")
        if not sign or not skein.strip():
            refuse(f"cannot read {text!r} after --left: write a skein and its weight, as 17=43g")
        balls[skein.strip()] = quantities.mass(reading)
    by_colour = "=" in weighed
    return Known(
        left=balls,
        total=quantities.mass(weighed) if weighed and not by_colour else None,
        by_role=dict(piece_typed.weighed(weighed)) if by_colour else {},
        as_planned=as_planned,
    )


def _finished_text(finished: Finished, units: Units) -> str:
    from stash.rendering import amounts
    from stash.rendering.columns import columns

    rows = [
        [
            strong(used.role or "-"),
            f"{amounts.grams(used.mass)} used",
            units.yarn(used.length),
            f"expected {units.estimate(used.expected.m)}" if used.expected else "",
            "estimated" if used.estimated else "",
        ]
        for used in finished.used
    ]
    head = strong(f"Article {finished.article} is done") + f"  (entry {finished.entry})"
    back = ", ".join(
        f"{amounts.grams(p.mass)} of skein {p.skein}" for p in finished.released if p.mass.mg >= 50
    )
    released = f"\n  back on the shelf: {back}" if back else ""
    return f"{head}\n{columns(rows, '  ')}{released}"
