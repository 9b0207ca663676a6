"""The pictures of a page of pairs: each set as its piece, in colour and in grey; fixes likewise."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

from markupsafe import Markup

from stash.rendering.almost import FixShown, fixes_shown, lacking
from stash.rendering.set_card import TIMES, RoleOnCard, SetCard, lots_by_colour, set_name
from stash.web.drawn import Drawings
from stash.web.screens.pair_fixes import fix_link

if TYPE_CHECKING:
    from stash.actions.designs import Kept
    from stash.actions.match import Answer
    from stash.matching.answer.fix import Fix
    from stash.matching.answer.proposal import NearMiss
    from stash.stock.yarn import Lot
    from stash.web.screens.pair_limits import PairLimits

#: Room for a piece on a card, for its grey one, for one that almost fits and on a button.
_CARD, _GREY, _ALMOST, _BUTTON = (152, 126), (98, 80), (96, 80), (54, 44)
_CHIP, _SWATCH = (28, 20), (52, 38)
_BAR = 250


@dataclass(frozen=True, slots=True)
class Bench:
    """A design to be drawn in several yarns."""

    kept: Kept
    drawings: Drawings

    def drawn(self, lots: Mapping[str, Lot], box: tuple[int, int], **how: Any) -> Markup:
        """The piece in these yarns, as large as a box has room; nothing where it has no rows."""
        laid = self.kept.need.laid
        return self.drawings.piece(laid, lots, self.drawings.together([laid], *box), **how)


def bench_of(answer: Answer, drawings: Drawings) -> Bench:
    """The design of an answer, to be drawn."""
    assert answer.design is not None
    return Bench(answer.design, drawings)


def drawn_cards(
    bench: Bench, cards: Sequence[SetCard], orders: Mapping[str, str], swap: str
) -> list[Mapping[str, Any]]:
    """Each card with its pictures and what it does to orders; `swap` leads to its others."""
    return [
        {
            "card": card,
            "number": number,
            "piece": bench.drawn(
                lots_by_colour(card.proposal), _CARD, title=bench.kept.design.name
            ),
            "grey": bench.drawn(lots_by_colour(card.proposal), _GREY, grey=True),
            "roles": [_role(role, bench.drawings) for role in card.roles],
            "grey_chips": []
            if bench.kept.need.laid
            else [bench.drawings.chip(role.lot, grey=True, size=_CHIP) for role in card.roles],
            "order": orders.get(card.key, ""),
            "swap": f"{swap}&as={quote(card.others[0].key)}#set-{number}" if card.others else "",
        }
        for number, card in enumerate(cards, start=1)
    ]


def _role(role: RoleOnCard, drawings: Drawings) -> Mapping[str, Any]:
    """What is free goes up to three times the need, with the mark of one need."""
    most = TIMES * role.one_m
    free = min(role.free_m, most)
    return {
        "role": role.role,
        "lot": role.lot.id,
        "words": role.words,
        "yarn": role.yarn,
        "chip": drawings.chip(role.lot, size=_CHIP),
        "bar": drawings.bar(free, 0.0, most - free, _BAR, mark=role.one_m),
    }


def drawn_misses(
    bench: Bench, here: str, limits: PairLimits, misses: Sequence[NearMiss]
) -> list[Mapping[str, Any]]:
    """Each near miss with what it lacks, and its fixes as buttons."""
    return [
        {
            "name": set_name([held.lot for _, held in miss.roles]),
            "yarns": ", ".join(dict.fromkeys(str(held.lot.yarn) for _, held in miss.roles)),
            "lacking": lacking(miss),
            "piece": bench.drawn(
                {role[0]: held.lot for role, held in reversed(miss.roles)}, _ALMOST
            ),
            "fixes": [
                _fix(bench, miss, shown, partial(fix_link, here, limits, miss))
                for shown in fixes_shown(miss)
            ],
        }
        for miss in misses
    ]


def _fix(
    bench: Bench, miss: NearMiss, shown: FixShown, link: Callable[..., str]
) -> Mapping[str, Any]:
    """A button; of a fix that takes several steps each step, with a link for each way to do it."""
    steps = [
        {"role": role, "ways": [(way, link(way.fix, role)) for way in ways]}
        for role, ways in shown.steps
    ]
    return {
        "head": shown.head,
        "under": shown.under,
        "steps": steps,
        "link": "" if steps else link(shown.fix),
        "picture": "" if steps else _picture(bench, miss, shown.fix),
    }


def _picture(bench: Bench, miss: NearMiss, fix: Fix) -> Markup:
    """The piece as it would be made, else the yarn that the fix is about."""
    if fix.made is not None:
        lots = {role: held.lot for role, held in (*miss.roles, *fix.joining)}
        laid = bench.kept.known.need(fix.made).laid
        scale = bench.drawings.together([bench.kept.need.laid, laid], *_BUTTON)
        return bench.drawings.piece(laid, lots, scale)
    lot = fix.facts.get("lot")
    return Markup() if lot is None else bench.drawings.chip(lot, size=_SWATCH)
