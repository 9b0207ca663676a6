"""Thickness classes 0-7 and the trade's many names for them.

The classes, their stitch ranges and tool ranges are the Craft Yarn Council's guideline table as
five independent reproductions print it (no law; ranges overlap, so gauge to class is a set).
Metres per 100 g and the British, Australian and German names are common practice: a British
dyer's chart (B), an Antipodean one (C) and a spinners' table (S) were compared; where they differ
it is said beside the row.
"""

from __future__ import annotations

import re
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Thickness:
    """One class: its number, the name most makers use, and what usually goes with it.

    Stitches are to 4 in: stockinette for `knit_sts`, single crochet (US) for `crochet_sts`, except
    class 0, which is counted in double crochet. Needles and hooks in mm. None: no bound is printed.
    `finest_from` is the least metres per 100 g that still count as this class, `usual` a middle.
    """

    number: int
    name: str
    knit_sts: tuple[int | None, int]
    crochet_sts: tuple[int | None, int]
    needle_mm: tuple[float, float | None]
    hook_mm: tuple[float, float | None]
    finest_from: int
    usual: int


#: Lower ends in m/100 g: B and C agree on 250 and 120 (C: 130); B on 600 and 350 (S: 484 and 383);
#: S on 81. B has 200 under class 3; 205 is our choice, so that 220 yd to 100 g, which the
#: American trade sells as medium, is read as medium. 45 for class 6 is common practice, no source.
CLASSES = (
    Thickness(0, "lace", (33, 40), (32, 42), (1.5, 2.25), (1.4, 2.25), 600, 750),
    Thickness(1, "fingering", (27, 32), (21, 32), (2.25, 3.25), (2.25, 3.5), 350, 410),
    Thickness(2, "sport", (23, 26), (16, 20), (3.25, 3.75), (3.5, 4.5), 250, 290),
    Thickness(3, "DK", (21, 24), (12, 17), (3.75, 4.5), (4.5, 5.5), 205, 230),
    Thickness(4, "worsted", (16, 20), (11, 14), (4.5, 5.5), (5.5, 6.5), 120, 180),
    Thickness(5, "chunky", (12, 15), (8, 11), (5.5, 8.0), (6.5, 9.0), 80, 105),
    Thickness(6, "super chunky", (7, 11), (6, 9), (8.0, 12.75), (9.0, 16.0), 45, 65),
    Thickness(7, "jumbo", (None, 6), (None, 5), (12.75, None), (16.0, None), 0, 35),
)

#: The trade's names, as classes from..to. "Ply" is a thickness here, not a count of strands; from
#: 10 ply up and at 6 ply the countries differ, and both ends are kept.
TRADE_NAMES: dict[str, tuple[int, int]] = {
    "cobweb": (0, 0), "lace": (0, 0), "laceweight": (0, 0), "crochet thread": (0, 0),
    "1 ply": (0, 0), "2 ply": (0, 0),
    "3 ply": (1, 1), "4 ply": (1, 1), "sock": (1, 1), "fingering": (1, 1),
    "light fingering": (1, 1), "superfine": (1, 1), "super fine": (1, 1), "baby": (1, 2),
    "5 ply": (2, 2), "sport": (2, 2), "sportweight": (2, 2), "fine": (2, 2), "light dk": (2, 2),
    "6 ply": (2, 3),
    "8 ply": (3, 3), "dk": (3, 3), "double knit": (3, 3), "double knitting": (3, 3),
    "light worsted": (3, 3), "light": (3, 3), "heavy dk": (3, 4),
    "10 ply": (4, 4), "worsted": (4, 4), "heavy worsted": (4, 4), "aran": (4, 4),
    "light aran": (4, 4), "afghan": (4, 4), "medium": (4, 4),
    "12 ply": (5, 5), "14 ply": (5, 6), "16 ply": (5, 5),
    "bulky": (5, 5), "chunky": (5, 5), "craft": (5, 5), "rug": (5, 5),
    "20 ply": (6, 6), "super bulky": (6, 6), "super chunky": (6, 6), "roving": (6, 7),
    "jumbo": (7, 7),
}  # fmt: skip

#: German bands count strands of sock yarn: 4-fach is 4 ply, 6-fach the Australian 5 ply.
GERMAN_STRANDS = {"2": (0, 0), "3": (1, 1), "4": (1, 1), "6": (2, 2), "8": (3, 3)}

#: Plain adjectives that say a thickness only where nothing else can be meant.
PLAIN_ADJECTIVES = frozenset({"light", "medium", "fine", "baby", "craft", "rug", "roving"})

_FILLER = re.compile(
    r"\b(?:weight|wt|yarn|approx|about|or|to|and|between|maybe)\b|[-–/~?,&()]|ish\b"
)
_STEP = {"light": -1, "heavy": 1}


def usual_m_per_100g(number: int) -> float:
    """How many metres 100 g of such a class usually hold; real yarns spread widely around it."""
    return float(CLASSES[number].usual)


def thickness_of_m_per_100g(fineness: float) -> int:
    """The class that so many metres per 100 g are usually sold as: "about 4", never a certainty."""
    return next(c.number for c in CLASSES if fineness >= c.finest_from)


def named(text: str) -> tuple[int, int] | None:
    """The classes a name or number means, from thinnest to thickest; None if it is no name.

    The whole text must be read: `4 ply`, `DK`, `class 4`, `3-4`, `worsted-ish/heavy DK`.
    """
    plain = " ".join(text.lower().split())
    numbered = re.fullmatch(
        r"(?:(?:class|category|cat|thickness|weight|wt)\.?\s*)?[#(\[]?\s*([0-7])(?:\s*(?:[-–/]|to|or)\s*([0-7]))?"
        r"\s*[)\]]?(?:\s*weight)?",
        plain,
    )
    if numbered:
        return _spanned([(int(n), int(n)) for n in numbered.groups() if n])
    german = re.fullmatch(r"([23468])[\s-]*(?:fach|f[aä]dig|faedig)", plain)
    if german:
        return GERMAN_STRANDS[german[1]]
    return _from_words(plain)


def apart(one: tuple[int | None, int | None], other: tuple[int | None, int | None]) -> bool:
    """Whether two thicknesses, each from and to, share no class; never where one is unknown."""
    (low, high), (other_low, other_high) = one, other
    if low is None or high is None or other_low is None or other_high is None:
        return False
    return low > other_high or other_low > high


def without(name: str) -> str:
    """A yarn's name in small letters without its words for thickness: `Zinnet DK` -> `zinnet`."""
    words = re.sub(r"\b(\d+)[\s-]*ply\b", r"\1 ply", name.casefold()).split()
    kept: list[str] = []
    while words:
        size = next((n for n in (3, 2, 1) if " ".join(words[:n]) in TRADE_NAMES), 0)
        kept += [] if size else words[:1]
        words = words[size or 1 :]
    return " ".join(kept)


def _from_words(plain: str) -> tuple[int, int] | None:
    joined = re.sub(r"\b(\d+)[\s-]*ply\b", r"\1 ply", plain)
    words = _FILLER.sub(" ", re.sub(r"\b(\w+)weight\b", r"\1 weight", joined)).split()
    found: list[tuple[int, int]] = []
    while words:
        taken = _longest_name(words)
        if taken is None:
            return None
        size, classes = taken
        found.append(classes)
        words = words[size:]
    return _spanned(found) if found else None


def _longest_name(words: list[str]) -> tuple[int, tuple[int, int]] | None:
    """The longest trade name the words begin with; `light` or `heavy` before one leans a class."""
    for size in range(min(3, len(words)), 0, -1):
        known = TRADE_NAMES.get(" ".join(words[:size]))
        if known:
            return size, known
        low_high = TRADE_NAMES.get(" ".join(words[1:size]))
        if low_high and words[0] in _STEP:
            return size, _leaning(low_high, _STEP[words[0]])
    return None


def _leaning(classes: tuple[int, int], step: int) -> tuple[int, int]:
    low, high = classes
    return (max(0, low - 1), high) if step < 0 else (low, min(7, high + 1))


def _spanned(found: list[tuple[int, int]]) -> tuple[int, int]:
    return min(low for low, _ in found), max(high for _, high in found)
