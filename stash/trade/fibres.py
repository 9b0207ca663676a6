"""Fibres by their lawful names, with the regain agreed for trade and the words makers use.

Numbers and allowances: Regulation (EU) No 1007/2011, Annex I and Annex IX, in percent of the
anhydrous mass. Abbreviations, breeds and trade words are common practice, no source.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, lru_cache
from math import fsum


@dataclass(frozen=True, slots=True)
class Fibre:
    """One fibre: its name on a label, its Annex number, and the regain agreed for it.

    `regain` is used where nothing more is known (carded wool, plain cotton, cut nylon);
    `other_regain` is the second printed value (combed, mercerised, filament), where there is one.
    `animal`: of wool or hair, so it may felt unless treated. `words`: what makers write for it.
    """

    name: str
    number: int
    regain: float
    other_regain: float | None = None
    animal: bool = False
    words: tuple[str, ...] = ()


def _hair(name: str, *words: str, number: int = 2) -> Fibre:
    """Wool and hair of Annex numbers 1-3: 17 % carded or not known, 18.25 % combed."""
    return Fibre(name, number, 17.00, 18.25, animal=True, words=words)


FIBRES = (
    _hair("wool", "wl", "wo", "wool", "virgin wool", "new wool", "shetland", "lambswool",
          "lamb's wool",
          "lambs wool", "laine", "laine vierge", "wolle", "schurwolle", "lana", "lana vergine",
          "lana virgen", "wol", "scheerwol", "ull", "ullgarn", "uld", "bfl", "bluefaced leicester",
          "blue faced leicester", "corriedale", "romney", "jacob", "falkland", "cheviot",
          "wensleydale", "targhee", "rambouillet", number=1),
    _hair("merino wool", "merino", "mer", "merino wool", "extrafine merino", "merinowolle",
          "merinos", "merinoull", "merinould", "merinowol", "lana merino", "laine mérinos",
          "mérinos", number=1),
    _hair("alpaca", "alp", "baby alpaca", "suri", "suri alpaca", "alpaka", "alpaga",
          "babyalpaka", "baby alpaka"),
    _hair("angora"),
    _hair("camel", "camel hair"),
    _hair("cashmere", "cash", "csh", "kaschmir", "cachemire", "kasjmier", "kashmir"),
    _hair("llama"),
    _hair("mohair", "moh", "kid mohair", "kidmohair", "kid-mohair"),
    _hair("vicuna"),
    _hair("yak"),
    _hair("possum", "brushtail possum", number=3),
    Fibre("horsehair", 3, 15.00, 16.00, animal=True),
    Fibre("silk", 4, 11.00, words=("slk", "mulberry silk", "tussah", "tussah silk", "seide", "soie",
          "seda", "seta", "zijde", "silke", "siden", "maulbeerseide")),
    Fibre("cotton", 5, 8.50, 10.50, words=("cot", "ctn", "co", "pima", "pima cotton",
          "mercerised cotton", "mercerized cotton", "organic cotton", "baumwolle",
          "coton", "algodón", "algodon", "cotone", "katoen", "bomull", "bomuld", "cottn")),
    Fibre("kapok", 6, 10.90),
    Fibre("linen", 7, 12.00, words=("flax", "lin", "leinen", "lino", "linnen")),
    Fibre("hemp", 8, 12.00, words=("true hemp",)),
    Fibre("jute", 9, 17.00),
    Fibre("abaca", 10, 14.00),
    Fibre("alfa", 11, 14.00),
    Fibre("coir", 12, 13.00),
    Fibre("broom", 13, 14.00),
    Fibre("ramie", 14, 8.50),
    Fibre("sisal", 15, 14.00),
    Fibre("sunn", 16, 12.00),
    Fibre("henequen", 17, 14.00),
    Fibre("maguey", 18, 14.00),
    Fibre("acetate", 19, 9.00),
    Fibre("alginate", 20, 20.00),
    Fibre("cupro", 21, 13.00),
    Fibre("modal", 22, 13.00),
    Fibre("protein", 23, 17.00, words=("milk protein", "soy protein")),
    Fibre("triacetate", 24, 7.00),
    Fibre("viscose", 25, 13.00, words=("rayon", "visc", "vis", "bamboo", "bam", "bamboo viscose",
          "bamboo rayon", "viscose from bamboo", "viskose", "viscosa", "bambus", "bambou",
          "bambú", "bamboe")),
    Fibre("acrylic", 26, 2.00, words=("acr", "acryl", "acrylics", "premium acrylic", "pac",
          "polyacryl", "acrylique",
          "acrílico", "acrilico", "akryl", "polyakryl", "acrilic", "acryllic")),
    Fibre("chlorofibre", 27, 2.00),
    Fibre("fluorofibre", 28, 0.00),
    Fibre("modacrylic", 29, 2.00),
    # One fibre under two lawful names (number 30): each stays as it was typed.
    Fibre("polyamide", 30, 6.25, 5.75, words=("pa", "polyamid", "poliammide", "poliamida")),
    Fibre("nylon", 30, 6.25, 5.75, words=("nyl", "nyln")),
    Fibre("aramid", 31, 8.00),
    Fibre("polyimide", 32, 3.50),
    Fibre("lyocell", 33, 13.00, words=("lyo",)),
    Fibre("polylactide", 34, 1.50),
    Fibre("polyester", 35, 1.50, words=("poly", "pes", "polyest", "microfibre", "microfiber",
          "poliéster", "poliester", "poliestere", "mikrofaser")),
    Fibre("polyethylene", 36, 1.50),
    Fibre("polypropylene", 37, 2.00),
    Fibre("polycarbamide", 38, 2.00),
    Fibre("polyurethane", 39, 3.50, 3.00),
    Fibre("vinylal", 40, 5.00),
    Fibre("trivinyl", 41, 3.00),
    Fibre("elastodiene", 42, 1.00, words=("rubber",)),
    Fibre("elastane", 43, 1.50, words=("spandex", "ela", "elast")),
    Fibre("glass", 44, 2.00, 3.00),
    Fibre("elastomultiester", 45, 1.50),
    Fibre("elastolefin", 46, 1.50),
    Fibre("melamine", 47, 7.00),
    Fibre("metallised fibre", 48, 2.00, words=("metallic", "metal", "metallised", "metallized",
          "sparkle", "glitter")),
    Fibre("paper", 48, 13.75),
)  # fmt: skip

#: Words that are enough by themselves, with no share beside them, to say what a yarn is made of.
SAYS_FIBRE_ALONE = frozenset({
    "wool", "merino", "merino wool", "lambswool", "shetland", "virgin wool", "alpaca",
    "baby alpaca", "mohair", "kid mohair", "cashmere", "angora", "silk", "cotton", "linen",
    "acrylic", "nylon", "polyamide", "polyester", "bamboo", "viscose", "rayon", "hemp", "lyocell",
    "lamb's wool", "schurwolle", "baumwolle", "coton", "algodón", "cotone", "katoen", "bomull",
    "bomuld", "acrilic", "merinowolle", "wolle", "laine", "lana", "alpaka", "seide", "soie",
    "mérinos", "lana merino", "kaschmir", "leinen", "bfl",
})  # fmt: skip

#: Adjectives that may stand between a share and its fibre and change nothing here.
ADJECTIVES = (
    "superwash", "super wash", "super-wash",
    "organic", "recycled", "pure", "extrafine", "extra fine", "fine", "soft",
    "super", "superfine", "egyptian", "mercerised", "mercerized", "brushed", "premium", "peruvian",
    "combed", "kid", "baby", "highland", "virgin", "new",
)  # fmt: skip


@cache
def _by_word() -> dict[str, Fibre]:
    return {word: fibre for fibre in FIBRES for word in (fibre.name, *fibre.words)}


def fibre_named(words: str) -> Fibre | None:
    """The fibre somebody means by a name, an abbreviation or a breed; None if it is no fibre."""
    plain = " ".join(words.lower().rstrip(".").split())
    return _by_word().get(plain)


@dataclass(frozen=True, slots=True)
class Content:
    """What a yarn is made of: its fibres by name, and whether that is all that is in it."""

    fibres: tuple[Fibre, ...]
    whole: bool

    @property
    def names(self) -> frozenset[str]:
        """The names of the fibres."""
        return frozenset(fibre.name for fibre in self.fibres)


_PART = re.compile(r"(?:(?P<share>[0-9]+(?:[.,][0-9]+)?)\s*%\s*)?(?P<words>[^%]+)")
_ADJECTIVE = re.compile(rf"\b(?:{'|'.join(ADJECTIVES)})[\s-]+(?=\w)")


@lru_cache(maxsize=1024)
def content(blend: str) -> Content:
    """The fibres in a blend as a lot record keeps it: `75% wool, 25% polyamide`.

    Not whole where a part is no known fibre ("other fibre"), or the shares leave more than 2 %
    open; without any share every fibre must at least be named.
    """
    known: list[Fibre] = []
    shares: list[float] = []
    parts = [part.strip() for part in re.split(r"[,;/+&]|\band\b", blend.lower()) if part.strip()]
    whole = bool(parts)
    for part in parts:
        read = _PART.fullmatch(part)
        fibre = read and (
            fibre_named(read["words"]) or fibre_named(without_adjectives(read["words"]))
        )
        if not read or not fibre:
            whole = False
            continue
        known.append(fibre)
        shares += [float(read["share"].replace(",", "."))] if read["share"] else []
    return Content(tuple(known), whole and (not shares or fsum(shares) >= 98))


_SHARE = re.compile(r"(?<![\w.,])([0-9]+(?:[.,][0-9]+)?)\s*%")
#: Thirds, each rounded down to a tenth, still come to the whole (our choice).
_ROUNDED = Fraction(1, 2)


def odd_sum(blend: str) -> Fraction | None:
    """What the shares of a blend come to in per cent, where that is not the whole; else None."""
    shares = [Fraction(share.replace(",", ".")) for share in _SHARE.findall(blend)]
    whole = sum(shares, Fraction())
    return whole if shares and abs(whole - 100) > _ROUNDED else None


def without_adjectives(words: str) -> str:
    """A fibre's name without the adjectives before it that change nothing here."""
    return _ADJECTIVE.sub("", words.strip().lower())


#: Two names of one fibre: the EU's label and the British and American one.
_TWO_NAMES = ("polyamide", "nylon")


def under_each_name(blend: str) -> tuple[str, ...]:
    """A blend with one and with the other name of a fibre that has two, whichever was typed."""
    polyamide, nylon = _TWO_NAMES
    return blend.replace(nylon, polyamide), blend.replace(polyamide, nylon)


def same_blend(one: str, other: str) -> bool:
    """Whether two blends are the same under either name of a fibre."""
    return under_each_name(one) == under_each_name(other)


def meant_by(word: str) -> frozenset[str]:
    """The fibres a maker means who asks for none of them; empty where the word is no fibre.

    `wool` is merino too, nylon polyamide (one number each in the Regulation's Annex I), `animal`
    every wool and hair, silk included.
    """
    plain = " ".join(word.lower().split())
    if plain == "animal":
        return frozenset(f.name for f in FIBRES if f.animal or f.name == "silk")
    fibre = fibre_named(plain)
    if fibre is None:
        return frozenset()
    alike = FIBRES if fibre.name in ("wool", *_TWO_NAMES) else (fibre,)
    return frozenset(f.name for f in alike if f.number == fibre.number)


@cache
def fibre_pattern() -> str:
    """A regular expression for every fibre word, longest first, with adjectives before it."""
    words = sorted(_by_word(), key=lambda word: (-len(word), word))
    adjectives = "|".join(re.escape(a) for a in ADJECTIVES)
    return rf"(?:(?:{adjectives})[\s-]+){{0,2}}(?P<fibre>{'|'.join(map(re.escape, words))})\b"
