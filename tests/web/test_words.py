"""A sentence of the commands as the page says it: whole parts of it are left out, never a bit."""

import ast
import re
import string
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import pytest
from commands import Maker
from pages import Browser, unescaped

from stash.rendering import sentences
from stash.web.pages import said


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("what did the buyer pay? Add --for 28.00", "what did the buyer pay?"),
        ("the length of skein 7 is 7.5 m; type --metre 10m=4.3g", "the length of skein 7 is 7.5 m"),
        (
            "0.5 g is missing; weigh it, as in `stash weigh 3 0.5g --for 1`; it may lie about.",
            "0.5 g is missing; it may lie about.",
        ),
        (
            "Care of L9 (mustard no. 15) is not known: `stash change L9` adds it",
            "Care of mustard no. 15 is not known",
        ),
        ("Short by 7.5 m. Add --skeins 1.5 m. Then go on.", "Short by 7.5 m. Then go on."),
    ],
)
def test_a_hint_is_left_out_whole(text: str, shown: str) -> None:
    assert said(text) == shown


def _texts() -> Iterator[str]:
    """The words of every sentence there is, filled with numbers."""
    for module in Path(next(iter(sentences.__path__))).glob("*.py"):
        for node in ast.walk(ast.parse(module.read_text("utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                parts = string.Formatter().parse(node.value) if "{" in node.value else ()
                yield (
                    "".join(
                        word + ("7.5" if field is not None else "") for word, field, _, _ in parts
                    )
                    or node.value
                )


def test_no_number_is_cut_in_two_by_what_is_left_out() -> None:
    """7.5 stands in every gap of every sentence; whatever a page shows of it, it is 7.5."""
    looked_at = 0
    for text in _texts():
        if "7.5" in text and ("`stash" in text or "--" in text):
            looked_at += 1
            assert not re.search(r"7\.(?!5)|(?<![\d.])5\b(?!\d)", said(text).replace("7.5", "")), (
                text
            )
            assert not re.search(r"\b7\.$", said(text)), text
    assert looked_at > 50


#: Pages with fields to type in.
FIELDS = (
    "/", "/add", "/add/many", "/add/like?like=L1", "/design/1", "/design/1/edit", "/designs/new",
    "/design/new/edit?begin=mittens", "/item/2", "/lasts/2", "/pairs/1", "/shelf", "/settings",
    "/count?place=blue crate", "/photo", "/find", "/scale?skein=36",
)  # fmt: skip


def test_every_example_in_a_field_is_in_her_units(lively: Maker, lively_browser: Browser) -> None:
    lively.does("settings", "units", "us")
    seen = 0
    for address in FIELDS:
        page = lively_browser.opens(address)
        assert page.status == 200, address
        for example in re.findall(r'placeholder="([^"]*)"', page.source):
            seen += 1
            assert not re.search(r"\d ?(?:g|m|cm)\b", example), (address, example)
    assert seen > 40


@pytest.mark.parametrize("units", ["metric", "us"])
def test_a_piece_has_one_size_around_on_the_whole_editor(
    lively: Maker, lively_browser: Browser, units: str
) -> None:
    """And what lies flat is half of what is shown around."""
    lively.does("settings", "units", units)
    page = lively_browser.opens("/design/1/edit")
    around = {*re.findall(r"([\d./]+(?: \d+/\d+)?) (?:cm|in) around", unescaped(page.source))}
    assert len(around) == 1, around
    across = re.search(r"([\d./]+(?: \d+/\d+)?) (?:cm|in) across", page.source)
    assert across is not None
    (whole,) = around
    assert abs(2 * _number(across[1]) - _number(whole)) < 0.11


def _number(text: str) -> float:
    return float(sum(Fraction(part) for part in text.split()))


def test_reasons_that_differ_are_never_all_nothing(lively: Maker, lively_browser: Browser) -> None:
    page = lively_browser.opens("/skein/35")
    offs = [float(one) for one in re.findall(r"± ([\d.]+) m", page.text)]
    assert len({*offs}) > 2
    assert min(offs) > 0
    assert "± 0 m" not in lively.does("show", "35").out
