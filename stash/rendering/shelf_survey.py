"""What the whole shelf can become, as keys and for reading."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import islice
from typing import TYPE_CHECKING, Any

from stash.matching.answer.proposal import Filled, Proposal
from stash.matching.lots.shelf_stats import came_on
from stash.matching.shelf_survey import MOST_IN_A_ROW, Allowed, Becomes, OneMore
from stash.rendering import amounts, figures, first_screen
from stash.rendering.columns import columns
from stash.rendering.designs import NO_DESIGN
from stash.rendering.her_words import hers, named_thickness
from stash.rendering.keys import metres, named, near_miss, proposal
from stash.rendering.match import lot_cells, lot_words, miss_rows
from stash.rendering.need import keys as need_keys
from stash.rendering.paint import patch, strong
from stash.rendering.reasons import why_not
from stash.rendering.sentences.fixes import fixes_in_words
from stash.rendering.sentences.say import plain_facts, sentence
from stash.rendering.set_card import enough_for
from stash.stock.item import ItemState

if TYPE_CHECKING:
    from stash.actions.ideas import FromShelf, OpenItem, StillNeeded

Keys = dict[str, Any]

#: Of one lot that a skein would help, so many designs are named.
DESIGNS_SHOWN = 3
#: What is said of the yarns of an idea: why it is these.
_WHY = ("opens_no_skein", "opens_skeins", "used_up", "lightness_apart", "hues")
#: How many ideas, open items, designs that lack something and lots that lack a skein are shown at
#: a terminal: the first of these that fits. Ideas stay longest, then what is open.
_SHOWN = (
    (3, 3, 3, 3), (3, 3, 3, 2), (3, 3, 2, 2), (3, 2, 2, 1), (3, 2, 1, 1), (3, 1, 1, 1),
    (2, 1, 1, 1), (2, 1, 1, 0), (1, 1, 1, 0), (1, 1, 0, 0), (1, 0, 0, 0),
)  # fmt: skip

#: The same where nothing has to fit, and where all was asked for.
_PIPED, _ALL = (3, None, None, None), (None, None, None, None)


def _design_keys(one: Allowed) -> Keys:
    """What the shelf says to one design; `times` is not counted beyond `times_counted_to`."""
    return {
        "design": one.question.name,
        "times": one.in_a_row,
        "times_counted_to": MOST_IN_A_ROW,
        "proposal": one.best and proposal(one.best),
        "lacks": [plain_facts(blocker) for blocker in one.near.blockers] if one.near else [],
        "near_miss": one.near and near_miss(one.near),
        "roles_without_yarn": list(one.empty),
        "need": need_keys(one.question.need),
    }


def _design_flat(one: Allowed) -> Keys:
    """The same as one row of a sheet."""
    return {
        "design": one.question.name,
        "times": one.in_a_row,
        "key": one.best and one.best.key,
        "cost": one.best and one.best.cost,
        "coverage": one.best and [round(filled.coverage, 3) for filled in one.best.roles],
        "short_m": one.near and one.near.short_m,
        "why": one.near and why_not(one.near),
        "fixes": one.near and fixes_in_words(one.near.fixes),
    }


def _more_keys(one: OneMore) -> Keys:
    """A lot and what one more skein would make of it, the cheapest first."""
    return {
        **named(one.lot),
        "free_m": metres(one.lot.free_length),
        "skeins": [skein.number for skein in one.lot.skeins if skein.free],
        "one_more_g": one.put_up.mass.g,
        "one_more_m": one.put_up.length.m,
        "designs": [_becomes_keys(becomes) for becomes in one.designs],
    }


def _becomes_keys(becomes: Becomes) -> Keys:
    main, *others = becomes.best.roles
    return {
        "design": becomes.name,
        "role": main.role,
        "cost": becomes.best.cost,
        "coverage": main.coverage,
        "with": {filled.role: named(filled.lot) for filled in others},
    }


def _item_keys(one: OpenItem) -> Keys:
    return {
        "number": one.item.number,
        "design": one.item.design,
        "state": one.item.state.value,
        "needs": [_needs_keys(role) for role in one.needs],
    }


def _needs_keys(one: StillNeeded) -> Keys:
    """What is set aside for a role still, and how much of that is no longer there."""
    return {
        "role": one.role,
        "set_aside_m": metres(one.length),
        "set_aside_g": one.mass.g,
        "short_g": one.gone.g,
    }


def keys(answered: FromShelf) -> Keys:
    """Everything the whole shelf says to the designs."""
    return {
        "as_of": answered.as_of.isoformat(),
        "looked_at": answered.lots,
        "designs": [_design_keys(one) for one in answered.found.designs],
        "one_more": [_more_keys(one) for one in answered.found.one_more],
        "open_items": [_item_keys(one) for one in answered.open_items],
    }


def rows(answered: FromShelf) -> list[Keys]:
    """One row for each design."""
    return [_design_flat(one) for one in answered.found.designs]


def text(answered: FromShelf, *, everything: bool) -> str:
    """What can be made and how to take it, what is open, what the others lack, one more skein.

    At a terminal as much of each as fits; piped, all but the ideas after the first few; with
    `everything`, all of it.
    """
    if not answered.found.designs:
        return NO_DESIGN
    parts = _Parts.of(answered)
    if everything:
        return parts.text(_ALL)
    if not first_screen.is_shown():
        return parts.text(_PIPED)
    fitting = (text for shown in _SHOWN if _fits(text := parts.text(shown)))
    return next(fitting, parts.text(_SHOWN[-1]))


def _fits(text: str) -> bool:
    return first_screen.height(text.split("\n")) <= first_screen.LINES


@dataclass(frozen=True, slots=True)
class _Parts:
    """The answer in pieces, each some lines: ideas, open items, designs that lack, one more."""

    head: str
    ideas: Sequence[str]
    still_open: Sequence[str]
    not_yet: Sequence[str]
    one_more: Sequence[str]

    @classmethod
    def of(cls, answered: FromShelf) -> _Parts:
        designs = answered.found.designs
        pieces = list(_designs(designs, answered.as_of))
        able = [piece for one, piece in zip(designs, pieces, strict=True) if one.best]
        return cls(
            _head(len(able), len(designs), answered.lots),
            able,
            [_open_item(one) for one in answered.open_items],
            [piece for one, piece in zip(designs, pieces, strict=True) if not one.best],
            [_one_more(one) for one in answered.found.one_more],
        )

    def text(self, shown: Sequence[int | None]) -> str:
        """So many pieces of each, None for all of them, and a line for what is hidden."""
        parts = (
            ("", self.ideas, "idea", "ideas"),
            ("Still open, with the yarn set aside:", self.still_open, "open item", "open items"),
            ("", self.not_yet, "design that lacks yarn", "designs that lack yarn"),
            ("One more skein would bring:", self.one_more, "lot to top up", "lots to top up"),
        )
        blocks, hidden = [self.head], []
        for (title, pieces, thing, things), most in zip(parts, shown, strict=True):
            if first := pieces[:most]:
                blocks.append("\n".join([*([strong(title)] if title else []), *first]))
            if more := len(pieces) - len(first):
                hidden.append(f"{more} {thing if more == 1 else things}")
        if hidden:
            blocks.append(f"Not shown: {', '.join(hidden)}. To see all, add --all")
        return "\n\n".join(blocks)


def _head(able: int, designs: int, lots: int) -> str:
    """How many of the designs can be made, in one line."""
    yours = amounts.counted(designs, "design")
    of_them = f"{able or 'none'} of your {yours}"
    if able == designs:
        of_them = "your design" if designs == 1 else f"all your {yours}"
    each = ", each counted by itself" if able > 1 else ""
    return f"From {amounts.counted(lots, 'lot')} you can make {of_them} today{each}."


def _designs(designs: Sequence[Allowed], as_of: date) -> Iterator[str]:
    """Each design with its lots, what is taken of each or is there, and what it lacks.

    The columns run through under all of them.
    """
    groups = [_rows(one) for one in designs]
    rows = iter(columns([row for group in groups for row in group], "   ").split("\n"))
    for one, group in zip(designs, groups, strict=True):
        yield "\n".join([strong(_headline(one, as_of)), *islice(rows, len(group)), *_next(one)])


def _headline(one: Allowed, as_of: date) -> str:
    if one.best is None:
        return f"{one.question.name}: not yet"
    why = why_these(one.best, as_of)
    return f"{one.question.name}: enough for {how_many(one, one.best)}{f'; {why}' if why else ''}"


def how_many(one: Allowed, best: Proposal) -> str:
    """How many the yarns shown are enough for; where other yarns make more, both are said."""
    in_all = f"{one.in_a_row} or more" if one.in_a_row == MOST_IN_A_ROW else f"{one.in_a_row}"
    needs = {role.role: role.set_aside_m for role in one.question.need.roles}
    shown = min(enough_for(filled.free_m, needs[filled.role]) for filled in best.roles)
    return in_all if shown >= one.in_a_row else f"{shown}, your whole shelf for {in_all}"


def why_these(best: Proposal, as_of: date) -> str:
    """Why it is these yarns: opened ones, how the colours stand, how long the oldest lies there."""
    each = [[sentence(one) for one in filled.reasons if one.kind in _WHY] for filled in best.roles]
    of_all = [words for words in each[0] if all(words in other for other in each)]
    together = [sentence(one) for one in best.reasons if one.kind in _WHY]
    came = min((day for one in best.roles if (day := came_on(one.lot))), default=as_of)
    return "; ".join([*of_all, *together, *[f"yarn here since {came}"][: came < as_of]])


def _rows(one: Allowed) -> list[list[str]]:
    if one.best:
        return [_filled_row(filled) for filled in one.best.roles]
    return miss_rows(one.near, one.question.need, patch) if one.near else []


def _filled_row(filled: Filled) -> list[str]:
    used = amounts.bar(1 - filled.left_m / filled.free_m)
    free = figures.down(figures.of_metres(filled.free_m))
    takes = figures.up(figures.of_metres(filled.free_m - filled.left_m))
    amount = f"takes {takes}, {free - takes} left"
    return [filled.role, used, amount, *lot_cells(filled.lot.lot, patch)]


def _next(one: Allowed) -> list[str]:
    """How to take it; of one that cannot be made, what it lacks and how it could be."""
    name = one.question.name
    if one.best:
        alike = (
            f'{hers("These colours look alike")}; for others: stash match "{name}" --contrast clear'
        )
        return [f'   stash aside "{name}" {one.best.key}', *[f"   {alike}"][: one.looks_alike]]
    if one.near:
        return [f"   {why_not(one.near)}; {fixes_in_words(one.near.fixes)}"]
    return [f"   {nothing_close(one)}"]


def nothing_close(one: Allowed) -> str:
    """Why a design that nothing almost fits has no yarn here."""
    need = one.question.need
    low, high = need.thickness_from, need.thickness_to
    yarn = "yarn" if low is None or high is None else f"{named_thickness(low, high)} yarn"
    if not one.empty:
        return f"{hers('Each colour has')} {yarn}, but no {len(need.roles)} lots go together."
    wanted = [
        f"{role.role} {figures.up(figures.of_metres(role.set_aside_m))}"
        for role in need.roles
        if role.role in one.empty
    ]
    return f"No {yarn} here is close; it needs {', '.join(wanted)}."


def _one_more(one: OneMore) -> str:
    """A lot that one more skein of the same lot would bring to a design."""
    there = "" if one.lot.free_length is None else f", {figures.down(one.lot.free_length)} here"
    first = "; ".join(map(_becomes_words, one.designs[:DESIGNS_SHOWN]))
    hidden = len(one.designs) - DESIGNS_SHOWN
    more = f"; and {hidden} more" if hidden > 0 else ""
    return f"   {patch(one.lot.lot)}{lot_words(one.lot.lot)}{there}: {first}{more}"


def _becomes_words(becomes: Becomes) -> str:
    _, *others = becomes.best.roles
    together = " and ".join(
        f"{filled.role} {patch(filled.lot.lot)}{amounts.colour(filled.lot.lot)}, "
        f"{filled.lot.lot.ref}"
        for filled in others
    )
    return f"{becomes.name}{f' with {together}' if together else ''}"


def _open_item(one: OpenItem) -> str:
    """An item with the yarn it may still take, what of that is gone, and what comes next."""
    number, state = one.item.number, one.item.state
    needs = ", ".join(map(_needs_words, one.needs)) or "no yarn set aside any more"
    gone = any(role.gone for role in one.needs)
    step = "begin" if state is ItemState.PLANNED else "done"
    follow = "stash short" if gone else f"stash {step} {number}"
    return f"   {number} {one.item.design}, {state}: {needs}: `{follow}`"


def _needs_words(one: StillNeeded) -> str:
    amount = figures.up(one.mass) if one.length is None else figures.up(one.length)
    gone = f", {figures.up(one.gone)} of it gone" if one.gone else ""
    return f"{one.role} {amount}{gone}"
