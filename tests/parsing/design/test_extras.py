"""Extras as they are typed."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.errors import BadInput, Unreadable
from stash.measures.length import Length, inches
from stash.parsing.design.extras import extra
from stash.rendering.sentences.say import sentence
from stash.requirements.design.extras import Extra, Kind

CM = 10_000


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("pompom B 6cm", Extra(Kind.POMPOM, "B", (Length(6 * CM),))),
        ("Pompoms: b 3 in x 2", Extra(Kind.POMPOM, "B", (inches(3),), 2)),
        ("cord A 40cm x 2", Extra(Kind.CORD, "A", (Length(40 * CM),), 2)),
        ("fringe B 15cm", Extra(Kind.FRINGE, "B", (Length(15 * CM),))),
        ("fringe B 15cm × 80", Extra(Kind.FRINGE, "B", (Length(15 * CM),), 80)),
        ("flap A 9cm x 10cm x 2", Extra(Kind.FLAP, "A", (Length(9 * CM), Length(10 * CM)), 2)),
        ("edging C", Extra(Kind.EDGING, "C")),
        ("edging C x 2", Extra(Kind.EDGING, "C", (), 2)),
        ("tassel B 8cm x4", Extra(Kind.TASSEL, "B", (Length(8 * CM),), 4)),
    ],
)
def test_what_is_made_besides(typed: str, read: Extra) -> None:
    assert extra(typed) == read


@pytest.mark.parametrize(
    ("typed", "kind", "made"),
    [
        ("pompom B", "extra_of_nothing", Kind.POMPOM),
        ("pompom 6cm", "no_extra", Kind.POMPOM),
        ("flap A 9cm", "extra_of_nothing", Kind.FLAP),
        ("edging B 3cm", "extra_of_nothing", Kind.EDGING),
        ("cord A 0cm", "extra_of_nothing", Kind.CORD),
        ("cord A 40cm x 0", "extra_of_nothing", Kind.CORD),
        ("feather B 6cm", "no_extra", None),
        ("pompom E 6cm", "no_extra", Kind.POMPOM),
    ],
)
def test_what_cannot_be_read_says_what_it_was_to_be(typed: str, kind: str, made: Kind) -> None:
    with pytest.raises(Unreadable) as refused:
        extra(typed)
    assert (refused.value.kind, refused.value.facts["extra"]) == (kind, made)


@given(st.sampled_from(list(Kind)), st.integers(1, 300), st.none() | st.integers(1, 99))
def test_what_is_shown_is_read_the_same(kind: Kind, size: int, count: int | None) -> None:
    lengths = {Kind.EDGING: 0, Kind.FLAP: 2}.get(kind, 1)
    made = Extra(kind, "B", (Length(size * 1000),) * lengths, count)
    shown = str(made).replace(kind.value, f"{kind.value} B", 1)

    assert extra(shown) == made


@given(st.text(alphabet="pomflacrdedginBA 0123456789cmx.", max_size=24) | st.text(max_size=12))
def test_any_text_is_read_or_refused_in_one_line(text: str) -> None:
    try:
        told = str(extra(text))
    except BadInput as refused:
        told = sentence(refused)
    assert len(told.splitlines()) == 1
