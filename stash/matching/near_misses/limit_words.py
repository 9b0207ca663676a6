"""Her limits in words: why a lot is out of a role by them, and the change that would let it in."""

from __future__ import annotations

from collections.abc import Callable

from stash.matching.lots.lot_view import Seen, known_put_up
from stash.matching.question.wish import Wash
from stash.matching.rules.blockers import Trouble
from stash.matching.rules.fits import Asked
from stash.trade.fibres import content


def _fineness(seen: Seen, ask: Asked) -> str:
    put_up = known_put_up(seen.lot)
    low, high = ask.wish.limits.fineness[ask.role.role]
    has = f"{put_up.m_per_100g:.0f}" if put_up else "no"
    return f"has {has} m to 100 g, outside {low:.0f} to {high:.0f}"


def _fibre(seen: Seen, ask: Asked) -> str:
    fibres = content(seen.lot.lot.fibre).fibres
    return f"has {next(f.name for f in fibres if f.name in ask.wish.limits.without)} in it"


def _no_fibre(seen: Seen, ask: Asked) -> str:
    blend = seen.lot.lot.fibre
    return f"has a blend that is not all known ({blend})" if blend else "has no known fibre"


def _heat(seen: Seen, ask: Asked) -> str:
    lot = seen.lot.lot
    told = " and ".join(part for part in (lot.fibre, lot.care) if part)
    return f"is not one for a hot wash ({told})"


def _colour(seen: Seen, ask: Asked) -> str:
    limits, role = ask.wish.limits, ask.role.role
    wanted = " or ".join(named.word for named in limits.wanted.get(role, ()))
    unwanted = " nor ".join(named.word for named in limits.unwanted.get(role, ()))
    asked = [f"{wanted} is asked for"] if wanted else []
    asked += [f"not {unwanted}"] if unwanted else []
    return f"is {seen.lot.lot.colour_words}, and {', '.join(asked)}"


def _barred(seen: Seen, ask: Asked) -> str:
    barred = ask.wish.limits.barred
    whys = dict.fromkeys(barred[skein.number] for skein in seen.lot.skeins)
    return " and ".join(whys)


#: What is wrong with the lot, by its trouble.
WHY: dict[Trouble, Callable[[Seen, Asked], str]] = {
    Trouble.QUARANTINED: lambda seen, ask: "is quarantined",
    Trouble.NO_FINENESS: lambda seen, ask: "has no metres per 100 g to hold against those asked",
    Trouble.WRONG_FINENESS: _fineness,
    Trouble.NO_FIBRE: _no_fibre,
    Trouble.WRONG_FIBRE: _fibre,
    Trouble.NOT_FOR_HEAT: _heat,
    Trouble.WRONG_COLOUR: _colour,
    Trouble.BARRED: _barred,
}

#: What would let it in.
WAYS = {
    Trouble.QUARANTINED: "ask for it with --also quarantined, or say it is fit: "
    "`stash change` with --condition none",
    Trouble.NO_FINENESS: "give the band or measure a metre, or ask without --fineness",
    Trouble.WRONG_FINENESS: "allow a wider --fineness, or choose another lot",
    Trouble.NO_FIBRE: "read the band and give its --fibre with `stash change`",
    Trouble.WRONG_FIBRE: "choose another lot, or ask without --without",
    Trouble.NOT_FOR_HEAT: "choose another lot; check the band and your local rules",
    Trouble.WRONG_COLOUR: "name another colour, or choose another lot",
    Trouble.BARRED: "ask without --owner or --not-in, or choose another lot",
}

#: What each limit keeps out, said of several lots at once.
KEPT_OUT = {
    Trouble.WRONG_FINENESS: "too thick or too thin by --fineness",
    Trouble.WRONG_COLOUR: "not of the colour",
    Trouble.WRONG_FIBRE: "kept out by --without",
    Trouble.NOT_FOR_HEAT: "not for a hot wash",
    Trouble.BARRED: "kept out by --owner or --not-in",
}

#: Two lots of which one felts: why they are kept apart, and the way out.
WASHED_APART = (
    "one may felt in a wash that the other bears",
    f"wash both as wool, and ask with --wash {Wash.ANY}",
)
