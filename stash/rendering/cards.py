"""The tags of several items on one sheet, to cut apart: what a buyer reads, no more."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import zip_longest
from pathlib import Path

from stash.measures.money import Money
from stash.measures.written import show_money
from stash.rendering.amounts import numbers
from stash.rendering.columns import width
from stash.rendering.printed import LINES_OF_A_PAGE, as_html, both_units, safe
from stash.rendering.sentences.say import sentence
from stash.rendering.tag import Facts, Gap, gaps, known_of_it
from stash.requirements.design.shapes import Size

#: Two tags stand beside each other, six on a page of HTML.
_BESIDE, _ON_A_PAGE = 2, 6
#: How wide a tag of plain text is: two of them and the line between fit 80 columns.
_WIDE = 37
#: More letters than this are set smaller, so that a tag stays on a sixth of a page.
_MANY = 550


@dataclass(frozen=True, slots=True)
class Card:
    """One tag: its facts, the size, and the price, which is left to be written where not known."""

    facts: Facts
    size: Size | None
    price: Money | None
    currency: str


def card_lines(card: Card) -> Iterator[tuple[str, str]]:
    """The lines of a tag, each with what it is."""
    facts = card.facts
    asked = card.price
    yield "price", "price ________" if asked is None else show_money(asked, card.currency)
    yield "name", facts.product
    for line in both_units(facts.shape, card.size):
        yield "size", line
    known = known_of_it(facts)
    if fibres := known.pop("fibres", ""):
        yield "fibre", fibres
    if known:
        yield "care", "; ".join(known.values())
    for one in facts.warnings:
        yield "warning", sentence(one)
    yield "maker", facts.maker.line
    made = f", made {facts.made_on}" if facts.made_on else ""
    yield "number", f"item {facts.batch}{made}"


def cards_gaps(cards: Sequence[Card]) -> list[tuple[str, Gap]]:
    """What the tags leave out or blank, each once: of which of several items, and what.

    Of one item alone, or of all of them, no item is named.
    """
    found: dict[Gap, list[int]] = {}
    for card in cards:
        for gap in gaps(card.facts):
            found.setdefault(gap, []).append(card.facts.batch)
    return [
        ("" if len(of) == len(cards) else f"item{'s'[: len(of) > 1]} {numbers(of)}", gap)
        for gap, of in found.items()
    ]


def cards_html(cards: Sequence[Card]) -> str:
    """The sheet to print from a browser: six to a page, lines to cut along, none over two pages."""
    return as_html("Tags", cards_sheet(cards))


def cards_sheet(cards: Sequence[Card]) -> str:
    """The pages of that sheet."""
    pages = [cards[at : at + _ON_A_PAGE] for at in range(0, len(cards), _ON_A_PAGE)]
    return "\n".join(map(_page, pages))


def _page(cards: Sequence[Card]) -> str:
    rows = [cards[at : at + _BESIDE] for at in range(0, len(cards), _BESIDE)]
    lines = "\n".join(f'<div class="tags">\n{"".join(map(_tag, row))}</div>' for row in rows)
    return f'<div class="page">\n{lines}\n</div>'


def _tag(card: Card) -> str:
    lines = list(card_lines(card))
    long = " long" if sum(len(text) for _, text in lines) > _MANY else ""
    inner = "\n".join(f'<p class="{kind}">{safe(text)}</p>' for kind, text in lines)
    return f'<div class="tag{long}">\n{inner}\n</div>\n'


def cards_text(cards: Sequence[Card]) -> str:
    """The same as plain text, two beside each other; a page ends before a tag would be cut."""
    blocks = [
        _beside([_block(card) for card in cards[at : at + _BESIDE]])
        for at in range(0, len(cards), _BESIDE)
    ]
    pages: list[list[str]] = [[]]
    for block in blocks:
        if pages[-1] and len(pages[-1]) + len(block) > LINES_OF_A_PAGE:
            pages.append([])
        pages[-1] += block
    return "\f".join("\n".join(page) + "\n" for page in pages)


def _block(card: Card) -> list[str]:
    return [line for _, text in card_lines(card) for line in textwrap.wrap(text, _WIDE) or [""]]


def _beside(blocks: Sequence[Sequence[str]]) -> list[str]:
    """Blocks beside each other with a line to cut along between them and below."""
    lines = [
        " : ".join(cell + " " * (_WIDE - width(cell)) for cell in row).rstrip()
        for row in zip_longest(*blocks, fillvalue="")
    ]
    return [*lines, "- " * (_WIDE + 1)]


def cards_written(cards: Sequence[Card], target: Path) -> str:
    """How many tags are in a file."""
    count = "1 tag" if len(cards) == 1 else f"{len(cards)} tags"
    return f"Saved {count} in {target}"
