"""What so much yarn makes of a piece."""

from __future__ import annotations

from time import monotonic
from typing import TYPE_CHECKING, Annotated, Any

import typer

from stash.cli.common import (
    As,
    AsOption,
    File,
    answer,
    note,
    open_book,
    progress,
    refuse,
    units_in,
)
from stash.cli.match_options import Margin
from stash.cli.piece_options import describes_a_piece
from stash.cli.pieces import known_piece, units_typed
from stash.parsing.wish.typed import by_role
from stash.rendering.paint import patch, strong

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from stash.actions.book import Book
    from stash.actions.from_shelf import FromShelf
    from stash.actions.reach import FromBall
    from stash.parsing.design.piece import PieceWords
    from stash.rendering.amounts import Units
    from stash.requirements.fit.reach import Reach, RoleReach
    from stash.requirements.yarn.design_context import Known


def register(app: typer.Typer) -> None:
    """Put this command on the command line."""
    app.command()(reach)
    app.command(name="from")(from_yarn)


@describes_a_piece
def reach(
    words: PieceWords,
    piece: Annotated[str, typer.Argument(help="A kept piece; else say it with options.")] = "",
    have: Annotated[
        list[str] | None,
        typer.Option("--have", help="A=150m, A=80m+120m by lots, B=43g, B=12 a skein; repeat it."),
    ] = None,
    done: Annotated[
        int | None, typer.Option("--rows-done", help="Rows worked: how far the rest goes.")
    ] = None,
    margin: Margin = "",
    how: AsOption = As.TEXT,
    file: File = None,
) -> None:
    """What so much yarn makes of a piece: how large, how wide a band, where lots change."""
    from stash.actions import reach as reach_action
    from stash.parsing.at_hand import have as have_typed
    from stash.rendering import reach as telling

    told = have_typed(by_role(have or [], "--have"))
    if not told:
        refuse("say what yarn there is: --have A=150m --have B=43g")
    known, settings = known_piece(piece, words, margin, file)
    lots = reach_action.in_metres(known, told, lambda: open_book(file))
    units = units_typed(settings, words)
    if done is not None:
        _answer_left(how, known, reach_action.rows_left(known, lots, done), units, done)
        return
    found = reach_action.reached(known, lots)
    answer(
        how,
        lambda: telling.keys(found),
        lambda: _text(found, units),
        lambda: list(telling.flat(found)),
    )


def _answer_left(how: As, known: Known, left: Sequence[RoleReach], units: Units, done: int) -> None:
    from stash.rendering import reach as telling

    roles = {one.role: telling.role_keys(known, one) for one in left}
    answer(
        how,
        lambda: {"piece": known.piece.name or None, "rows_done": done, "roles": roles},
        lambda: "\n".join(telling.walk_lines(known, left, units, done)),
        lambda: [
            {"role": role, **{k: v for k, v in facts.items() if k != "changes"}}
            for role, facts in roles.items()
        ],
    )


def _text(found: Reach, units: Units) -> str:
    from stash.rendering import reach as telling
    from stash.rendering.columns import columns

    plan = found.known.piece
    head = f"{strong(plan.name or f'{plan.shape}')}: {strong(telling.verdict(found, units))}"
    rows = columns(list(telling.lines(found, units)), "  ")
    walks = telling.walk_lines(found.known, found.roles, units, None)
    return "\n".join([f"{head} (by {found.need.source})", rows, *(f"   {one}" for one in walks)])


def from_yarn(
    skein: Annotated[
        str, typer.Argument(help="A skein's number, or words for its lot; none: the whole shelf.")
    ] = "",
    everything: Annotated[
        bool, typer.Option("--all", help="Without a skein: every lot that one more would help.")
    ] = False,
    how: AsOption = As.TEXT,
    file: File = None,
) -> None:
    """What one ball can become, or the whole shelf. Which kept pieces, how large, how often."""
    book = open_book(file)
    if skein:
        _answer_ball(book, skein, how)
    else:
        _answer_shelf(book, how, everything=everything)


def _answer_ball(book: Book, skein: str, how: As) -> None:
    from stash.actions import reach as reach_action

    found = reach_action.from_ball(book, skein, _patiently())
    if found.said:
        note(found.said)
    units = units_in(found.settings)
    answer(
        how,
        lambda: _from_keys(found),
        lambda: _from_text(found, units),
        lambda: [
            {k: v for k, v in use.items() if k not in ("sizes", "bands")}
            for use in _from_keys(found)["uses"]
        ],
    )


def _from_keys(found: FromBall) -> dict[str, Any]:
    from stash.rendering import reach as telling

    return {
        "skein": found.skein.number,
        "lot_ref": found.lot.ref,
        "free_m": found.free_m,
        "uses": [telling.use_keys(use.reach, use.role, use.steps) for use in found.uses],
    }


_NO_PIECE = "no piece is kept yet: `stash piece add` keeps one"


def _from_text(found: FromBall, units: Units) -> str:
    from stash.rendering import reach as telling
    from stash.rendering.columns import columns
    from stash.rendering.match import lot_words

    head = f"Skein {found.skein.number}: {units.metres(found.free_m)} free"
    what = f"{strong(head)}, {patch(found.lot)}{lot_words(found.lot)}"
    if not found.uses:
        return f"{what}\n  {_NO_PIECE}"
    rows = [telling.use_row(use.reach, use.role, use.steps, units) for use in found.uses]
    return "\n".join([what, columns(rows, "  ")])


def _answer_shelf(book: Book, how: As, *, everything: bool) -> None:
    from stash.actions.from_shelf import from_shelf
    from stash.rendering import shelf_survey as telling

    answered = from_shelf(book, _patiently())
    units = units_in(answered.settings)
    pieces = answered.found.pieces
    answer(
        how,
        lambda: {
            "as_of": answered.as_of.isoformat(),
            "looked_at": answered.lots,
            "pieces": [telling.piece_keys(one) for one in pieces],
            "one_more": [telling.more_keys(one) for one in answered.found.one_more],
        },
        lambda: _shelf_text(answered, units, everything=everything),
        lambda: [telling.piece_flat(one) for one in pieces],
    )


def _shelf_text(answered: FromShelf, units: Units, *, everything: bool) -> str:
    from stash.rendering import shelf_survey as telling

    pieces, more = answered.found.pieces, answered.found.one_more
    if not pieces:
        return _NO_PIECE

    lines = [telling.head(pieces, answered.lots), ""]
    for headline, under in telling.piece_lines(pieces, units, patch):
        lines += [strong(headline), under, ""]
    if more:
        lines.append(strong("One more skein of its lot, and it could become:"))
        lines += [*telling.more_lines(more, units, patch, everything=everything), ""]
    if pieces[0].best:
        first = f'stash aside "{pieces[0].question.name}" {pieces[0].best.key}'
        lines.append(f"set the first one aside: {first}")
    return "\n".join(lines).rstrip("\n")


#: Sooner than this nobody wonders what a command is at.
_PATIENCE_S = 1.0


def _patiently() -> Callable[[str], None]:
    """Says which piece is looked at, once a person has waited in silence for long enough."""
    begun = monotonic()

    def tell(name: str) -> None:
        if monotonic() - begun > _PATIENCE_S:
            progress(f"looking at {name}")

    return tell
