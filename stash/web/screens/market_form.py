"""The form of a plan for a market: her designs, with what is known of each, and all the limits."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from stash.actions.batch_choices import batch_choices
from stash.parsing.facts import FAMILIES
from stash.rendering.batch_prices import price_typed
from stash.rendering.designs import size_words
from stash.rendering.her_words import hers
from stash.rendering.work import hours_number
from stash.web.drawn import Drawings
from stash.web.screens import market_asked
from stash.web.screens.designs_drawn import drawn_in, ideas_of
from stash.web.screens.pair_limits import CONTRASTS, WASHES

if TYPE_CHECKING:
    from stash.actions.batch_choices import Choice
    from stash.web.screens.market_asked import MarketAsked
    from stash.web.visit import Visit

#: The room of a design in the form, in pixels.
_ROOM = (76, 60)
#: So many designs are ticked to start from, and so many of each wanted at most.
_FIRST, _EACH = 3, "3"


def choices(visit: Visit) -> list[Choice]:
    """Every design there is to make."""
    return visit.workshop.kept("batch choices", lambda: batch_choices(visit.book))


def suggested(visit: Visit, known: Sequence[Choice]) -> list[int]:
    """Three designs to start from: those with a price first, then what the shelf allows."""
    priced = [one.kept.id for one in known if one.price is not None]
    if len(priced) >= _FIRST or not known:
        return priced[:_FIRST]
    found = ideas_of(visit).found
    able = {one.question.name: at for at, one in enumerate(found.designs) if one.best}
    last = len(able)
    turn = sorted(
        known,
        key=lambda one: (
            one.price is None,
            one.kept.design.name not in able,
            able.get(one.kept.design.name, last),
        ),
    )
    return [one.kept.id for one in turn[:_FIRST]]


def values(
    visit: Visit, asked: MarketAsked, known: Sequence[Choice], best: Sequence[int]
) -> Mapping[str, Any]:
    """What the form shows: what was chosen, else what is usual."""
    drawings = Drawings()
    scale = drawings.mostly_together([one.kept.need.laid for one in known], *_ROOM)
    wants = [_want(asked, one, ticked=one.kept.id in best) for one in known]
    for want, one in zip(wants, known, strict=True):
        own = min(scale, drawings.together([one.kept.need.laid], *_ROOM))
        want["piece"] = drawn_in(visit, one.kept).piece(one.kept.need, own, drawings)
    turn = {number: at for at, number in enumerate(best)}
    wants.sort(key=lambda one: (not one["ticked"], turn.get(one["id"], len(turn))))
    return {
        "drawings": drawings,
        "wants": wants,
        "suggested": len(best),
        "asked": asked,
        "aims": market_asked.AIMS,
        "mixes": market_asked.MIXES,
        "families": [(word, hers(word)) for word in FAMILIES],
        "contrasts": CONTRASTS,
        "washes": WASHES,
        "more_open": any(asked.get(name) for name in _more(asked)),
    }


def _more(asked: MarketAsked) -> list[str]:
    """The names of what is chosen beyond the usual few."""
    few = ("want-", "at_least-", "at_most-", "price-", "hours-")
    of_designs = tuple(f"{key}-" for key in market_asked.WANT_MORE)
    usual = ("date", "hours", "aim", "no_orders")
    return [n for n in asked.chosen if n not in usual and not n.startswith((*few, *of_designs))]


def _want(asked: MarketAsked, one: Choice, *, ticked: bool) -> dict[str, Any]:
    number, chosen = one.kept.id, asked.wants(one.kept.id)
    currency = one.kept.settings.currency
    price = "" if one.price is None else price_typed(one.price, currency)
    typed = {
        key: asked.get(f"{key}-{number}") for key in (*market_asked.WANT, *market_asked.WANT_MORE)
    }
    if not chosen:
        typed |= {"price": price, "at_most": _EACH if ticked else ""}
    return {
        "id": number,
        "name": one.kept.design.name,
        "size": size_words(one.kept.design),
        "ticked": chosen or ticked,
        "typed": typed,
        "usual": {
            "at_least": "0",
            "at_most": "any",
            "price": "",
            "hours": "" if one.hours is None else hours_number(round(60 * one.hours)),
        },
        "few": market_asked.WANT,
        "more": market_asked.WANT_MORE,
        "open": any(typed[key] for key in market_asked.WANT_MORE),
    }
