"""Each fix once for a terminal, with what to type, and once for the page, with what to press."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

from shelves import a_lot, a_need, a_shelf, put_up, random_shelf

from stash.matching.answer.fix import Fix
from stash.matching.answer.proposal import NearMiss
from stash.matching.match import match
from stash.matching.question.wish import Contrast, Fixed, Limits, Wash, Wish
from stash.rendering.almost import fixes_shown
from stash.rendering.sentences.fixes import FIXES, fixes_in_few_words, pressed
from stash.rendering.sentences.say import kinds, sentence

#: What only a command line has: options, commands, numbers of lots.
TYPED = re.compile(r"(?<!\S)--[a-z]|`|stash |\bL\d+\b")


def misses() -> Iterator[NearMiss]:
    """What almost fits on random shelves, for wishes of many kinds."""
    need = a_need(4, A=160, B=60)
    for seed in range(4):
        shelf = random_shelf(seed, 30, doubtful=0.4)
        lots = [held.lot.id for held in shelf.lots]
        for wish in (
            Wish(),
            Wish(contrast=Contrast.TONAL),
            Wish(limits=Limits(wash=Wash.HOT)),
            *(
                Wish(fixed={"A": Fixed(frozenset({a})), "B": Fixed(frozenset({b}))})
                for a, b in pairwise(lots)
            ),
        ):
            yield from match(shelf, need, wish).near_misses


def flat(fix: Fix) -> list[Fix]:
    inner = fix.facts.get("fixes", ())
    return [one for each in inner for one in flat(each)] if inner else [fix]


def test_every_fix_has_a_form_for_the_page() -> None:
    told = {fix.kind for miss in misses() for fix in miss.fixes}
    assert {"all_of", "more_skeins", "give_length"} <= told | {
        one.kind for miss in misses() for fix in miss.fixes for one in flat(fix)
    }
    assert {kind: kinds()[kind] for kind in FIXES} == {k: w.typed for k, w in FIXES.items()}


def test_the_form_for_the_page_has_nothing_of_a_command_line() -> None:
    for miss in misses():
        for fix in miss.fixes:
            words = " ".join(pressed(fix))
            assert words.strip()
            assert not TYPED.search(words), (words, sentence(fix))


def test_no_step_of_a_fix_that_takes_several_is_lost_on_the_page() -> None:
    several = [(miss, fix) for miss in misses() for fix in miss.fixes if fix.kind == "all_of"]
    assert len(several) > 20
    for miss, fix in several:
        (shown,) = fixes_shown(miss)
        assert [way.fix for _, ways in shown.steps for way in ways] == flat(fix)
        for _, ways in shown.steps:
            for way in ways:
                assert way.head[1:] in shown.head
                assert way.under in shown.head


def test_of_two_steps_for_one_colour_both_are_said() -> None:
    thin = a_lot(1, (10,), thickness_from=3, thickness_to=3, colour="navy")
    little = a_lot(2, (40,), of=put_up(100, 100))
    wish = Wish(fixed={"A": Fixed(frozenset({1})), "B": Fixed(frozenset({2}))})
    (miss,) = match(a_shelf(thin, little), a_need(4, A=100, B=60), wish).near_misses
    of_a, of_b = fixes_in_few_words(miss.fixes).split("; B: ")
    assert of_a.startswith("A: ")
    assert "allow one thickness more (in your settings)" in of_a
    assert "buy 1 skein (100 g / 200 m" in of_a
    assert "buy 1 skein (100 g / 100 m" in of_b
