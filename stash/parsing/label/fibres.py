"""The blend in a line: shares and fibres in either order, abbreviated or not."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from stash.errors import Ambiguous, Unreadable
from stash.parsing import numbers
from stash.parsing.label.span import Kind, Span, span_between
from stash.parsing.label.text import Text
from stash.parsing.label.vocabulary import LEFT, USED, Pattern, compiled
from stash.trade import colour_words, fibres


@dataclass(frozen=True, slots=True)
class Blend:
    """Fibres with their shares in percent, None where none is said; `strange` are not known."""

    parts: tuple[tuple[Fraction | None, str], ...]
    strange: tuple[str, ...] = ()
    superwash: bool = False


_SHARE = r"(?<![\w.])(?<![0-9][,/])(?P<share{0}>[0-9]{{1,3}}(?:[.,][0-9]{{1,2}})?)"
_OTHER = (
    r"(?:others?(?:\s+fib(?:re|er)s?)?|unknown\s+fib(?:re|er)s?|altro|andere|autres?|övrigt|andet)"
)
_BETWEEN = r"\s*(?:[,;/+&|·-]|\band\b|\bund\b|\bet\b|\by\b|\be\b|\ben\b|\boch\b|\bog\b|\s)\s*"
_STRANGE = r"(?!off\b|discount\b|of\b|rabatt\b)[^\W\d_][^\W\d_-]{2,}"
_SUPERWASH = re.compile(r"\bsuper[ -]?wash\b", re.IGNORECASE)


@cache
def _fibre() -> str:
    return fibres.fibre_pattern().replace("?P<fibre>", "?:").removesuffix(r"\b")


@cache
def _patterns() -> dict[str, Pattern]:
    fibre, number = _fibre(), r"(?:[0-9]{1,3}(?:[.,][0-9]{1,2})?)"
    percent = rf"{number}\s*%"
    first = rf"{percent}\s*(?:of\s+|de\s+)?(?:{fibre}|{_OTHER}|{_STRANGE})(?![^\W\d_])"
    bare = rf"(?<![\w.,/]){number}\s*%?\s*(?:{fibre}|{_OTHER})(?![^\W\d_])"
    bare_more = rf"{number}\s*%?\s*(?:{fibre}|{_OTHER})(?![^\W\d_])"
    after = rf"(?<!\w)(?:{fibre}|{_OTHER})\s*:?\s*{percent}"
    bare_after = rf"(?<!\w)(?:{fibre})\s*:?\s*{number}(?![\w.%])"
    tail = r"(?:\s*(?:super[ -]?wash|\(super[ -]?wash\)))?"
    listed = (
        rf"(?:{fibre})(?:\s*[/+&,-]\s*|\s+(?:and\s+)?)(?:(?:{fibre})(?:\s*[/+&,-]\s*|\s+(?:and"
        rf"\s+)?))*(?:{fibre})"
    )
    shares = r"[0-9]{1,3}(?:\s*[/:-]\s*[0-9]{1,3}){1,3}\s*%?"
    spaced = r"[0-9]{1,2}(?: [0-9]{1,2}){1,3}"
    return {
        "first": compiled(rf"(?<![\w.,/])(?:{first}){tail}(?:{_BETWEEN}(?:{first}){tail})*"),
        "bare": compiled(rf"(?:{bare}){tail}(?:{_BETWEEN}(?:{bare_more}){tail})+"),
        "after": compiled(rf"(?:{after})(?:{_BETWEEN}(?:{after}))*"),
        "bare_after": compiled(rf"(?:{bare_after})(?:{_BETWEEN}(?:{bare_after}))+"),
        "pairs_after": compiled(
            rf"(?<!\w)(?P<names>{listed})(?![^\W\d_])\s*[:,(]?\s*(?P<shares>{shares}|{spaced})"
            rf"(?![\w/]|\.\d)\)?"),
        "pairs_before": compiled(
            rf"(?<![\w.,/#])(?P<shares>{shares})\s*[:,]?\s*(?P<names>{listed})(?![^\W\d_])"),
        "two_after": compiled(
            rf"(?<!\w)(?P<names>{fibre})(?![^\W\d_])\s*[/+&-]\s*(?P<odd>[^\W\d_]{{3,}})\s*[:,(]?"
            rf"\s*(?P<shares>[0-9]{{1,3}}\s*[/:-]\s*[0-9]{{1,3}})(?![\w/])"),
        "rest": compiled(
            rf"\s*[,;]?\s*\b(?:the\s+)?(?:rest|remainder|balance)\s*:?\s+(?:is\s+)?"
            rf"(?P<rest>{fibre})(?![^\W\d_])"),
        "pure": compiled(
            rf"\b(?:pure|all|only|reine?|100\s*(?:pct|percent|prozent|procent|pour\s*cent))\s+(?:"
            rf"(?:new|virgin|schur)\s+)?(?P<pure>{fibre})(?![^\W\d_])"),
        "lone": compiled(
            rf"(?<![\w-])(?P<lone>{fibre})(?:\s*(?:[/+&]|-|\band\b)\s*(?:{fibre}))*(?:\s+(?:blend"
            rf"|mix|mischung))?(?![\w-])"),
        "shares": compiled(
            r"(?<![\w.,/#-])[0-9]{1,3}(?:\s?/\s?[0-9]{1,3}){1,3}%?(?!\s?(?:g|gr|oz|m|mts|yds?|y|nm"
            r"|ne)\b|[\w/])"),
        "item": compiled(
            rf"(?:(?P<a>{number})\s*%?\s*(?:of\s+|de\s+)?(?P<fa>{fibre}|{_OTHER}|{_STRANGE})"
            rf"(?![^\W\d_]))"),
        "item_after": compiled(rf"(?P<fa>{fibre}|{_OTHER})\s*:?\s*(?P<a>{number})\s*%?"),
        "name": compiled(rf"(?<!\w)(?:{fibre})(?![^\W\d_])"),
    }  # fmt: skip


def fibre_spans(text: Text) -> Iterator[Span]:
    """Every blend a line may hold."""
    known, plain = _patterns(), text.plain
    for m in known["shares"].finditer(plain):
        parts = [int(n) for n in re.findall(r"[0-9]+", m[0])]
        if 95 <= sum(parts) <= 105:
            yield span_between(
                text, m.start(), m.end(), Kind.QUESTION, _which_first(m[0], parts), 0.0
            )
    if "%" not in plain and not known["name"].search(plain):
        return
    for m in known["first"].finditer(plain) if "%" in plain else ():
        if not re.match(rf"[0-9.,]+\s*%\s*(?:{LEFT}|{USED})", m[0], re.IGNORECASE):
            yield from _shared(text, m, known["item"], 3.0)
    for m in known["bare"].finditer(plain):
        yield from _shared(text, m, known["item"], 2.5, total=True)
    for m in known["after"].finditer(plain):
        yield from _shared(text, m, known["item_after"], 3.0)
    for m in known["bare_after"].finditer(plain):
        yield from _shared(text, m, known["item_after"], 2.0, total=True)
    for way in ("pairs_after", "pairs_before", "two_after"):
        for m in known[way].finditer(plain):
            yield from _in_order(text, m)
    for m in known["pure"].finditer(plain):
        fibre = fibres.fibre_named(_bare(m["pure"]))
        if fibre:
            blend = _blend(m[0], [(Fraction(100), fibre.name)])
            yield span_between(text, m.start(), m.end(), Kind.FIBRE, blend, 2.0)
    for m in known["lone"].finditer(plain):
        names = lone_fibres(m[0])
        before = re.search(r"([^\W\d_]+)\s+$", text.plain[: m.start()])
        coloured = before is not None and before[1].lower() in colour_words.PLAIN
        start = before.start() if before and coloured else m.start()
        if (names and text.stands_apart(start, m.end())) or (names and coloured):
            blend = _blend(m[0], [(None, name) for name in names])
            yield span_between(text, m.start(), m.end(), Kind.FIBRE, blend, -0.6)


def _shared(
    text: Text, m: re.Match[str], item: Pattern, bonus: float, total: bool = False
) -> Iterator[Span]:  # fmt: skip
    parts: list[tuple[Fraction | None, str]] = []
    strange: list[str] = []
    for one in item.finditer(m[0]):
        fibre = fibres.fibre_named(_bare(one["fa"])) or fibres.fibre_named(one["fa"])
        other = re.fullmatch(_OTHER, one["fa"], re.IGNORECASE)
        if fibre is None and not other:
            strange.append(one["fa"].lower())
        name = fibre.name if fibre else "other fibre" if other else one["fa"].lower()
        parts.append((numbers.fraction(one["a"].replace(",", ".")), name))
    whole = sum(share or 0 for share, _ in parts)
    if (
        not parts
        or (total and not 90 <= whole <= 110)
        or (len(parts) == len(strange) and whole != 100)
    ):
        return
    start, end = m.start(), m.end()
    if whole < 100 and (rest := _patterns()["rest"].match(text.plain, end)):
        fibre = fibres.fibre_named(_bare(rest["rest"]))
        if fibre:
            parts.append((Fraction(100 - whole), fibre.name))
            end = rest.end()
    blend = _blend(m[0], parts, strange)
    yield span_between(text, start, end, Kind.FIBRE, blend, bonus)


def _in_order(text: Text, m: re.Match[str]) -> Iterator[Span]:
    """`wool/nylon 80/20`: the shares in the order of the fibres."""
    shares = [int(n) for n in re.findall(r"[0-9]+", m["shares"])]
    odd = m.groupdict().get("odd")
    words = [one[0] for one in _patterns()["name"].finditer(m["names"])]
    names = [f.name for w in words if (f := fibres.fibre_named(_bare(w)) or fibres.fibre_named(w))]
    if odd and fibres.fibre_named(odd) is None:
        names.append(odd.lower())
    strange = (odd.lower(),) if odd and fibres.fibre_named(odd) is None else ()
    if not 95 <= sum(shares) <= 105 or len(names) < len(shares):
        return
    start = m.start()
    if len(names) > len(shares):  # `Foo Merino, wool/silk 70/30`: the nearest ones are meant
        keep = [*_patterns()["name"].finditer(m["names"])][-len(shares)]
        start = m.start("names") + keep.start()
        names = names[-len(shares) :]
    parts = [(Fraction(s), n) for s, n in zip(shares, names, strict=True)]
    blend = _blend(text.plain[start : m.end()], parts, strange)
    yield span_between(text, start, m.end(), Kind.FIBRE, blend, 3.5)


def _blend(
    words: str, parts: Sequence[tuple[Fraction | None, str]], strange: Sequence[str] = ()
) -> Blend:
    """The fibres with the largest share first, and what the words say of their washing."""
    ordered = sorted(parts, key=lambda part: -(part[0] or 0))
    return Blend(tuple(ordered), tuple(strange), says_superwash(words))


def says_superwash(words: str) -> bool:
    """Whether words say that the yarn was treated so that it does not felt."""
    return _SUPERWASH.search(words) is not None


def _bare(words: str) -> str:
    return fibres.without_adjectives(words)


def lone_fibres(words: str) -> list[str]:
    """Fibres named without a share, each once, in order; only words that can mean nothing else."""
    found = [m[0].lower() for m in _patterns()["name"].finditer(words)]
    names = [
        fibre.name
        for word in found
        if (bare := _bare(word)) in fibres.SAYS_FIBRE_ALONE and (fibre := fibres.fibre_named(bare))
    ]
    return list(dict.fromkeys(names))


def pure_fibre(words: str) -> str | None:
    """The one fibre of `pure new wool`, `all cotton`; None where nothing says so."""
    found = _patterns()["pure"].search(words)
    fibre = fibres.fibre_named(_bare(found["pure"])) if found else None
    return fibre.name if fibre else None


def _which_first(text: str, shares: Sequence[int]) -> Ambiguous | Unreadable:
    names = ("wool", "nylon", "silk", "cotton")[: len(shares)]
    ways = [" ".join(f"{s}% {n}" for s, n in zip(order, names, strict=True))
            for order in (shares, shares[::-1])]  # fmt: skip
    if ways[0] == ways[1]:
        return Unreadable(text, "shares_without_fibres", like=ways[0])
    return Ambiguous(text, ways)
