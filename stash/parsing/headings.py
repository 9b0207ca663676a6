"""What people write above the columns of a sheet, and which of our columns they mean by it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache

from stash.errors import BadInput, NotFound, Unreadable
from stash.parsing import money_headings, names
from stash.parsing.quantities import UNIT_WORDS

#: Our own columns in the order they are written.
COLUMNS = (
    *("number", "yarn", "maker", "colour", "colour_no", "hex", "lot", "thickness", "fibre"),
    *("full", "full_from", "count", "left", "tare", "place", "owner", "bought", "paid", "note"),
)

#: Columns that follow where a row has something to put there. `record` is the lot record: it holds
#: together the skeins of one line that no dye lot tells from others of their yarn.
MORE_COLUMNS = (
    *("care", "hand_dyed", "condition", "daylight", "about", "opened", "record"),
    *("dyed", "surface"),
)

#: Columns of other people's sheets that are read into ours: the two halves of a put-up, the same
#: for all skeins of a row together, a whole label in one cell, what a full skein cost, and a price
#: that may be of a full skein or of the line.
READ_COLUMNS = ("mass", "length", "total_mass", "total_length", "label", "price", "cost")

#: All that a heading may be mapped to.
ALL_COLUMNS = (*COLUMNS, *MORE_COLUMNS, *READ_COLUMNS)

#: What people write above their columns, in small letters with single spaces (common practice, no
#: source). Bare "weight" is left out on purpose: it may be grams or a thickness class.
SYNONYMS: dict[str, tuple[str, ...]] = {
    "number": ("no", "nr", "#", "skein no", "skein number", "ticket", "ticket no"),
    "yarn": ("name", "yarn name", "quality", "brand and yarn", "brand/yarn", "yarn line",
             "base"),
    "maker": ("brand", "brand name", "made by", "mill", "spinner", "manufacturer", "company",
              "dyer", "who made", "producer", "label brand", "dyed by", "dyer name"),
    "colour": ("color", "colour name", "color name", "colourway", "colorway", "shade",
               "shade name", "colours", "colors", "hue"),
    "colour_no": ("color no", "colour number", "color number", "shade no", "shade number"),
    "hex": ("hex code", "colour hex", "color hex", "rgb"),
    "lot": ("dye lot", "dyelot", "lot no", "lot number", "dye lot no", "dye lot number", "batch",
            "batch no", "batch number"),
    "thickness": ("class", "weight class", "thickness class", "yarn weight", "yarn class",
              "weight category"),
    "fibre": ("fiber", "fibres", "fibers", "fibre content", "fiber content", "material", "content",
              "composition", "fibre composition", "fiber composition", "blend"),
    "full": ("put_up", "putup", "band", "on the band", "full skein", "per skein", "ball size",
               "skein size"),
    "full_from": ("pair_from",),
    "count": ("qty", "quantity", "how many", "skeins", "balls", "hanks", "cakes", "cones", "pieces",
              "pcs", "number of skeins", "no of skeins", "number of balls", "no of balls",
              "skein count", "ball count", "how many skeins", "how many balls", "on hand",
              "in stock", "skeins owned"),
    "left": ("remaining", "remainder", "amount left", "what is left", "still there",
             "amount remaining", "left over", "how much left", "how much remaining",
             "how much is left", "how much remains", "remains", "leftover", "leftovers",
             "still left", "rest", "part left"),
    "tare": ("core", "cone weight", "empty cone"),
    "place": ("location", "where", "box", "bin", "storage", "storage location", "kept in", "shelf",
              "where keep", "where kept", "where stored", "where live", "stored in", "stored",
              "drawer", "basket", "tub", "room", "storage place"),
    "owner": ("whose", "belongs to"),
    "bought": ("date", "date bought", "bought on", "purchase date", "purchased", "date purchased",
               "when", "when bought", "when buy", "day bought", "date of purchase", "date acquired",
               "acquired", "purchase day"),
    "paid": (),
    "note": ("notes", "remark", "remarks", "comment", "comments"),
    "care": ("washing", "care instructions", "washing instructions"),
    "hand_dyed": (),
    "condition": ("state of it",),
    "daylight": ("seen in daylight",),
    "about": ("estimate", "estimated", "a guess"),
    "opened": ("started", "in use"),
    "record": (),
    "dyed": ("how dyed", "how it is dyed", "way of dyeing", "dye style", "dye type", "dyeing",
             "colour effect", "color effect", "colour pattern", "color pattern"),
    "surface": ("texture", "yarn texture", "finish", "construction", "yarn construction",
                "strand"),
    "mass": ("skein weight", "ball weight", "weight per skein", "weight per ball", "net weight"),
    "length": ("skein length", "ball length", "length per skein", "length per ball"),
    "total_mass": ("total weight",),
    "total_length": (),
    "price": (),
    "cost": (),
    "label": ("label text", "description", "yarn description", "details", "item"),
}  # fmt: skip

#: The heading of a column that may hold grams or a thickness class; its cells decide.
WEIGHT = frozenset({"weight", "wt"})
#: Headings of amounts whose cells say whether they are money, yarn or a count.
UNCERTAIN = frozenset({"amount", "amounts", "total", "totals", "how much"})
BY_ITS_CELLS = WEIGHT | UNCERTAIN
#: Words of a question about a column, and others that add nothing to its name.
_ASKING = frozenset(
    ("what", "whats", "which", "the", "my", "our", "your", "is", "it", "its", "are", "was", "were",
     "i", "we", "have", "has", "do", "does", "did", "there", "this", "that", "s", "of", "a", "an",
     "in", "to", "for", "been", "got", "yarn", "yarns")
)  # fmt: skip

#: Units a heading may name, and words that stand for one by themselves.
_UNITS = {
    **{word: unit for word, unit in UNIT_WORDS.items() if unit in ("g", "kg", "oz", "lb", "m")},
    **{word: unit for word, unit in UNIT_WORDS.items() if unit == "yd" and len(word) > 1},
    "yardage": "yd", "meterage": "m", "metreage": "m", "metrage": "m", "grammage": "g",
}  # fmt: skip
_OF_MASS = ("g", "kg", "oz", "lb")
#: Beside a unit these say no more than that the amount is that of one skein.
_OF_ONE = frozenset(
    (
        *("weight", "wt", "mass", "length", "amount", "size", "yarn", "per", "each", "in", "of"),
        *("a", "the", "by", "full", "skein", "ball", "hank", "net"),
        *("heavy", "long"),
    )
)
_TOTAL = frozenset({"total", "totals", "all", "overall"})

#: A heading this like a word for a column is taken for it, if no other column's is nearly as
#: like (of 100; our choice, tried on misspelt headings).
TAKEN_FROM = 85.0
_AHEAD_BY = 5.0
#: One at least this like is named, not taken.
NAMED_FROM = 75.0
#: Shorter words are too soon like another.
_SHORTEST = 4

#: What is kept for a heading that she wants left alone.
IGNORED = "ignored"


@dataclass(frozen=True, slots=True)
class Meaning:
    """Which of our columns a heading stands for; none where the column is to be left alone.

    `unit` is that of bare figures below it (for a price: each). `likeness` is 100 for a word that
    is known and for what she said herself, less for a guess.
    """

    column: str
    unit: str = ""
    likeness: float = 100.0

    def __str__(self) -> str:
        return " ".join(filter(None, [self.column, self.unit])) or IGNORED

    @property
    def guessed(self) -> bool:
        """Whether the heading is only like a word that is known."""
        return self.likeness < 100


@dataclass(frozen=True, slots=True)
class KnownHeadings:
    """What she said of headings: `mapped` this time, `kept` from times before; by `key`."""

    mapped: Mapping[str, str] = field(default_factory=dict)
    kept: Mapping[str, str] = field(default_factory=dict)

    def meaning(self, heading: str) -> Meaning | None:
        """What she said this heading means, what it says itself, or None."""
        said = self.mapped.get(key(heading), self.kept.get(key(heading)))
        return exact(heading) if said is None else column_named(said)


def key(heading: str) -> str:
    """A heading as it is remembered: brackets and units stay, for they tell columns apart."""
    return re.sub(r"[-_\s]+", " ", heading).strip().lower()


def setting(key: str) -> str:
    """The name of the setting that remembers a heading."""
    return f"heading {key}"


def remembered(settings: Mapping[str, str]) -> dict[str, str]:
    """What earlier imports left among her settings, by `key`."""
    begin = setting("")
    return {n.removeprefix(begin): v for n, v in settings.items() if n.startswith(begin)}


def plain(heading: str) -> str:
    """A heading without case, underscores, spare spaces or a bracket such as "(EUR)"."""
    return _bare(re.sub(r"\(.*?\)|\[.*?\]", " ", heading))


def _bare(text: str) -> str:
    numbered = re.sub(r"(?<=\S)\s*#|^#(?=\s*of\b)", " no", text.strip())
    return " ".join(re.sub(r"[_\s.:?-]+", " ", numbered).split()).casefold().replace(" / ", "/")


_COLUMN_OF = {_bare(word): column for column in ALL_COLUMNS for word in (column, *SYNONYMS[column])}


def _unasked(words: str) -> frozenset[str]:
    """The words that name a column in a question such as "What color is it"."""
    return frozenset(re.findall(r"[^\W_]+", words.replace("'", " "))) - _ASKING


_COLUMN_OF_WORDS: dict[frozenset[str], str] = {}
# the shortest first, so that "which brand" is "brand" and not "brand/yarn"
for _word, _column in sorted(_COLUMN_OF.items(), key=lambda one: len(one[0])):
    _COLUMN_OF_WORDS.setdefault(_unasked(_word), _column)
del _COLUMN_OF_WORDS[frozenset()]


def _column_of(words: str) -> str | None:
    """The column that words name, also as a question or in another order."""
    if said := _COLUMN_OF.get(words):
        return said
    unasked = _unasked(words)
    if not unasked and "yarn" in words.split():  # "which yarn is it" asks for nothing else
        return "yarn"
    return _COLUMN_OF_WORDS.get(unasked)


@lru_cache(maxsize=1024)
def exact(heading: str) -> Meaning | None:
    """What a heading means by words that are known; None where they leave a doubt."""
    words = plain(heading)
    if money := money_headings.price_meaning(heading):
        return Meaning(*money)
    if _names_a_unit(heading):
        return _with_unit(_all_words(heading))
    if words in BY_ITS_CELLS:
        return None
    columns = {_column_of(_bare(part)) for part in [words, *_parts(words)]} - {None}
    return Meaning(str(columns.pop())) if len(columns) == 1 else None


def _all_words(heading: str) -> list[str]:
    return re.sub(r"[()\[\]/,]", " ", _bare(heading)).split()


def _names_a_unit(heading: str) -> bool:
    return any(word in _UNITS for word in _all_words(heading))


def _parts(words: str) -> list[str]:
    """Both words of `colour/shade`, if each is one for a column."""
    parts = re.split(r"\s*(?:/|&|,)\s*", words)
    return parts if all(_bare(part) in _COLUMN_OF for part in parts) else []


def _with_unit(words: list[str]) -> Meaning | None:
    """`weight (g)`, `yardage`, `amount left g`: a column of amounts and the unit of its figures."""
    units = list(dict.fromkeys(_UNITS[word] for word in words if word in _UNITS))
    rest = [word for word in words if word not in _UNITS]
    kinds = {"mass" if unit in _OF_MASS else "length" for unit in units}
    column = _amounts_column(rest, kinds.pop()) if len(kinds) == 1 else _pairs_column(rest)
    return Meaning(column, units[0] if len(units) == 1 else "") if column else None


def _amounts_column(rest: list[str], kind: str) -> str | None:
    rest = [word for word in rest if word not in ("how", "many", "much")]
    others = set(rest) - _OF_ONE - _ASKING
    said = _column_of(" ".join(rest)) if others else None
    if said in ("left", "full") or (said == "tare" and kind == "mass"):
        return said
    if not others or (said == "thickness" and kind == "mass"):
        return kind
    return f"total_{kind}" if others <= _TOTAL else None


def _pairs_column(rest: list[str]) -> str | None:
    """`g/m`: both halves of a put-up in one column."""
    said = _COLUMN_OF.get(" ".join(rest))
    return "full" if said == "full" or set(rest) <= _OF_ONE else None


def says_each(heading: str) -> bool:
    """Whether a heading says that its amounts are those of one skein."""
    words = _all_words(heading)
    return any(word in _EACH for word in words) or " ".join(words) in SYNONYMS["mass"]


_EACH = frozenset(("per", "each", "skein", "ball", "hank", "full"))


@lru_cache(maxsize=1024)
def nearest_column(heading: str) -> Meaning | None:
    """The column whose words a heading is most like; None where it is like none of them."""
    words = plain(heading)
    if len(words) < _SHORTEST or words in BY_ITS_CELLS or _names_a_unit(heading):
        return None
    if any(c.isdigit() for c in words):
        return None
    best: dict[str, float] = {}
    for word, likeness in names.likeness(words, [w for w in _COLUMN_OF if len(w) >= _SHORTEST]):
        column = _COLUMN_OF[word]
        best[column] = max(best.get(column, 0.0), likeness)
    (first, top), (_, second) = sorted(best.items(), key=lambda one: (-one[1], one[0]))[:2]
    if top < NAMED_FROM:
        return None
    clear = top - second >= _AHEAD_BY
    return Meaning(first, likeness=min(top, 99.0) if clear else min(top, TAKEN_FROM - 1))


def column_named(text: str) -> Meaning:
    """A column as she names it, with a unit for bare figures if she likes: `colour`, `length yd`.

    Nothing, or `ignored`, leaves the column alone. Raises NotFound with the nearest names,
    Unreadable where none is near.
    """
    words = _bare(text)
    if words in ("", IGNORED):
        return Meaning("")
    column = words.replace(" ", "_")
    if column in SYNONYMS:
        return Meaning(column)
    known = exact(words)
    if known is not None:
        return known
    if near := names.nearest(words, [*SYNONYMS]):
        raise NotFound("column", text, near)
    raise Unreadable(text, "no_column", choices=ALL_COLUMNS)


def mapped(texts: list[str]) -> dict[str, str]:
    """What she typed after --map, `HEADING=COLUMN` each, by `key`; raises BadInput."""
    found: dict[str, str] = {}
    for text in texts:
        heading, sign, column = text.rpartition("=")
        if not sign or not key(heading):
            raise BadInput("no_mapping", text=text)
        found[key(heading)] = str(column_named(column))
    return found
