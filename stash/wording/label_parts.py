"""A label line while it is being read, and the parts that are told by a word beside them."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from datetime import date
from fractions import Fraction
from typing import Any

from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.money import Money
from stash.stock.incoming import Incoming
from stash.stock.yarn import Condition
from stash.wording import days, quantities

#: Stands where something was taken out of a line: what is left on its two sides stays apart.
MARK = "\x01"
#: The same where a colour number stood: what follows may be the colour's name.
COLOUR_MARK = "\x01\x02"
#: What ends one part of a line; a comma between digits is a decimal one.
ENDS = r"(?:,(?![0-9])|[;|()\x01\x02]|\s[-–—]+\s|$)"

#: A skein in any of its packages.
PACKAGE = (
    r"(?:skeins?|sks?|balls?|hanks?|cakes?|cones?|bobbins?|donuts?|packages?"
    r"|pcs?|nos|kn(?:ä|ae)uel|str(?:a|ä|ae)nge?|st(?:ü|ue)ck|pelotes?|écheveaux?)"
)
#: An amount with its unit, without names for its parts.
AMOUNT = quantities.PATTERN.replace("?P<number>", "?:").replace("?P<unit>", "?:")
ABOUT = r"(?:about|approx(?:imately|\.)?|circa|ca\.|c\.|ca(?=\s)|roughly|around|maybe|est\.?|~|≈|±)"

NO_MONEY = Money(0)


@dataclass(frozen=True, slots=True)
class Price:
    """What a line says of money, before the number of skeins is known; all for one, or for all."""

    each: Money | None = None
    whole: Money | None = None
    deal: tuple[int, Money] | None = None
    postage: Money = NO_MONEY


@dataclass(slots=True)
class Line:
    """A line on its way: what is left to read, and what was understood so far.

    It is the one thing here that changes, because each reader takes its part out of `rest`.
    `kept` are words that belong in the yarn's note; `notes` are doubts for whoever typed the line.
    """

    text: str
    rest: str
    today: date
    currency: str = ""
    so_far: Incoming = field(default_factory=lambda: Incoming(name=""))
    understood: list[tuple[str, str]] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    kept: list[str] = field(default_factory=list)
    count: int | None = None
    part: Fraction | None = None
    total: Mass | Length | None = None
    opened: bool = False
    leftover: bool = False
    price: Price | None = None

    def take(self, pattern: re.Pattern[str], mark: str = MARK) -> re.Match[str] | None:
        """The first place the pattern fits, cut out of what is left."""
        found = pattern.search(self.rest)
        if found:
            self.cut(found.start(), found.end(), mark)
        return found

    def cut(self, start: int, end: int, mark: str = MARK) -> None:
        """Takes out what was read and leaves a mark there."""
        self.rest = f"{self.rest[:start]} {mark} {self.rest[end:]}"

    def learn(self, what: str, words: str, **facts: Any) -> None:
        """Notes something as understood and keeps the facts it stands for."""
        self.understood.append((what, words))
        self.so_far = replace(self.so_far, **facts)

    def roughly(self) -> Incoming:
        """The facts so far, marked as rough."""
        return replace(self.so_far, about=True)

    def keep(self, what: str, words: str) -> None:
        """Understood, but with no place of its own: it goes into the yarn's note."""
        self.understood.append((what, words))
        self.kept.append(words)


_TOLD = {
    what: re.compile(
        rf"(?:(?<=^)|(?<=[,;|(\x01\x02])|(?<=\s))(?:{words})\s*[:=]\s*(\S.*?)\s*"
        rf"(?={ENDS}|\s(?:{AMOUNT}|lot\b|\w+:\s))",
        re.IGNORECASE,
    )
    for what, words in {
        "maker": "maker|made by|brand|mill|dyer",
        "name": "yarn|name",
        "place": "place|location|where|kept in|stored in",
        "owner": "owner|belongs to",
        "care": "care|washing",
    }.items()
}
_NOTE = re.compile(r"\bnotes?\s*[:=]\s*([^;|]+)", re.IGNORECASE)
_BAR_CODE = re.compile(
    r"\b(?:ean|upc|barcode|bar code)\b\s*:?\s*[0-9][0-9 ]{6,}[0-9]", re.IGNORECASE
)
_RESERVED = re.compile(
    r"(?:(?<=^)|(?<=[,;|(\x01]))\s*((?:(?:reserved|saved|promised|kept|keep|meant)\b|for\s+(?!sale\b))"
    r"(?!\s*[£€$0-9])[^,;|()\x01]*)"
    r"|\b((?:reserved|saved|earmarked|keep|kept)\s+for\b[^,;|()\x01]*|reserved\b[^,;|()\x01]*"
    r"|do not use\b[^,;|]*)",
    re.IGNORECASE,
)
_DATE = re.compile(
    r"(?:\b(?:bought|purchased|acquired|got)\s*(?:on|:)?\s*)?"
    r"(?<![\w/.-])(\d{4}-\d{1,2}-\d{1,2}|\d{1,2}([/.-])\d{1,2}\2(?:\d{4}|\d{2})"
    r"|\d{1,2}(?:st|nd|rd|th)?\s+(?:jan|feb|mar|apr|may|june?|july?|aug|sept?|oct|nov|dec)[a-z]*\.?"
    r"\s+\d{4})(?![\w/])|\b(?:bought|purchased)\s+(today|yesterday)\b",
    re.IGNORECASE,
)
_SEASON = re.compile(
    r"\b(?:bought\s+(?:in\s+)?)?(?:(?:early|late|mid)\s+)?"
    r"(?:spring|summer|autumn|fall|winter|christmas)\s+(?:of\s+)?(?:'?\d{2}|\d{4})\b[?]*"
    r"|\bbought\s+(?:in\s+)?\d{4}\b[?]*",
    re.IGNORECASE,
)
_HAND_DYED = re.compile(r"\b(?:hand|kettle|plant)[\s-]*(?:dyed|painted)\b", re.IGNORECASE)
_CARE = re.compile(
    r"\b(?:super[\s-]?wash|(?:do not |don't |no )(?:bleach|iron|tumble(?:[\s-]dry)?|wring"
    r"|machine wash)"
    r"|(?:(?:machine|hand|cool|cold|warm|gentle)[\s-]+)+wash(?:able)?(?:\s+only)?"
    r"(?:\s+(?:at\s+)?\d{2}(?:\s*°?\s*C\b|°)?)?"
    r"|wash(?:able)?\s+(?:at\s+)?\d{2}(?:\s*°?\s*C\b|°)?"
    r"|(?:machine )?washable|dry[\s-]clean(?:\s+only)?|tumble[\s-]dry(?:\s+low)?"
    r"|(?:lay |dry )flat(?: to dry)?)|(?<!\w)\d{2}\s*°\s*C?\b(?:\s*wash)?",
    re.IGNORECASE,
)
_STORE = (
    "bin|box|shelf|drawer|basket|bag|tub|crate|tote|cupboard|closet|wardrobe|trunk|chest|attic|loft"
    "|garage|cellar|bed|stairs|sofa|desk|table|studio|workroom|bedroom|room"
)
_PLACE = re.compile(
    rf"(?:(?<=^)|(?<=[,;|(\x01]))\s*((?:(?:in|on|at|under|behind|above|below|beside|inside"
    rf"|top of)\s+"
    rf"(?:(?:the|my|a|an|old|top|bottom|big|small|blue|red|green|white|black|spare)\s+)*(?:{_STORE})\b"
    rf"|(?:(?:top|bottom|back|spare)\s+)?(?:{_STORE})\b)(?!\s+of\b)[^,;|()\x01]*?)\s*(?={ENDS})"
    rf"|(?<!\w)((?:in\s+)?(?:bin|box|shelf|drawer|tub|crate|tote|basket)\s+(?:[0-9]+[a-z]?|[A-Z])\b)",
    re.IGNORECASE,
)


_CONDITIONS = {
    Condition.SMOKE: r"smok(?:e|y|er'?s?|ing)[\s-]+(?:smells?|home|house|damage)"
    r"|smells?\s+(?:of|like)\s+smoke",
    Condition.PETS: r"(?:pet|cat|dog)[\s-]+(?:hairs?|home|house)",
    Condition.FADED: r"(?:sun|light)[\s-]?(?:faded|bleached)"
    r"|faded\s+(?:in|by|from|on|at)\b[^,;|()\x01]*",
    Condition.QUARANTINED: r"quarantined?|moths?\b[^,;|()\x01]*",
}
_CONDITION = {
    condition: re.compile(rf"(?<!\w)(?:from\s+an?\s+)?(?:{words})(?!\w)", re.IGNORECASE)
    for condition, words in _CONDITIONS.items()
}


def take_conditions(line: Line) -> None:
    """What is to be known before it goes into anything: smoke, pets, faded, kept apart."""
    for condition, pattern in _CONDITION.items():
        if found := line.take(pattern):
            both = (*line.so_far.conditions, condition)
            line.learn("condition", f"{condition} ({found[0].strip()})", conditions=both)


def take_note(line: Line) -> None:
    """Words after `note:`, which nobody else should read."""
    if note := line.take(_NOTE):
        line.keep("note", note[1].strip())


def take_told(line: Line) -> None:
    """Parts with their name before a colon, bar codes, and what the yarn is meant for."""
    if bars := line.take(_BAR_CODE):
        line.keep("bar code", bars[0].strip())
    for what, pattern in _TOLD.items():
        if told := line.take(pattern):
            line.learn(what, told[1], **{what: told[1]})
    while reserved := line.take(_RESERVED):
        words = (reserved[1] or reserved[2]).strip()
        line.keep("meant for", words)
        line.notes.append(f"{words!r} is kept as a note; `stash aside` sets the yarn aside")


def take_days(line: Line) -> None:
    """The day it was bought; a season stays a note."""
    if found := line.take(_DATE):
        bought = days.day(found[1] or found[3], line.today)
        line.learn("bought", bought.isoformat(), bought=bought)
    if season := line.take(_SEASON):
        line.keep("about when", season[0].strip())


def take_care(line: Line) -> None:
    """Care words as they stand, and whether it is dyed by hand."""
    words = [line.so_far.care] if line.so_far.care else []
    while found := line.take(_CARE):
        words.append(" ".join(found[0].split()))
    if words:
        line.learn("care", ", ".join(words), care=", ".join(words))
    if line.take(_HAND_DYED):
        line.learn("dyed", "by hand", hand_dyed=True)


def take_place(line: Line) -> None:
    """Where it is kept; two places are one text."""
    places = [line.so_far.place] if line.so_far.place else []
    while found := line.take(_PLACE):
        places.append((found[1] or found[2]).strip())
    if places:
        line.learn("place", ", ".join(places), place=", ".join(places))
