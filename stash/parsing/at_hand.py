"""Yarn she has, role by role, as it is typed: lengths, weights, or numbers of skeins."""

from __future__ import annotations

import re
from collections.abc import Mapping

from stash.errors import Unreadable
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.parsing import quantities

_SKEIN = re.compile(r"#?([0-9]{1,9})")


def have(texts: Mapping[str, str]) -> dict[str, tuple[Length | Mass | int, ...]]:
    """The yarn of each role, lot after lot: `150m`, `80m+120m`, `43g`, skein `12`, `12+13`."""
    return {role: tuple(_one(part) for part in text.split("+")) for role, text in texts.items()}


def _one(text: str) -> Length | Mass | int:
    plain = text.strip()
    if skein := _SKEIN.fullmatch(plain):
        return int(skein[1])
    if not plain:
        raise Unreadable(text, "no_yarn_at_hand")
    amount = quantities.amount(plain)
    if not amount or (amount.um if isinstance(amount, Length) else amount.mg) < 0:
        raise Unreadable(text, "nothing_at_hand")
    return amount
