"""What the matcher answers, for reading and as rows."""

from __future__ import annotations

import sys
from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, Any

from stash.matching.answer.proposal import Filled, Match, NearMiss, Proposal
from stash.matching.answer.reason import Reason
from stash.matching.match import spread_out
from stash.matching.question.wish import Contrast, Wished
from stash.matching.rules.contrast import gap_asked
from stash.measures.length import NO_LENGTH, Length
from stash.rendering import amounts, keys
from stash.rendering.amounts import colour_name, dye_lot
from stash.rendering.columns import columns
from stash.rendering.drawing.characters import COLOURED_MARKS, Look, drawing
from stash.rendering.figures import down, near, of_grams, of_metres, total, up
from stash.rendering.first_screen import first_that_fits
from stash.rendering.her_words import hers
from stash.rendering.paint import in_colour, paints, patch, strong
from stash.rendering.reasons import Said, all_said, why_not
from stash.rendering.sentences.fixes import first_fixes
from stash.rendering.sentences.matching import COMPARE_IN_DAYLIGHT
from stash.rendering.sentences.phrases import either, source_words
from stash.rendering.sentences.say import sentence
from stash.requirements.yarn.need import Need, RoleNeed, Source
from stash.stock.holding import HeldLot
from stash.stock.yarn import Lot

if TYPE_CHECKING:
    from stash.actions.match import Answer

#: A patch of a lot's colours for in front of its name; nothing where no colour can be shown.
Patch = Callable[[Lot], str]

#: A drawback that counts less is left to json: a line holds what decides.
READ_FROM = 0.3
#: What is said of a set where room is short; the first two in any case.
_SAID_IN_BRIEF = ("lightness_apart", "look_alike_to_you", "may_bleed", "may_felt")
#: So wide a bar is where room is short.
_BRIEF_BAR = 6
#: Under this a chance is worth a word.
_SURE = 0.95
#: What is said elsewhere in a set's lines, or once of all sets.
_ELSEWHERE = frozenset({"stays_free", "colours_by_name"})


@dataclass(frozen=True, slots=True)
class View:
    """How much of an answer is shown, so that it fits: so many sets, so many almost-fits, or all.

    `drawn`: with a picture; `brief`: a line for each yarn, and the first fix alone; `bare`: no
    reasons on it; `everything`: all that is known.
    """

    sets: int | None = None
    misses: int | None = None
    drawn: bool = False
    brief: bool = False
    bare: bool = False
    everything: bool = False


#: What is tried at a terminal, the most telling first, until the answer fits.
_VIEWS = (
    View(3, 2, drawn=True),
    View(3, 2),
    View(3, 2, brief=True),
    View(3, 2, brief=True, bare=True),
    View(3, 1, brief=True, bare=True),
    View(2, 1, brief=True, bare=True),
    View(1, 1, brief=True, bare=True),
    View(1, 0, brief=True, bare=True),
)


def worth_reading(reasons: Sequence[Reason], of_all: Collection[str] = ()) -> str:
    """The reasons worth reading in one line; what holds `of_all` of them is left out."""
    return "; ".join(said.words for said in said_of_it(reasons) if said.words not in of_all)


def said_of_it(reasons: Sequence[Reason]) -> list[Said]:
    """The reasons worth reading: what speaks for a choice, and what counts against it."""
    told = all_said([reason for reason in reasons if reason.kind not in _ELSEWHERE])
    return [said for said in told if not 0 < said.cost < READ_FROM]


def said_of_all(proposals: Sequence[Proposal]) -> tuple[str, ...]:
    """What can be said once: it holds of each of several sets, or of every yarn in all of them.

    It costs each the same.
    """
    if len(proposals) < 2:
        return ()
    together = [proposal.reasons for proposal in proposals]
    by_yarn = [filled.reasons for proposal in proposals for filled in proposal.roles]
    return (*_common(together), *_common(by_yarn))


def _common(reasons: Sequence[Sequence[Reason]]) -> Iterator[str]:
    first, *others = (
        [_if_read(said) for said in all_said(one for one in each if one.kind not in _ELSEWHERE)]
        for each in reasons or [()]
    )
    for said in first:
        if said and all(said in other for other in others):
            yield said.words


def _if_read(said: Said) -> Said | None:
    """What is worth reading; None keeps the place of what is not."""
    return None if 0 < said.cost < READ_FROM else said


def lot_words(lot: Lot) -> str:
    """A lot as it is looked for on the shelf: its colour first, its number last."""
    return f"{called(lot)} ({lot.ref})"


def lot_cells(lot: Lot, patch: Patch) -> list[str]:
    """The same in two columns, its number first."""
    return [lot.ref, f"{patch(lot)}{called(lot)}"]


def called(lot: Lot) -> str:
    """A lot by its colour, yarn and dye lot."""
    return f"{amounts.colour(lot)}, {lot.yarn}, {amounts.dye_lot(lot)}"


def fix_lines(miss: NearMiss, everything: bool) -> list[str]:
    """The fixes of a near miss: all of them, or the few to choose from."""
    return [sentence(fix) for fix in (miss.fixes if everything else first_fixes(miss.fixes))]


def miss_rows(miss: NearMiss, need: Need, patch: Patch) -> list[list[str]]:
    """The lots of a near miss by role, each with what is free of it, and how much of the need.

    Where she tied a role to some skeins of a lot, or some are too short to join, the lot's free
    yarn would not show what is short; then neither is there.
    """
    asked_m = {role.role: role.set_aside_m for role in need.roles}
    parts = [_part(held, asked_m[role]) for role, held in miss.roles]
    hidden = miss.short_m is not None and min(parts, default=1.0) >= 1
    return [
        [role, *(("", "") if hidden else _there(held, asked_m[role])), *lot_cells(held.lot, patch)]
        for role, held in miss.roles
    ]


def _part(held: HeldLot, asked_m: float) -> float:
    """How much of what is asked for is free."""
    return (held.free_length or NO_LENGTH).m / asked_m if asked_m else 1.0


def _there(held: HeldLot, asked_m: float) -> tuple[str, str]:
    """The same as a bar and in words: `74 m of 111 m`, or what is free where that is enough."""
    free, part = held.free_length, _part(held, asked_m)
    if free is None:
        return amounts.bar(part), ""
    return amounts.bar(part), f"{down(free)}{f' of {up(of_metres(asked_m))}' if part < 1 else ''}"


def nothing(found: Match, *, chosen: bool) -> str:
    """That nothing covers it; never a plain no where only the margin is short.

    `chosen` when she fixed every role, and so asks whether she has enough.
    """
    if not any(miss.within for miss in found.near_misses):
        return "Enough: no." if chosen else "Nothing on the shelf covers it."
    stated = found.need.source is Source.STATED
    has = "the figure you gave" if stated else "what it should take"
    if chosen:
        return f"Enough for {has}, but not for the whole margin."
    return f"There is enough for {has}, but not for the whole margin."


def text(found: Answer, *, everything: bool, chosen: bool, contrast: Wished | None = None) -> str:
    """The answer for reading: the need, the proposals, then what almost fits.

    `chosen` when she fixed every role, and so asks whether she has enough; `contrast` is what she
    typed. At a terminal as much of it as fits a screen.
    """
    asked = (contrast or found.settings.contrast) is not Contrast.ANY
    whole = (View(everything=everything),)
    views = whole if everything or not sys.stdout.isatty() else _VIEWS
    return first_that_fits(partial(_text, found, view, chosen, asked) for view in views)


def _text(found: Answer, view: View, chosen: bool, asked: bool) -> str:
    matched = found.match
    proposals = matched.proposals if view.everything else spread_out(matched.proposals)
    proposals = proposals[: view.sets]
    of_all = said_of_all(proposals)
    misses = matched.near_misses[: view.misses]
    gap = [] if view.brief else [""]
    lines = [*_need_lines(found), *gap]
    if chosen and proposals:
        lines += [strong("Enough: yes."), *gap]
    for before, proposal in zip((None, *proposals), proposals, strict=False):
        if before and (between := matched.proposals[before.rank : proposal.rank - 1]):
            lines += [_left_out(between), *gap]
        lines += [*_proposal_lines(proposal, of_all, view), *gap]
    if proposals and (view.drawn or view.everything) and paints():
        lines += [*_drawn(found.match, proposals[0]), ""]
    if not proposals:
        lines += [strong(nothing(matched, chosen=chosen)), *gap]
    if misses:
        lines.append(strong("Almost:"))
    for miss in misses:
        lines += [*_miss_lines(miss, matched.need, view), *gap]
    lines += _said_once(matched, proposals, of_all, asked)
    hidden = len(matched.proposals) - proposals[-1].rank if proposals else 0
    lines += _hidden(hidden, len(matched.near_misses) - len(misses), misses, view)
    if proposals and found.design:
        best = f'stash aside "{found.design.design.name}" {proposals[0].key}{_strands_apart(found)}'
        lines.append(f"Set the first one aside: {best}")
    if not (view.brief and proposals):
        lines.append(f"Looked at {amounts.counted(matched.looked_at, 'lot')}.")
    return "\n".join(lines)


def _left_out(proposals: Sequence[Proposal]) -> str:
    """A line in the place of ranks that are not shown: `3-5  more sets with navy (L1): --all`."""
    first, last = proposals[0].rank, proposals[-1].rank
    ranks, sets = (
        (f"{first}", "one more set") if first == last else (f"{first}-{last}", "more sets")
    )
    main = {one.lot.lot.ref: colour_name(one.lot.lot) for one in (p.roles[0] for p in proposals)}
    named = [f"{colour} ({ref})" for ref, colour in sorted(main.items())]
    return f"{strong(ranks)}  {sets} with {either(named)} as A: --all"


def _said_once(
    found: Match, proposals: Sequence[Proposal], of_all: Sequence[str], asked: bool
) -> Iterator[str]:
    """What holds of all sets, and what to mind with their colours."""
    if of_all:
        yield f"All of them: {'; '.join(of_all)}."
    if not asked and any(_close(proposal) for proposal in found.proposals):
        yield hers("Some colours here are close; --contrast clear keeps them apart.")
    kinds = {reason.kind for proposal in proposals for reason in proposal.reasons}
    if "colours_by_name" in kinds:
        yield hers(COMPARE_IN_DAYLIGHT)


def _close(proposal: Proposal) -> bool:
    gap = proposal.lightness_gap
    return gap is not None and gap < gap_asked(Contrast.CLEAR).least


def _hidden(sets: int, misses: int, shown: Sequence[NearMiss], view: View) -> Iterator[str]:
    """One line for what is not shown, and how to see it."""
    counts = ((sets, "set"), (misses, "almost-fit"))
    parts = [amounts.counted(count, thing) for count, thing in counts if count]
    if any(len(miss.fixes) > _fixes_shown(miss, view) for miss in shown):
        parts.append("more fixes")
    if parts and not view.everything:
        yield f"More with --all: {', '.join(parts)}."


def _fixes_shown(miss: NearMiss, view: View) -> int:
    if view.everything:
        return len(miss.fixes)
    return min(1, len(miss.fixes)) if view.brief else len(first_fixes(miss.fixes))


def _strands_apart(found: Answer) -> str:
    """What is to be typed as well where strands are roles of their own."""
    roles = dict.fromkeys(role.role[0] for role in found.match.need.roles if len(role.role) > 1)
    return "".join(f" --strands-apart {role}" for role in roles)


def _need_lines(found: Answer) -> list[str]:
    """`A about 124 m (± 18), set aside 148 m = 62 g, from your gauge`, a line for each colour."""
    need = found.match.need
    name = [strong(found.design.design.name)] if found.design else []
    return [*name, *(_role_need(role, need) for role in need.roles)]


def _role_need(role: RoleNeed, need: Need) -> str:
    expected = near(of_metres(role.estimate.expected_m))
    spread = near(of_metres(role.estimate.spread_m))
    about = f"{role.role} about {expected}" + (f" (± {spread.number})" if spread else "")
    weight = "" if role.set_aside_g is None else f" = {up(of_grams(role.set_aside_g))}"
    source = source_words(role.source, need.thickness_from, need.thickness_to)
    return f"{about}, set aside {up(of_metres(role.set_aside_m))}{weight}, {source}"


def _proposal_lines(proposal: Proposal, of_all: Collection[str], view: View) -> list[str]:
    name = strong(f"{proposal.rank}  {proposal.key}")
    if view.brief:
        return [f"{name}  {_in_brief(proposal, view)}", *_brief_lines(proposal, of_all, view)]
    head = f"{name}  {worth_reading(proposal.reasons, of_all)}".rstrip()
    yarns = (line for one in proposal.roles for line in _filled_lines(one, of_all, view))
    return [head, *yarns]


def _in_brief(proposal: Proposal, view: View) -> str:
    """The colours of a set and how far apart they are: `navy (very dark), oat (light): bold`."""
    lots = [filled.lot.lot for filled in proposal.roles]
    colours = ", ".join(f"{patch(lot)}{amounts.colour(lot)}" for lot in lots)
    kinds = _SAID_IN_BRIEF[: 2 if view.bare else None]
    apart = [sentence(one) for one in proposal.reasons if one.kind in kinds]
    return f"{colours}: {'; '.join(apart)}" if apart else colours


def _brief_lines(proposal: Proposal, of_all: Collection[str], view: View) -> Iterator[str]:
    """A line for each yarn: what to take, what is left, and perhaps what else decides."""
    for filled in proposal.roles:
        used = amounts.bar(1 - filled.left_m / filled.free_m, _BRIEF_BAR)
        reasons = "" if view.bare else worth_reading(filled.reasons, of_all)
        said = "; ".join(part for part in (_taken(filled), reasons) if part)
        yield f"   {strong(filled.role)} {used} {said}"


def _filled_lines(filled: Filled, of_all: Collection[str], view: View) -> list[str]:
    lot = filled.lot.lot
    lots = " and ".join(dye_lot(held.lot) for held in filled.lots)
    called = amounts.colour(lot, numbers=view.everything)
    sure = f"chance {amounts.chance(filled.chance)}" if filled.chance < _SURE else ""
    covers = f"covers it {filled.coverage:.1f} times" if view.everything or sure else ""
    parts = (_taken(filled), covers, sure, worth_reading(filled.reasons, of_all))
    return [
        f"   {strong(filled.role)}  {patch(lot)}{called}, {lot.yarn}, {lots}",
        f"      {_used(filled)} {'; '.join(part for part in parts if part)}",
    ]


def _used(filled: Filled) -> str:
    """A bar of how much of the free yarn is taken."""
    return amounts.bar(1 - filled.left_m / filled.free_m)


def _taken(filled: Filled) -> str:
    """`take 143 m of skein 1 (blue box), 550 m left`; what is left is free less taken."""
    takes = [up(take.length) for take in filled.takes]
    left = down(of_metres(filled.free_m)) - total(takes, Length)
    words = []
    for take, figure, after in zip(filled.takes, takes, (*filled.takes[1:], None), strict=True):
        same_place = after is not None and after.place == take.place
        place = f" ({take.place})" if take.place and not same_place else ""
        words.append(f"{figure} of skein {take.number}{place}")
    return f"take {' + '.join(words)}" + (f", {left} left" if left else "")


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


def _miss_lines(miss: NearMiss, need: Need, view: View) -> list[str]:
    """What almost fits, why not, and the fixes, each on its own line: one, a few, or all."""
    if view.brief:
        fixes = fix_lines(miss, everything=False)[:1]
        lots = "+".join(held.lot.ref for _, held in miss.roles)
        return [f"   {lots}  {why_not(miss)}", *(f"      or: {fix}" for fix in fixes)]
    rows = [[role, used, *lot] for role, used, _, *lot in miss_rows(miss, need, patch)]
    named = [columns(rows, "   ")] if rows else []
    fixes = fix_lines(miss, view.everything)
    return [*named, f"      {why_not(miss)}", *(f"      or: {fix}" for fix in fixes)]


#: What has no place in one row; two lots in a role are in the key.
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
