"""The search itself: few sets at a time, whatever the wish."""

import tracemalloc
from functools import partial
from itertools import islice

from shelves import a_need, random_shelf

from stash.matching.coverage import Unfit, look, weigh
from stash.matching.fits import asked, together
from stash.matching.line import Line
from stash.matching.search import best_first
from stash.matching.shelf import Shelf
from stash.matching.sight import see
from stash.matching.standing import Candidate
from stash.matching.wish import Contrast, Wish
from stash.requirements.need import Need


def lines(shelf: Shelf, need: Need, wish: Wish) -> list[Line[Candidate]]:
    found = []
    for role in need.roles:
        ask = asked(role, need, wish)
        looked = [(look(lot, ask), lot) for lot in see(shelf, wish.assume)]
        good = [(least, lot) for least, lot in looked if not isinstance(least, Unfit)]
        found.append(Line(good, partial(weigh, ask=ask)))
    return found


def test_all_pairs_are_never_held() -> None:
    need, wish = a_need(None, A=40, B=20), Wish(contrast=Contrast.SOFT, class_tolerance=7)
    by_role = lines(random_shelf(3, 1500), need, wish)

    tracemalloc.start()
    found = list(islice(best_first(by_role, together(need, wish)), 20))
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()

    pairs = len(by_role[0]) * len(by_role[1])
    assert len(found) == 20
    assert pairs > 50_000
    assert peak < pairs * 16  # two numbers a pair would be as much


def test_a_role_without_lots_ends_the_search() -> None:
    need, wish = a_need(None, A=40), Wish()

    assert list(best_first(lines(random_shelf(3, 0), need, wish), together(need, wish))) == []
