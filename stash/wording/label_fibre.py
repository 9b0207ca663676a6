"""The blend on a label: shares and fibres in either order, abbreviated or not."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from stash.errors import Ambiguous, Unreadable
from stash.trade import fibres
from stash.wording import numbers
from stash.wording.label_parts import Line


@dataclass(frozen=True, slots=True)
class _Part:
    """One share of a blend and where it stood."""

    share: Fraction
    name: str
    start: int
    end: int
    percent: bool


_SHARE = r"(?<![\w.])(?<![0-9][,/])(?P<share>[0-9]{1,3}(?:[.,][0-9]{1,2})?)"
_SLASHED = re.compile(
    r"(?<![\w.,/#])[0-9]{1,3}(?:\s?/\s?[0-9]{1,3}){1,3}%?(?!\s?(?:g|gr|oz|m|mts|yds?|y)\b|[\w/])"
)
#: `mohair silk 70 30`: read as shares only behind as many fibres, and where they make a hundred.
_SIDE_BY_SIDE = re.compile(
    r"(?<![\w.,/#])[0-9]{1,2}(?: [0-9]{1,2}){1,3}(?![\w/.%]|,\d| ?(?:g|m|y|yd|oz)\b)"
)
_OTHER = r"(?P<other>others?(?:\s+fib(?:re|er)s?)?|unknown\s+fib(?:re|er)s?)\b"
#: Said of a fibre, but about the wash.
_SUPERWASH = re.compile(r"\bsuperwash\b", re.IGNORECASE)
_STRANGE = r"(?P<strange>(?!off\b)[a-z][a-z-]*)"


@cache
def _share_first(percent_only: bool) -> re.Pattern[str]:
    """`75% wool`, `75 wl`; with a percent sign, a word that is no fibre is taken as well."""
    sign = r"\s*%\s*(?:of\s+)?" if percent_only else r"\s*(?P<sign>%?)\s*(?:of\s+)?"
    strange = f"|{_STRANGE}" if percent_only else ""
    return re.compile(rf"{_SHARE}{sign}(?:{fibres.fibre_pattern()}|{_OTHER}{strange})", re.I)


@cache
def _fibre_first() -> re.Pattern[str]:
    """`wool 75%`."""
    return re.compile(rf"(?<!\w)(?:{fibres.fibre_pattern()}|{_OTHER})\s*:?\s*{_SHARE}\s*%", re.I)


@cache
def _a_fibre() -> re.Pattern[str]:
    return re.compile(rf"(?<!\w){fibres.fibre_pattern()}", re.IGNORECASE)


@cache
def _rest_of_it() -> re.Pattern[str]:
    return re.compile(rf"\b(?:the\s+)?rest\s*:?\s+(?:is\s+)?{fibres.fibre_pattern()}", re.I)


@cache
def _pure() -> re.Pattern[str]:
    """`pure new wool`, `all cotton`: one fibre and no other."""
    return re.compile(rf"\b(?:pure|all)\s+(?:(?:new|virgin)\s+)?{fibres.fibre_pattern()}", re.I)


@cache
def _bare_after() -> re.Pattern[str]:
    """`merino 85 nylon 15`: only where all of it makes a hundred."""
    return re.compile(rf"(?<!\w){fibres.fibre_pattern()}\s*:?\s*{_SHARE}(?![\w./]|,\d)", re.I)


def take_fibre(line: Line) -> None:
    """A blend with its shares; shares whose fibres are not said are refused."""
    parts = _shared_parts(line.rest)
    if parts:
        if _SUPERWASH.search(line.rest, parts[0].start, max(p.end for p in parts)):
            line.learn("care", "superwash", care=_beside(line.so_far.care, "superwash"))
        for part in reversed(parts):
            line.cut(part.start, part.end)
        _learn(line, [(p.share, p.name) for p in parts] + _rest(line, parts))
        return
    if pure := line.take(_pure()):
        fibre = fibres.fibre_named(pure["fibre"])
        _learn(line, [(Fraction(100), fibre.name)] if fibre else [])
        return
    for found in _SIDE_BY_SIDE.finditer(line.rest):
        shares = [int(n) for n in found[0].split()]
        named = [*_a_fibre().finditer(line.rest[: found.start()])]
        if sum(shares) == 100 and len(named) >= len(shares):
            _take_slashed(line, found, shares)
            return
    for found in _SLASHED.finditer(line.rest):
        shares = [int(n) for n in re.findall(r"[0-9]+", found[0])]
        if 95 <= sum(shares) <= 105:
            _take_slashed(line, found, shares)
            return


def lone_fibres(words: str) -> list[str]:
    """Fibres named without a share, each once, in order; only words that can mean nothing else."""
    found = (m["fibre"].lower() for m in _a_fibre().finditer(words))
    names = [f.name for w in found if w in fibres.SAYS_FIBRE_ALONE and (f := fibres.fibre_named(w))]
    return list(dict.fromkeys(names))


def without_fibres(words: str) -> str:
    """The words with every fibre taken out, to see whether anything else is said."""
    return _a_fibre().sub(" ", words).strip()


def _shared_parts(rest: str) -> list[_Part]:
    """The reading, share first or fibre first, that leaves fewer shares unread."""
    first = _parts(_share_first(False), rest)
    if not any(p.percent for p in first) and not 90 <= sum(p.share for p in first) <= 110:
        first = []
    strict = _parts(_share_first(True), rest)
    after = _parts(_fibre_first(), rest)
    bare = _parts(_bare_after(), rest)
    if len(bare) > 1 and sum(p.share for p in bare) == 100 and not (first or after or strict):
        return bare
    known = max((first, after), key=len)
    return known if len(known) >= len(strict) else strict


def _parts(pattern: re.Pattern[str], rest: str) -> list[_Part]:
    return [_part(found) for found in pattern.finditer(rest)]


def _part(found: re.Match[str]) -> _Part:
    named = found.groupdict()
    fibre = fibres.fibre_named(named["fibre"]) if named.get("fibre") else None
    name = fibre.name if fibre else (named.get("strange") or "other fibre").lower()
    share = numbers.fraction(named["share"])
    return _Part(share, name, found.start(), found.end(), "%" in found[0])


def _rest(line: Line, parts: Sequence[_Part]) -> list[tuple[Fraction, str]]:
    """`25% silk, rest merino`: what the shares leave of a hundred."""
    left = Fraction(100) - sum(part.share for part in parts)
    found = line.take(_rest_of_it()) if left > 0 else None
    fibre = fibres.fibre_named(found["fibre"]) if found else None
    return [(left, fibre.name)] if fibre else []


def _take_slashed(line: Line, found: re.Match[str], shares: Sequence[int]) -> None:
    """`80/20 wool/nylon` or `wool nylon 80/20`: the shares in the order of the fibres."""
    near = [*_a_fibre().finditer(line.rest)]
    after = [m for m in near if m.start() >= found.end()][: len(shares)]
    before = [m for m in near if m.end() <= found.start()][-len(shares) :]
    named = after if len(after) == len(shares) else before
    if len(named) != len(shares):
        raise _which_first(found[0], shares)
    known = [fibres.fibre_named(m["fibre"]) for m in named]
    _learn(line, [(Fraction(s), f.name) for s, f in zip(shares, known, strict=True) if f])
    start, end = min(found.start(), named[0].start()), max(found.end(), named[-1].end())
    line.cut(start, end)


def _beside(told: str, more: str) -> str:
    return f"{told}, {more}" if told else more


def _which_first(text: str, shares: Sequence[int]) -> Ambiguous | Unreadable:
    names = ("wool", "nylon", "silk", "cotton")[: len(shares)]
    ways = [" ".join(f"{s}% {n}" for s, n in zip(order, names, strict=True))
            for order in (shares, shares[::-1])]  # fmt: skip
    if ways[0] == ways[1]:
        return Unreadable(text, "a blend", f"name the fibres, like {ways[0]}")
    return Ambiguous(text, ways)


def _learn(line: Line, parts: Sequence[tuple[Fraction, str]]) -> None:
    ordered = sorted(parts, key=lambda part: -part[0])
    words = ", ".join(f"{float(share):g}% {name}" for share, name in ordered)
    line.learn("fibre", words, fibre=words)
    total = sum(share for share, _ in parts)
    if total != 100:
        line.notes.append(f"blend sums to {float(total):g} %")
    for _, name in ordered:
        if name != "other fibre" and fibres.fibre_named(name) is None:
            line.notes.append(f"{name!r} is no fibre known here; kept as written")
