"""One fact of a label in a field of its own, read as it would be inside a line."""

from __future__ import annotations

from fractions import Fraction

from stash.parsing.label.cover import covers
from stash.parsing.label.holding_spans import holding_spans
from stash.parsing.label.span import Amount, Held, Kind, Part
from stash.parsing.label.text import Text, tidied


def left(text: str) -> Amount | Fraction | None:
    """What is left of a skein: an amount, or a share of a full one (`half a ball`, `60%`).

    None where the words say anything beside it, or nothing of the kind. An amount that is used up
    says nothing without a full one.
    """
    line = Text.of(tidied(text))
    best = next(iter(covers(line, holding_spans(line))), None)
    if best is None or best.of(Kind.NOTE, Kind.NUMBER):
        return None
    facts = best.of(Kind.LEFT, Kind.PART)
    if len(facts) != 1:
        return None
    held = facts[0].value.held if isinstance(facts[0].value, Part) else facts[0].value
    if not isinstance(held, Held) or (held.used and held.amount is not None):
        return None
    return held.amount if held.amount is not None else held.share
