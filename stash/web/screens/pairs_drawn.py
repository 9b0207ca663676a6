"""The pictures of a page of pairs: each set as its piece, in colour and in grey; fixes likewise."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from markupsafe import Markup

from stash.rendering.almost import FixShown, fixes_shown, lacking
from stash.rendering.drawing.bars import BarShown, skein_bar
from stash.rendering.drawing.defs import page_defs
from stash.rendering.drawing.piece import PieceShown, piece, px_per_cm_for
from stash.rendering.drawing.swatch import Left, Shown, yarn_swatch
from stash.rendering.drawing.yarn_look import YarnLook, look_of
from stash.rendering.set_card import TIMES, SetCard, lots_by_colour, set_name
from stash.web.pages import markup
from stash.web.screens.pair_fixes import fix_link

if TYPE_CHECKING:
    from stash.actions.match import Answer
    from stash.matching.answer.fix import Fix
    from stash.matching.answer.proposal import NearMiss
    from stash.requirements.yarn.need import Need
    from stash.stock.yarn import Lot
    from stash.web.screens.pair_limits import PairLimits

#: Room for a piece on a card, for its grey one, for one that almost fits and on a button.
_CARD, _GREY, _ALMOST, _BUTTON = (152, 126), (98, 80), (96, 80), (54, 44)
_CHIP, _SWATCH = Shown(28, 20), Shown(52, 38)


@dataclass(frozen=True, slots=True)
class Bench:
    """A design to be drawn in several yarns, each picture with its own ids."""

    name: str
    need: Need
    folded_cm: float = 0.0

    def drawn(
        self, lots: Mapping[str, Lot], box: tuple[int, int], mark: str, **how: Any
    ) -> Markup | None:
        """The piece in these yarns, as large as a box has room; None where its rows are unknown."""
        return self.in_looks({role: look_of(lot) for role, lot in lots.items()}, box, mark, **how)

    def in_looks(
        self, looks: Mapping[str, YarnLook], box: tuple[int, int], mark: str, **how: Any
    ) -> Markup | None:
        """The same in looks that are no lot's."""
        if self.need.laid is None:
            return None
        scale = px_per_cm_for([self.need.laid], *box)
        shown = PieceShown(scale, again=mark, folded_cm=self.folded_cm, **how)
        return markup(piece(self.need.laid, looks, shown))


def bench_of(answer: Answer) -> Bench:
    """The design of an answer, to be drawn."""
    assert answer.design is not None
    return Bench(answer.design.design.name, answer.match.need, _folded(answer.design.design))


def _folded(design: Any) -> float:
    folded = design.folded
    return folded.um / 10_000 if folded else 0.0


def chip(lot: Lot, shown: Shown = _CHIP) -> Markup:
    """A small sample of a yarn, to stand beside its words."""
    return markup(yarn_swatch(look_of(lot), Left.CHIP, shown))


def defs_for(lots: Iterable[Lot]) -> Markup:
    """What the chips of these yarns refer to, once a page."""
    return markup(page_defs([look_of(lot) for lot in lots]))


def drawn_cards(
    answer: Answer, cards: Sequence[SetCard], orders: Mapping[str, str], swap: str
) -> list[Mapping[str, Any]]:
    """Each card with its pictures and what it does to orders; `swap` leads to its others."""
    bench = bench_of(answer)
    return [
        {
            "card": card,
            "number": number,
            "piece": bench.drawn(
                lots_by_colour(card.proposal), _CARD, f"c{number}", title=bench.name
            ),
            "grey": bench.drawn(lots_by_colour(card.proposal), _GREY, f"g{number}", grey=True),
            "roles": [_role(card, at) for at in range(len(card.roles))],
            "order": orders.get(card.key, ""),
            "swap": f"{swap}&as={_quoted(card.others[0].key)}#set-{number}" if card.others else "",
        }
        for number, card in enumerate(cards, start=1)
    ]


def _quoted(key: str) -> str:
    from urllib.parse import quote

    return quote(key)


def _role(card: SetCard, at: int) -> Mapping[str, Any]:
    role = card.roles[at]
    return {
        "role": role.role,
        "lot": role.lot.id,
        "words": role.words,
        "yarn": role.yarn,
        "chip": chip(role.lot),
        "bar": _bar(role.free_m, role.one_m),
    }


def _bar(free_m: float, one_m: float) -> Markup:
    """What is free, up to three times the need, with the mark of one need."""
    most = TIMES * one_m
    free = min(free_m, most)
    shown = BarShown(width=250, height=12, mark=one_m)
    return markup(skein_bar(free, 0.0, most - free, shown))


def drawn_misses(
    answer: Answer, here: str, limits: PairLimits, misses: Sequence[NearMiss]
) -> list[Mapping[str, Any]]:
    """Each near miss with what it lacks, and its fixes as buttons."""
    bench = bench_of(answer)
    found: list[Mapping[str, Any]] = []
    for at, miss in enumerate(misses):
        lots = {role: held.lot for role, held in reversed(miss.roles)}
        fixes = [
            _fix(answer, miss, shown, (f"f{at}-{number}", fix_link(here, limits, miss, shown.fix)))
            for number, shown in enumerate(fixes_shown(miss))
        ]
        found.append(
            {
                "name": set_name([held.lot for _, held in miss.roles]),
                "yarns": ", ".join(str(held.lot.yarn) for _, held in miss.roles),
                "lacking": lacking(miss),
                "piece": bench.drawn({r[0]: lot for r, lot in lots.items()}, _ALMOST, f"m{at}"),
                "fixes": fixes,
            }
        )
    return found


def _fix(answer: Answer, miss: NearMiss, shown: FixShown, at: tuple[str, str]) -> Mapping[str, Any]:
    mark, link = at
    return {
        "head": shown.head,
        "under": shown.under,
        "link": link,
        "picture": _picture(answer, miss, shown.fix, mark),
    }


def _picture(answer: Answer, miss: NearMiss, fix: Fix, mark: str) -> Markup | None:
    """The piece as it would be made, else the yarn that the fix is about."""
    assert answer.design is not None
    if fix.made is not None:
        lots = {**dict(miss.roles), **dict(fix.joining)}
        need = answer.design.known.need(fix.made)
        bench = Bench(fix.made.name, need, _folded(fix.made))
        return bench.drawn({role: held.lot for role, held in lots.items()}, _BUTTON, mark)
    lot = fix.facts.get("lot")
    return chip(lot, _SWATCH) if lot is not None else None
