"""One role an option: two roles in one are not read as two things for the first of them."""

from __future__ import annotations

import pytest
from commands import Maker, refused_in_one_line

MATCH = ("match", "Hat")
NEED = ("match", "--need", "A=60m", "--need", "B=20m")


@pytest.mark.parametrize(
    ("words", "apart"),
    [
        ((*MATCH, "--colour", "A=yellow,B=blue"), "--colour A=yellow --colour B=blue"),
        ((*MATCH, "--colour", "A=navy;B=oatmeal"), "--colour A=navy --colour B=oatmeal"),
        ((*MATCH, "--colour", "A=navy B=oatmeal"), "--colour A=navy --colour B=oatmeal"),
        ((*MATCH, "--colour", "a = navy, b = teal"), "--colour 'a = navy' --colour 'b = teal'"),
        ((*MATCH, "--colour", "A=navy and B=teal"), "--colour A=navy --colour B=teal"),
        ((*MATCH, "--colour", "A=navy,teal,B=red"), "--colour A=navy,teal --colour B=red"),
        ((*MATCH, "--colour", "A=navy/B=teal"), "--colour A=navy --colour B=teal"),
        ((*NEED, "--colour", "A=navy,B=blue,C=red"), "--colour B=blue --colour C=red"),
        ((*MATCH, "--not-colour", "A=red,B=green"), "--not-colour A=red --not-colour B=green"),
        ((*MATCH, "--not-colour", "red,B=green"), "--not-colour red --not-colour B=green"),
        ((*MATCH, "--with", "A=1,B=4"), "--with A=1 --with B=4"),
        (("match", "--need", "A=60m,B=20m"), "--need A=60m --need B=20m"),
        (("reach", "Hat", "--have", "A=60m, B=20m"), "--have A=60m --have B=20m"),
        (("aside", "Hat", "--skeins", "A=1,B=4"), "--skeins A=1 --skeins B=4"),
        (("short", "--need", "A=60m,B=20m"), "--need A=60m --need B=20m"),
    ],
    ids=lambda given: " ".join(given) if isinstance(given, tuple) else "",
)
def test_two_roles_in_one_option_are_refused_with_each_written_out(
    maker: Maker, words: tuple[str, ...], apart: str
) -> None:
    refused_in_one_line(maker(*words), 2, apart)


def test_several_colours_of_one_role_are_still_one_option(maker: Maker) -> None:
    found = maker.ask(*MATCH, "--colour", "A=navy,teal", "--colour", "B=oatmeal")

    colours = {(p["roles"]["A"]["colour"], p["roles"]["B"]["colour"]) for p in found["proposals"]}
    assert colours <= {("navy", "oatmeal"), ("teal", "oatmeal")}
    assert colours


def test_a_sign_left_over_is_no_colour(maker: Maker) -> None:
    refused_in_one_line(maker(*MATCH, "--colour", "A=b=c"), 2, "--colour A=blue")
