"""What is asked of a plan for a market: the fields of its form, as an address bears them.

They are read by what reads a plan of the command: each field is one of its keys.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from urllib.parse import parse_qsl, urlencode

from stash.parsing.batch.lines import Line, PlanLines
from stash.parsing.facts import FAMILIES
from stash.web.screens.pair_limits import SKEIN, PairLimits

#: The fields of a design, the usual few first, and what each is called.
WANT = {"at_least": "at least", "at_most": "at most", "price": "price", "hours": "hours each"}
WANT_MORE = {
    "size": "size",
    "different": "different sets of yarn",
    "colour": "colours wanted",
    "not_colour": "colours left out",
    "contrast": "contrast",
    "brim": "brim",
    "band": "band",
}
#: Those of the plan as a whole.
LIMITS = {
    "date": "market day",
    "hours": "hours there are",
    "hours_a_week": "hours a week",
    "different": "different sets of yarn",
    "per_pair": "most in the same yarns",
    "per_colour": "most of one colour",
    "hold_back": "share of each lot to hold back",
    "keep_out": "yarn kept out",
}
#: What a plan can aim at, as the command's words and as a maker's.
AIMS = {
    "value": "bring in most",
    "profit": "leave most profit",
    "items": "make most items",
    "leftovers": "use up part balls",
    "buying": "leave least to buy",
}
#: So many colours can have a number of their own.
MIXES = ("1", "2")
_MIX = {"family": "colour", "at_least": "at least", "at_most": "at most"}
_OF_ALL = ("aim", "then", "no_orders")
_YARN = (
    *("contrast", "not_colour", "wash", "without", "not_in", "owner", "margin", "per_100g"),
    *("no_bleeding", "also", "assume"),
)
COLOURS = tuple(FAMILIES)


@dataclass(frozen=True, slots=True)
class MarketAsked:
    """What was chosen, by the names of the fields; nothing of a field that is empty.

    A field of a design ends in its number in the file, and counts where `want-3` is ticked.
    """

    chosen: Mapping[str, str]

    @classmethod
    def of(cls, query: Mapping[str, str], designs: Collection[int]) -> MarketAsked:
        """Those of an address, of designs there are."""
        names = [*LIMITS, *_OF_ALL, *(f"yarn_{name}" for name in _YARN)]
        names += [f"mix_{key}-{at}" for at in MIXES for key in _MIX]
        for design in designs:
            if query.get(f"want-{design}"):
                names += [f"{key}-{design}" for key in ("want", *WANT, *WANT_MORE)]
        typed = {name: query.get(name, "").strip() for name in names}
        return cls({name: value for name, value in typed.items() if value})

    @classmethod
    def written(cls, text: str, designs: Collection[int]) -> MarketAsked:
        """The same of `address()`."""
        return cls.of(dict(parse_qsl(text)), designs)

    def address(self) -> str:
        """As the query of an address."""
        return urlencode(self.chosen)

    def get(self, name: str) -> str:
        """What stands in a field."""
        return self.chosen.get(name, "")

    def wants(self, design: int) -> bool:
        """Whether a design is ticked."""
        return bool(self.get(f"want-{design}"))

    @property
    def aim(self) -> str:
        """The aims in their order, as the command reads them."""
        first, then = self.get("aim"), self.get("then")
        if then and not first:  # what is aimed at where nothing is said, said
            first = "value" if any(name.startswith("price-") for name in self.chosen) else "items"
        return ", ".join(dict.fromkeys(filter(None, (first, then))))

    def lines(self, designs: Mapping[int, str]) -> PlanLines:
        """The plan as it would be written, by the names of designs."""
        return PlanLines(
            "",
            tuple(
                self._want(number, name) for number, name in designs.items() if self.wants(number)
            ),
            tuple(self._mixes()),
            Line(self._limits(), dict(LIMITS)),
        )

    def _want(self, number: int, name: str) -> Line:
        typed = {key: self.get(f"{key}-{number}") for key in (*WANT, *WANT_MORE)}
        return _line(name, {"design": name, **typed}, {**WANT, **WANT_MORE})

    def _mixes(self) -> Iterator[Line]:
        for at in MIXES:
            typed = {key: self.get(f"mix_{key}-{at}") for key in _MIX}
            if any(typed.values()):
                yield _line(typed["family"] or "mix", typed, _MIX)

    def _limits(self) -> dict[str, str]:
        typed = {key: self.get(key) for key in LIMITS}
        typed["keep_out"] = SKEIN.sub("", typed["keep_out"])
        return {key: text for key, text in typed.items() if text}

    @property
    def yarn(self) -> PairLimits:
        """What is asked of all the yarn alike."""
        return PairLimits.of({name: self.get(f"yarn_{name}") for name in _YARN})


def _line(name: str, typed: Mapping[str, str], called: Mapping[str, str]) -> Line:
    """A line whose places are what stands over its fields."""
    filled = {key: text for key, text in typed.items() if text}
    return Line(filled, {"": name, **{key: f"{name}, {words}" for key, words in called.items()}})
