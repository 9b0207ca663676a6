"""Facts of yarn as they are typed, at a terminal or into the fields of a page, for the actions."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.errors import BadInput

if TYPE_CHECKING:
    from stash.actions.change import Changes
    from stash.actions.use import YarnPrice


@dataclass(frozen=True, slots=True)
class ChangeWords:
    """What was typed of each fact; None, or nothing, leaves it as it is."""

    place: str | None = None
    owner: str | None = None
    name: str | None = None
    maker: str | None = None
    lot: str = ""
    colour: str | None = None
    colour_no: str | None = None
    hexes: str = ""
    thickness: str = ""
    fibre: str | None = None
    dyed: str | None = None
    surface: str | None = None
    put_up: str = ""
    left: str = ""
    tare: str = ""
    note: str | None = None
    condition: tuple[str, ...] = ()
    daylight: bool | None = None
    bought: str = ""
    paid: str = ""
    postage: str = ""
    care: str | None = None
    asked: str = ""
    hours: str = ""
    order: str = ""


def yarn_changes(words: ChangeWords, currency: str) -> Changes:
    """The facts of yarn that were typed."""
    from stash.actions import clock
    from stash.actions.change import Changes
    from stash.actions.use import Amount
    from stash.parsing import coins, days, facts, quantities
    from stash.parsing.label import lots, strand_words

    said = lots.lot(words.lot) if words.lot else None
    (paid, postage), currency = coins.typed_together([words.paid, words.postage], currency)
    return Changes(
        place=words.place,
        owner=words.owner,
        tare=quantities.mass(words.tare) if words.tare else None,
        note=words.note,
        lot=(said.text, said.state) if said else None,
        colour=words.colour,
        colours=facts.hexes(words.hexes) if words.hexes else None,
        thickness=facts.thickness(words.thickness) if words.thickness else None,
        fibre=facts.fibre(words.fibre) if words.fibre else words.fibre,
        dyed=None if words.dyed is None else strand_words.dyed(words.dyed) or "",
        surface=None if words.surface is None else strand_words.surface(words.surface) or "",
        put_up=quantities.put_up(words.put_up) if words.put_up else None,
        conditions=facts.conditions(words.condition) if words.condition else None,
        daylight=words.daylight,
        bought=days.day(words.bought, clock.today()) if words.bought else None,
        paid=paid,
        postage=postage,
        care=words.care,
        name=words.name,
        maker=words.maker,
        colour_no=words.colour_no,
        left=Amount(words.left, quantities.amount(words.left)) if words.left else None,
        currency=currency if words.paid or words.postage else "",
    )


def yarn_price(price: str, fee: str, currency: str) -> YarnPrice | None:
    """What yarn was sold for, as typed; None where nothing was."""
    from stash.actions.use import YarnPrice
    from stash.parsing.coins import typed_together

    if fee and not price:
        raise BadInput("fee_without_price")
    if not price:
        return None
    (paid, kept), currency = typed_together([price, fee], currency)
    assert paid is not None
    return YarnPrice(paid, kept or paid * 0, currency)
