"""Two lots in one role: booked by rank or key, on books that balance."""

from __future__ import annotations

from pathlib import Path

import pytest
from books import a_book, a_line, g, promises, refuses, skein
from requirements.some_designs import SC, cm, gauge

from stash.actions import add, aside, check, designs, done, log, use
from stash.actions.book import Book
from stash.actions.match import NeedAsked, propose
from stash.actions.sharing import from_key
from stash.errors import NotFound, Refusal
from stash.matching.question.two_lots_asked import TwoLots, TwoLotsAsked
from stash.matching.question.wish import Fixed, Wish
from stash.measures.length import metres
from stash.measures.mass import NO_MASS
from stash.measures.note import Note
from stash.requirements.design.bands import Band
from stash.requirements.design.design import Design
from stash.requirements.design.shapes import Shape, Size
from stash.requirements.fit.splitting import Way
from stash.stock.yarn import LotState

ANY = TwoLotsAsked(tuple(Way))
L4 = Fixed(typed="L4")


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """Navy in lots 1, 2 and an unknown one, cream; a cap with a fold-up brim, 123 m of A."""
    made = a_book(tmp_path)
    lines = [
        a_line(left=metres(99), place="basket"),
        a_line(lot="2", left=metres(39), place="attic"),
        a_line(lot="", lot_state=LotState.UNKNOWN, left=metres(39)),
        a_line(colour="cream", lot="7", left=metres(32)),
    ]
    add.receive(made, lines)
    cap = Design(
        name="cap", shape=Shape.ROUND_HAT, size=Size(cm(40), cm(20)), gauge=gauge(16, 20),
        fabric=SC, brim=cm(4), bands=(Band("B", cm(2), cm(6)),), thickness_from=4, thickness_to=4,
    )  # fmt: skip
    designs.add_design(made, cap)
    designs.add_design(
        made, Design(name="hat", stated=(("A", metres(70)),), thickness_from=4, thickness_to=4)
    )
    return made


def keys(book: Book, **asked: TwoLotsAsked) -> list[str]:
    wish = Wish(fixed={"B": L4}, two_lots=TwoLots(asked))
    return [p.key for p in propose(book, NeedAsked("cap"), wish).match.proposals]


def test_a_pair_is_proposed_and_booked_by_its_key(book: Book) -> None:
    (key,) = keys(book, A=ANY)
    made = aside.aside(book, "cap", key)

    assert key == "L1/L2-brim+L4"
    assert [(p.role, p.lot.ref, p.rows and p.rows.facts["lot"]) for p in made.picked] == [
        ("B", "L4", None), ("A", "L2", 1), ("A", "L1", 0),
    ]  # fmt: skip
    (split,) = {p.rows.facts["split"] for p in made.picked if p.rows}
    assert split.way is Way.BRIM
    assert check.check(book) == []


@pytest.mark.parametrize("way", [Way.CHANGE, Way.ALTERNATE])
def test_rank_and_key_book_the_same(book: Book, way: Way) -> None:
    wish = Wish(fixed={"B": L4}, two_lots=TwoLots({"A": TwoLotsAsked((way,))}))
    by_rank = aside.aside(book, "cap", "1", wish)
    what = log.log(book)[0].what
    assert isinstance(what, Note)
    key = what.facts["key"]
    log.undo(book)
    by_key = aside.aside(book, "cap", key)

    assert key.endswith(f"-{way}+L4")
    assert [(p.role, p.skein.number, p.mass, p.rows) for p in by_rank.picked] == [
        (p.role, p.skein.number, p.mass, p.rows) for p in by_key.picked
    ]


def test_what_is_set_aside_of_both_is_the_need_and_no_gram_twice(book: Book) -> None:
    need = designs.show(book, "cap").need
    made = aside.aside(book, "cap", "1", Wish(fixed={"B": L4}, two_lots=TwoLots({"A": ANY})))
    a_m = sum(p.length.m for p in made.picked if p.role == "A" and p.length)

    # One change of lots leaves a tail on either side; 20 cm each, common practice, no source.
    assert a_m == pytest.approx(need.roles[0].set_aside_m + 0.4, abs=1e-5)
    for picked in made.picked:
        promised = sum((p.mass for p in promises(book, picked.skein.number)), NO_MASS)
        assert promised == picked.mass <= skein(book, picked.skein.number).held
    with pytest.raises(Refusal, match="no_such_proposal"):
        aside.aside(book, "cap", "L1/L2-brim+L4")


def test_an_item_of_two_lots_is_used_and_finished(book: Book) -> None:
    item = str(aside.aside(book, "cap", "L1/L2-brim+L4").item.number)
    aside.begin(book, [item])
    use.use(book, "1", g(5), item=item)
    done.done(book, {item: done.Known(as_planned=True)})

    assert [*promises(book, 1), *promises(book, 2)] == []
    assert check.check(book) == []


def test_an_unknown_lot_is_the_odd_one_only_where_she_asks(book: Book) -> None:
    unknown = TwoLotsAsked(tuple(Way), unknown=True)

    assert keys(book, A=unknown) == ["L1/L2-brim+L4", "L1/L3-brim+L4"]
    assert aside.aside(book, "cap", "L1/L3-brim+L4").picked


@pytest.mark.parametrize("way", [Way.BRIM, Way.CHANGE])
def test_a_way_that_needs_rows_is_refused_without(book: Book, way: Way) -> None:
    with refuses("rows_of_role_not_known", role="A", can_alternate=True):
        propose(book, NeedAsked("hat"), Wish(two_lots=TwoLots({"A": TwoLotsAsked((way,))})))


@pytest.mark.parametrize(
    ("way", "kind"), [(Way.BRIM, "no_brim_for_two_lots"), (Way.CHANGE, "no_row_for_two_lots")]
)
def test_a_way_for_which_the_role_has_no_place_is_refused(book: Book, way: Way, kind: str) -> None:
    with refuses(kind, role="B", can_alternate=True):
        propose(book, NeedAsked("cap"), Wish(two_lots=TwoLots({"B": TwoLotsAsked((way,))})))


def test_without_rows_both_take_half(book: Book) -> None:
    wish = Wish(margin=0.0, two_lots=TwoLots({"A": ANY}))
    found = propose(book, NeedAsked("hat"), wish).match.proposals
    (shared,) = [p.roles[0] for p in found if p.roles[0].second]

    assert [t.length.m for t in shared.takes] == [35.2, 35.2]


def test_keys_are_read_back() -> None:
    assert from_key("L3") is None
    assert from_key("l3/L9-Brim") == ("l3/L9", TwoLotsAsked((Way.BRIM,), True, (3, 9)))
    assert from_key("L3/L9") == ("L3/L9", TwoLotsAsked(tuple(Way), True, (3, 9)))
    with refuses("two_lots_of_role"):
        from_key("L3/L9-stripes")


def test_a_pair_with_a_lot_that_is_not_there_is_not_found(book: Book) -> None:
    with pytest.raises(NotFound):
        aside.aside(book, "cap", "L1/L99-brim+L4")
