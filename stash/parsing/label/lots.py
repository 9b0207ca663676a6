"""What is said of a dye lot: its number exactly, a claim that there is none, or nothing known."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from stash.errors import Ambiguous, Unreadable
from stash.parsing import coins, quantities
from stash.parsing.label.span import Kind, Span, span_between
from stash.parsing.label.text import Text
from stash.parsing.label.vocabulary import PACKAGE, compiled
from stash.stock.yarn import LotState


@dataclass(frozen=True, slots=True)
class LotSaid:
    """A lot as a field says it; `doubt` keeps words that were not enough to go by."""

    state: LotState
    text: str = ""
    doubt: str = ""


_LOT = r"(?:dye[\s-]*(?:lots?|batch)|lots?)"
_BARE = compiled(rf"(?:{_LOT}|dl)\b\s*[:.#]?")
_KEY = compiled(
    r"(?<![\w])(?<!\ba )(?<!job )(?<!the )(?:dye[\s-]*(?:lot|batch)|lot|dl|d/l|d\.l\.|batch"
    r"|farbpartie|partie|partij|parti|los|charge|bain|lote|bagno"
    r"|lotto|verfbad|kleurbad|färgbad|färgparti|badnummer|bad|farvebad|farvelot|fargeparti"
    r"|fargebad|fargelot|partita|tintada|baño|banho|tinta|l(?=:\s*\w*\d)|lt(?=\.?\s?\d)|part"
    r"(?=\.\s?\w*\d)|pt(?=\.\s?\d))"
    r"(?:[\s-]*(?:nos?|n|numbers?|num|nr|nummer|n°|nº|numéro|número|numero)(?![^\W\d_])\.?)?"
    r"(?:(?![^\W_])|(?=[0-9]))(?![/])"
    r"\s*(?:\.(?=\s?\w))?\s*[:#=]?\s*(?!of\b)(?=\S)"
)
_NOT_SAID = r"(?:known|given|stated|on|legible|readable|visible|found|left|number|no\b|label|info)"
_NONE = compiled(
    rf"(?<![\w/])(?:no|without(?:\s+an?)?|ohne|sans|sin|senza|geen|utan|uten|uden)[\s-]+(?:{_LOT}"
    rf"|(?:farb)?partie|bain|lote|bagno|verfbad|färgbad|farvebad|fargebad)\b(?!"
    rf"\s+{_NOT_SAID})"
    rf"(?:\s+(?:required|needed|claimed|yarn))?|(?<![\w/]){_LOT}[\s:-]*(?:none|free)\b(?!"
    rf"\s+{_NOT_SAID})"
)
_UNKNOWN = compiled(
    rf"(?<![\w/])(?:(?:unknown|lost|mystery|missing|unreadable|illegible)\s+{_LOT}\b|no\s+{_LOT}"
    rf"\s+{_NOT_SAID}(?:\s+(?:the\s+)?(?:label|band))?"
    rf"|(?:{_LOT}|dl|batch)(?:\s*(?:no|number|nr)\b\.?)?\s*[:#=]?\s*(?:(?:is\s+)?(?:unknown"
    rf"|not\s+(?:known|given|stated|legible)|unreadable)|lost|gone"
    r"|missing|illegible|torn\s+off|none\s+(?:known|given|stated)|n\.?/?a\.?|\?+|-+|–|—)(?![\w/]))"
)
_SAME = compiled(
    rf"(?:\b(?:probably|prob|maybe|possibly|all)\s+)?(?:\bthe\s+)?\bsame\s+{_LOT}\b"
    r"(?:\s+as\s+[^,;|()\x01]*)?\s*(?:\(\s*\?+\s*\)|\?+)?"
)
_ALL_ONE = compiled(
    rf"\b(?:all\s+)?(?:the\s+)?(?:same|one|matching)\s+{_LOT}\b(?!\s*\?)(?!\s+as)(?:\s*[:#=]?"
    rf"\s*(?=[A-Za-z]{{0,2}}[0-9]))?"
)
_MIXED = compiled(
    rf"\b(?:mixed|different|various|assorted|several|two|three|four|[2-9])\s+(?:different"
    rf"\s+)?{_LOT}(?<=s)\b"
    rf"|\bmixed\s+{_LOT}\b|\blots\s+\S+\s*(?:,|and|&|\+)"
)
_SHORT = r"[A-Za-z]{0,3}\d[\w/-]*(?!\s*(?:g|gr|m|yds?|oz)(?![^\W\d_]))"
_FEW = r"(?<![\w.,/])(?P<{0}>[0-9]{{1,2}}|one|two|three|four|five|six)(?![\w.,/])"
_AND = r"\s*(?:,|;|and|&|\+|plus)+\s*"
_PER_LOT = compiled(
    rf"{_FEW.format('n1')}\s*(?:{PACKAGE}\s*)?(?:x\s*)?(?:of|in|from|with|are|is|:)?\s*(?:the"
    rf"\s+)?{_LOT}\s*[:#]?\s*(?P<l1>{_SHORT})"
    rf"{_AND}{_FEW.format('n2')}\s*(?:{PACKAGE}\s*)?(?:x\s*)?(?:(?:of|in|from|with|are|is|:)"
    rf"\s*)?(?:the\s+)?(?:{_LOT})?\s*[:#]?\s*(?P<l2>{_SHORT})"
    rf"|{_LOT}\s*[:#]?\s*(?P<a>{_SHORT})\s*(?:\(\s*(?:x|×)?|x|×|:)\s*(?P<na>[0-9]{{1,2}})"
    rf"(?!\w)\s*(?:{PACKAGE})?\)?{_AND}(?:{_LOT})?\s*(?P<b>{_SHORT})\s*(?:\(\s*(?:x|×)?|x|×|:)"
    rf"\s*(?P<nb>[0-9]{{1,2}})(?!\w)\s*(?:{PACKAGE})?\)?"
)
_NOTHING = compiled(
    r"\W*|n\.?/?a\.?|(?:is\s+)?(?:unknown|not\s+(?:known|given|stated)|lost|missing|illegible)\W*"
    r"|none\s+(?:known|given|stated)"
)
_CLAIM = compiled(rf"(?:none|no)(?:\s+claimed)?|(?:no|without)[\s-]+{_LOT}(?:\s+claimed)?")
_DOUBT = compiled(r"\?|\b(?:maybe|probably|prob|possibly|perhaps|same|as last|see above)\b")

_TOKEN = re.compile(r"[^\s,;|()\[\]]+")
_ENDS_LOT = compiled(
    # two digits behind the point are money without its sign, not more of the number
    rf"{quantities.PATTERN}|\d+[.,]\d{{2}}(?!\w|[.,/-]\d)|\d+(?:\.\d+)?\s*(?:[x×%@]|{PACKAGE}|ply\b)|[x×]\s?\d|#|~|{coins.SIGNED}"
    r"|\d+\s*(?:sts?|stitches|rows|wpi|left|each|ea)\b|US\s?\d|[A-S]/\d|class\b|bin\b|box\b"
    r"|\d+%|[-–—]$"
)


def lot(text: str) -> LotSaid:
    """A lot as a field of its own says it: `48213/B`, `Lot: 007`, `none`, `?`, nothing.

    The number is kept as it stands: letters, slash, zeros and inner spaces. Doubtful words are no
    number, because an unknown lot must never pass for a known one.
    """
    plain = text.strip()
    if _MIXED.search(plain) or plain.lower().startswith("mixed"):
        raise Unreadable(text, "several_lots_in_a_field")
    if _CLAIM.fullmatch(plain) or _NONE.fullmatch(plain):
        return LotSaid(LotState.CLAIMED_NONE)
    if _NOTHING.fullmatch(plain) or _UNKNOWN.fullmatch(plain) or _BARE.fullmatch(plain):
        return LotSaid(LotState.UNKNOWN)
    if _DOUBT.search(plain):
        return LotSaid(LotState.UNKNOWN, doubt=plain)
    key = _KEY.match(plain)
    return LotSaid(LotState.NUMBERED, plain[key.end() :] if key else plain)


def lot_spans(text: Text) -> Iterator[Span]:
    """The lots a line may speak of."""
    plain = text.plain
    for m in _PER_LOT.finditer(plain):
        yield _per_lot(text, m)
    for m in _MIXED.finditer(plain):
        question = Unreadable(plain, "several_lots")
        yield span_between(text, m.start(), m.end(), Kind.QUESTION, question, 4.0)
    for m in _SAME.finditer(plain):
        doubt = LotSaid(LotState.UNKNOWN, doubt=m[0].strip())
        yield span_between(text, m.start(), m.end(), Kind.LOT, doubt, 3.0)
    for m in _ALL_ONE.finditer(plain):
        if not _KEY.match(plain, m.end()):
            yield span_between(text, m.start(), m.end(), Kind.GAP, None, 2.0)
    for m in _NONE.finditer(plain):
        yield span_between(text, m.start(), m.end(), Kind.LOT, LotSaid(LotState.CLAIMED_NONE), 3.0)
    for m in _UNKNOWN.finditer(plain):
        yield span_between(text, m.start(), m.end(), Kind.LOT, LotSaid(LotState.UNKNOWN), 3.0)
    for m in _KEY.finditer(plain):
        yield from _numbered(text, m)


def _numbered(text: Text, key: re.Match[str]) -> Iterator[Span]:
    inner = _KEY.match(text.plain, key.end())
    start = inner.end() if inner else key.end()
    end = _end_of_number(text.plain, start)
    number = text.plain[start:end].rstrip(" -–—")
    if not number or not any(c.isdigit() or c.isupper() for c in number):
        return
    if not any(c.isdigit() for c in number) and len(number) > 3:
        return
    other = re.match(r"\s+or\s+(\S*\d\S*)", text.plain[end:])
    if other:
        question = Ambiguous(
            f"{key[0]}{number}{other[0]}".strip(), [f"lot {number}", f"lot {other[1]}"]
        )
        yield span_between(text, key.start(), end + other.end(), Kind.QUESTION, question, 4.0)
    if _DOUBT.search(number):
        yield span_between(
            text,
            key.start(),
            end,
            Kind.LOT,
            LotSaid(LotState.UNKNOWN, doubt=f"perhaps {number}"),
            3.0,
        )
    else:
        yield span_between(
            text, key.start(), end, Kind.LOT, LotSaid(LotState.NUMBERED, number), 3.0
        )


def ends_of_numbers(text: Text) -> Iterator[int]:
    """Where each lot number of the line ends."""
    for key in _KEY.finditer(text.plain):
        end = _end_of_number(text.plain, key.end())
        if any(c.isdigit() for c in text.plain[key.end() : end]):
            yield end


def _per_lot(text: Text, m: re.Match[str]) -> Span:
    """Several lots, a count of each: lines of their own."""
    pairs = (
        ((m["n1"], m["l1"]), (m["n2"], m["l2"]))
        if m["n1"]
        else ((m["na"], m["a"]), (m["nb"], m["b"]))
    )
    question = Unreadable(text.plain, "lots_with_counts", lots=pairs)
    return span_between(text, m.start(), m.end(), Kind.QUESTION, question, 6.0)


def _end_of_number(rest: str, start: int) -> int:
    """Where a lot number ends: its first word, and what follows it with digits of its own."""
    end = start
    for token in _TOKEN.finditer(rest, start):
        between = rest[end : token.start()]
        first = end == start
        if between.strip() or (
            first and re.match(rf"\d+\s+{PACKAGE}", rest[token.start() :], re.I)
        ):
            break
        goes_on = any(c.isdigit() for c in token[0]) or re.fullmatch(r"[A-Z]", token[0])
        if not first and (not goes_on or _ENDS_LOT.match(rest, token.start())):
            break
        end = token.end()
    word = rest[start:end]
    return end - 1 if word.endswith((".", ":")) else end  # a full stop ends the sentence
