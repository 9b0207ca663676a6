"""Fabrics as makers type them."""

from __future__ import annotations

from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.errors import Ambiguous, BadInput, Unreadable
from stash.parsing.design.fabric import fabric


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("1 hdc, 2 sl st blo", "1 hdc, 2 sl st blo"),
        ("sc", "1 sc"),
        ("1 Half Double Crochet then 2 slip stitch in the back loop only", "1 hdc, 2 sl st blo"),
        ("2 rows of dc; 1 row sc", "2 dc, 1 sc"),
        ("hdc through front loops", "1 hdc flo"),
        ("half double crochet + treble", "1 hdc, 1 tr"),
        ("2 × slst", "2 sl st"),
        ("Garter Stitch", "garter"),
        ("stocking stitch", "stockinette"),
        ("k2p2", "2x2 rib"),
        ("knit 3 purl 1", "3x1 rib"),
        ("2 x 2 ribbing", "2x2 rib"),
        ("reverse stockinette", "stockinette"),
        ("cabled", "cables"),
        ("stranded colourwork", "stranded"),
        ("knit moss stitch", "seed stitch"),
        ("(sc, ch 1)", "(1 sc, 1 ch)"),
        ("sc, ch 1", "(1 sc, 1 ch)"),
        ("crochet moss stitch", "(1 sc, 1 ch)"),
        ("Linen Stitch", "(1 sc, 1 ch)"),
        ("granite stitch", "(1 sc, 1 ch)"),
        ("(2 sc, 2 dc)", "(2 sc, 2 dc)"),
        ("2 sc, 2 dc", "2 sc, 2 dc"),
        ("2 (sc and dc) blo, 1 hdc", "2 (1 sc, 1 dc) blo, 1 hdc"),
        ("(2 sc)", "1 sc"),
        ("V-stitch", "(1 dc, 1 ch, 1 dc)"),
        ("fpdc", "1 fpdc"),
        ("1 front post double crochet, 1 bpdc", "1 fpdc, 1 bpdc"),
        ("dc round the back post", "1 bpdc"),
        ("front/back post dc", "(1 fpdc, 1 bpdc)"),
        ("alternating post hdc", "(1 fphdc, 1 bphdc)"),
        ("post stitch rib", "(1 fpdc, 1 bpdc)"),
        ("tapestry crochet", "1 tapestry"),
        ("sc in both loops", "1 sc"),
    ],
)
def test_rows_of_one_repeat_are_read(typed: str, read: str) -> None:
    assert str(fabric(typed)) == read


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("1 htr, 2 ss", "1 hdc, 2 sl st"),
        ("htr", "1 hdc"),
        ("treble", "1 dc"),
        ("dtr", "1 tr"),
        ("(dc, ch 1)", "(1 sc, 1 ch)"),
        ("fptr", "1 fpdc"),
        ("raised treble back", "1 bpdc"),
        ("front/back post htr", "(1 fphdc, 1 bphdc)"),
        ("post stitch rib", "(1 fpdc, 1 bpdc)"),
    ],
)
def test_uk_names_are_read_as_such(typed: str, read: str) -> None:
    """US/UK of two conversion charts: sc=dc, hdc=htr, dc=tr, tr=dtr, sl st=ss."""
    assert str(fabric(typed, "uk")) == read


@pytest.mark.parametrize(
    ("typed", "terms", "kind"),
    [
        ("htr", "us", "uk_name"),
        ("sc", "uk", "us_name"),
        ("sc", "french", "no_terms"),
        ("fluff", "us", "no_stitch"),
        ("fpsc", "uk", "us_name"),
        ("fpsl st", "us", "no_post_stitch"),
        ("7x9 rib", "us", "no_rib"),
        ("ch 3", "us", "only_chains"),
        ("(sc blo, dc)", "us", "no_stitch"),
        ("(sc, dc", "us", "no_fabric"),
        ("()", "us", "no_stitches_of_a_row"),
        ("(900 sc, dc)", "us", "fabric_count_out_of_range"),
        ("2 ch 2, sc", "us", "no_stitches_of_a_row"),
        ("1 sc, stockinette", "us", "knitted_among_crocheted"),
        ("0 sc", "us", "fabric_count_out_of_range"),
        ("9999999 sc", "us", "fabric_count_out_of_range"),
        ("400 sc, 400 dc", "us", "fabric_of_many_rows"),
        ("", "us", "no_fabric"),
        ("1 sc,", "us", "no_fabric"),
    ],
)
def test_what_is_no_fabric_is_refused_with_the_reason(typed: str, terms: str, kind: str) -> None:
    with pytest.raises(Unreadable) as refused:
        fabric(typed, terms)
    assert refused.value.kind == kind


@pytest.mark.parametrize(
    ("typed", "nearest"),
    [("hdcc", ["dc", "hdc"]), ("linen stich", ["linen stitch"]), ("cabels", ["cables"])],
)
def test_a_stitch_that_is_not_known_is_answered_with_the_nearest(
    typed: str, nearest: list[str]
) -> None:
    with pytest.raises(Unreadable) as refused:
        fabric(typed, "us")
    assert [*refused.value.facts["nearest"]][: len(nearest)] == nearest


@pytest.mark.parametrize(
    ("typed", "readings"),
    [
        ("rib", ("1x1 rib", "2x2 rib")),
        ("moss stitch", ("crochet moss stitch", "knit moss stitch")),
    ],
)
def test_a_name_of_two_fabrics_is_asked_about(typed: str, readings: tuple[str, str]) -> None:
    """Moss stitch is a fabric of either craft."""
    with pytest.raises(Ambiguous) as asked:
        fabric(typed)
    assert asked.value.readings == readings


_NAMES = st.sampled_from(["sc", "hdc", "dc", "tr", "fpdc", "bphdc", "ch"])
_ROWS = st.lists(_NAMES, min_size=2, max_size=4).map(lambda names: f"(sc, {', '.join(names)})")


@given(st.lists(_ROWS | _NAMES.filter(lambda name: name != "ch"), min_size=1, max_size=5))
def test_what_is_shown_is_read_as_the_same(rows: list[str]) -> None:
    read = fabric(", ".join(rows))

    assert fabric(str(read)) == read


@given(st.text(max_size=30) | st.text(alphabet="sc dhtrblo()123,/-", max_size=30))
def test_any_text_is_read_or_refused(typed: str) -> None:
    with suppress(BadInput):
        assert fabric(typed).rows
