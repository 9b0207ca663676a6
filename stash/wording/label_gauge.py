"""Gauge, wraps per inch, hook and needle sizes on a label: kept as words, never as yarn."""

from __future__ import annotations

import re

from stash.trade import hooks
from stash.wording import numbers
from stash.wording.label_parts import ABOUT, Line

_N = numbers.PATTERN
_RANGE = rf"{_N}(?:\s*[-–]\s*{_N})?"
_STITCHES = r"(?:sts?|stitches|scs?|dcs?|hdcs?|trs?|rows?|rnds?|rounds?|r)\b\.?"
_SPAN = r"(?:cms?|mms?|inch(?:es)?|ins?\b|\"|m\b)"
_TOOL = r"(?:(?:crochet|circular|double[\s-]pointed)\s+)?(?:needles?|hooks?|dpns?|ndls?)"

_GAUGE = re.compile(
    rf"(?:(?:gauge|tension|{ABOUT})\s*(?::\s*)?){{0,3}}(?<![\w.,]){_RANGE}\s*{_STITCHES}"
    rf"(?:\s*(?:[x×,&/+]|by|and)?\s*{_RANGE}\s*{_STITCHES})?"
    rf"(?P<over>\s*(?:[=/]|to|per|over|in)\s*(?P<span>{_N}?\s*{_SPAN}))?(?:\s*(?:[x×]|by)\s*{_N}\s*{_SPAN})?"
    rf"(?:\s*(?:on|with|using|,|@)?\s*(?:an?\s+)?{_N}\s*mm\b(?:\s*{_TOOL}\b)?)?",
    re.IGNORECASE,
)
_WRAPS = re.compile(
    rf"(?<!\w)(?:(?:wpi|wraps\s+per\s+inch)\s*:?\s*{_RANGE}|(?:{ABOUT}\s*)?{_RANGE}\s*(?:wpi\b|wraps(?:\s+per\s+inch|/in)\b))",
    re.IGNORECASE,
)
_LETTER = r"[A-S]\s?[/-]\s?\d{1,2}(?:\s?1/2|\.5)?"
_HOOK = re.compile(
    rf"(?:\b[Hh]ook:?\s*(?:size\s*)?)?(?<![\w/])(?P<label>{_LETTER})(?![\w/])"
    rf"(?:\s*[,(/]?\s*(?P<mm>{_N})\s*mm\)?)?(?:\s*[Hh]ook\b)?"
)
_SIZE = re.compile(
    rf"(?<!\w)(?:{_TOOL}\s*(?:sizes?)?\s*:?\s*(?:US|UK)?\s*{_RANGE}(?:\s*mm)?(?!\s*(?:g|oz|yds?|m)\b)"
    rf"(?:\s*[,(/]?\s*(?:US|UK)\s?{_RANGE}\)?)?"
    rf"|{_RANGE}\s*mms?\b(?:\s*[,(/]?\s*(?:US|UK)\s?{_RANGE}\)?)?(?:\s*{_TOOL}\b)?"
    rf"|(?:US|UK)\s?{_RANGE}(?!\s*[a-z\"])(?:\s*[,(/]?\s*{_N}\s*mm\)?)?(?:\s*{_TOOL}\b)?)",
    re.IGNORECASE,
)


def take_gauge(line: Line) -> None:
    """Everything about stitches and tools, into the note."""
    while gauge := line.take(_GAUGE):
        line.keep("gauge", gauge[0].strip())
        span = (gauge["span"] or "").strip().lower()
        if re.fullmatch(r"(?:1\s*)?(?:in|ins|inch|\")", span):
            line.notes.append("a gauge over one inch is rough: measure over 10 cm")
    while wraps := line.take(_WRAPS):
        line.keep("wraps", wraps[0].strip())
    while hook := line.take(_HOOK):
        line.keep("hook", hook[0].strip())
        _check(line, hook)
    while size := line.take(_SIZE):
        line.keep("tool size", size[0].strip())


def _check(line: Line, hook: re.Match[str]) -> None:
    """A label and millimetres that do not belong together are pointed out, not put right."""
    known = hooks.hook_mm(hook["label"])
    if known and hook["mm"] and float(numbers.fraction(hook["mm"])) != known:
        line.notes.append(f"{hook['label']} is usually {hooks.hook_label(known)}; kept as written")
