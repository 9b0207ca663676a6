"""What is said of a dye lot: its number exactly, a claim that there is none, or nothing known."""

from __future__ import annotations

import re
from dataclasses import dataclass

from stash.errors import Ambiguous, Unreadable
from stash.stock.yarn import LotState
from stash.wording import coins, quantities
from stash.wording.label_parts import PACKAGE, Line


@dataclass(frozen=True, slots=True)
class LotSaid:
    """A lot as a field says it; `doubt` keeps words that were not enough to go by."""

    state: LotState
    text: str = ""
    doubt: str = ""


_LOT = r"(?:dye[\s-]*lots?|lots?)"
_BARE = re.compile(rf"(?:{_LOT}|dl)\b\s*[:.#]?", re.IGNORECASE)
_KEY = re.compile(
    r"(?<![\w/])(?<!\ba )(?<!job )(?:dye[\s-]*lot|lot|dl|d/l|batch|partie|bain|l(?=:\s*\w*\d))"
    r"(?![\w/])"
    r"(?:\s*(?:no|number|nr)\b\.?)?\s*[:#=]?\s*(?!of\b)(?=\S)",
    re.IGNORECASE,
)
_NOT_SAID = r"(?:known|given|stated|on|legible|readable|visible|found|left|number|no\b|label)"
_NONE = re.compile(
    rf"(?<![\w/])(?:no|without(?:\s+an?)?)[\s-]+{_LOT}\b(?!\s+{_NOT_SAID})(?:\s+(?:required|needed|claimed))?"
    rf"|(?<![\w/]){_LOT}[\s:-]*(?:none|free)\b(?!\s+{_NOT_SAID})",
    re.IGNORECASE,
)
_UNKNOWN = re.compile(
    rf"(?<![\w/])(?:(?:unknown|lost|mystery|missing)\s+{_LOT}\b|no\s+{_LOT}\s+{_NOT_SAID}(?:\s+(?:the\s+)?label)?"
    rf"|(?:{_LOT}|dl|batch)\s*[:#=]?\s*(?:(?:is\s+)?(?:unknown|not\s+(?:known|given|stated|legible))|lost"
    r"|missing|illegible|none\s+(?:known|given|stated)|n\.?/?a\.?|\?+|-+|–|—)(?![\w/]))",
    re.IGNORECASE,
)
_SAME = re.compile(
    rf"(?:\b(?:probably|prob|maybe|possibly|all)\s+)?(?:\bthe\s+)?\bsame\s+{_LOT}\b"
    r"(?:\s+as\s+[^,;|()\x01]*)?\s*(?:\(\s*\?+\s*\)|\?+)?",
    re.IGNORECASE,
)
_MIXED = re.compile(
    rf"\b(?:mixed|different|various|assorted|several|two|three|four|[2-9])\s+{_LOT}(?<=s)\b"
    rf"|\bmixed\s+{_LOT}\b|\blots\s+\S+\s*(?:,|and|&|\+)",
    re.IGNORECASE,
)
_NOTHING = re.compile(
    r"\W*|n\.?/?a\.?|(?:is\s+)?(?:unknown|not\s+(?:known|given|stated)|lost|missing|illegible)\W*"
    r"|none\s+(?:known|given|stated)",
    re.IGNORECASE,
)
_CLAIM = re.compile(rf"(?:none|no)(?:\s+claimed)?|(?:no|without)[\s-]+{_LOT}(?:\s+claimed)?", re.I)
_DOUBT = re.compile(r"\?|\b(?:maybe|probably|prob|possibly|perhaps|same|as last|see above)\b", re.I)

_TOKEN = re.compile(r"[^\s,;|()\x01]+")
_ENDS_LOT = re.compile(
    rf"{quantities.PATTERN}|\d+(?:\.\d+)?\s*(?:[x×%@]|{PACKAGE}\b|ply\b)|[x×]\s?\d|#|~|{coins.SIGNED}"
    r"|\d+\s*(?:sts?|stitches|rows|wpi)\b|US\s?\d|[A-S]/\d|class\b|bin\b|box\b",
    re.IGNORECASE,
)
_ONE_A_LINE = "write one line for each lot, with its own count"


def lot(text: str) -> LotSaid:
    """A lot as a field of its own says it: `48213/B`, `Lot: 007`, `none`, `?`, nothing.

    The number is kept as it stands: letters, slash, zeros and inner spaces. Doubtful words are no
    number, because an unknown lot must never pass for a known one.
    """
    plain = text.strip()
    if _MIXED.search(plain) or plain.lower().startswith("mixed"):
        raise Unreadable(text, "one dye lot", _ONE_A_LINE)
    if _CLAIM.fullmatch(plain) or _NONE.fullmatch(plain):
        return LotSaid(LotState.CLAIMED_NONE)
    if _NOTHING.fullmatch(plain) or _UNKNOWN.fullmatch(plain) or _BARE.fullmatch(plain):
        return LotSaid(LotState.UNKNOWN)
    if _DOUBT.search(plain):
        return LotSaid(LotState.UNKNOWN, doubt=plain)
    key = _KEY.match(plain)
    return LotSaid(LotState.NUMBERED, plain[key.end() :] if key else plain)


def take_lot(line: Line) -> None:
    """The lot a line speaks of; more than one cannot be one line of yarn."""
    if _MIXED.search(line.rest):
        raise Unreadable(line.text, "one line of yarn", _ONE_A_LINE)
    if same := line.take(_SAME):
        words = same[0].strip()
        line.keep("lot", f"{words}, so not known")
        line.notes.append(f"{words!r} names no lot: it counts as unknown until you read the label")
    elif line.take(_NONE):
        line.learn("lot", "none claimed", lot_state=LotState.CLAIMED_NONE)
    elif not line.take(_UNKNOWN):
        _take_number(line)
    if _KEY.search(line.rest) and line.so_far.lot:
        raise Unreadable(line.text, "one line of yarn", _ONE_A_LINE)


def _take_number(line: Line) -> None:
    key = _KEY.search(line.rest)
    if not key:
        return
    inner = _KEY.match(line.rest, key.end())
    start = inner.end() if inner else key.end()
    end = _end_of_number(line.rest, start)
    number = line.rest[start:end]
    if not number:
        return
    other = re.match(r"\s+or\s+(\S+)", line.rest[end:])
    if other:
        raise Ambiguous(f"{number}{other[0]}", [f"lot {number}", f"lot {other[1]}"])
    line.cut(key.start(), end)
    if _DOUBT.search(number):
        line.keep("lot", f"perhaps {number}, so not known")
        line.notes.append(f"lot {number!r} is doubtful: it counts as unknown until you are sure")
    else:
        line.learn("lot", number, lot=number, lot_state=LotState.NUMBERED)


def _end_of_number(rest: str, start: int) -> int:
    """Where a lot number ends: its first word, and what follows it with digits of its own."""
    end = start
    for token in _TOKEN.finditer(rest, start):
        between = rest[end : token.start()]
        first = end == start
        if between.strip() or (first and re.match(rf"\d+\s+{PACKAGE}\b", rest[token.start() :])):
            break
        goes_on = any(c.isdigit() for c in token[0]) or re.fullmatch(r"[A-Z]", token[0])
        if not first and (not goes_on or _ENDS_LOT.match(rest, token.start())):
            break
        end = token.end()
    return end - 1 if rest[start:end].endswith(".") else end  # a full stop ends the sentence
