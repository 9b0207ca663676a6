"""The fibre content of an item by the rules of the place where it is sold.

*eu*: Regulation (EU) No 1007/2011, items 7, 9 and 19(3): every fibre by its name and share,
largest first; shares are of mass at the agreed moisture, as those on the bands are. *uk*: the same,
kept in force there (guidance of trading standards, England, Scotland and Wales), with *nylon*, the
other lawful name. *us*: 16 CFR 303.3, 303.6, 303.14, 303.42 and 15 U.S.C. 70b(b): generic names,
fibres under 5 % together as "other fiber" unless they have a function. Headwear is outside those
rules; with wool in it, it is inside the wool rules (16 CFR part 300), which ask for the same and
name wool however little it is. Shares are of the grams that were used.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from enum import Enum, StrEnum
from fractions import Fraction

from stash.measures.mass import Mass
from stash.measures.rounding import shared_out
from stash.trade.fibres import fibre_named
from stash.trade.regain import Share


class Rules(StrEnum):
    """Whose rules a tag follows."""

    EU = "eu"
    UK = "uk"
    US = "us"


_EUROPEAN = {"merino wool": "wool", "possum": "animal hair", "vicuna": "vicuña"}
#: Names where they are not those of `fibres`. EU: Annex I, number 3 for a hair it does not name.
#: US: 16 CFR 303.7 and the Wool Act (from memory).
_NAMES: Mapping[Rules, Mapping[str, str]] = {
    Rules.EU: _EUROPEAN | {"nylon": "polyamide"},
    Rules.UK: _EUROPEAN | {"polyamide": "nylon"},
    Rules.US: {
        "merino wool": "wool", "possum": "fur fiber", "vicuna": "vicuna", "polyamide": "nylon",
        "viscose": "rayon", "modal": "rayon", "cupro": "rayon", "elastane": "spandex",
        "elastodiene": "rubber", "polyethylene": "olefin", "polypropylene": "olefin",
        "elastolefin": "lastol", "protein": "azlon", "polylactide": "PLA", "chlorofibre": "vinyon",
        "vinylal": "vinal", "metallised fibre": "metallic",
    },
}  # fmt: skip


class Group(Enum):
    """A line that names no fibre: several together, and what nobody knows."""

    OTHER = "other"
    UNKNOWN = "unknown"


#: What a line of a label names.
Named = str | Group
#: A fibre of less is no more than "other fiber" (16 CFR 303.3); at 5 % it is named (from memory).
_NAMED_FROM = Fraction(5, 100)
#: What the US wool rules count as wool, and name however little there is of it: fleece of sheep and
#: lamb, hair of the Angora and Cashmere goat, of camel, alpaca, llama and vicuna (15 U.S.C. 68(b),
#: as the Federal Trade Commission told makers of hats in 2014; mohair and cashmere may stand under
#: their own names, 16 CFR 300.19). Hair of other animals, such as angora rabbit and yak, is not in
#: that list and goes by the 5 %.
US_WOOL = ("wool", "mohair", "cashmere", "camel", "alpaca", "llama", "vicuna")
#: More "other fibres" than this may not be left without their names (Item 9(2)).
MOST_OTHER = Fraction(15, 100)


@dataclass(frozen=True, slots=True)
class Part:
    """So much of one yarn, and its blend; an empty one is not known."""

    mass: Mass
    blend: tuple[Share, ...]


@dataclass(frozen=True, slots=True)
class FibreLine:
    """One fibre of a label: its name there, its exact share, and what is printed, in tenths of %.

    `grouped` are the fibres that stand together under one name.
    """

    name: Named
    share: Fraction
    tenths: int
    grouped: tuple[Named, ...] = ()


@dataclass(frozen=True, slots=True)
class Content:
    """The fibre content, in the order of the label; the printed shares make exactly 100 %."""

    rules: Rules
    lines: tuple[FibreLine, ...]
    left_off: tuple[Named, ...]

    @property
    def unknown(self) -> Fraction:
        """The share of which no fibre is known."""
        return sum((x.share for x in self.lines if x.name is Group.UNKNOWN), Fraction(0))

    @property
    def other(self) -> FibreLine | None:
        """The fibres that stand together, where there are any."""
        return next((x for x in self.lines if x.name is Group.OTHER), None)

    @property
    def pure(self) -> bool:
        """Whether it is of one known fibre alone: only then "100 %", "pure" or "all"."""
        return len(self.lines) == 1 and not isinstance(self.lines[0].name, Group)


def content(parts: Sequence[Part], rules: Rules, functional: Collection[str] = ()) -> Content:
    """The label of an item of so much of each yarn.

    `functional` are fibres that do something at however small a share, such as spandex for stretch:
    the US names them. Whole percents by largest remainder; tenths where whole ones would make a
    fibre vanish, and what vanishes even then is left off and named in `left_off`.
    """
    weights = _weights(parts, rules)
    whole = sum(weights.values())
    if not whole:
        return Content(rules, (), ())
    shares = {name: Fraction(weight, whole) for name, weight in weights.items()}
    grouped = _grouped(shares, rules, {name_in(rules, word) for word in functional})
    last: Mapping[Named, int] = {Group.OTHER: 1, Group.UNKNOWN: 2}
    named = [name for name in shares if name not in grouped]
    if grouped:
        named.append(Group.OTHER)
        shares[Group.OTHER] = sum((shares[name] for name in grouped), Fraction(0))
    order = sorted(set(named), key=lambda name: (last.get(name, 0), -shares[name], str(name)))
    printed = to_a_hundred([shares[name] for name in order])
    lines = [
        FibreLine(name, shares[name], tenths, tuple(grouped) if name is Group.OTHER else ())
        for name, tenths in zip(order, printed, strict=True)
    ]
    return Content(
        rules,
        tuple(line for line in lines if line.tenths),
        tuple(line.name for line in lines if not line.tenths),
    )


def to_a_hundred(shares: Sequence[Fraction], *, tenths: bool = False) -> list[int]:
    """Shares of a whole as tenths of a percent that make exactly a thousand, by largest remainder.

    Whole percents, unless one of them were nothing or `tenths` are asked for. So printed, both
    worked examples of the Regulation come out as it prints them.
    """
    scaled = [round(share * 10**12) for share in shares]
    whole = [10 * part for part in shared_out(100, scaled)]
    return shared_out(1000, scaled) if tenths or not all(whole) else whole


def name_in(rules: Rules, fibre: str) -> Named:
    """What a fibre is called on a label of that place."""
    found = fibre_named(fibre)
    name = found.name if found else fibre.strip().lower()
    if name in ("other fibre", "other fiber"):
        return Group.OTHER
    return _NAMES[rules].get(name, name)


def _weights(parts: Sequence[Part], rules: Rules) -> dict[Named, int]:
    """Milligrams of each fibre by its name on the label, times ten thousand."""
    weights: dict[Named, int] = {}
    for part in parts:
        shares = [(name_in(rules, s.fibre), round(10_000 * s.part)) for s in part.blend]
        said = sum(share for _, share in shares)
        if said < 10_000:
            shares.append((Group.UNKNOWN, 10_000 - said))
        # a band that says a little more than a hundred is scaled down to it
        of = max(said, 10_000)
        for name, share in shares:
            mg = part.mass.mg * share * 10_000 // of
            weights[name] = weights.get(name, 0) + mg
    return {name: weight for name, weight in weights.items() if weight}


def _grouped(
    shares: Mapping[Named, Fraction], rules: Rules, functional: Collection[Named]
) -> list[Named]:
    """The fibres that stand together under "other": in the EU those only a band left unnamed."""
    named = (*US_WOOL, *functional, Group.UNKNOWN)
    small = rules is Rules.US
    found = (
        name
        for name, share in shares.items()
        if name is Group.OTHER or (small and share < _NAMED_FROM and name not in named)
    )
    return sorted(found, key=str)
