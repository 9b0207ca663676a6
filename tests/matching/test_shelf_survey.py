"""Many designs asked of one shelf, against the matcher asked again and again the slow way."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shelves import a_lot, a_need, a_shelf, put_up, random_shelf

from stash.matching.answer.proposal import Match, Proposal
from stash.matching.lots.lot_view import known_put_up
from stash.matching.lots.shelf import Shelf
from stash.matching.match import match
from stash.matching.question.wish import Contrast, Wish
from stash.matching.shelf_survey import (
    MOST_IN_A_ROW,
    MOST_LOOKED_AT,
    OneMore,
    Question,
    ShelfSurvey,
    asked_of,
    survey,
)
from stash.measures.colour import Colour
from stash.measures.mass import NO_MASS
from stash.measures.note import Note
from stash.stock.holding import HeldLot, HeldSkein
from stash.stock.yarn import FullFrom, LotState, Pair


def ask(shelf: Shelf, *questions: Question) -> ShelfSurvey:
    return survey(asked_of(shelf, questions), lambda name: None)


def asked(question: Question, shelf: Shelf, top: int | None = None) -> Match:
    return match(shelf, question.need, replace(question.wish, top=top))


def alike(found: Proposal) -> bool:
    """CIEDE2000 of ten or less (our choice: two lots that are hard to tell apart)."""
    return found.colour_difference is not None and found.colour_difference <= 10


def without(shelf: Shelf, proposal: Proposal) -> Shelf:
    """The shelf once a proposal is set aside, as the books would write it."""
    taken = {}
    for filled in proposal.roles:
        for take in filled.takes:
            taken.setdefault(take.number, []).append(take.length)

    def less(skein: HeldSkein) -> HeldSkein:
        for length in taken.get(skein.number, []):
            assert skein.pair.put_up is not None
            mass = min(skein.pair.put_up.mass_covering(length), skein.free)
            skein = replace(skein, promised=skein.promised + mass)
        return skein

    lots = (replace(lot, skeins=tuple(map(less, lot.skeins))) for lot in shelf.lots)
    return replace(shelf, lots=tuple(lots))


def times(question: Question, shelf: Shelf) -> int:
    """How often the matcher says yes, its first answer set aside each time."""
    for count in range(MOST_IN_A_ROW):
        found = asked(question, shelf, top=1).proposals
        if not found:
            return count
        shelf = without(shelf, found[0])
    return MOST_IN_A_ROW


def with_one_more(shelf: Shelf, lot: HeldLot, keep: bool = True) -> Shelf:
    """The shelf with one more full skein of a lot, or with it in place of what the lot holds."""
    of = known_put_up(lot)
    assert of is not None
    new = HeldSkein(99_999, lot.lot.id, of.mass, NO_MASS, Pair(of, FullFrom.BAND), opened=False)
    more = replace(lot, skeins=(*(lot.skeins if keep else ()), new))
    return replace(shelf, lots=tuple(more if x is lot else x for x in shelf.lots))


def is_main(lot: HeldLot, question: Question, shelf: Shelf) -> bool:
    every = asked(question, shelf).proposals
    return any(p.roles[0].lot.lot.id == lot.lot.id for p in every)


def brought(shelf: Shelf, questions: Sequence[Question]) -> dict[int, set[str]]:
    """By lot: the designs of which it is the main colour with one more skein and not before."""
    found = {}
    for lot in shelf.lots:
        free = any(s.free for s in lot.skeins if s.pair.put_up)
        numbered = lot.lot.lot_state is LotState.NUMBERED
        if not free or not numbered or known_put_up(lot) is None:
            continue
        if any(is_main(lot, question, shelf) for question in questions):
            continue
        more, alone = with_one_more(shelf, lot), with_one_more(shelf, lot, keep=False)
        names = {q.name for q in questions if is_main(lot, q, more) and not is_main(lot, q, alone)}
        if names:
            found[lot.lot.id] = names
    return found


def some_questions(*mains: int) -> st.SearchStrategy[list[Question]]:
    """One to four designs of one to three colours; the main one of about so many metres."""
    need = st.builds(
        lambda a, b, c, thickness: a_need(
            thickness, A=a, **({"B": b} if b else {}), **({"C": c} if b and c else {})
        ),
        st.integers(*mains),
        st.sampled_from([0, 5, 40]),
        st.sampled_from([0, 8]),
        st.sampled_from([None, 2, 3, 4, 5]),
    )
    wish = st.sampled_from([Contrast.ANY, Contrast.CLEAR]).map(lambda c: Wish(contrast=c))
    asked = st.lists(st.tuples(need, wish), min_size=1, max_size=4)
    return asked.map(lambda each: [Question(f"design {i}", *one) for i, one in enumerate(each)])


@settings(max_examples=40)
@given(st.integers(0, 10_000), st.integers(3, 30), some_questions(10, 900))
def test_the_shelf_says_to_each_design_what_the_matcher_says(
    seed: int, skeins: int, asking: list[Question]
) -> None:
    shelf = random_shelf(seed, skeins)
    for one in ask(shelf, *asking).designs:
        found = asked(one.question, shelf)
        assert (one.best is None) == (not found.proposals)
        if one.best and not one.looks_alike:
            better = found.proposals[: found.proposals.index(one.best)]
            assert all(alike(other) for other in better)
        elif one.best:
            assert one.best == found.proposals[0]
            assert all(map(alike, found.proposals[:MOST_LOOKED_AT]))
        assert one.in_a_row == times(one.question, shelf)
        assert (one.near is None) == (bool(found.proposals) or not found.near_misses)
        assert one.near is None or one.near in found.near_misses


@settings(max_examples=40)
@given(st.integers(0, 10_000), st.integers(6, 20), some_questions(180, 500))
def test_one_more_skein_brings_what_the_matcher_then_finds(
    seed: int, skeins: int, asking: list[Question]
) -> None:
    """All lots, one after the other, with the skein really on the shelf."""
    shelf = random_shelf(seed, skeins, doubtful=0.03)
    told = {x.lot.lot.id: {b.name for b in x.designs} for x in ask(shelf, *asking).one_more}

    assert told == brought(shelf, asking)


def test_what_can_be_made_stands_first_by_cost_then_what_lacks_least() -> None:
    shelf = random_shelf(5, 60)
    needs = [Question(f"p{m}", a_need(4, A=m), Wish()) for m in (40, 400, 5000, 9000, 2000)]
    designs = ask(shelf, *needs).designs
    able = [one for one in designs if one.best]
    rest = designs[len(able) :]

    assert able
    assert rest
    assert all(one.best is None for one in rest)
    assert [p.best.cost for p in able if p.best] == sorted(p.best.cost for p in able if p.best)
    assert [one.lacking for one in rest] == sorted(one.lacking for one in rest)


#: Two that differ by a step of a screen, opened already and so the cheaper to take.
NAVIES = (
    a_lot(1, (100,), colours=(Colour("#1f2f55"),), opened=(0,)),
    a_lot(2, (100,), colours=(Colour("#203050"),), opened=(0,)),
)


def test_colours_that_look_alike_never_come_first_where_others_can_be_made() -> None:
    """Rust is whole and so the dearer to take, and too little for what the two navies cover."""
    rust = a_lot(3, (100,), of=put_up(100, 60), colours=(Colour("#a03010"),))
    shelf = a_shelf(*NAVIES, rust)
    alike = Question("a cheap", a_need(4, A=160, B=150), Wish())
    alone = Question("b dear", a_need(4, A=20), Wish())

    first, second = ask(shelf, alone, alike).designs

    assert first.best
    assert second.best
    assert second.best.cost < first.best.cost
    assert (first.looks_alike, second.looks_alike) == (False, True)
    assert first.question == alone


def test_a_set_that_looks_alike_gives_way_to_one_that_does_not() -> None:
    """Rust is whole, and so the dearer to take."""
    rust = a_lot(3, (100,), colours=(Colour("#a03010"),))
    hat = Question("hat", a_need(4, A=100, B=20), Wish())

    (one,) = ask(a_shelf(*NAVIES, rust), hat).designs
    assert one.best
    assert asked(hat, a_shelf(*NAVIES, rust), top=1).proposals[0].key in ("L1+L2", "L2+L1")
    assert 3 in {filled.lot.lot.id for filled in one.best.roles}
    assert not one.looks_alike
    (only,) = ask(a_shelf(*NAVIES), hat).designs
    assert only.looks_alike  # said with it: there is no other


def came(lot: HeldLot, day: date) -> HeldLot:
    return replace(lot, skeins=tuple(replace(skein, since=day) for skein in lot.skeins))


def test_an_idea_takes_what_is_opened_then_what_has_lain_longest() -> None:
    """Three lots alike but for one opened skein and the day they came (1 and 2 years ago)."""
    today = a_shelf().as_of
    ago = [today - timedelta(days=days) for days in (0, 365, 730)]
    new, old, older = (came(a_lot(i + 1, (100,)), day) for i, day in enumerate(ago))
    opened = came(a_lot(4, (100,), opened=(0,)), today)
    hat = Question("hat", a_need(4, A=60), Wish())

    def first(*lots: HeldLot) -> int:
        (one,) = ask(a_shelf(*lots), hat).designs
        assert one.best
        return one.best.roles[0].lot.lot.id

    assert first(new, old, older) == 3
    assert first(new, old) == 2
    assert first(new, old, older, opened) == 4


def test_there_is_one_idea_for_a_design() -> None:
    shelf = a_shelf(*(a_lot(i, (100,)) for i in range(1, 9)))
    hats = [Question(name, a_need(4, A=20), Wish()) for name in ("hat", "mitten")]

    assert [one.question.name for one in ask(shelf, *hats).designs] == ["hat", "mitten"]


def test_no_yarn_of_the_thickness_names_the_colours_that_stay_empty() -> None:
    shelf = a_shelf(a_lot(1, (100,)), a_lot(2, (100,)))
    (one,) = ask(shelf, Question("thick", a_need(6, A=20, B=20), Wish())).designs

    assert (one.best, one.near, one.empty) == (None, None, ("A", "B"))


def one_more(held_g: tuple[float, ...], **facts: object) -> tuple[OneMore, ...]:
    """Of a lot of 100 g / 200 m skeins, for a design of 250 m and its margin of 15 %."""
    shelf = a_shelf(a_lot(1, held_g, of=put_up(100, 200), **facts))
    return ask(shelf, Question("cowl", a_need(4, A=250), Wish())).one_more


def test_a_lone_skein_needs_one_more() -> None:
    (found,) = one_more((100,))

    assert found.put_up == put_up(100, 200)
    assert [b.name for b in found.designs] == ["cowl"]
    assert found.designs[0].best.roles[0].free_m == pytest.approx(400)


@pytest.mark.parametrize(
    ("held_g", "facts"),
    [
        ((100, 100), {}),  # enough already
        ((20,), {}),  # and with one more still too little
        ((100,), {"lot_state": LotState.UNKNOWN, "lot": ""}),  # of what lot would it be?
        ((100,), {"lot_state": LotState.CLAIMED_NONE, "lot": ""}),
        ((100,), {"thickness_from": 6, "thickness_to": 6}),
        ((100,), {"pair": Pair(None, FullFrom.MISSING)}),
    ],
)
def test_nothing_is_said_of_a_lot_that_one_more_does_not_help(
    held_g: tuple[float, ...], facts: dict[str, object]
) -> None:
    assert one_more(held_g, **facts) == ()


def test_what_a_new_skein_covers_by_itself_is_no_merit_of_the_lot() -> None:
    shelf = a_shelf(a_lot(1, (10,)))  # 20 m; a full one is 200 m

    assert ask(shelf, Question("band", a_need(4, A=100), Wish())).one_more == ()


def test_each_design_is_named_as_it_is_looked_at() -> None:
    heard: list[str | Note] = []
    asking = asked_of(a_shelf(), [Question("hat", a_need(4, A=10), Wish())])
    survey(asking, heard.append)

    assert heard == ["hat", Note("one_more_skein")]
