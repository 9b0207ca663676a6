"""Words that are spelt otherwise in the United States, looked for in what a person reads."""

from __future__ import annotations

import re

#: Forms that a dictionary of either country marks as British (from memory, the usual pairs). The
#: yarn of the examples is called Greycairn.
_BRITISH = re.compile(
    r"(?<![\w-])\w*(?:colour|fibre|\bgrey(?!cairn)|centre|metre|favour|catalogue|jewell|travell|"
    r"labelled|cancelled|unravell|modell|neighbour|mould|\bmum\b|licence|whilst|misspelt|organis|"
    r"recognis|realis|summaris|aluminium|cheque|plough|centimetre)\w*",
    re.IGNORECASE,
)


def british_left(text: str) -> list[str]:
    """The British forms in a text."""
    return sorted({found[0] for found in _BRITISH.finditer(text)})
