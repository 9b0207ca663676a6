"""What so much yarn makes of a piece."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any

import typer

from stash.cli.common import (
    As,
    AsOption,
    File,
    answer,
    by_role,
    note,
    open_book,
    progress,
    refuse,
    settings_of,
    strong,
    units_of,
)
from stash.cli.match_options import Margin
from stash.cli.piece_options import describes_a_piece
from stash.cli.pieces import known_piece, units_typed

if TYPE_CHECKING:
    from collections.abc import Sequence

    from stash.actions.reaching import FromBall
    from stash.requirements.known import Known
    from stash.requirements.reach import Reach, RoleReach
    from stash.wording.piece_words import PieceWords
    from stash.wording.show import Units


def register(app: typer.Typer) -> None:
    """Put this command on the command line."""
    app.command()(reach)
    app.command(name="from")(from_ball)


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
    from stash.actions import reaching
    from stash.wording import reaching as telling

    told = telling.have(by_role(have or [], "--have"))
    if not told:
        refuse("say what yarn there is: --have A=150m --have B=43g")
    known = known_piece(piece, words, margin, file)
    lots = reaching.in_metres(known, told, lambda: open_book(file))
    units = units_typed(settings_of(file), words)
    if done is not None:
        _answer_left(how, known, reaching.rows_left(known, lots, done), units, done)
        return
    found = reaching.reached(known, lots)
    answer(
        how,
        lambda: telling.keys(found),
        lambda: _text(found, units),
        lambda: list(telling.flat(found)),
    )


def _answer_left(how: As, known: Known, left: Sequence[RoleReach], units: Units, done: int) -> None:
    from stash.wording import reaching as telling

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
    from stash.wording import reaching as telling
    from stash.wording.columns import columns

    plan = found.known.piece
    head = f"{strong(plan.name or f'{plan.shape}')}: {strong(telling.verdict(found, units))}"
    rows = columns(list(telling.lines(found, units)), "  ")
    walks = telling.walk_lines(found.known, found.roles, units, None)
    return "\n".join([f"{head} (by {found.need.source})", rows, *(f"   {one}" for one in walks)])


def from_ball(
    skein: Annotated[str, typer.Argument(help="A skein's number, or words for its lot.")],
    how: AsOption = As.TEXT,
    file: File = None,
) -> None:
    """What one ball can become: which kept pieces, as which colour, and how large they get."""
    from stash.actions import reaching

    book = open_book(file)
    found = reaching.from_ball(book, skein, lambda name: progress(f"looking at {name}"))
    if found.said:
        note(found.said)
    units = units_of(book)
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
    from stash.wording import reaching as telling

    return {
        "skein": found.skein.number,
        "lot_ref": found.lot.ref,
        "free_m": found.free_m,
        "uses": [telling.use_keys(use.reach, use.role, use.steps) for use in found.uses],
    }


def _from_text(found: FromBall, units: Units) -> str:
    from stash.wording import reaching as telling
    from stash.wording.columns import columns

    lot = found.lot
    head = f"Skein {found.skein.number}: {units.metres(found.free_m)} free"
    what = f"{strong(head)}, {lot.yarn}, {lot.colour_words}, {lot.lot_words}"
    if not found.uses:
        return f"{what}\n  no piece is kept yet: `stash piece add` keeps one"
    rows = [telling.use_row(use.reach, use.role, use.steps, units) for use in found.uses]
    return "\n".join([what, columns(rows, "  ")])
