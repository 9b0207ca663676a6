"""Pairs: a design in the yarns that could become it, and what almost could."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any
from urllib.parse import urlencode

from starlette.responses import Response

from stash.actions import designs
from stash.actions.aside import aside, save_and_aside, which_of_alike
from stash.actions.match import Answer, NeedAsked, propose
from stash.actions.order import takes_of
from stash.actions.ordered import left_short_of_all
from stash.errors import FileTrouble, Refusal, StashError
from stash.parsing.design.design import design_name
from stash.parsing.order import order_want
from stash.rendering import set_card
from stash.rendering.her_words import hers
from stash.rendering.order import short_words
from stash.rendering.sentences.say import sentence
from stash.web.drawn import Drawings
from stash.web.pages import said
from stash.web.screens import pair_limits
from stash.web.screens.item import aside_done
from stash.web.screens.pair_fixes import miss_name, set_made
from stash.web.screens.pair_limits import PairLimits
from stash.web.screens.pairs_drawn import Bench, bench_of, drawn_cards, drawn_misses
from stash.web.visit import Done, Visit

if TYPE_CHECKING:
    from stash.matching.answer.fix import Fix
    from stash.matching.answer.proposal import Match
    from stash.requirements.design.design import Design

#: So many cards a page, and so many near misses; all of them where nothing fits are three.
CARDS, MISSES, NEAREST = 8, 2, 3
#: So many sets are looked for, as the command does, and so many more with each "more".
_TOP = 20


@dataclass(frozen=True, slots=True)
class PairsAsked:
    """What an address asks: a design, its limits, how many cards, which set is to come first.

    `fix` and `of` name a change of the design by the near miss it belongs to.
    """

    id: int
    name: str
    limits: PairLimits
    cards: int
    first: str
    fix: str
    of: str

    @property
    def top(self) -> int:
        """How many sets are looked for."""
        return max(_TOP, (self.cards // CARDS) * _TOP)

    @property
    def here(self) -> str:
        """The address of the design's pairs."""
        return f"/pairs/{self.id}"


def pairs(visit: Visit) -> Response:
    """The best sets for a design, and what almost fits."""
    asked = _asked(visit)
    wrong: StashError | None = None
    answer, change = None, None
    try:
        change = _change(visit, asked)
        answer = _answer(visit, asked, change)
    except FileTrouble:
        raise
    except StashError as why:
        wrong = why
    drawings = Drawings()

    def values() -> Mapping[str, Any]:
        shown = _unanswered(visit, asked, answer, wrong)
        if answer is not None:
            shown |= _found(visit, asked, bench_of(answer, drawings.once_more()), answer, change)
        return shown

    return visit.page("pairs.html", values)


def _asked(visit: Visit) -> PairsAsked:
    number = visit.query.get("cards", "")
    cards = int(number) if number.isdecimal() and len(number) < 4 else CARDS
    row = designs.her_designs(visit.book).row(str(visit.names["design"]).strip())
    return PairsAsked(
        row.id,
        row.name,
        PairLimits.of(visit.query),
        max(CARDS, cards),
        visit.query.get("first", ""),
        visit.query.get("fix", ""),
        visit.query.get("of", ""),
    )


@dataclass(frozen=True, slots=True)
class _Change:
    """A fix of a near miss that changes the design, and the set it makes."""

    fix: Fix
    key: str


def _change(visit: Visit, asked: PairsAsked) -> _Change | None:
    """The change of the design that the address names; refused where it is there no longer."""
    if not asked.fix:
        return None
    found = _matched(visit, asked, None).match
    for miss in found.near_misses:
        if miss_name(miss) == asked.of:
            for fix in miss.fixes:
                if fix.kind == asked.fix and fix.made is not None:
                    return _Change(fix, set_made(miss, fix))
    raise Refusal("fix_gone")


def _answer(visit: Visit, asked: PairsAsked, change: _Change | None) -> Answer:
    """The answer, with the set that is to come first in it."""
    answer = _matched(visit, asked, change)
    first = change.key if change else asked.first
    if not first or any(one.key == first for one in answer.match.proposals):
        return answer
    tied = PairLimits({**asked.limits.chosen, **_tied(first, answer.match)})
    try:
        alone = _matched(visit, replace(asked, limits=tied), change).match.proposals[:1]
    except StashError:
        return answer
    return replace(answer, match=replace(answer.match, proposals=(*alone, *answer.match.proposals)))


def _tied(key: str, match: Match) -> dict[str, str]:
    refs = key.split("+")
    return {f"with_{role.role}": ref for role, ref in zip(match.need.roles, refs, strict=False)}


def _matched(visit: Visit, asked: PairsAsked, change: _Change | None) -> Answer:
    made = change.fix.made if change else None
    wish = asked.limits.wish(asked.top)
    name = ("pairs", asked.id, asked.limits.address(), asked.top, asked.fix and asked.of, made)
    return visit.workshop.kept(
        name, lambda: propose(visit.book, NeedAsked(design=asked.name, made=made), wish)
    )


def _unanswered(
    visit: Visit, asked: PairsAsked, answer: Answer | None, wrong: StashError | None
) -> dict[str, Any]:
    """What is shown whatever the answer is."""
    usual = str(visit.settings.contrast)
    return {
        "design": asked.name,
        "id": asked.id,
        "limits": asked.limits.chosen,
        "narrowed": [n for n in asked.limits.narrowing if n not in ("contrast", "colour_A")],
        "written": asked.limits.address(),
        "fix": asked.fix,
        "of": asked.of,
        "choices": pair_limits,
        "usual": pair_limits.CONTRASTS.get(usual, usual),
        "contrasts": [one for one in pair_limits.CONTRASTS.items() if one[0] != usual],
        "wrong": said(wrong) if wrong else "",
        "roles": [role.role for role in answer.match.need.roles] if answer else ["A"],
        "change": None,
        "cards": [],
        "misses": [],
    }


def _found(
    visit: Visit, asked: PairsAsked, bench: Bench, answer: Answer, change: _Change | None
) -> Mapping[str, Any]:
    """The sets as cards, and what almost fits."""
    match, need = answer.match, answer.match.need
    groups = set_card.arrangements(match.proposals, change.key if change else asked.first)
    groups = set_card.led_by(groups, visit.queries.get("as", ()))
    shown = groups[: asked.cards]
    of_all = set_card.of_all_sets([each[0] for each in shown])
    cards = [set_card.set_card(each, need, of_all) for each in shown]
    misses = () if change and cards else match.near_misses
    most = len(misses) if "almost" in visit.query else MISSES if cards else NEAREST
    return {
        "drawings": bench.drawings,
        "cards": drawn_cards(
            bench, cards, _orders(visit, asked, cards, change), _same_with(visit, "as")
        ),
        "more_link": _same_with(visit, "cards"),
        "almost_link": _same_with(visit, "almost"),
        "more": _more(asked, match, len(groups)),
        "count": set_card.set_called(len(need.roles), len(groups)),
        "called": set_card.set_called(len(need.roles)).removeprefix("1 "),
        "all_found": len(match.proposals) < asked.top,
        "swapped": any(card.others for card in cards),
        "need": set_card.need_in_words(need),
        "of_all": of_all,
        "daylight": set_card.said_once(match),
        "alike_to_some": "" if visit.settings.colour_vision else set_card.alike_to_some(cards),
        "misses": drawn_misses(bench, asked.here, asked.limits, misses[:most]),
        "more_misses": max(0, len(misses) - most),
        "looked_at": match.looked_at,
        "without": [] if cards or change else _dropped(visit, asked, len(need.roles)),
        "change": change and {"words": sentence(change.fix), "name": _new_name(asked, change)},
    }


def _same_with(visit: Visit, name: str) -> str:
    """This address without one of its parts, for another to be put behind it."""
    kept = [(n, one) for n, many in visit.queries.items() for one in many]
    query = urlencode([(n, one) for n, one in kept if n not in (name, "said")])
    return f"{visit.path}?{query}"


def _more(asked: PairsAsked, match: Match, found: int) -> int:
    """How many cards to show next; 0 where there are no more."""
    may_be = found > asked.cards or len(match.proposals) >= asked.top
    return asked.cards + CARDS if may_be else 0


def _new_name(asked: PairsAsked, change: _Change) -> str:
    from stash.rendering.almost import short_name

    return f"{asked.name}, {short_name(change.fix)}"


def _orders(
    visit: Visit, asked: PairsAsked, cards: Sequence[set_card.SetCard], change: _Change | None
) -> Mapping[str, str]:
    """Which open orders the first sets would leave short, by their keys."""
    takes = takes_of([card.proposal for card in cards])
    name = ("orders", asked.id, asked.limits.address(), change and change.key, tuple(takes))
    short = visit.workshop.kept(name, lambda: left_short_of_all(visit.book, takes, order_want))
    by_key = ((key, short_words(short.orders.all, {"": each})) for key, each in short.by.items())
    return {key: "; ".join(words) for key, words in by_key if words}


def _dropped(visit: Visit, asked: PairsAsked, roles: int) -> list[Mapping[str, str]]:
    """Where nothing fits: the limit that keeps most out, and what there is without it."""
    found: list[tuple[int, str]] = []
    for name in asked.limits.narrowing:
        rest = replace(asked, limits=asked.limits.but(name))
        try:
            found.append((len(_matched(visit, rest, None).match.proposals), name))
        except StashError:
            continue
    best = max(found, default=(0, ""), key=lambda one: one[0])
    if not best[0]:
        return []
    without = asked.limits.but(best[1])
    many = set_card.set_called(roles, best[0])
    most = f"{many} or more" if best[0] >= asked.top else many
    return [
        {
            "words": f"Without {hers(pair_limits.NAMES[best[1]])}: {most}",
            "address": f"{asked.here}?{without.address()}",
        }
    ]


def set_pair_aside(visit: Visit) -> Done:
    """Set the yarn of a set aside; asked first where nobody can tell its colours apart."""
    limits = PairLimits.written(visit.typed.get("limits", ""))
    design, key = visit.typed.get("design", ""), visit.typed.get("key", "")
    if not key:
        raise _which_of_alike(visit, NeedAsked(design=design), limits)
    return aside_done(visit, lambda: aside(visit.book, design, key, limits.wish(1)))


def _which_of_alike(visit: Visit, asked: NeedAsked, limits: PairLimits) -> Refusal:
    found = propose(visit.book, asked, limits.wish(_TOP)).match
    return which_of_alike(found.proposals, visit.typed.get("alike", ""))


def save_change(visit: Visit) -> Done:
    """Save a changed design: under a new name, or in the place of the one it was made from.

    Where a set of it was pressed, that is set aside in the same entry.
    """
    typed = visit.typed
    row = designs.her_designs(visit.book).row(typed.get("id", ""))
    limits = PairLimits.written(typed.get("limits", ""))
    change = (typed.get("fix", ""), typed.get("of", ""))
    asked = PairsAsked(row.id, row.name, limits, CARDS, "", *change)
    found = _change(visit, asked)
    if found is None or found.fix.made is None:
        raise Refusal("fix_gone")
    first = limits.address(first=found.key)
    if typed.get("how") == "change":
        designs.change_design(visit.book, row.name, found.fix.made)
        return Done(f"/pairs/{row.id}?{first}", (f"Changed the design {row.name}.",))
    made = replace(found.fix.made, name=design_name(typed.get("name", "")))
    if key := typed.get("set") or typed.get("key"):
        return _saved_and_aside(visit, row.name, made, (key, limits))
    if "alike" in typed:
        raise _which_of_alike(visit, NeedAsked(design=row.name, made=made), limits)
    designs.save_as(visit.book, row.name, made.name, made)
    new = designs.her_designs(visit.book).row(made.name)
    return Done(f"/pairs/{new.id}?{first}", (f"Saved the design {made.name}.",))


def _saved_and_aside(visit: Visit, name: str, made: Design, of: tuple[str, PairLimits]) -> Done:
    key, limits = of
    wish = limits.wish(1)
    done = aside_done(visit, lambda: save_and_aside(visit.book, name, made, key, wish))
    return replace(done, words=(f"Saved the design {made.name}.", *done.words))


SCREENS: Mapping[str, Callable[[Visit], Response]] = {"/pairs/{design:path}": pairs}
FORMS: Mapping[str, Callable[[Visit], Done]] = {
    "/pairs/aside": set_pair_aside,
    "/pairs/save": save_change,
}
