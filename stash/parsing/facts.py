"""One fact of a yarn as it is typed by itself: colours, a class, a price."""

from __future__ import annotations

import re
from collections.abc import Iterable
from enum import Enum
from fractions import Fraction

from stash.errors import Unreadable
from stash.measures.colour import Colour
from stash.measures.money import Money
from stash.parsing import coins
from stash.stock.yarn import Condition
from stash.trade import thickness as trade
from stash.trade.colour_words import colour_of
from stash.trade.fibres import fibre_named, odd_sum

_STRAIGHT = str.maketrans({"’": "'", "‘": "'", "“": '"', "”": '"'})

#: What people put where they do not know (common practice, no source).
NOT_KNOWN = frozenset({"-", "–", "—", "?", "??", "n/a", "na", "unknown", "not known"})
_ALL = re.compile(
    r"\s*\b(?:total|in all|in total|altogether|for all|for the lot|all in|for the line)\s*$", re.I
)
_EACH = re.compile(r"\s*(?:/|\bper\b|\ba\b)?\s*\b(?:each|ea|skein|ball)\b\.?\s*$", re.IGNORECASE)


class Of(Enum):
    """What a price is of."""

    EACH = "each"
    LINE = "line"


def words(text: str) -> str:
    """Words with single spaces and straight quotation marks, so that like names are alike."""
    return " ".join(text.translate(_STRAIGHT).split())


def hexes(text: str) -> tuple[Colour, ...]:
    """Colours as hex values, several with slashes: `#aabbcc/#ddeeff`."""
    values = [part.removeprefix("#").lower() for part in re.split(r"[/,;\s]+", text) if part]
    if not values or not all(re.fullmatch(r"[0-9a-f]{6}", value) for value in values):
        raise Unreadable(text, "no_colour_value")
    return tuple(Colour(f"#{value}") for value in values)


def named_colour(text: str) -> tuple[Colour, ...]:
    """Screen colours for colour words, in their order; none where no word is known."""
    return colour_of(text)


def fibre(text: str) -> str:
    """A blend, refused where its shares do not come to the whole."""
    percent = odd_sum(text)
    if percent is not None:
        raise Unreadable(text, "blend_not_whole", percent=percent)
    return words(text)


def known_fibre(text: str) -> bool:
    """Whether a word names a fibre."""
    return fibre_named(text) is not None


def thickness(text: str) -> tuple[int, int]:
    """The thickness class from and to: `4`, `DK`, `3-4`, and as it is shown: `DK (3)`."""
    found = trade.named(text) or _name_and_number(text)
    if found is None:
        raise Unreadable(text, "no_thickness_thickness")
    return found


def _name_and_number(text: str) -> tuple[int, int] | None:
    """A name with its number in brackets, where the two agree."""
    both = re.fullmatch(r"\s*(\D+?)\s*(\([^()]*\))\s*", text)
    name, number = (trade.named(both[1]), trade.named(both[2])) if both else (None, None)
    return name if name == number else None


def paid(text: str, currency: str, skeins: Fraction) -> Money:
    """What was paid for a line of so many full skeins: as it stands, or `each` for one of them."""
    bare = without_each(text)
    money = coins.typed(bare, currency)
    return money if bare == text else Money(round(money.coins * skeins))


def price_said(text: str, currency: str) -> tuple[Money, Of | None]:
    """A price, and what it says it is of; None where it leaves that to its heading."""
    bare = without_share(text)
    each, whole = without_each(text) != text, _ALL.sub("", text) != text
    return coins.money(bare, currency), Of.EACH if each else Of.LINE if whole else None


def without_share(price: str) -> str:
    """A price without the words that say what it is of."""
    return _ALL.sub("", without_each(price))


def without_each(price: str) -> str:
    """A price without the word that says it is for each skein."""
    return _EACH.sub("", price)


#: The plain words a colour may be looked for by.
FAMILIES = (
    *("red", "orange", "yellow", "green", "blue", "purple", "pink", "brown"),
    *("grey", "black", "white"),
)


def family(text: str) -> str:
    """A family of colours by its plain word."""
    plain = text.strip().lower().replace("gray", "grey")
    if plain not in FAMILIES:
        raise Unreadable(text, "no_colour_family", choices=FAMILIES)
    return plain


def conditions(texts: Iterable[str]) -> tuple[Condition, ...]:
    """Conditions by their words; `none` is no condition at all."""
    found = []
    for text in texts:
        plain = text.strip().lower()
        if plain == "none":
            continue
        if plain not in set(Condition):
            raise Unreadable(text, "no_condition", choices=tuple(Condition))
        found.append(Condition(plain))
    return tuple(dict.fromkeys(found))
