"""The family of errors: facts, one line, an exit status, and the way through another process."""

from __future__ import annotations

import inspect
import pickle
import re

import pytest

from stash import errors
from stash.measures.mass import grams
from stash.measures.note import Note
from stash.rendering.sentences.say import sentence

EVERY = [
    errors.StashError("something_wrong"),
    errors.BadInput("no_lines"),
    errors.Unreadable("12 gg", "no_amount"),
    errors.Ambiguous("1,500", ("1500", "1.5")),
    errors.BadSheet("shelf.csv", ("row 3: no colour", "row 5: no name")),
    errors.BadRows("market.csv", ()),
    errors.BadPlan("market.toml", (Note("nothing_wanted"),)),
    errors.NotFound("skein", "99", ("9", "19")),
    errors.Refusal("nothing_to_take_back"),
    errors.Undecided("one yarn or two?", (("one", "--like L1"), ("two", "--new"))),
    errors.NotEnoughYarn(7, grams(80), grams(43), Note("weigh_if_wrong", skein=7)),
    errors.InTheWay(3, (9, 5), Note("skeins_used_since")),
    errors.FileTrouble("shelf.stash", "disk_full"),
    errors.Damaged("shelf.stash"),
    errors.NotAStash("notes.txt"),
    errors.NewerFile("shelf.stash", "0042"),
]
#: Exit statuses as the contract has them: 2 words, 3 no such thing, 4 the rules, 5 the file.
STATUS = {errors.BadInput: 2, errors.NotFound: 3, errors.Refusal: 4, errors.FileTrouble: 5}


def classes() -> list[type[errors.StashError]]:
    return [
        found
        for _, found in inspect.getmembers(errors, inspect.isclass)
        if issubclass(found, errors.StashError)
    ]


def test_every_kind_is_looked_at_here() -> None:
    assert {type(one) for one in EVERY} == {*classes()}


@pytest.mark.parametrize("error", EVERY, ids=lambda e: type(e).__name__)
def test_an_error_survives_being_pickled_with_its_sentence_and_facts(
    error: errors.StashError,
) -> None:
    again = pickle.loads(pickle.dumps(error))

    assert type(again) is type(error)
    assert str(again) == str(error)
    assert again.facts == error.facts
    assert vars(again) == vars(error)


@pytest.mark.parametrize("kind", classes(), ids=lambda c: c.__name__)
def test_a_kind_has_the_exit_status_of_its_branch(kind: type[errors.StashError]) -> None:
    branch = [status for base, status in STATUS.items() if issubclass(kind, base)]

    assert [kind.exit_status] == (branch or [1])


def test_the_tree_at_the_head_is_the_family() -> None:
    assert errors.__doc__
    drawn: list[tuple[int, str]] = [
        (found.start(1), found[1])
        for line in errors.__doc__.splitlines()
        if (found := re.match(r"[\s│├└─]*([A-Z]\w+)(?:\s{2,}|$)", line))
    ]
    parents = {}
    for at, (depth, name) in enumerate(drawn):
        above = [n for d, n in drawn[:at] if d < depth]
        parents[name] = above[-1] if above else "Exception"
    assert parents == {kind.__name__: kind.__bases__[0].__name__ for kind in classes()}


@pytest.mark.parametrize("error", EVERY, ids=lambda e: type(e).__name__)
def test_a_sentence_is_one_line(error: errors.StashError) -> None:
    assert len(sentence(error).splitlines()) == 1


def test_a_refused_amount_keeps_its_facts() -> None:
    error = errors.NotEnoughYarn(7, grams(80), grams(43))

    assert (error.skein, error.asked, error.free) == (7, grams(80), grams(43))
    assert sentence(error) == "skein 7 has 43 g free, not 80 g"
