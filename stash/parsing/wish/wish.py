"""A wish as it was typed, read into one `Wish`."""

from __future__ import annotations

from collections.abc import Sequence

from stash.matching.question.two_lots_asked import TwoLots
from stash.matching.question.wish import Fixed, Limits, Wish, Wished
from stash.parsing.wish.typed import WishWords, by_role, strands_apart


def wish(words: WishWords) -> Wish:
    """What was typed as one wish; what only the shelf can tell keeps its words."""
    return Wish(
        margin=_margin(words.margin),
        contrast=_contrast(words.contrast),
        fixed=_fixed(words),
        assume=words.assume,
        limits=_limits(words) if words.narrow else Limits(),
        two_lots=_two_lots(words.two_lots),
        apart=strands_apart(words.apart),
    )


def _fixed(words: WishWords) -> dict[str, Fixed]:
    typed = by_role(words.fix, "--with", strands=bool(words.apart))
    return {role: Fixed(typed=text) for role, text in typed.items()}


# each reads its own words only when there are some: pint and the patterns take their time to load


def _margin(text: str) -> float | None:
    if not text:
        return None
    from stash.parsing.design import design

    return design.margin(text)


def _contrast(text: str) -> Wished | None:
    if not text:
        return None
    from stash.parsing.settings import contrast

    return contrast(text)


def _limits(words: WishWords) -> Limits:
    from stash.parsing.wish.limits import limits

    return limits(words)


def _two_lots(texts: Sequence[str]) -> TwoLots | None:
    if not texts:
        return None
    from stash.parsing.wish.two_lots import two_lots

    return TwoLots(two_lots(texts))
