"""A fabric as a maker types it: a knitted one by name, a crocheted one row by row."""

from __future__ import annotations

import re

from stash.errors import Ambiguous, Unreadable
from stash.parsing import names, numbers
from stash.requirements.design.fabric import Fabric, FabricRow, Loop
from stash.requirements.design.stitches import PARTS, STITCHES, UK_TO_US, Crochet, Mixed, Stitch

#: More rows than any repeat has; keeps a slip of the finger from filling the memory.
_MOST_ROWS = 500

_KNITTED = {
    "stockinette": "stockinette",
    "stockinette stitch": "stockinette",
    "stocking stitch": "stockinette",
    "reverse stockinette": "stockinette",
    "reverse stocking stitch": "stockinette",
    "st st": "stockinette",
    "garter": "garter",
    "garter stitch": "garter",
    "seed stitch": "seed stitch",
    "seed": "seed stitch",
    "knit moss stitch": "seed stitch",
    "cable": "cables",
    "cables": "cables",
    "cabled": "cables",
    "stranded": "stranded",
    "stranded knitting": "stranded",
    "stranded colourwork": "stranded",
    "stranded colorwork": "stranded",
}
#: `2x2 rib`, `k3p1`, `knit 1 purl 1 ribbing`, `rib 2x2`.
_RIB = re.compile(
    r"(?:rib(?:bing)?\s+)?(?:k(?:nit)?\s*)?(?P<knit>[0-9])\s*[x/,]?\s*(?P<purl_word>p(?:url)?)?\s*"
    r"(?P<purl>[0-9])(?P<rib>\s*rib(?:bing)?)?"
)

#: Names of crocheted fabrics, as their rows in US terms.
_CROCHETED = {
    "linen stitch": "(1 sc, 1 ch)",
    "granite stitch": "(1 sc, 1 ch)",
    "woven stitch": "(1 sc, 1 ch)",
    "crochet moss stitch": "(1 sc, 1 ch)",
    "v stitch": "(1 dc, 1 ch, 1 dc)",
    "v-stitch": "(1 dc, 1 ch, 1 dc)",
    "post stitch rib": "(1 fpdc, 1 bpdc)",
    "post stitch ribbing": "(1 fpdc, 1 bpdc)",
    "alternating post stitches": "(1 fpdc, 1 bpdc)",
    "tapestry crochet": "1 tapestry",
}
_MORE_THAN_ONE = {
    "rib": ("1x1 rib", "2x2 rib"),
    "ribbing": ("1x1 rib", "2x2 rib"),
    "moss": ("crochet moss stitch", "knit moss stitch"),
    "moss stitch": ("crochet moss stitch", "knit moss stitch"),
}

#: Full names and short forms, as the abbreviation of the same terms.
_SHORT = {
    "us": {
        "slip stitch": "sl st",
        "slst": "sl st",
        "ss": "sl st",
        "chain": "ch",
        "single crochet": "sc",
        "single": "sc",
        "half double crochet": "hdc",
        "half double": "hdc",
        "double crochet": "dc",
        "double": "dc",
        "treble crochet": "tr",
        "treble": "tr",
    },
    "uk": {
        "slip stitch": "ss",
        "slst": "ss",
        "chain": "ch",
        "double crochet": "dc",
        "half treble": "htr",
        "half treble crochet": "htr",
        "treble": "tr",
        "treble crochet": "tr",
        "double treble": "dtr",
        "double treble crochet": "dtr",
    },
}

_LOOP = (
    r"(?:\s+(?:(?P<mark>[bf])lo|(?:(?:in|through)\s+)?(?:the\s+)?(?P<loop>back|front)\s+loops?"
    r"(?:\s+only)?|(?:in|through)\s+(?:the\s+)?both\s+loops))?"
)
_ROW = re.compile(
    r"(?:(?P<count>[0-9]+)\s*x?\s*)?(?:rows?\s+(?:of\s+)?)?"
    r"(?:\((?P<several>[^()]*)\)|(?P<stitch>[a-z][a-z /-]*?))(?:\s+(?:rows?|rounds?))?" + _LOOP
)
#: Between rows; a comma inside brackets stands between the stitches of one row.
_BETWEEN = re.compile(r"\s*(?:[,;+]|\bthen\b|\band\b)\s*(?![^(]*\))")
_IN_A_ROW = re.compile(r"\s*(?:[,;+]|\bthen\b|\band\b)\s*")
_CHAINS = re.compile(r"(?:[0-9]+\s*)?ch(?:ains?)?(?:\s*[0-9]+)?")
_PART = re.compile(
    r"(?:(?P<count>[0-9]+)\s*x?\s*)?(?P<stitch>[a-z][a-z -]*?)(?:\s+(?P<after>[0-9]+))?"
)
#: `fpdc`, `front post dc`, `dc round the back post`, `raised treble front`.
_POST = tuple(
    re.compile(pattern)
    for pattern in (
        r"(?P<post>[fb])p\s*(?P<stitch>[a-z ]+)",
        r"(?P<post>front|back)[ -]post\s+(?P<stitch>[a-z ]+)",
        r"(?P<stitch>[a-z ]+?)\s+(?:(?:a)?round\s+)?(?:the\s+)?(?P<post>front|back)[ -]post",
        r"raised\s+(?P<stitch>[a-z ]+?)\s+(?P<post>front|back)",
    )
)
#: Both posts in turn along the row.
_BOTH_POSTS = re.compile(
    r"(?:alternating|(?:fp\s*(?:/|and)\s*bp|front\s*(?:/|and)\s*back))[ -]?(?:posts?)?"
    r"\s+(?P<stitch>[a-z ]+)"
)
_BOTH_IN_TURN = "(fp {0}, bp {0})"


def fabric(text: str, terms: str = "us") -> Fabric:
    """The rows of one repeat.

    Read: `stockinette`, `2x2 rib`, `k3p1`, `cables`; `1 hdc, 2 sl st blo`, `sc in back loop`, `2
    rows of dc`; a row of several stitches in brackets, `(sc, ch 1)`, `2 (2 sc, 2 dc), 1 sc`; `linen
    stitch`, `fpdc`, `front/back post dc`. Names of crochet stitches are US ones unless `terms` is
    `uk`.
    """
    if terms not in _SHORT:
        raise Unreadable(terms, "no_terms")
    plain = " ".join(numbers.cleaned(text).lower().replace("×", "x").split())
    if plain in _MORE_THAN_ONE:
        raise Ambiguous(text, _MORE_THAN_ONE[plain])
    knitted = _knitted(text, plain)
    if knitted:
        return Fabric((FabricRow(knitted),))
    reader = _Reader(text, "us" if plain in _CROCHETED else terms)
    rows = reader.rows(_CROCHETED.get(plain, plain))
    if len(rows) > _MOST_ROWS:
        raise Unreadable(text, "fabric_of_many_rows")
    return Fabric(rows)


def _knitted(text: str, plain: str) -> Stitch | None:
    if plain in _KNITTED:
        return STITCHES[_KNITTED[plain]]
    rib = _RIB.fullmatch(plain)
    if rib is None or not (rib["rib"] or rib["purl_word"] or plain.startswith("rib")):
        return None
    name = f"{rib['knit']}x{rib['purl']} rib"
    if name not in STITCHES:
        raise Unreadable(text, "no_rib")
    return STITCHES[name]


class _Reader:
    """Reads the rows of one text, and names that text in what it refuses."""

    def __init__(self, text: str, terms: str) -> None:
        self._text, self._terms = text, terms

    def rows(self, plain: str) -> tuple[FabricRow, ...]:
        both = _BOTH_POSTS.fullmatch(plain)
        if both:
            plain = _BOTH_IN_TURN.format(both["stitch"])
        parts = _BETWEEN.split(plain)
        if "(" not in plain and any(_CHAINS.fullmatch(part) for part in parts):
            parts = [f"({plain})"]  # chains are no row of their own, so this is one row
        return tuple(row for part in parts for row in self._row(part))

    def _row(self, part: str) -> tuple[FabricRow, ...]:
        found = _ROW.fullmatch(part)
        if found is None:
            raise self._refused("no_fabric")
        marked = (found["mark"] or found["loop"] or " ")[0]
        loop = {" ": Loop.BOTH, "b": Loop.BACK, "f": Loop.FRONT}[marked]
        several = found["several"]
        stitch = self._stitch(found["stitch"]) if several is None else self._mixed(several)
        return (FabricRow(stitch, loop),) * self._count(found["count"])

    def _mixed(self, several: str) -> Stitch:
        """Stitches in turn along one row; just one of them is a row like any other."""
        parts = tuple(one for part in _IN_A_ROW.split(several) for one in self._part(part))
        if all(part.name == "ch" for part in parts):
            raise self._refused("only_chains")
        return parts[0] if len(set(parts)) == 1 else Mixed(parts)

    def _part(self, part: str) -> tuple[Crochet, ...]:
        found = _PART.fullmatch(part)
        if found is None or (found["count"] and found["after"]):
            raise self._refused("no_stitches_of_a_row")
        count = self._count(found["count"] or found["after"])
        return (PARTS[self._us_name(found["stitch"])],) * count

    def _stitch(self, name: str) -> Stitch:
        return STITCHES[self._us_name(name)]

    def _count(self, digits: str | None) -> int:
        count = int(digits or 1)
        if not 0 < count <= _MOST_ROWS:
            raise self._refused("fabric_count_out_of_range")
        return count

    def _us_name(self, name: str) -> str:
        """A crochet stitch under its US abbreviation."""
        if name in ("ch", "chain", "chains", "tapestry"):
            return "ch" if name.startswith("ch") else name
        for pattern in _POST:
            post = pattern.fullmatch(name)
            if post:
                return self._round_post(post["post"][0], self._plain_name(post["stitch"]))
        return self._plain_name(name)

    def _round_post(self, side: str, us_name: str) -> str:
        posted = f"{side}p{us_name}"
        if posted not in STITCHES:
            raise self._refused("no_post_stitch", stitch=us_name)
        return posted

    def _plain_name(self, name: str) -> str:
        short = _SHORT[self._terms].get(name, name)
        us_names = {us: us for us in UK_TO_US.values()}
        known = UK_TO_US if self._terms == "uk" else us_names
        if short in known:
            return known[short]
        if self._terms == "us" and short in UK_TO_US:
            raise self._refused("uk_name", stitch=short)
        if self._terms == "uk" and short in us_names:
            raise self._refused("us_name", stitch=short)
        if name in _KNITTED:
            raise self._refused("knitted_among_crocheted")
        raise self._refused("no_stitch", stitch=name, nearest=self._nearest(name))

    def _nearest(self, name: str) -> tuple[str, ...]:
        own = (*known_names(self._terms), *_KNITTED, *_CROCHETED)
        return tuple(names.nearest(name, own))

    def _refused(self, kind: str, **facts: object) -> Unreadable:
        return Unreadable(self._text, kind, **facts)


def known_names(terms: str) -> tuple[str, ...]:
    """The names of crochet stitches in these terms, short and long."""
    short = UK_TO_US if terms == "uk" else dict.fromkeys(UK_TO_US.values())
    return (*short, *_SHORT[terms])
