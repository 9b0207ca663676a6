"""What the matcher answers, for reading and as rows."""

from __future__ import annotations

import sys
from collections.abc import Callable, Collection, Sequence
from typing import TYPE_CHECKING, Any

from stash.matching.answer.proposal import Filled, Match, NearMiss, Proposal, Take
from stash.matching.answer.reason import Reason
from stash.matching.match import spread_out
from stash.measures.length import NO_LENGTH
from stash.rendering import amounts, keys
from stash.rendering.amounts import colour_name, dye_lot
from stash.rendering.columns import columns
from stash.rendering.drawing import COLOURED_MARKS, Look, drawing
from stash.rendering.paint import in_colour, paints, patch, strong
from stash.rendering.reasons import all_said, why_not
from stash.rendering.sentences.fixes import first_fixes
from stash.rendering.sentences.say import sentence
from stash.requirements.yarn.need import Need, Source
from stash.stock.yarn import Lot

if TYPE_CHECKING:
    from stash.actions.match import Answer

#: A patch of a lot's colours for in front of its name; nothing where no colour can be shown.
Patch = Callable[[Lot], str]

#: More than this is a list to work through, not an answer; --all and json have them all.
SHOWN = 5
#: A drawback that counts less is left to json: a line holds what decides.
READ_FROM = 0.15


def shown_first(match: Match) -> tuple[tuple[Proposal, ...], int]:
    """The proposals worth reading, at most two for one main yarn, and how many more there are."""
    spread, hidden = spread_out(match.proposals)
    return spread[:SHOWN], hidden + max(0, len(spread) - SHOWN)


def worth_reading(reasons: Sequence[Reason], of_all: Collection[str] = ()) -> str:
    """The reasons worth reading: what speaks for a choice, and what counts against it.

    What holds `of_all` of them is left out.
    """
    worth = (said.words for said in all_said(reasons) if not 0 < said.cost < READ_FROM)
    return "; ".join(words for words in worth if words not in of_all)


def said_of_all(proposals: Sequence[Proposal]) -> tuple[str, ...]:
    """What can be said once, because it holds of each of several sets and costs each the same."""
    if len(proposals) < 2:
        return ()
    first, *others = (all_said(proposal.reasons) for proposal in proposals)
    return tuple(said.words for said in first if all(said in other for other in others))


def lot_words(lot: Lot) -> str:
    """A lot as it is looked for on the shelf: its colour first, its number last."""
    return f"{_called(lot)} ({lot.ref})"


def lot_cells(lot: Lot, patch: Patch) -> list[str]:
    """The same in two columns, its number first."""
    return [lot.ref, f"{patch(lot)}{_called(lot)}"]


def _called(lot: Lot) -> str:
    return f"{amounts.colour(lot)}, {lot.yarn}, {amounts.dye_lot(lot)}"


def fix_lines(miss: NearMiss, everything: bool) -> list[str]:
    """The fixes of a near miss: all of them, or the few to choose from."""
    return [sentence(fix) for fix in (miss.fixes if everything else first_fixes(miss.fixes))]


def miss_rows(miss: NearMiss, need: Need, patch: Patch) -> list[list[str]]:
    """The lots of a near miss by role: how much of what is to be set aside is there.

    Where she tied a role to some skeins of a lot, or some are too short to join, the lot's free
    yarn would not show what is short; then no amounts are shown.
    """
    asked_m = {role.role: role.set_aside_m for role in need.roles}
    rows, parts = [], []
    for role, held in miss.roles:
        length = held.free_length
        part = (length or NO_LENGTH).m / asked_m[role] if asked_m[role] else 1.0
        there = amounts.yarn(length)
        if length and part < 1:
            there = f"{there} of {amounts.set_aside(asked_m[role])}"
        parts.append(part)
        rows.append([role, amounts.bar(part), there, *lot_cells(held.lot, patch)])
    if miss.short_m is not None and min(parts, default=1.0) >= 1:
        return [[role, "", "", *lot] for role, _, _, *lot in rows]
    return rows


def nothing(found: Match, *, chosen: bool) -> str:
    """That nothing covers it; never a plain no where only the margin is short.

    `chosen` when she fixed every role, and so asks whether she has enough.
    """
    if not any(miss.within for miss in found.near_misses):
        return "Enough: no." if chosen else "Nothing on the shelf covers it."
    stated = found.need.source is Source.STATED
    has = "what the pattern asks for" if stated else "what is expected"
    if chosen:
        return f"Enough for {has}, but not for the whole margin."
    return f"There is {has}, but not the whole margin."


def text(found: Answer, *, everything: bool, chosen: bool) -> str:
    """The answer for reading: the need, the proposals, then what almost fits.

    `chosen` when she fixed every role, and so asks whether she has enough.
    """
    matched = found.match
    proposals, hidden = (matched.proposals, 0) if everything else shown_first(matched)
    lines = [_need_line(found), ""]
    if chosen and proposals:
        lines += [strong("Enough: yes."), ""]
    of_all = said_of_all(proposals)
    for proposal in proposals:
        lines += [*_proposal_lines(proposal, of_all), ""]
    if of_all:
        lines += [f"all of them: {'; '.join(of_all)}", ""]
    if proposals and paints():
        lines += [*_drawn(found.match, proposals[0]), ""]
    if not proposals:
        lines += [strong(nothing(matched, chosen=chosen)), ""]
    if hidden:
        lines += [f"{amounts.counted(hidden, 'more set')}; --all shows them", ""]
    if matched.near_misses:
        lines.append(strong("Almost:"))
        for miss in matched.near_misses:
            lines += [*_miss_lines(miss, matched.need, everything), ""]
    lines.append(f"{amounts.counted(matched.looked_at, 'lot')} looked at")
    if proposals and found.design:
        best = f'stash aside "{found.design.design.name}" {proposals[0].key}{_strands_apart(found)}'
        lines.append(f"set the first one aside: {best}")
    return "\n".join(lines)


def _strands_apart(found: Answer) -> str:
    """What is to be typed as well where strands are roles of their own."""
    roles = dict.fromkeys(role.role[0] for role in found.match.need.roles if len(role.role) > 1)
    return "".join(f" --strands-apart {role}" for role in roles)


def _need_line(found: Answer) -> str:
    need = found.match.need
    name = f"{found.design.design.name}: " if found.design else ""
    roles = "; ".join(
        f"{role.role} {amounts.estimate(role.estimate.expected_m)} expected, "
        f"{amounts.set_aside(role.set_aside_m)} to set aside"
        for role in need.roles
    )
    return f"{strong(name)}{roles} (by {need.source})"


def _proposal_lines(proposal: Proposal, of_all: Collection[str]) -> list[str]:
    together = worth_reading(proposal.reasons, of_all)
    lines = [f"{strong(f'{proposal.rank}  {proposal.key}')}  {together}".rstrip()]
    return lines + [text for filled in proposal.roles for text in _filled_lines(filled)]


def _filled_lines(filled: Filled) -> list[str]:
    lot = filled.lot.lot
    lots = " and ".join(dye_lot(held.lot) for held in filled.lots)
    used = amounts.bar(1 - filled.left_m / filled.free_m)
    sure = f"{filled.coverage:.1f} x expected, chance {amounts.chance(filled.chance)}"
    return [
        f"   {strong(filled.role)}  {patch(lot)}{amounts.colour(lot)}, {lot.yarn}, {lots}",
        f"      {used} take {_takes(filled.takes)}; {sure}",
        f"      {worth_reading(filled.reasons)}",
    ]


def _drawn(found: Match, proposal: Proposal) -> list[str]:
    """The design in the colours of a set, where a terminal can show them."""
    lots: dict[str, list[Lot]] = {}
    for filled in proposal.roles:
        lots.setdefault(filled.role[0], []).append(filled.lot.lot)
    hexes = {role: each[0].colours[0].hex for role, each in lots.items() if each[0].colours}
    names = {
        role: f"{role} {' with '.join(colour_name(lot) for lot in each)}"
        for role, each in lots.items()
    }
    look = Look(names, lambda role, marks: in_colour(hexes.get(role), marks), COLOURED_MARKS)
    return [f"   {line}" for line in drawing(found.need, sys.stdout.encoding or "utf-8", look)]


def _takes(takes: Sequence[Take]) -> str:
    return " + ".join(
        f"{amounts.take(take.length)} from {take.number}{f' ({take.place})' if take.place else ''}"
        for take in takes
    )


def _miss_lines(miss: NearMiss, need: Need, everything: bool) -> list[str]:
    """What almost fits, why not, and the fixes, each on its own line: a few, or all of them."""
    rows = miss_rows(miss, need, patch)
    named = [columns(rows, "   ")] if rows else []
    return [
        *named,
        f"      {why_not(miss)}",
        *(f"       - {fix}" for fix in fix_lines(miss, everything)),
    ]


#: What has no place in one row; of two lots in a role the key tells.
_IN_LISTS = ("reasons", "skeins", "other_lots", "strategy", "rows")


def rows(found: Match) -> list[dict[str, Any]]:
    """One row for each role of each proposal."""
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
