"""The batch before a market: what to make from what is there, and its yarn set aside."""

from __future__ import annotations

import signal
import sys
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from shutil import get_terminal_size
from types import MappingProxyType
from typing import TYPE_CHECKING, Annotated

import typer

from stash.cli.common import (
    As,
    AsOption,
    File,
    On,
    Over,
    answer,
    day,
    note,
    open_book,
    page_of,
    progress,
    refuse,
)
from stash.cli.match_options import asks_the_shelf, wish_typed
from stash.cli.ordered import orders_to_make

if TYPE_CHECKING:
    from stash.actions.batch import BatchAsked, PlannedBatch
    from stash.actions.book import Book
    from stash.actions.order import Orders
    from stash.measures.note import Note
    from stash.parsing.batch.lines import PlanLines
    from stash.parsing.wish.typed import WishWords
    from stash.planning.model.asked import WantAsked
    from stash.planning.model.saved import Saved


Weekly = Annotated[str, typer.Option("--hours-a-week", help="Hours a week, to --by.")]
Seconds = Annotated[float, typer.Option(help="Stop after so many, best so far.")]
NoOrders = Annotated[bool, typer.Option("--no-orders", help="Leave orders out of the plan.")]
NO_LIMITS: Mapping[str, str] = MappingProxyType({})


PerColour = Annotated[
    str, typer.Option("--per-colour", help="How many may have a main yarn of one colour.")
]
KeepIn = Annotated[
    Path | None, typer.Option("--save", help="Keep the plan in this file, to book it later.")
]
KeptPlan = Annotated[
    Path | None,
    typer.Option("--aside", metavar="FILE", help="Book a kept plan: sets all its yarn aside."),
]
PerPair = Annotated[
    str, typer.Option("--per-pair", help="At most so many items in the same yarns.")
]
Different = Annotated[
    str, typer.Option("--different", help="At least so many different sets of yarns.")
]
MarketDay = Annotated[
    str, typer.Option("--by", metavar="DAY", help="The day of the market, as 2026-12-05.")
]
AsideNow = Annotated[
    bool, typer.Option("--aside-now", help="Plan, and set all its yarn aside at once.")
]


def register(app: typer.Typer) -> None:
    """Put this command on the command line."""
    app.command()(asks_the_shelf(batch))


def batch(
    plan: Annotated[
        Path | None, typer.Argument(metavar="FILE", help="A plan file; the README shows one.")
    ] = None,
    want: Annotated[
        list[str] | None,
        typer.Option(
            "--want",
            help="'Winter hat=6'; with price and hours: 'Cowl=2-6 at 24 in 2.5h'. Repeat for more.",
        ),
    ] = None,
    aim: Annotated[
        str, typer.Option(help="What matters: value, profit, items, leftovers, buying; best first.")
    ] = "",
    hours: Annotated[str, typer.Option(help="Your hours in all, as 40.")] = "",
    weekly: Weekly = "",
    by: MarketDay = "",
    per_pair: PerPair = "",
    per_colour: PerColour = "",
    different: Different = "",
    hold_back: Annotated[
        str, typer.Option("--hold-back", help="A share of each lot to keep back, as 20%.")
    ] = "",
    keep_out: Annotated[
        list[str] | None,
        typer.Option("--keep-out", help="Yarn to leave alone: 12, L4 or navy. Repeat for more."),
    ] = None,
    no_orders: NoOrders = False,
    seconds: Seconds = 0.0,
    save: KeepIn = None,
    over: Over = False,
    book_it: KeptPlan = None,
    now: AsideNow = False,
    everything: Annotated[bool, typer.Option("--all", help="Show the whole plan.")] = False,
    how: AsOption = As.TEXT,
    on: On = "",
    file: File = None,
    *,
    words: WishWords,
) -> None:
    """What to make before a market. The best plan for your shelf, skein by skein."""
    book = open_book(file)
    if book_it is not None:
        if plan or want or save or now:
            refuse("books_a_kept_plan")
        _book(book, book_it, on, how)
        return
    _refuse_to_plan(save, over, words)
    limits = _typed(hours=hours, hours_a_week=weekly, date=by, keep_out=", ".join(keep_out or []))
    limits |= _typed(per_pair=per_pair, per_colour=per_colour, different=different)
    limits |= _typed(hold_back=hold_back)
    orders, ordered = (None, ()) if no_orders else orders_to_make(book)
    typed = plan_typed(plan, want or [], limits)
    found = _planned(book, _asked(book, typed, aim, ordered, words), seconds)
    if save is not None:
        _save(save, found, over)
    if now:
        _aside_now(book, found, on, how)
    else:
        _show(found, how, save, orders, everything=everything)


def _across() -> int | None:
    """How wide the terminal is that shows the plan; None where none does."""
    return get_terminal_size().columns if sys.stdout.isatty() else None


def _typed(**options: str) -> dict[str, str]:
    return {name: text for name, text in options.items() if text}


def plan_typed(
    plan: Path | None, wants: Sequence[str], limits: Mapping[str, str] = NO_LIMITS
) -> PlanLines:
    """A plan in a file, and what was typed beside it."""
    from stash.parsing.batch.lines import PlanLines, beside, plan_lines, want_typed

    found = PlanLines() if plan is None else plan_lines(plan.name, _bytes(plan))
    return beside(found, [want_typed(text) for text in wants], dict(limits))


def _bytes(path: Path) -> bytes:
    from stash.exchange.readers import bytes_of

    return bytes_of(path)


def _asked(
    book: Book, typed: PlanLines, aim: str, ordered: Sequence[WantAsked], words: WishWords
) -> BatchAsked:
    from stash.exchange.batch_read import batch_asked, batch_read

    return batch_asked(batch_read(book, typed, aim, ordered), wish_typed(words))


def _planned(book: Book, wanted: BatchAsked, seconds: float) -> PlannedBatch:
    """The plan, or the best so far where time ran out or Ctrl-C was pressed."""
    from stash.actions.batch import plan_batch
    from stash.rendering.batch import UNFINISHED

    watch = Watch(seconds)
    with stopped_by_hand(watch):
        found = plan_batch(book, wanted, watch.stop, watch.now_doing)
    if not found.batch.finished:
        note(UNFINISHED)
    return found


class Watch:
    """Asked whether to stop: after so long, or from Ctrl-C on; says what goes on after a second."""

    def __init__(self, seconds: float = 0.0) -> None:
        from stash.actions import clock

        self._now, self._begun = clock.seconds, clock.seconds()
        self._seconds, self._doing = seconds, ""
        self.pressed = False

    def now_doing(self, doing: Note) -> None:
        """What goes on from now."""
        from stash.rendering.sentences.say import sentence

        self._doing = sentence(doing)

    def stop(self) -> bool:
        """Whether to leave off."""
        passed = self._now() - self._begun
        if self._doing and passed > 1:
            progress(self._doing)
            self._doing = ""
        return self.pressed or 0 < self._seconds < passed


@contextmanager
def stopped_by_hand(watch: Watch) -> Iterator[None]:
    """Ctrl-C asks for the best so far, here, and ends nothing."""

    def pressed(*_: object) -> None:
        watch.pressed = True

    before = signal.signal(signal.SIGINT, pressed)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)


def _refuse_to_plan(save: Path | None, over: bool, words: WishWords) -> None:
    """Before the plan is looked for, which may take its time."""
    from stash.actions import writing

    if save is not None:
        writing.refuse_to_write(save, over=over)
    if words.two_lots or words.apart:
        refuse("batch_of_one_lot")


def _save(path: Path, found: PlannedBatch, over: bool) -> None:
    from stash.actions import writing
    from stash.exchange.saved_plan import plan_written

    if not found.batch.made:
        refuse("no_plan_to_keep")
    writing.write(path, plan_written(found.saved), over=over)


def _show(
    found: PlannedBatch, how: As, saved: Path | None, orders: Orders | None, *, everything: bool
) -> None:
    from stash.rendering import batch as rendered
    from stash.rendering.order import with_orders

    shown_on, plan = page_of(found.settings), found.batch
    across = None if everything else _across()
    answer(
        how,
        lambda: rendered.keys(plan, shown_on.currency),
        lambda: with_orders(rendered.text(plan, shown_on, across), plan, orders),
        lambda: rendered.rows(plan),
    )
    if saved is not None:
        note(rendered.saved_text(saved))


def _book(book: Book, path: Path, on: str, how: As) -> None:
    from stash.exchange.saved_plan import saved_plan_from

    _show_aside(book, saved_plan_from(path.name, _bytes(path)), on, how)


def _aside_now(book: Book, found: PlannedBatch, on: str, how: As) -> None:
    """The plan set aside as it is; what it leaves unmade is said beside it."""
    from stash.rendering.not_made import not_made_lines, too_few_lines
    from stash.rendering.too_alike import too_alike_lines

    if not found.batch.made:
        refuse("no_plan_to_set_aside")
    _show_aside(book, found.saved, on, how)
    plan = found.batch
    for line in (*too_few_lines(plan), *too_alike_lines(plan), *not_made_lines(plan)):
        note(f"not made: {line.strip()}")


def _show_aside(book: Book, saved: Saved, on: str, how: As) -> None:
    from stash.actions.batch_aside import aside_batch
    from stash.rendering import batch_aside as rendered

    made = aside_batch(book, saved, on=day(on))
    answer(
        how,
        lambda: rendered.keys(made),
        lambda: rendered.text(made, page_of(made.settings)),
        lambda: rendered.rows(made),
    )
