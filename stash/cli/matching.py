"""What on the shelf can become a piece."""

from __future__ import annotations

import sys
from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Annotated, Any

import typer

from stash.cli.common import (
    As,
    AsOption,
    File,
    answer,
    note,
    open_book,
    refuse,
    units_in,
    whole,
)
from stash.cli.match_options import asks_the_shelf, wish_typed
from stash.parsing.wish.typed import by_role
from stash.rendering.paint import in_colour, paints, patch, strong

if TYPE_CHECKING:
    from stash.actions.match import Answer, NeedAsked
    from stash.matching.answer.proposal import Filled, Match, NearMiss, Proposal, Take
    from stash.measures.length import Length
    from stash.parsing.wish.typed import WishWords
    from stash.rendering.amounts import Units
    from stash.requirements.yarn.need import Need
    from stash.stock.yarn import Lot


def register(app: typer.Typer) -> None:
    """Put these commands on the command line."""
    app.command()(asks_the_shelf(match))


def match(
    piece: Annotated[
        str, typer.Argument(help="A kept piece; else say its needs with --need.")
    ] = "",
    need: Annotated[list[str] | None, typer.Option("--need", help="A=165m; repeat it.")] = None,
    thickness: Annotated[str, typer.Option("--class", help="Thickness class or name.")] = "",
    strands: Annotated[
        str, typer.Option(help="With --need: how many strands it is over, held together.")
    ] = "",
    top: Annotated[int, typer.Option(help="How many to look for.")] = 20,
    everything: Annotated[
        bool, typer.Option("--all", help="All of them, strictly in order.")
    ] = False,
    how: AsOption = As.TEXT,
    file: File = None,
    *,
    words: WishWords,
) -> None:
    """Which yarns can become this. The best sets first, with reasons, and the near misses."""
    from stash.actions.match import propose
    from stash.rendering import keys

    whole("--top", top, 1_000_000)
    asked = _asked(piece, need or [], thickness, strands)
    wish = replace(wish_typed(words), top=None if everything else top)
    found = propose(open_book(file), asked, wish)
    units = units_in(found.settings)
    chosen = {role.role for role in found.match.need.roles} <= wish.fixed.keys()
    if words.margin:
        for text in found.match.need.notes:
            note(f"note: {text}")
    answer(
        how,
        lambda: keys.match(found.match),
        lambda: match_text(found, units, everything=everything, chosen=chosen),
        lambda: _rows(found.match),
    )


def _asked(piece: str, need: Sequence[str], thickness: str, strands: str) -> NeedAsked:
    from stash.actions.match import NeedAsked

    lengths = by_role(need, "--need")
    if not piece and not lengths:
        refuse("say what to match: a kept piece by its name, or --need A=165m --need B=12m")
    if piece and (lengths or thickness or strands):
        refuse("a kept piece has its own: leave out --need, --class and --strands")
    return NeedAsked(
        piece=piece,
        lengths=_lengths(lengths),
        thickness=_thickness(thickness),
        strands=_strands(strands),
    )


# each reads its own words only when there are some: pint and the patterns take their time to load


def _lengths(texts: Mapping[str, str]) -> dict[str, Length]:
    if not texts:
        return {}
    from stash.parsing import quantities

    lengths = {role: quantities.length(text) for role, text in texts.items()}
    for role, length in lengths.items():
        if not length:
            refuse(f"--need {role}={texts[role]}: give more than nothing")
    return lengths


def _strands(text: str) -> int:
    if not text:
        return 1
    from stash.parsing.design import piece as piece_typed

    return piece_typed.strands(text)


def _thickness(text: str) -> tuple[int, int] | None:
    if not text:
        return None
    from stash.parsing import facts

    return facts.thickness(text)


def match_text(found: Answer, units: Units, *, everything: bool, chosen: bool) -> str:
    """The answer for reading: the need, the proposals, then what almost fits.

    `chosen` when she fixed every role, and so asks whether she has enough.
    """
    from stash.rendering import amounts
    from stash.rendering.match import nothing, said_of_all, shown_first

    answer_ = found.match
    proposals, hidden = (answer_.proposals, 0) if everything else shown_first(answer_)
    lines = [_need_line(found, units), ""]
    if chosen and proposals:
        lines += [strong("Enough: yes."), ""]
    of_all = said_of_all(proposals)
    for proposal in proposals:
        lines += [*_proposal_lines(proposal, units, of_all), ""]
    if of_all:
        lines += [f"all of them: {'; '.join(of_all)}", ""]
    if proposals and paints():
        lines += [*_drawn(found.match, proposals[0]), ""]
    if not proposals:
        lines += [strong(nothing(answer_, chosen=chosen)), ""]
    if hidden:
        lines += [f"{amounts.counted(hidden, 'more set')}; --all shows them", ""]
    if answer_.near_misses:
        lines.append(strong("Almost:"))
        for miss in answer_.near_misses:
            lines += [*_miss_lines(miss, answer_.need, units, everything), ""]
    lines.append(f"{amounts.counted(answer_.looked_at, 'lot')} looked at")
    if proposals and found.piece:
        best = f'stash aside "{found.piece.piece.name}" {proposals[0].key}{_strands_apart(found)}'
        lines.append(f"set the first one aside: {best}")
    return "\n".join(lines)


def _strands_apart(found: Answer) -> str:
    """What the books must be told where strands are roles of their own."""
    roles = dict.fromkeys(role.role[0] for role in found.match.need.roles if len(role.role) > 1)
    return "".join(f" --strands-apart {role}" for role in roles)


def _need_line(found: Answer, units: Units) -> str:
    need = found.match.need
    name = f"{found.piece.piece.name}: " if found.piece else ""
    roles = "; ".join(
        f"{role.role} {units.estimate(role.estimate.expected_m)} expected, "
        f"{units.set_aside(role.set_aside_m)} to set aside"
        for role in need.roles
    )
    return f"{strong(name)}{roles} (by {need.source})"


def _proposal_lines(proposal: Proposal, units: Units, of_all: Collection[str]) -> list[str]:
    from stash.rendering.match import told

    together = told(proposal.reasons, of_all)
    lines = [f"{strong(f'{proposal.rank}  {proposal.key}')}  {together}".rstrip()]
    return lines + [text for filled in proposal.roles for text in _filled_lines(filled, units)]


def _filled_lines(filled: Filled, units: Units) -> list[str]:
    from stash.rendering import amounts
    from stash.rendering.match import told

    lot = filled.lot.lot
    lots = " and ".join(held.lot.lot_words for held in filled.lots)
    used = amounts.bar(1 - filled.left_m / filled.free_m)
    sure = f"{filled.coverage:.1f} x expected, chance {amounts.chance(filled.chance)}"
    return [
        f"   {strong(filled.role)}  {patch(lot)}{amounts.colour(lot)}, {lot.yarn}, {lots}",
        f"      {used} take {_takes(filled.takes, units)}; {sure}",
        f"      {told(filled.reasons)}",
    ]


def _drawn(found: Match, proposal: Proposal) -> list[str]:
    """The piece in the colours of a set, where a terminal can show them."""
    from stash.rendering.drawing import COLOURED_MARKS, Look, drawing

    lots: dict[str, list[Lot]] = {}
    for filled in proposal.roles:
        lots.setdefault(filled.role[0], []).append(filled.lot.lot)
    hexes = {role: each[0].colours[0].hex for role, each in lots.items() if each[0].colours}
    names = {
        role: f"{role} {' with '.join(lot.colour_words for lot in each)}"
        for role, each in lots.items()
    }
    look = Look(names, lambda role, marks: in_colour(hexes.get(role), marks), COLOURED_MARKS)
    return [f"   {line}" for line in drawing(found.need, sys.stdout.encoding or "utf-8", look)]


def _takes(takes: Sequence[Take], units: Units) -> str:
    return " + ".join(
        f"{units.take(take.length)} from {take.number}{f' ({take.place})' if take.place else ''}"
        for take in takes
    )


def _miss_lines(miss: NearMiss, need: Need, units: Units, everything: bool) -> list[str]:
    """What almost fits, why not, and the ways out, each on its own line: a few, or all of them."""
    from stash.rendering.columns import columns
    from stash.rendering.match import miss_rows, ways

    rows = miss_rows(miss, need, units, patch)
    named = [columns(rows, "   ")] if rows else []
    return [*named, f"      {miss.why}", *(f"       - {way}" for way in ways(miss, everything))]


#: What has no place in one row; of two lots in a role the key tells.
_IN_LISTS = ("skeins", "other_lots", "strategy", "rows")


def _rows(found: Match) -> list[dict[str, Any]]:
    """One row for each role of each proposal."""
    from stash.rendering import keys

    rows = []
    for proposal in keys.match(found)["proposals"]:
        for role, filled in proposal["roles"].items():
            rows.append(
                {
                    "rank": proposal["rank"],
                    "key": proposal["key"],
                    "cost": proposal["cost"],
                    "role": role,
                    **{k: v for k, v in filled.items() if k not in _IN_LISTS},
                    "skeins": [take["number"] for take in filled["skeins"]],
                    "lightness_gap": proposal["lightness_gap"],
                    "colour_difference": proposal["colour_difference"],
                }
            )
    return rows
