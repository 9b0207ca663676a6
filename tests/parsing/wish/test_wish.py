"""What was typed becomes one wish; what only the shelf can tell keeps its words."""

from __future__ import annotations

import pytest

from stash.errors import BadInput
from stash.matching.question.two_lots_asked import TwoLots, TwoLotsAsked
from stash.matching.question.wish import Contrast, Fixed, Gap, Limits, Wish
from stash.parsing.wish.typed import WishWords, by_role
from stash.parsing.wish.wish import wish
from stash.requirements.fit.splitting import Way


def test_nothing_typed_is_nothing_wished() -> None:
    assert wish(WishWords()) == Wish()


def test_names_stay_as_they_were_typed() -> None:
    typed = WishWords(fix=("A=12,13", "b = navy"), owner=" Nell ", not_in=("Attic",))

    assert wish(typed) == Wish(
        fixed={"A": Fixed(typed="12,13"), "B": Fixed(typed="navy")},
        limits=Limits(owner="Nell", not_in=("Attic",)),
    )


def test_what_needs_no_shelf_is_read() -> None:
    typed = WishWords(margin="15%", contrast="20-40", fineness="15%", two_lots=("A=brim",))

    assert wish(typed) == Wish(
        margin=0.15,
        contrast=Gap(20, 40),
        limits=Limits(asked_fineness=0.15),
        two_lots=TwoLots({"A": TwoLotsAsked((Way.BRIM,))}),
    )


def test_a_strand_by_itself_may_be_tied() -> None:
    typed = wish(WishWords(fix=("A2=3",), apart=("a",), contrast="bold"))

    assert (typed.apart, typed.contrast) == (("A",), Contrast.BOLD)
    assert typed.fixed == {"A2": Fixed(typed="3")}


@pytest.mark.parametrize(
    ("texts", "kind"),
    [
        (["navy"], "no_role_and_value"),
        (["A="], "no_role_and_value"),
        (["A2=3"], "no_role_and_value"),
        (["A=1", "a=2"], "role_named_twice"),
    ],
)
def test_a_role_comes_once_and_with_its_value(texts: list[str], kind: str) -> None:
    with pytest.raises(BadInput) as refused:
        by_role(texts, "--with")
    assert refused.value.kind == kind
