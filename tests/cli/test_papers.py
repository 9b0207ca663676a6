"""Papers for a market: tags of several items on one sheet, a price list, a packing list."""

from __future__ import annotations

import csv
import re
import sqlite3
from html.parser import HTMLParser
from pathlib import Path

import pytest
from commands import Maker, refused_in_one_line

NASTY = "<script>alert('1')</script> & \"hat\""


@pytest.fixture
def seller(nobody: Maker) -> Maker:
    """Items 1-7 are hats, done; 8 has a name a browser would run; a price is asked for two."""
    for name, value in (
        ("currency", "EUR"), ("maker", "Tarn <Loft>"), ("address", "3 Mill Lane"),
        ("contact", "hat@tarn.example"),
    ):  # fmt: skip
        nobody.does("settings", name, value)
    nobody.does("add", "Fell Wool DK, 8 x 100g/240m, navy, lot 1, 100% wool, hand wash 30")
    worked = ("--gauge", "18 sts x 14 rows", "--fabric", "1 hdc", "--thickness", "DK")
    for name in ("Hat", NASTY):
        nobody.does("design", "add", name, "--shape", "round hat", "--size", "woman", *worked)
    for number in range(1, 9):
        nobody.does("aside", "Hat" if number < 8 else NASTY, "--skeins", f"A={number}")
        nobody.does("done", f"{number}", "--left", f"{number}=40g")
    with sqlite3.connect(nobody.file) as db:
        db.execute("UPDATE item SET asked_coins = 2850 WHERE number IN (1, 2)")
    return nobody


class Sheet(HTMLParser):
    """What a browser reads of a sheet: the tags by page, texts, and every element there is."""

    def __init__(self, path: Path) -> None:
        super().__init__()
        self.pages: list[list[list[str]]] = []
        self.elements: set[str] = set()
        self.texts: list[str] = []
        self.links: list[str] = []
        self.feed(path.read_text("utf-8"))

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.add(tag)
        self.links += [value or "" for name, value in attrs if name in ("src", "href")]
        classes = (dict(attrs).get("class") or "").split()
        if "page" in classes:
            self.pages.append([])
        if "tag" in classes:
            self.pages[-1].append([])

    def handle_data(self, data: str) -> None:
        self.texts.append(data)
        if data.strip() and self.pages and self.pages[-1]:
            self.pages[-1][-1].append(data)


def test_tags_of_several_items_are_six_to_a_page(seller: Maker, tmp_path: Path) -> None:
    path = tmp_path / "tags.html"
    said = seller.does("tag", "1-8", "--print", str(path))

    sheet = Sheet(path)
    assert "8 tags" in said.out
    assert "local rules" in said.err
    assert [len(page) for page in sheet.pages] == [6, 2]
    first = sheet.pages[0][0]
    for words in (
        "€28.50", "Hat (round hat)", "53.5 cm around, 22.5 cm tall", "21 in around, 8 3/4 in tall",
        "100% wool", "made by Tarn <Loft>, 3 Mill Lane, hat@tarn.example",
    ):  # fmt: skip
        assert words in first
    assert any("hand wash" in line for line in first)
    assert any(line.startswith("item 1,") for line in first)
    assert "€28.50" not in sheet.pages[0][2], "no price was asked for the third"


def test_a_sheet_for_a_browser_runs_and_fetches_nothing(seller: Maker, tmp_path: Path) -> None:
    path = tmp_path / "tags.html"
    seller.does("tag", "7,8", "--print", str(path))

    sheet, text = Sheet(path), path.read_text("utf-8")
    assert "script" not in sheet.elements
    assert sheet.links == []
    assert not re.search(r"url\(|@import|https?:", text)
    assert f"{NASTY} (round hat)" in sheet.pages[0][1]


def test_a_sheet_has_styles_of_its_own_to_print_and_splits_no_tag(
    seller: Maker, tmp_path: Path
) -> None:
    path = tmp_path / "tags.html"
    seller.does("tag", "1", "--print", str(path))

    text = path.read_text("utf-8")
    row = re.search(r"\.tags \{([^}]*)\}", text)
    assert "@page" in text
    assert row is not None
    assert "break-inside: avoid" in row[1]
    assert "dashed" in text


def test_tags_as_plain_text_end_a_page_before_one_is_cut(seller: Maker, tmp_path: Path) -> None:
    path = tmp_path / "tags.txt"
    seller.does("tag", ",".join(["1", *map(str, range(2, 9))]), "--print", str(path))

    text = path.read_text("utf-8")
    assert all(len(line) <= 80 for line in text.splitlines())
    assert all(page.count("\n") <= 60 for page in text.split("\f"))
    assert len(re.findall(r"item [1-8], made", text)) == 8


def test_many_tags_take_more_pages_of_text() -> None:
    from dataclasses import replace

    from stash.costing.label import Rules, content
    from stash.rendering.cards import Card, cards_text
    from stash.rendering.tag import Facts

    facts = Facts(1, "Hat", None, content([], Rules.EU), [], {})
    cards = [Card(replace(facts, batch=n), None, None, "") for n in range(1, 61)]
    pages = cards_text(cards).split("\f")

    assert len(pages) > 1
    for page in pages:
        assert page.count("\n") <= 60
        assert page.rstrip("\n").endswith("- "), "a page ends with a line to cut along"
    assert [int(n) for n in re.findall(r"item (\d+)", "".join(pages))] == [*range(1, 61)]


def test_a_price_list_puts_like_with_like(seller: Maker, tmp_path: Path) -> None:
    seller.does("sold", "7", "--for", "20")
    lines = seller.does("tag", "--list", "prices").out.splitlines()

    assert re.search(r"Hat +53\.5 x 22\.5 cm / 21 x 8 3/4 in +2 +1-2 +€28\.50", "\n".join(lines))
    assert re.search(r"Hat .* 4 +3-6 +____", "\n".join(lines))
    path = tmp_path / "prices.html"
    seller.does("tag", "--list", "prices", "--print", str(path))
    assert NASTY in Sheet(path).texts
    assert "script" not in Sheet(path).elements


def test_a_packing_list_fills_boxes_and_adds_them_up(seller: Maker, tmp_path: Path) -> None:
    out = seller.does("tag", "1-5", "--list", "packing", "--box", "2").out

    assert [line for line in out.splitlines() if line.startswith("Box")] == [
        "Box 1: 2 items, €57.00", "Box 2: 2 items", "Box 3: 1 item",
    ]  # fmt: skip
    assert out.count("[ ]") == 5
    rows = [*csv.DictReader(seller.does("tag", "--box", "4", "--as", "csv").out.splitlines())]
    assert [row["box"] for row in rows] == ["1"] * 4 + ["2"] * 4
    path = tmp_path / "boxes.html"
    seller.does("tag", "--list", "packing", "--box", "3", "--print", str(path))
    assert [t for t in Sheet(path).texts if t.startswith("Box")][-1].startswith("Box 3: 2 items")


@pytest.mark.parametrize(
    ("typed", "status", "words"),
    [
        (("tag", "1,99", "--print", "t.txt"), 3, "no item 99"),
        (("tag", "1,99", "--list", "prices"), 3, "no item 99"),
        (("tag", "--list", "wishes"), 2, "--list prices"),
        (("tag", "--list", "prices", "--box", "2"), 2, "--list packing"),
        (("tag", "--box", "0"), 2, "whole number"),
        (("tag", "hat", "--list", "prices"), 2, "1,4-12"),
        (("tag", "1,2", "--functional", "moonbeam", "--print", "t.txt"), 2, "not a fibre we know"),
    ],
)
def test_what_cannot_be_is_refused_and_nothing_is_written(
    seller: Maker, typed: tuple[str, ...], status: int, words: str
) -> None:
    refused_in_one_line(seller(*typed), status, words)
    assert not Path("t.txt").exists()


def test_what_is_sold_or_not_done_is_on_no_list(seller: Maker) -> None:
    seller.does("sold", "1", "--for", "20")
    refused_in_one_line(seller("tag", "1,2", "--list", "prices"), 4, "stash show item 1")
    seller.does("aside", "Hat", "--skeins", "A=1,2")
    refused_in_one_line(seller("tag", "9", "--list", "prices"), 4, "only what is done")


def test_no_paper_is_written_over_unasked(seller: Maker, tmp_path: Path) -> None:
    path = tmp_path / "tags.html"
    seller.does("tag", "1,2", "--print", str(path))
    before = path.read_bytes()

    refused_in_one_line(seller("tag", "1-3", "--print", str(path)), 5, "--over")
    refused_in_one_line(seller("tag", "--list", "prices", "--print", str(path)), 5, "--over")
    assert path.read_bytes() == before
    seller.does("tag", "1-3", "--print", str(path), "--over")


#: What only the maker is to know.
GAPS = re.compile("not known|unknown|estimated|not finished|not set", re.IGNORECASE)


@pytest.mark.parametrize(
    ("facts", "left_out"),
    [
        ("", ("Fibres of L1", "Some care of L1")),
        ("wool", ("Fibres of L1", "Some care of L1")),
        ("60% wool", ("Fibres",)),
        ("wool 100%, hand wash", ("Some care",)),
        ("100% wool, hand wash 30, do not bleach, dry flat, cool iron, do not dry clean", ()),
    ],
)
@pytest.mark.parametrize("rules", ["eu", "uk", "us"])
def test_a_tag_leaves_out_what_is_not_known_and_the_maker_hears_of_it(
    nobody: Maker, tmp_path: Path, facts: str, left_out: tuple[str, ...], rules: str
) -> None:
    """Unknown fibres, care, temperature, maker, day, weighed or not: never words on the tag."""
    nobody.does("settings", "rules", rules)
    nobody.does("add", f"Fell DK, 2 x 100g/240m, navy, lot 1, {facts}".rstrip(", "))
    nobody.does("design", "add", "Hat", "--stated", "A=72m", "--thickness", "DK")
    for _ in "12":
        nobody.does("aside", "Hat")
    nobody.does("begin", "1")
    nobody.does("weigh", "1", "80g", "--for", "1")
    nobody.does("done", "2", "--as-planned")

    for name in ("tags.html", "tags.txt"):
        path = tmp_path / name
        said = nobody.does("tag", "1-2", "--print", str(path))
        sheet = " ".join(Sheet(path).texts) if name == "tags.html" else path.read_text("utf-8")
        assert not GAPS.search(sheet), sheet
        assert "Hat" in sheet
        for words in ("not finished", *left_out):
            assert words.lower().replace("fibres", "fib").split()[0] in said.err.lower()
    on_it, _, below = nobody.does("tag", "1").out.partition("- - -")
    assert not GAPS.search(on_it), on_it
    assert "not finished" in below
    for words in left_out:
        word = words.replace("Fibres", "Fibers") if rules == "us" else words
        assert word in " ".join(below.split())
