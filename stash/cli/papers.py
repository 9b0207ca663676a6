"""Papers for a market: many tags on one sheet, a price list, a packing list."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from stash.cli.common import As, answer, note, open_book, refuse, say, whole

if TYPE_CHECKING:
    from stash.actions.price_list import ForSale
    from stash.actions.tag import Tag
    from stash.rendering.tag import Facts

_LISTS = ("prices", "packing")


@dataclass(frozen=True, slots=True)
class Output:
    """Where an answer goes: a file, written over or not, else the screen in this form."""

    target: Path | None
    over: bool
    how: As

    @property
    def html(self) -> bool:
        """Whether it is a file for a browser."""
        return self.target is not None and self.target.suffix.lower() in (".html", ".htm")


def print_cards(tags: Sequence[tuple[Tag, Facts]], output: Output) -> None:
    """The tags of several items, or of one, on one sheet."""
    from stash.actions import writing
    from stash.rendering import cards as rendered
    from stash.rendering.tag import CHECK_RULES

    made = [
        rendered.Card(facts, tag.size, tag.item.asked.price, tag.settings.currency)
        for tag, facts in tags
    ]
    assert output.target is not None
    text = (rendered.cards_html if output.html else rendered.cards_text)(made)
    writing.write(output.target, text, over=output.over)
    say(rendered.cards_written(made, output.target))
    for of, gap in rendered.cards_gaps(made):
        note(f"{of}: {gap.words}" if of else gap.words)
    note(CHECK_RULES)


def show_list(
    listed: str, items: Sequence[str], box: int | None, output: Output, file: Path | None
) -> None:
    """What is for sale as a list of prices or by box."""
    from stash.actions import writing
    from stash.actions.price_list import for_sale
    from stash.rendering import price_list as rendered

    word = listed.strip().lower() or "packing"
    if word not in _LISTS:
        refuse("no_such_list", typed=listed)
    if box is not None and word != "packing":
        refuse("box_of_prices")
    box = None if box is None else whole("--box", box, 10_000)
    found = for_sale(open_book(file), _numbers(items))
    if output.target is None:
        sheet = rendered.rows(found, box)
        answer(
            output.how, lambda: sheet, lambda: _text(found, word, box, html=False), lambda: sheet
        )
        return
    text = _text(found, word, box, html=output.html)
    writing.write(output.target, text if output.html else f"{text}\n", over=output.over)
    say(rendered.list_written(word, output.target))


def _numbers(items: Sequence[str]) -> list[int] | None:
    wanted = [one.strip().removeprefix("#") for one in items if one.strip()]
    for one in wanted:
        if not one.isdecimal():
            refuse("list_of_numbers", typed=one)
    return [int(one) for one in wanted] or None


def _text(found: ForSale, word: str, box: int | None, *, html: bool) -> str:
    from stash.rendering import price_list as rendered

    if word == "prices":
        return rendered.prices_html(found) if html else rendered.prices_text(found)
    return rendered.packing_html(found, box) if html else rendered.packing_text(found, box)
