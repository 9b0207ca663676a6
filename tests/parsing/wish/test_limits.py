"""What narrows the shelf, as it is typed."""

from __future__ import annotations

import pytest

from stash.errors import NotFound, StashError, Unreadable
from stash.matching.question.wish import Wash
from stash.parsing.wish import limits
from stash.parsing.wish.typed import WishWords
from stash.stock.yarn import Condition


def test_what_was_not_typed_sets_no_limit() -> None:
    typed = WishWords(margin="10%", contrast="bold", fix=("A=1",), assume=True)

    assert not typed.narrow
    assert limits.limits(typed) == limits.limits(WishWords())
    assert WishWords(owner="Nell").narrow


def test_colours_come_by_role() -> None:
    found = limits.colours(["A=Blue", " b = teal, rust", "A=gray"], "--colour")

    assert [(n.word, n.family) for n in found["A"]] == [("blue", True), ("grey", True)]
    assert [(n.word, n.near is None) for n in found["B"]] == [("teal", False), ("rust", False)]


def test_a_colour_is_left_out_of_all_roles_where_none_is_named() -> None:
    assert [*limits.colours(["red"], "--not-colour")] == [""]
    assert limits.colours(["Storm Grey"], "--not-colour")[""][0].word == "storm grey"


@pytest.mark.parametrize(
    ("typed", "family"), [("blu", "blue"), ("Blau", "blue"), ("vert", "green")]
)
def test_a_family_in_another_tongue_is_that_family(typed: str, family: str) -> None:
    (named,) = limits.colours([f"A={typed}"], "--colour")["A"]

    assert (named.word, named.family) == (family, True)


def test_a_word_that_is_no_colour_has_no_value() -> None:
    (named,) = limits.colours(["A=Zephyr"], "--colour")["A"]

    assert (named.family, named.near) == (False, None)


@pytest.mark.parametrize("text", ["blue", "A=", "E=blue", "A=blue,,red"])
def test_a_wanted_colour_needs_its_role(text: str) -> None:
    with pytest.raises(Unreadable) as refused:
        limits.colours([text], "--colour")
    assert refused.value.kind == "no_colour_of_a_role"


def test_fibres_are_left_out_by_any_of_their_names() -> None:
    assert limits.fibres(["wool, nylon"]) == {"wool", "merino wool", "polyamide", "nylon"}
    with pytest.raises(NotFound) as refused:
        limits.fibres(["woll"])
    assert refused.value.kind == "fibre"
    assert refused.value.nearest[0] == "wool"


def test_the_wash_is_one_of_three() -> None:
    assert [limits.wash(t) for t in ("", "Hot", "together")] == [
        Wash.ANY, Wash.HOT, Wash.TOGETHER,
    ]  # fmt: skip
    with pytest.raises(Unreadable) as refused:
        limits.wash("warm")
    assert refused.value.kind == "no_wash"
    assert refused.value.facts["choices"] == ("any", "together", "hot")


def test_only_what_is_kept_out_can_be_let_in() -> None:
    assert limits.let_in(["quarantined"]) == {Condition.QUARANTINED}
    for text in ("faded", "mouldy"):
        with pytest.raises(StashError):
            limits.let_in([text])
