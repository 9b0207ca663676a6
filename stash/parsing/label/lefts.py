"""What is left of an opened skein: weighed, as a share, or by word of mouth."""

from __future__ import annotations

from collections.abc import Iterator

from stash.parsing.label.shares import (
    LEAN,
    OF_IT,
    ROUGHS,
    SHARE,
    SHARES,
    SO_MUCH,
    STATE,
    amount_in,
    share_in,
)
from stash.parsing.label.span import Held, Kind, Span, span_of
from stash.parsing.label.text import Text
from stash.parsing.label.vocabulary import (
    AMOUNT,
    LEFT,
    OPENED,
    PACKAGE,
    USED,
    compiled,
)

_SHARE_STATE = compiled(rf"(?<!\w)(?:(?P<lean>{LEAN})\s*)?{SHARE}{OF_IT}{STATE}(?![^\W\d_])")


_STATE_SHARE = compiled(
    rf"(?<!\w)(?:(?P<left>{LEFT})|(?P<used>{USED}))\s*[:=]?\s*(?:is\s+|by\s+|of\s+it\s+)?(?:"
    rf"(?P<lean>{LEAN})\s*)?{SHARE}(?![^\W\d_])"
    rf"(?!\s*(?:{PACKAGE}|of\s+{AMOUNT}))"
)


_SHARE_OF = compiled(
    rf"(?<!\w)(?:(?P<lean>{LEAN})\s*)?{SHARE}(?:[\s-]?ish)?\s*(?:of\s+)?(?:(?:an?|the|one)"
    rf"\s+)?(?P<package>{PACKAGE})(?:[\s-]?ish)?"
)


_SHARE_OF_AMOUNT = compiled(
    rf"(?<!\w)(?:(?P<lean>{LEAN})\s*)?{SHARE}\s+of\s+(?:(?:an?|the|one)\s+)?(?={AMOUNT})"
)


_SHARE_ALONE = compiled(
    rf"(?:(?<=^)|(?<=[,;(] )|(?<=[,;(])|(?<=[-–] ))(?:(?P<lean>{LEAN})\s*)?{SHARE}(?:["
    rf"\s-]?ish)?(?=\s*(?:[,;)]|$|[-–]\s))"
)


_LEANING_SHARE = compiled(rf"(?<!\w)(?P<lean>{LEAN})\s*{SHARE}(?=\s*(?:[,;)]|$))")


_AMOUNT_LEFT = compiled(
    rf"{SO_MUCH}\s*(?:or\s+so\s+)?(?:of\s+(?:it|this|that|yarn)\s+)?(?:is\s+|are\s+|still\s+"
    rf"|only\s+)*(?:(?P<left>{LEFT}|partial|part(?:ly\s+used)?(?:[\s-]?(?:ball|skein|cake"
    rf"|hank)s?)?)|(?P<used>{USED}(?!\s*[:=]?\s*(?:about\s+)?{AMOUNT})))"
)


_LEFT_AMOUNT = compiled(
    rf"\b(?:(?P<left>net(?:to)?(?:\s+weight)?|left(?:[\s-]?over)?s?|remain(?:ing|s|der)?"
    rf"|remnants?|(?:opened|open"
    rf"|started|begun|partial|part[\s-]?(?:used|ball|skein|cake|hank)|part)(?:\s+{PACKAGE})?|"
    rf"(?:now\s+)?weigh(?:s|ing|ed)(?:\s+in\s+at)?|(?:used\s+)?(?:(?:up|down)\s+)?to\s+(?:the"
    rf"\s+|my\s+)?last|down\s+to|last|there\s+(?:is|are)|still(?:\s+has)?|scraps?|rest|noch"
    rf"|nur\s+noch|il\s+reste|reste|quedan|nog|con|con\s+solo|bara|kvar)|(?P<used>{USED}|minus"
    rf"|less|short\s+(?:of|by)|without|bar))"
    rf"\s*[:=]?\s*(?:is\s+|but\s+|all\s+but\s+|at\s+|with\s+|only\s+)?{SO_MUCH}(?!\s*/)"
)


_ONLY = compiled(
    rf"\b(?P<left>only|just|nur|seulement|solo|sólo|maar|bara|kun|enough)\s+{SO_MUCH}(?!\s*/)"
)


_OUT_OF = compiled(
    rf"{SO_MUCH}\s*(?:left\s+)?(?:(?:out\s+)?of|from|/)\s+(?:an?|the|my|its)\s+(?:(?:original"
    rf"|full|whole)\s+)?(?={AMOUNT})"
    rf"|{SO_MUCH.replace('?P<about>', '?P<about2>').replace('?P<amount>', '?P<amount2>')}"
    rf"\s*(?:out\s+of|left\s+of|left\s+out\s+of|left\s+from|of)\s+(?=(?:an?\s+)?{AMOUNT})"
)


_LEFT_BEHIND = compiled(
    rf"{SO_MUCH}(?=\s+(?:of\s+)?(?:[^\W\d_]+\s+){{1,4}}left(?![\s-]?over)(?:\s*[,;]|$))"
)


_ON_SCALE = compiled(
    rf"\b(?:scale|scales|kitchen\s+scale)\s*(?:says|reads|shows)?\s*[:=]?\s*{SO_MUCH}"
    rf"|{SO_MUCH.replace('?P<about>', '?P<about2>').replace('?P<amount>', '?P<amount2>')}"
    rf"\s*(?:on|by)\s+(?:the\s+|my\s+)?(?:kitchen\s+)?scales?"
)


#: Patterns of shares and what each counts beyond its tokens.
_BY_SHARE = (
    (_SHARE_STATE, 3.0), (_STATE_SHARE, 2.5), (_SHARE_OF, 1.5), (_SHARE_OF_AMOUNT, 2.0),
    (_SHARE_ALONE, 1.0), (_LEANING_SHARE, 1.0),
)  # fmt: skip
_LEFT_HINT = compiled(
    rf"{LEFT}|{USED}|{OPENED}|{'|'.join(sorted(SHARES, key=len, reverse=True))}|%|[0-9]\s?/"
    rf"\s?[0-9]|0[.,][0-9]|\bof\b|\bout\b|scale|weigh"
    r"|\b(?:only|just|last|down|minus|less|without|short|there|still|scraps?|nur|noch|con|solo"
    r"|maar|bara|kun|enough|with|bit|little|most(?:ly)?|nearly|almost|hardly|barely|slightly"
    r"|swatch\w*|full|nog|tail|empty|net|netto)\b"
)


def left_spans(text: Text) -> Iterator[Span]:
    """All that a line may say of what is left."""
    if not _LEFT_HINT.search(text.plain):
        return
    for pattern, bonus in _BY_SHARE:
        for m in pattern.finditer(text.plain):
            share = share_in(m)
            if share is None or not 0 < share < 1:
                continue
            used = bool(m.groupdict().get("used"))
            yield span_of(
                text, m, Kind.LEFT, Held(share=1 - share if used else share, about=True), bonus
            )
    for rough, share in ROUGHS:
        for m in rough.finditer(text.plain):
            yield span_of(text, m, Kind.LEFT, Held(share=share, about=True), 3.0)
    for pattern, bonus in ((_AMOUNT_LEFT, 3.0), (_LEFT_AMOUNT, 2.5), (_ONLY, 1.0), (_OUT_OF, 2.0),
                           (_LEFT_BEHIND, 2.0), (_ON_SCALE, 3.0)):  # fmt: skip
        for m in pattern.finditer(text.plain):
            named = m.groupdict()
            amount = amount_in(named.get("amount") or named.get("amount2"))
            if not amount:
                continue
            about = bool(named.get("about") or named.get("about2"))
            held = Held(amount=amount, used=bool(named.get("used")), about=about)
            yield span_of(text, m, Kind.LEFT, held, bonus)
