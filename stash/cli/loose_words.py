"""A name or an amount of several words, typed without quotes, put together again."""

from __future__ import annotations

from collections.abc import Sequence

#: What its last argument takes in the help, where the words before it belong together.
_AMOUNTS, _LAST_ALONE, _LISTS = ("AMOUNT", "WEIGHT"), ("SET",), ("ITEMS", "SKEINS")


def put_together(takes: Sequence[str], words: Sequence[str]) -> list[str] | None:
    """As many texts as a command takes, from more words than those; None where it is not plain.

    `takes` is what each argument is called in the help: `4 3 1/4 oz` for SKEIN WEIGHT is skein 4
    and 3 1/4 oz, `winter hat L1+L2` for DESIGN SET is the design and the set.
    """
    if not takes or len(takes) > 2 or [*takes] == ["NAME", "VALUE"]:
        return None
    if len(takes) == 1:
        numbers = takes[0] in _LISTS and all(word[:1].isdigit() for word in words)
        return [("," if numbers else " ").join(words)]
    if takes[1] in _AMOUNTS:
        return _before_an_amount(words)
    ends = len(words) - 1 if takes[1] in _LAST_ALONE else 1
    return [" ".join(words[:ends]), " ".join(words[ends:])]


def _before_an_amount(words: Sequence[str]) -> list[str] | None:
    """The amount is as much of the end as is one."""
    from stash.errors import BadInput
    from stash.parsing import quantities

    for begins in range(1, len(words)):
        amount = " ".join(words[begins:])
        try:
            quantities.amount(amount)
        except BadInput:
            continue
        return [" ".join(words[:begins]), amount]
    return None
