"""A set of yarns as a card: what is free, for how many, what speaks for it and against it."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass

from stash.matching.answer.proposal import Filled, Match, Proposal
from stash.matching.answer.reason import Reason
from stash.matching.match import spread_out
from stash.matching.question.strands import colour_of
from stash.matching.rules.colour_pairs import nobody_tells_apart
from stash.measures.length import Length
from stash.rendering import amounts
from stash.rendering.figures import down, of_metres, total, up
from stash.rendering.her_words import hers
from stash.rendering.match import said_of_all, said_of_it
from stash.rendering.pairs import pairs
from stash.rendering.reasons import Said
from stash.rendering.sentences.matching import SOFT_FROM
from stash.rendering.sentences.say import sentence
from stash.requirements.yarn.need import Need
from stash.stock.yarn import Lot

#: A bar of what is free ends at so many times the need.
TIMES = 3
#: What a card says elsewhere: under its grey picture, or marked for itself.
_APART = "lightness_apart"
_MARKED = frozenset({"look_alike_to_you", "look_alike"})
#: What is to be minded, though it costs nothing; how every two of three hues lie is too much.
_MIND = frozenset({"may_felt", "may_bleed", "repeats_colour"})
_OF_PAIRS = "hues"
#: What a set is called by how many colours it has.
_CALLED = {1: "yarn", 2: "pair"}


@dataclass(frozen=True, slots=True)
class RoleOnCard:
    """A colour of the design with its yarn: in words, and its bar in metres."""

    role: str
    lot: Lot
    words: str
    yarn: str
    enough: int
    free_m: float
    one_m: float


@dataclass(frozen=True, slots=True)
class SetCard:
    """A set as it is shown, with the other ways to spread the same yarns over the colours.

    `apart`: a word and how far apart in lightness, None where that is not known. `marked` says
    that she, or nobody, may tell its colours apart; `alike` that nobody can, `alike_to_some` that
    some eyes cannot.
    """

    proposal: Proposal
    others: tuple[Proposal, ...]
    name: str
    roles: tuple[RoleOnCard, ...]
    apart: tuple[str, int] | None
    plus: tuple[str, ...]
    minus: tuple[str, ...]
    marked: tuple[str, ...]
    takes: str
    alike: bool
    alike_to_some: bool

    @property
    def key(self) -> str:
        """What the set is set aside by."""
        return self.proposal.key

    @property
    def or_swapped(self) -> str:
        """How else the same yarns would do, in words; empty where not at all."""
        if not self.others:
            return ""
        if len(self.roles) == 2:
            return "or swapped"
        return f"or in {amounts.counted(len(self.others), 'other order')}"


def set_called(roles: int, count: int = 1) -> str:
    """What so many sets are called: `1 pair`, `16 pairs`, `3 sets`."""
    return amounts.counted(count, _CALLED.get(roles, "set"))


def arrangements(proposals: Sequence[Proposal], first: str = "") -> list[tuple[Proposal, ...]]:
    """The sets, those of the same yarns together in the order of the answer.

    At most two for one main yarn come before all others. `first`: the key of one that leads its
    own, and all others.
    """
    shown = spread_out(proposals)
    by_yarns: dict[tuple[str, ...], list[Proposal]] = {}
    for one in (*shown, *(each for each in proposals if each not in shown)):
        by_yarns.setdefault(tuple(sorted(one.key.split("+"))), []).append(one)
    found = [tuple(sorted(each, key=lambda one: one.rank)) for each in by_yarns.values()]
    led = [_led_by(each, first) for each in found]
    return sorted(led, key=lambda each: each[0].key != first)


def led_by(
    groups: Iterable[tuple[Proposal, ...]], keys: Collection[str]
) -> list[tuple[Proposal, ...]]:
    """The same, each led by the set that has one of these keys; the order stays."""
    led = []
    for each in groups:
        key = next((one.key for one in each if one.key in keys), "")
        led.append(_led_by(each, key))
    return led


def _led_by(each: tuple[Proposal, ...], key: str) -> tuple[Proposal, ...]:
    return tuple(sorted(each, key=lambda one: one.key != key))


def set_card(each: tuple[Proposal, ...], need: Need, of_all: Collection[str] = ()) -> SetCard:
    """The first of some sets of the same yarns as a card; what holds `of_all` sets is left out."""
    proposal, *others = each
    plus, minus = _for_and_against(proposal, of_all)
    return SetCard(
        proposal=proposal,
        others=tuple(others),
        name=set_name([filled.lot.lot for filled in proposal.roles]),
        roles=tuple(_role(filled, need) for filled in proposal.roles),
        apart=_apart(proposal),
        plus=plus,
        minus=minus,
        marked=_marked(proposal),
        takes=_takes(proposal.roles),
        alike=nobody_tells_apart(proposal.colour_difference),
        alike_to_some=any(pair["look_alike_to"] for pair in pairs(proposal.roles)),
    )


def set_name(lots: Sequence[Lot]) -> str:
    """A set by its colours: `oatmeal with madder`, `oatmeal, madder and rook`."""
    names = [lot.colour or str(lot.yarn) for lot in lots]
    if len(names) < 3:
        return " with ".join(names)
    return f"{', '.join(names[:-1])} and {names[-1]}"


def enough_for(free_m: float, set_aside_m: float) -> int:
    """How often the amount to set aside goes into what is free, by exact amounts."""
    return math.floor(free_m / set_aside_m + 1e-9) if set_aside_m > 0 else 0


def need_in_words(need: Need) -> str:
    """`105 m of A and 34 m of B`: what is to be set aside."""
    parts = [f"{up(of_metres(role.set_aside_m))} of {role.role}" for role in need.roles]
    return parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} and {parts[-1]}"


def lots_by_colour(proposal: Proposal) -> Mapping[str, Lot]:
    """The yarn each colour of the design is drawn in: of several strands the first."""
    found: dict[str, Lot] = {}
    for filled in proposal.roles:
        found.setdefault(colour_of(filled.role), filled.lot.lot)
    return found


def _role(filled: Filled, need: Need) -> RoleOnCard:
    one_m = next(role.set_aside_m for role in need.roles if role.role == filled.role)
    enough = enough_for(filled.free_m, one_m)
    lot = filled.lot.lot
    lots = " and ".join(amounts.dye_lot(held.lot) for held in filled.lots)
    return RoleOnCard(
        role=filled.role,
        lot=lot,
        words=f"{down(of_metres(filled.free_m))} free, enough for {enough}",
        yarn=f"{lot.yarn}, {lots}",
        enough=enough,
        free_m=filled.free_m,
        one_m=one_m,
    )


def _apart(proposal: Proposal) -> tuple[str, int] | None:
    gap = proposal.lightness_gap
    reason = next((one for one in proposal.reasons if one.kind == _APART), None)
    if gap is None or reason is None:
        return None
    contrast = reason.facts["contrast"]
    word = str(contrast) if contrast else ("close" if gap < SOFT_FROM else "soft or more")
    return word, int(gap)


def _for_and_against(
    proposal: Proposal, of_all: Collection[str]
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """What speaks for a set and what against it; what is said of one colour names it."""
    several = len(proposal.roles) > 2
    told = [
        one
        for one in proposal.reasons
        if one.kind not in (_APART, *_MARKED) and not (several and one.kind == _OF_PAIRS)
    ]
    of_roles = _of_roles(proposal.roles, of_all)
    for_it = [*of_roles, *_said([one for one in told if one.kind not in _MIND], of_all)]
    against = _said([one for one in told if one.kind in _MIND], of_all)
    plus = tuple(one.words for one in for_it if not one.cost)
    return plus, tuple(one.words for one in (*for_it, *against) if one.cost or one in against)


def _said(reasons: Sequence[Reason], of_all: Collection[str]) -> list[Said]:
    return [one for one in said_of_it(reasons) if one.words not in of_all]


def of_all_sets(proposals: Sequence[Proposal]) -> tuple[str, ...]:
    """What can be said once, below all of them: not how far apart they are, which is with each."""
    each = {sentence(r) for p in proposals for r in p.reasons if r.kind in (_APART, *_MARKED)}
    return tuple(words for words in said_of_all(proposals) if words not in each)


def _of_roles(roles: Sequence[Filled], of_all: Collection[str]) -> list[Said]:
    """The reasons of each colour; what holds of all of them is said once."""
    by_role = [(filled.role, _said(filled.reasons, of_all)) for filled in roles]
    shared = [
        one
        for one in by_role[0][1]
        if all(any(one.words == other.words for other in said) for _, said in by_role)
    ]
    words = {one.words for one in shared}
    each = "each " if len(roles) > 1 else ""
    return [
        *(Said(one.cost, f"{each}{one.words}") for one in shared),
        *(
            Said(one.cost, f"{role}: {one.words}")
            for role, said in by_role
            for one in said
            if one.words not in words
        ),
    ]


def _marked(proposal: Proposal) -> tuple[str, ...]:
    """That two of its colours look alike to her, or to everybody."""
    told = [sentence(one) for one in proposal.reasons if one.kind in _MARKED]
    if told or not nobody_tells_apart(proposal.colour_difference):
        return tuple(told)
    return (hers("its colours look alike"),)


def alike_to_some(cards: Sequence[SetCard]) -> str:
    """Once for all cards, by their place: which of them buyers with other eyes may see as one.

    Nothing for those that are marked by themselves.
    """
    of = [n for n, card in enumerate(cards, 1) if card.alike_to_some and not card.marked]
    if not of:
        return ""
    if 2 * len(of) > len(cards) > 1:
        return "Some eyes may not tell the colours of most of these apart."
    return f"Some eyes may not tell the colours of no. {amounts.numbers(of)} apart."


def _takes(roles: Sequence[Filled]) -> str:
    """Which skeins it takes and what is left of them: `takes no. 7 (30 m left) and no. 22`."""
    parts = []
    for filled in roles:
        numbers = amounts.numbers(sorted({take.number for take in filled.takes}))
        left = down(of_metres(filled.free_m)) - total((up(t.length) for t in filled.takes), Length)
        parts.append(f"no. {numbers} ({left} left)")
    return (
        f"takes {parts[0]}"
        if len(parts) == 1
        else (f"takes {', '.join(parts[:-1])} and {parts[-1]}")
    )


def said_once(found: Match) -> bool:
    """Whether some colour of the answer was never seen in daylight."""
    return any(r.kind == "colours_by_name" for one in found.proposals for r in one.reasons)
