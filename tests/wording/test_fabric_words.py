"""Fabrics as makers type them."""

from __future__ import annotations

import pytest

from stash.errors import Ambiguous, Unreadable
from stash.wording.fabric_words import fabric


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("1 sc, 3 sl st blo", "1 sc, 3 sl st blo"),
        ("sc", "1 sc"),
        ("1 Single Crochet then 3 slip stitch in the back loop only", "1 sc, 3 sl st blo"),
        ("2 rows of dc; 1 row sc", "2 dc, 1 sc"),
        ("hdc through front loops", "1 hdc flo"),
        ("half double crochet + treble", "1 hdc, 1 tr"),
        ("3 × slst", "3 sl st"),
        ("Garter Stitch", "garter"),
        ("stocking stitch", "stockinette"),
        ("k2p2", "2x2 rib"),
    ],
)
def test_rows_of_one_repeat_are_read(typed: str, read: str) -> None:
    assert str(fabric(typed)) == read


@pytest.mark.parametrize(
    ("typed", "read"),
    [("1 dc, 3 ss", "1 sc, 3 sl st"), ("htr", "1 hdc"), ("treble", "1 dc"), ("dtr", "1 tr")],
)
def test_uk_names_are_read_as_such(typed: str, read: str) -> None:
    """US/UK of two conversion charts: sc=dc, hdc=htr, dc=tr, tr=dtr, sl st=ss."""
    assert str(fabric(typed, "uk")) == read


@pytest.mark.parametrize(
    ("typed", "terms", "way_out"),
    [
        ("htr", "us", "--terms uk"),
        ("sc", "uk", "--terms us"),
        ("sc", "french", "us or uk"),
        ("fluff", "us", "no stitch known"),
        ("1 sc, stockinette", "us", "one name by itself"),
        ("0 sc", "us", "at least 1"),
        ("9999999 sc", "us", "one repeat only"),
        ("400 sc, 400 dc", "us", "one repeat only"),
        ("", "us", "write it like"),
        ("1 sc,", "us", "write it like"),
    ],
)
def test_what_is_no_fabric_is_refused_with_a_way_out(typed: str, terms: str, way_out: str) -> None:
    with pytest.raises(Unreadable, match=way_out):
        fabric(typed, terms)


def test_a_rib_by_itself_is_asked_about() -> None:
    with pytest.raises(Ambiguous, match="1x1 rib or 2x2 rib"):
        fabric("rib")
