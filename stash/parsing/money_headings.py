"""Headings of prices: for the whole line, for a full skein, or open; and the currency they name."""

from __future__ import annotations

import re

from stash.measures.written import SIGNS
from stash.parsing.coins import CODE

#: The columns a price may stand in: of the whole line, of a full skein, and one that may be either
#: wherever it makes a difference.
LINE, EACH, OPEN = "paid", "price", "cost"

_EACH = frozenset(
    ("each", "ea", "per", "a", "unit", "single", "apiece", "individual", "skein", "ball", "hank",
     "cake", "cone", "piece", "one", "item", "pc", "full")
)  # fmt: skip
_SAYS_EACH = _EACH - {"a", "full"}
_LINE = frozenset(
    ("total", "totals", "line", "all", "paid", "spent", "sum", "overall", "altogether", "row",
     "subtotal", "extended", "whole", "amount", "pay", "bill")
)  # fmt: skip
_SAYS_LINE = _LINE - {"amount", "whole"}
_PRICE = frozenset(("price", "prices"))
_COST = frozenset(("cost", "costs", "value", "worth"))
#: Words that say no more beside these.
_BESIDE = frozenset(
    ("what", "how", "much", "did", "the", "of", "for", "i", "we", "was", "were", "is", "it", "in",
     "my", "this", "that", "purchase", "purchased", "buying", "bought", "yarn", "by", "me", "us",
     "has", "been", "to", "do", "does", "money", "order", "lot", "at", "incl", "inc", "including",
     "with", "tax", "vat", "gst")
)  # fmt: skip
_CURRENCY = re.compile(
    rf"(?<![A-Za-z])(?:{CODE})(?![A-Za-z])|(?<![a-z])(?:AU|CA|NZ|US|HK|A|C|S)?\$|[£€¥₹₩]"
    r"|(?<![a-z])(?:kr|euros?|pounds|dollars)(?![a-z])",
    re.IGNORECASE,
)


def price_meaning(heading: str) -> tuple[str, str] | None:
    """The column of a price and what a bare figure below it gets: `USD`, `each`, `€ each`.

    None where the heading is not one of prices.
    """
    found = _CURRENCY.search(heading)
    currency = found[0] if found else ""
    rest = heading.replace(currency, " ", 1) if found else heading
    words = frozenset(re.findall(r"[^\W\d_]+", rest.casefold()))
    column = _column(words, bool(found) and currency.lower() != "pounds")  # they may weigh
    if column is None:
        return None
    each = "each" if column == EACH and words & _SAYS_EACH else ""
    return column, " ".join(filter(None, [_sign(currency), each]))


def _sign(typed: str) -> str:
    """A currency of a heading as a price is read with it."""
    return typed.lower() if typed.lower() in SIGNS else typed.upper()


def _column(words: frozenset[str], with_currency: bool) -> str | None:
    of_money = words & (_PRICE | _COST | {"paid", "spent", "pay"})
    about = words - _BESIDE
    if about - (_EACH | _LINE | _PRICE | _COST):
        return None
    if not of_money and not (with_currency and (not about or about & (_SAYS_EACH | _SAYS_LINE))):
        return None if not _is_line_total(words) else LINE
    if words & _SAYS_EACH and not (words & {"total", "all", "line"}):
        return EACH
    if words & _SAYS_LINE:
        return LINE
    return EACH if words & _PRICE and not words & _COST else OPEN


def _is_line_total(words: frozenset[str]) -> bool:
    """`Line total`, `Row total`: of what else than money would a line have a total."""
    return bool(words & {"line", "row", "subtotal", "order", "purchase"}) and bool(
        words & {"total", "sum", "subtotal"}
    )
