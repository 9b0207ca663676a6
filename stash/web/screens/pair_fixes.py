"""Where the button of a fix leads: a changed design, changed limits, or another page."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING
from urllib.parse import urlencode

from stash.parsing.wish.typed import ROLES
from stash.web.screens.pair_limits import PairLimits

if TYPE_CHECKING:
    from stash.matching.answer.fix import Fix
    from stash.matching.answer.proposal import NearMiss

_COLOURS = (*(f"colour_{role}" for role in ROLES), "not_colour")
_OTHERS = ("contrast", "wash", "without", "owner", "not_in", "per_100g")
#: Which limits go with a fix.
_GONE: Mapping[str, tuple[str, ...]] = {
    "widen_fineness": ("per_100g",),
    "give_fineness": ("per_100g",),
    "name_other_colour": _COLOURS,
    "allow_fibre": ("without",),
    "choose_for_heat": ("wash",),
    "allow_owner_and_place": ("owner", "not_in"),
    "let_skein_in": ("owner", "not_in"),
    "allow_bleeding": ("no_bleeding",),
    "ask_for_less": (*_COLOURS, *_OTHERS),
    "ask_for_other_colour": _COLOURS,
}
#: What they are with a fix.
_CHANGED: Mapping[str, Callable[[Fix], Mapping[str, str]]] = {
    "lower_margin": lambda fix: {"margin": f"{100 * fix.facts['margin']:g}%"},
    "other_contrast": lambda fix: {"contrast": str(fix.facts["contrast"])},
    "any_contrast": lambda fix: {"contrast": "any"},
    "give_it_or_any_contrast": lambda fix: {"contrast": "any"},
    "give_colour_or_any_contrast": lambda fix: {"contrast": "any"},
    "wash_as_wool": lambda fix: {"wash": ""},
    "let_quarantined_in": lambda fix: {"also": "quarantined"},
    "remnants_too": lambda fix: {f"with_{fix.facts['role']}": fix.facts["lot"].ref},
    "second_lot": lambda fix: _two_lots(fix),
}


def _two_lots(fix: Fix) -> dict[str, str]:
    role, beside = fix.facts["role"], fix.facts["beside"]
    tied = {f"with_{role}": f"{beside.ref}/{fix.facts['lot'].ref}"} if beside else {}
    return {**tied, "two_lots": f"{role}={fix.facts['way']}"}


def miss_name(miss: NearMiss) -> str:
    """A near miss by its lots, A first: what an address names it by."""
    return "+".join(held.lot.ref for _, held in miss.roles)


def set_made(miss: NearMiss, fix: Fix) -> str:
    """The key of the set that a fix makes of a near miss."""
    lots = {**dict(miss.roles), **dict(fix.joining)}
    return "+".join(lots[role].lot.ref for role in sorted(lots))


def fix_link(here: str, limits: PairLimits, miss: NearMiss, fix: Fix, role: str = "") -> str:
    """Where to go for a fix: "" where there is nothing to press. `role`: the colour it is of."""
    if fix.kind == "name_another":
        other = limits.but(f"with_{fix.facts['role']}")
        return f"{here}?{other.address()}"
    if fix.made is not None:
        named = {"fix": fix.kind, "of": miss_name(miss)}
        return f"{here}?{limits.address(**named)}"
    if fix.kind in _CHANGED:
        more = dict(_CHANGED[fix.kind](fix))
        if fix.kind != "second_lot":  # its set has another name: both lots
            more["first"] = set_made(miss, fix)
        return f"{here}?{limits.address(**more)}"
    if fix.kind in _GONE:
        rest = limits.but(*_GONE[fix.kind])
        return f"{here}?{rest.address(first=set_made(miss, fix))}"
    return _elsewhere(miss, fix, role)


def _elsewhere(miss: NearMiss, fix: Fix, role: str) -> str:
    """A page where it can be done: yarn bought, released, measured, its facts filled in."""
    if fix.buys:
        of = fix.facts["lot"] if "lot" in fix.facts else fix.facts["fixes"][0].facts["lot"]
        like = next((s for _, held in miss.roles if held.lot == of for s in held.skeins), None)
        return f"/add?{urlencode({'like': like.number})}" if like else "/add"
    if fix.kind == "measure_skeins":
        return f"/skein/{fix.facts['skeins'][0]}"
    if fix.kind == "release_promised":
        return f"/lot/{fix.facts['lot'].id}"
    if fix.kind.startswith("give_") and miss.roles:
        if role in dict(miss.roles):
            return f"/lot/{dict(miss.roles)[role].lot.id}"
        facts = [blocker.facts for blocker in miss.blockers if "lot" in blocker.facts]
        return f"/lot/{facts[0]['lot'].id}" if facts else ""
    return "/settings" if fix.kind in ("widen_tolerance", "allow_steps") else ""
