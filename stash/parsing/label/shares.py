"""Shares of a skein and amounts of one, as they stand in a line."""

from __future__ import annotations

import re
from fractions import Fraction

from stash.errors import BadInput
from stash.measures.mass import Mass
from stash.parsing import numbers, quantities
from stash.parsing.label.span import Amount
from stash.parsing.label.vocabulary import (
    ABOUT,
    AMOUNT,
    LEFT,
    PACKAGE,
    USED,
    N,
    compiled,
)

SHARES = {
    "half": "1/2", "third": "1/3", "quarter": "1/4", "thirds": "2/3", "quarters": "3/4",
    "fifth": "1/5", "sixth": "1/6", "eighth": "1/8", "tenth": "1/10", "halves": "1/2",
    "halb": "1/2", "halber": "1/2", "halbes": "1/2", "halbe": "1/2", "hälfte": "1/2",
    "drittel": "1/3",
    "viertel": "1/4", "moitié": "1/2", "demi": "1/2", "demie": "1/2", "tiers": "1/3",
    "quart": "1/4", "mitad": "1/2", "medio": "1/2", "media": "1/2", "tercio": "1/3",
    "cuarto": "1/4", "metà": "1/2", "mezzo": "1/2", "mezza": "1/2", "terzo": "1/3", "helft": "1/2",
    "halve": "1/2", "kwart": "1/4", "derde": "1/3", "halv": "1/2", "halvt": "1/2", "hälften": "1/2",
    "halvdelen": "1/2", "tredjedel": "1/3", "fjärdedel": "1/4",
}  # fmt: skip


_TIMES = {
    "two": 2,
    "three": 3,
    "2": 2,
    "3": 3,
    "four": 4,
    "zwei": 2,
    "drei": 3,
    "trois": 3,
    "deux": 2,
}


SHARE = (
    rf"(?:(?P<times>{'|'.join(_TIMES)})[\s-]+(?=(?:thirds|quarters|fifths?|drittel|viertel"
    rf"|tiers|quarts))|(?:an?|one|eine?|une?|la|die|der|en|ett|de|het|el|il)\s+)?"
    rf"(?P<share>{'|'.join(sorted(SHARES, key=len, reverse=True))}|quarts|fifths"
    r"|(?<![\w.,/])(?<![0-9] )(?<![0-9]-)(?:[1-9]\s?/\s?(?:[2-9]|10))(?![\w/])"
    r"|(?<![\w.,/])0[.,][0-9]{1,2}(?![\w.,/])|(?<![\w.,/])[0-9]{1,3}(?:[.,]\d)?\s?%(?!\s*"
    r"(?:off|discount)))(?![^\W\d_])"
)


LEAN = (
    r"(?P<more>(?:a\s+(?:bit|little|touch|tad)\s+|just\s+|slightly\s+)?(?:more\s+than|over|above))"
    r"|(?P<less>(?:a\s+(?:bit|little|touch|tad)\s+|just\s+|slightly\s+)?(?:less\s+than|under"
    r"|below))"
    rf"|just|only|{ABOUT}"
)


OF_IT = (
    rf"(?:(?:[\s-]?ish)?\s*(?:of\s+)?(?:(?:an?|the|one|each|it|my|de|d'un|einer?|eines|av|van"
    rf"|di|un|una|een)\s+)?"
    rf"(?P<package>{PACKAGE})(?:[\s-]?ish)?|\s*of\s+(?:it|them|that))?"
)


STATE = (
    rf"(?:\s*(?:is\s+|are\s+|has\s+been\s+|already\s+|(?:of\s+it\s+)|been\s+|still\s+)*(?:"
    rf"(?P<left>{LEFT}|full|there)|(?P<used>{USED}|empty)))"
)


#: One amount, in two units where the first is the larger: `1 lb 4 oz`.
_COMPOUND = rf"(?:{N}\s*(?:kg|lbs?|pounds?)\s*{AMOUNT}|{AMOUNT})"


SO_MUCH = rf"(?:(?P<about>{ABOUT})\s*)?(?P<amount>{_COMPOUND}(?:\s*[/=(]\s*{AMOUNT}\)?)?)(?:-?ish)?"


#: Words for how much there is, as a share: what a careful person would guess (our choice), wide.
_ROUGH: tuple[tuple[str, Fraction], ...] = (
    (
        r"all\s+but\s+(?:a\s+)?(?:few|couple\s+of|handful\s+of|bit)(?:\s+of)?\s*(?:yards?|yds?"
        r"|metres?|meters?|m|yd|rows?|rounds?|grams?|inches)?\s*(?:left|used|gone|remaining)?",
        Fraction(3, 100),
    ),
    (
        r"(?:just|only|barely)?\s*(?:a\s+)?(?:few|couple\s+of)\s+(?:yards?|yds?|metres?|meters?)"
        r"(?:\s+(?:left|remaining))?",
        Fraction(3, 100),
    ),
    (
        rf"(?:almost|nearly|practically|virtually|pretty\s+much|just\s+about|fast)\s+(?:all\s+)?"
        rf"(?:{USED}|empty|finished|done|nothing\s+left|aufgebraucht|leer|alle|fini|vide|finito"
        rf"|vacío|slut|tomt|op)(?:\s+up)?",
        Fraction(1, 10),
    ),
    (
        rf"(?:mostly|largely|most(?:ly)?(?:\s+of\s+it)?(?:\s+is)?)\s+(?:{USED})(?:\s+up)?",
        Fraction(1, 5),
    ),
    (
        rf"(?:hardly|barely|scarcely|hardly\s+ever|kaum|à\s+peine|knappt|nauwelijks|apenas|appena)"
        rf"\s+(?:been\s+)?(?:{USED}|touched|started|begun|any\s+(?:used|gone)|opened|benutzt"
        rf"|commencée?|entamée?|iniziato|aangebroken)",
        Fraction(9, 10),
    ),
    (
        r"(?:only\s+)?just\s+(?:been\s+)?(?:started|begun|opened|cast\s+on)",
        Fraction(9, 10),
    ),
    (
        r"hardly\s+any\s+(?:left|remaining)|(?:next\s+to|almost|nearly)\s+nothing(?:\s+left)?|not"
        r"\s+much(?:\s+left)?|very\s+little(?:\s+left)?|(?:just\s+)?a\s+(?:tiny\s+|small\s+"
        r"|little\s+)?(?:scrap|dribble|smidge)|(?:just\s+)?a\s+(?:tiny\s+|small\s+|little"
        r"\s+|wee\s+)?(?:bit|little|scrap|dribble)(?:\s+left|\s+remaining)|tail\s+end",
        Fraction(1, 10),
    ),
    (
        r"(?:nearly|almost|virtually|practically|close\s+to|just\s+(?:under|short\s+of)|not"
        r"\s+quite)\s+(?:(?:a|the|one)\s+)?(?:full|whole|all(?:\s+(?:of\s+it|there|left))?"
        rf"|complete|new|voll|ganz|entier|pleine?)(?:\s+(?:{PACKAGE}))?(?:\s+(?:left|remaining"
        rf"|there))?",
        Fraction(9, 10),
    ),
    (
        r"fast\s+(?:volle?s?|neue?s?|ganze?s?)|presque\s+(?:plein|neuve|neuf|entière|entier)|quasi"
        r"\s+(?:pieno|intero|nuovo)|casi\s+(?:entero|lleno|nuevo|completo)|bijna\s+(?:vol|heel"
        r"|nieuw)|nästan\s+(?:hel|full|nytt)|næsten\s+(?:hel|fuld)|nesten\s+(?:helt?|full)",
        Fraction(9, 10),
    ),
    (
        r"mostly\s+(?:full|whole|there|left|all\s+there)|most(?:ly)?(?:\s+of(?:\s+(?:it|the|a|an"
        rf"|this))?)?(?:\s+(?:{PACKAGE}))?\s+(?:left|remaining|there|still\s+there)|most\s+of"
        rf"\s+(?:an?|the|one)\s+(?:"
        + PACKAGE
        + rf")|the\s+(?:best|better)\s+part\s+of\s+an?\s+(?:{PACKAGE})|a\s+(?:good|big|large)\s+"
        rf"(?:chunk|part|bit|lump)(?:\s+of\s+(?:it|a\s+{PACKAGE}))?\s+left|good\s+bit\s+left",
        Fraction(17, 20),
    ),
    (
        r"(?:a\s+)?(?:little|bit|small\s+(?:amount|bit)|few\s+(?:grams|rows|rounds)|some)\s+(?:has"
        r"\s+been\s+|is\s+)?(?:used|taken|gone|missing)|slightly\s+used|lightly\s+used|used\s+(?:a"
        r"\s+(?:little|bit|tiny\s+bit)|for\s+a\s+swatch|once)|swatched(?:\s+with)?|minus\s+a\s+"
        r"(?:swatch|bit|few\s+(?:yards|metres|rows))|less\s+a\s+swatch",
        Fraction(17, 20),
    ),
    (
        r"(?:mostly|nearly|almost)\s+gone",
        Fraction(1, 10),
    ),
)


ROUGHS = tuple((compiled(rf"(?<!\w)(?:{words})(?![^\W\d_])"), share) for words, share in _ROUGH)


def amount_in(words: str | None) -> Amount | None:
    """The amount in some words; of a weight with its length, the weight."""
    try:
        found = quantities.found_in(words or "")
    except BadInput:
        return None
    kinds = [f for f in found if f.unit not in ("cm", "mm", "in", "ft")]
    masses = [f for f in kinds if isinstance(f.value, Mass)]
    return (masses or kinds)[0].value if kinds else None


def share_in(m: re.Match[str]) -> Fraction | None:
    """The share a match speaks of; `more than half` lies between a half and three quarters."""
    named = m.groupdict()
    words = " ".join((named.get("share") or "").lower().split())
    if not words:
        return None
    if words.endswith("%"):
        return numbers.fraction(words.rstrip("% ").replace(",", ".")) / 100
    last = re.sub(r"(?<=fifth)s$|(?<=quart)s$", "", words)
    times = _TIMES.get((named.get("times") or "").lower(), 1)
    try:
        value = numbers.fraction(SHARES.get(last, last))
    except BadInput:
        return None
    if last in ("thirds", "quarters"):
        value = Fraction(times or 2, 3 if last == "thirds" else 4) if times > 1 else value
    else:
        value *= times
    if named.get("more"):
        return (value + min(Fraction(1), value + Fraction(1, 4))) / 2
    if named.get("less"):
        return (value + max(Fraction(0), value - Fraction(1, 4))) / 2
    return value
