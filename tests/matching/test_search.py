"""The search itself: few sets at a time, whatever the wish."""

import tracemalloc
from itertools import islice

from shelves import a_need, random_shelf

from stash.matching.coverage import look
from stash.matching.fits import asked, together
from stash.matching.search import best_first
from stash.matching.sight import see
from stash.matching.standing import Candidate
from stash.matching.wish import Contrast, Wish


def test_all_pairs_are_never_held() -> None:
    need, wish = a_need(None, A=40, B=20), Wish(contrast=Contrast.SOFT, class_tolerance=7)
    seen = see(random_shelf(3, 1500), assume=False)
    by_role = []
    for role in need.roles:
        looked = [look(lot, asked(role, need, wish)) for lot in seen]
        good = [lot for lot in looked if isinstance(lot, Candidate)]
        by_role.append(sorted(good, key=lambda lot: (lot.cost, lot.seen.id)))

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

    assert list(best_first([[]], together(need, wish))) == []
