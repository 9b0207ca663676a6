"""What a column holds by its cells, where its heading may mean more than one thing."""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence
from contextlib import suppress

from stash.errors import BadInput
from stash.exchange import cells
from stash.measures.mass import Mass
from stash.parsing import coins, facts, headings, quantities
from stash.parsing.headings import Meaning

#: So many cells from the top decide.
LOOKED_AT = 200
#: A bare figure up to here below "amount" counts skeins; grams are seldom so few (our choice).
_MOST_BARE_SKEINS = 20
_TWO_DIGITS = re.compile(r"[0-9][0-9 ',.]*[.,][0-9]{2}")


def meaning(heading: str, texts: Sequence[str], others: Collection[str]) -> Meaning | None:
    """The column such cells are for, if they plainly say; `others` are the columns there are."""
    filled = [text for text in texts[:LOOKED_AT] if text]
    if headings.plain(heading) in headings.WEIGHT:
        kinds = {_mass_or_thickness(text) for text in filled} - {""}
    else:
        summed = "total" in heading.casefold()
        kinds = {_amount(text, summed) for text in filled}
        kinds -= {"count"} if summed and "paid" in kinds else set()  # whole money among other money
    if len(kinds) != 1:
        return None
    kind = kinds.pop()
    if kind in ("mass", "length") and headings.plain(heading) not in headings.WEIGHT:
        kind = _yarn_there_is(heading, kind, others)
    if kind == "count" and "total" in heading.casefold():
        kind = "paid" if {"price", "cost"} & set(others) else ""
    if not kind or (kind == "count" and kind in others):
        return None
    return Meaning(kind)


def _yarn_there_is(heading: str, kind: str, others: Collection[str]) -> str:
    """`Amount 50 g` is what is left where a column says what a full skein holds, else all of it."""
    full = {"full", "mass", "length"} & set(others)
    return "left" if full and "total" not in heading.casefold() else f"total_{kind}"


def _mass_or_thickness(text: str) -> str:
    with suppress(BadInput):
        return "mass" if isinstance(quantities.amount(text), Mass) else ""
    with suppress(BadInput):
        facts.thickness(text)
        return "" if text.isdigit() else "thickness"
    return ""


def _amount(text: str, summed: bool) -> str:
    """Money by sign, a sum also by two digits; yarn by its unit, skeins by word or a low figure."""
    price = facts.without_share(text)
    with suppress(BadInput):
        if coins.currencies_of(price) or (summed and _TWO_DIGITS.fullmatch(price)):
            return "paid"
    with suppress(BadInput):
        count: int = cells.count(text)
        return "count" if not text.isdigit() or count <= _MOST_BARE_SKEINS else ""
    with suppress(BadInput):
        if not cells.is_bare(text):
            return "mass" if isinstance(quantities.amount(text), Mass) else "length"
    return ""
