"""Two lots in one role, as it is typed."""

from __future__ import annotations

import pytest

from stash.errors import Unreadable
from stash.matching.question.two_lots_asked import TwoLotsAsked
from stash.parsing.wish.two_lots import two_lots
from stash.parsing.wish.typed import WishWords
from stash.requirements.fit.splitting import Way


@pytest.mark.parametrize(
    ("texts", "ways", "unknown"),
    [
        (["A"], tuple(Way), False),
        ([" a = Brim "], (Way.BRIM,), False),
        (["A=band"], (Way.BRIM,), False),
        (["A=alternating,change"], (Way.CHANGE, Way.ALTERNATE), False),
        (["A=alternate", "A=brim"], (Way.BRIM, Way.ALTERNATE), False),
        (["A=unknown"], tuple(Way), True),
        (["A=unknown,brim"], (Way.BRIM,), True),
    ],
)
def test_ways_are_read_in_the_order_in_which_they_show(
    texts: list[str], ways: tuple[Way, ...], unknown: bool
) -> None:
    assert two_lots(texts) == {"A": TwoLotsAsked(ways, unknown)}


@pytest.mark.parametrize("text", ["", "A=", "brim", "A=stripes", "E", "A=brim,", "AB=brim"])
def test_anything_else_is_refused(text: str) -> None:
    with pytest.raises(Unreadable) as refused:
        two_lots([text])
    assert refused.value.kind == "no_two_lots"


def test_each_role_by_itself() -> None:
    assert [*two_lots(["B=change", "A"])] == ["B", "A"]
    assert not WishWords(two_lots=("A",)).narrow
