"""The limits of a page of pairs: what its address says, as the options of `stash match`."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING
from urllib.parse import parse_qsl, urlencode

from stash.parsing.facts import FAMILIES
from stash.parsing.wish.typed import ROLES, WishWords
from stash.parsing.wish.wish import wish

if TYPE_CHECKING:
    from stash.matching.question.wish import Wish

#: What a field of the form is called where a limit is named: `without Contrast`.
NAMES = {
    "contrast": "contrast",
    **{f"colour_{role}": f"the colour of {role}" for role in ROLES},
    **{f"with_{role}": f"the yarn of {role}" for role in ROLES},
    "not_colour": "the colours left out",
    "wash": "the wash",
    "no_bleeding": "what may bleed",
    "without": "the fibres left out",
    "per_100g": "the length per 100 g",
    "not_in": "the places left out",
    "owner": "the owner",
    "margin": "the margin",
}
#: What is asked beside them, and narrows nothing.
_ALSO = ("also", "assume", "two_lots")
#: The contrasts as they are chosen, each by what it asks for.
CONTRASTS = {
    "any": "any",
    "bold": "bold",
    "clear": "clear or bold",
    "soft": "soft",
    "tonal": "tonal",
}
WASHES = {"": "any way", "together": "together", "hot": "hot"}
COLOURS = [(word, word) for word in FAMILIES]
#: A skein as the page calls it.
SKEIN = re.compile(r"(?:no\.?|skein)\s*(?=[0-9])", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class PairLimits:
    """What was chosen, by the names of the fields; nothing of a field that is empty."""

    chosen: Mapping[str, str]

    @classmethod
    def of(cls, query: Mapping[str, str]) -> PairLimits:
        """Those of an address."""
        named = {name: query.get(name, "").strip() for name in (*NAMES, *_ALSO)}
        return cls({name: value for name, value in named.items() if value})

    @classmethod
    def written(cls, text: str) -> PairLimits:
        """The same of `address()`."""
        return cls.of(dict(parse_qsl(text)))

    def address(self, **more: str) -> str:
        """As the query of an address, with some of it otherwise; what is empty is left out."""
        every = {**self.chosen, **more}
        return urlencode({name: value for name, value in every.items() if value})

    def but(self, *names: str) -> PairLimits:
        """Without some of them."""
        return PairLimits({n: value for n, value in self.chosen.items() if n not in names})

    @property
    def narrowing(self) -> list[str]:
        """The names of those that may keep yarn out."""
        return [name for name in NAMES if name in self.chosen]

    def wish(self, top: int | None) -> Wish:
        """As one wish for so many sets."""
        return replace(wish(self.words), top=top)

    @property
    def words(self) -> WishWords:
        """As they would be typed."""
        one = self.chosen.get
        return WishWords(
            margin=one("margin", ""),
            contrast=one("contrast", ""),
            fix=tuple(self._by_role("with_")),
            colours=tuple(self._by_role("colour_")),
            not_colours=tuple(self._listed("not_colour")),
            fineness=one("per_100g", ""),
            without=tuple(self._listed("without")),
            wash=one("wash", ""),
            no_bleeding="no_bleeding" in self.chosen,
            owner=one("owner", ""),
            not_in=tuple(self._listed("not_in")),
            also=tuple(self._listed("also")),
            assume="assume" in self.chosen,
            two_lots=tuple(self._listed("two_lots")),
        )

    def _by_role(self, start: str) -> Iterator[str]:
        for role in ROLES:
            if value := self.chosen.get(f"{start}{role}"):
                yield f"{role}={SKEIN.sub('', value)}"

    def _listed(self, name: str) -> list[str]:
        return [one.strip() for one in self.chosen.get(name, "").split(",") if one.strip()]
