"""The batch before a market: what to make from what is there, planned on today's shelf."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from stash.actions import designs, find
from stash.actions.batch_profit import expenses, skein_costs, with_profit
from stash.actions.book import Book
from stash.actions.her_hours import HerHours
from stash.actions.her_settings import Settings
from stash.actions.limits import held_against
from stash.actions.match import AS_SET, found_on, settled, shelf_of
from stash.actions.priced import Priced
from stash.errors import NotFound, Refusal
from stash.matching.question.wish import Limits, Named, Wish
from stash.measures.estimate import to_books
from stash.measures.mass import Mass
from stash.measures.note import Note
from stash.planning.model.asked import WantAsked
from stash.planning.model.batch import Batch, SoFar, Terms, Wanted
from stash.planning.model.problem import Aim
from stash.planning.model.saved import Saved, SavedCut, SavedRole, SavedWant
from stash.planning.optimiser.incumbent import Calls
from stash.planning.plan_batch import planned
from stash.requirements.design.design import Design
from stash.requirements.design.serialise import serialise
from stash.requirements.fit.grading import Graded, NotMade, Run, graded_rows
from stash.requirements.yarn.design_context import DesignContext
from stash.requirements.yarn.need import Need
from stash.stock.holding import HeldLot
from stash.store import item_rows
from stash.store.engine import Connection
from stash.store.item_rows import DesignRow


@dataclass(frozen=True, slots=True)
class BatchAsked:
    """The wants and terms; `wish` is what is asked of the yarn for all of them alike.

    `kept_out` is yarn that must not be taken, as it was typed: skeins, lots, or words.
    """

    wants: tuple[WantAsked, ...]
    terms: Terms
    wish: Wish = AS_SET
    kept_out: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class PlannedBatch:
    """The plan, and the same to be kept until it is booked."""

    batch: Batch
    saved: Saved
    settings: Settings


@dataclass(frozen=True, slots=True)
class _ToMake:
    """A want with the plan it is made by: as it is kept, or at another size."""

    asked: WantAsked
    known: DesignContext
    made: Design
    need: Need


def plan_batch(
    book: Book,
    asked: BatchAsked,
    stop: Callable[[], bool] = lambda: False,
    report: Callable[[Note], None] = lambda doing: None,
    so_far: Callable[[SoFar], None] = lambda plan: None,
) -> PlannedBatch:
    """The best plan for the wants on today's shelf, every cut of it, and how good it is proved.

    `stop` is asked again and again; once it says so, the best so far is given. `report` hears what
    is being done, `so_far` each better plan. The view is closed before the search begins, which
    may take long: an open one would keep everybody else from writing.
    """
    with book.reading() as db:
        settings = Settings.read(db)
        shelf, rows = shelf_of(db, settings), item_rows.designs(db)
        to_make, wants = read_wants(db, settings, asked, shelf.lots, rows)
        priced = Priced.read(db) if Aim.PROFIT in asked.terms.aims else None
    costs = skein_costs(priced) if priced else None
    batch = planned(shelf, wants, asked.terms, Calls(stop, report), costs, so_far=so_far)
    batch = with_profit(priced, batch, settings) if priced else batch
    plans = {row.name: json.loads(row.plan) for row in rows}
    return PlannedBatch(batch, _saved(batch, to_make, plans, shelf.lots), settings)


def read_wants(
    db: Connection,
    settings: Settings,
    asked: BatchAsked,
    lots: Sequence[HeldLot],
    rows: Sequence[DesignRow],
) -> tuple[list[_ToMake], list[Wanted]]:
    """The wants with their plans, and as they are held against the shelf."""
    each = designs.all_known(db, settings, rows, asked.wish.margin)
    known = {one.design.name.lower(): one for one in each}
    to_make = [_to_make(rows, known, want) for want in asked.wants]
    _refuse_endless(asked)
    yarn = _Yarn(db, settings, asked, lots)
    return to_make, _with_hours([yarn.wanted(one) for one in to_make])


def _with_hours(wants: Sequence[Wanted]) -> list[Wanted]:
    """Where nothing says how long one takes, as long as another of its design in the batch does.

    Of its size if there is one. What is ordered has no hours of its own, and takes hers too.
    """
    sized, any_size = dict[str, int](), dict[str, int]()
    for want in wants:
        if want.minutes:
            sized.setdefault(want.name, want.minutes)
            any_size.setdefault(want.design, want.minutes)
    return [
        replace(want, minutes=sized.get(want.name) or any_size.get(want.design, 0))
        if not want.minutes
        else want
        for want in wants
    ]


def _to_make(
    rows: Sequence[DesignRow], known: Mapping[str, DesignContext], want: WantAsked
) -> _ToMake:
    one = known[_kept(rows, want.design)]
    if want.run is None:
        return _ToMake(want, one, one.design, one.need(one.design))
    row = row_made(one, want.run, want.size)
    if as_kept(row, one.design):
        return _ToMake(want, one, one.design, one.need(one.design))
    return _ToMake(want, one, row.design, row.need)


def row_made(known: DesignContext, run: Run, size: str) -> Graded:
    """The one row of a run; refused where the design cannot be made so."""
    (row,) = graded_rows(known, run)
    if isinstance(row, NotMade):
        raise Refusal("size_not_made", design=known.design.name, size=size, why=row.why)
    return row


def as_kept(row: Graded, design: Design) -> bool:
    """Whether a row is the design as it is: its own size, asked for by name."""
    return replace(row.design, fits=design.fits) == design


def _kept(rows: Sequence[DesignRow], name: str) -> str:
    """The design's name in small letters; one that is not kept has no need yet."""
    try:
        return find.design_among(rows, name).name.lower()
    except NotFound as no:
        raise NotFound("design_for_batch", name, no.nearest) from None


def _refuse_endless(asked: BatchAsked) -> None:
    """What must be bought for "as many as there can be" has no end."""
    if Aim.BUYING in asked.terms.aims:
        for want in asked.wants:
            if want.at_most is None:
                raise Refusal("buying_without_end", design=want.design)


class _Yarn:
    """What every want asks of the yarn: what holds for all, and what is its own."""

    def __init__(
        self, db: Connection, settings: Settings, asked: BatchAsked, lots: Sequence[HeldLot]
    ) -> None:
        self._usual, self._lots, self._settings = settings.fineness, lots, settings
        self._hours = HerHours.read(db)
        self._wish = settled(db, settings, asked.wish, lots)
        self._kept_out = dict(_kept_out(db, asked.kept_out, lots))
        self._known: list[Wish] = []

    def wanted(self, one: _ToMake) -> Wanted:
        """The want with its wish; wants that ask the same share one."""
        limits = held_against(self._of(one.asked), one.need, self._lots, self._usual)
        limits = replace(limits, barred={**limits.barred, **self._kept_out})
        contrast = one.asked.contrast or self._wish.contrast
        roles = {role.role for role in one.need.roles}
        tied = {role: to for role, to in self._wish.fixed.items() if role in roles}
        wish = replace(self._wish, limits=limits, contrast=contrast, fixed=tied)
        wish = next((known for known in self._known if known == wish), wish)
        self._known.append(wish)
        asked = one.asked
        return Wanted(
            one.known.design.name,
            one.need,
            wish,
            asked.size,
            asked.at_least,
            asked.at_most,
            asked.coins,
            self._minutes(asked, one.known.design.name),
            asked.order,
            asked.different,
            sum(expenses(asked.coins, self._settings)),
        )

    def _minutes(self, asked: WantAsked, design: str) -> int:
        if asked.minutes is not None:
            return asked.minutes
        return round(60 * (self._hours.of(design, self._settings, asked.size) or 0))

    def _of(self, want: WantAsked) -> Limits:
        limits = self._wish.limits
        return replace(
            limits,
            wanted=_together(limits.wanted, want.wanted),
            unwanted=_together(limits.unwanted, want.unwanted),
        )


def _together(
    one: Mapping[str, tuple[Named, ...]], other: Mapping[str, tuple[Named, ...]]
) -> dict[str, tuple[Named, ...]]:
    return {role: (*one.get(role, ()), *other.get(role, ())) for role in {**one, **other}}


def _kept_out(
    db: Connection, texts: Sequence[str], lots: Sequence[HeldLot]
) -> Iterable[tuple[int, Note]]:
    for text in texts:
        named = found_on(db, lots, text)
        for held in lots:
            for skein in held.skeins:
                if held.lot.id in named.lots and (not named.skeins or skein.number in named.skeins):
                    yield skein.number, Note("kept_out_of_the_batch")


def _saved(
    batch: Batch,
    to_make: Sequence[_ToMake],
    plans: Mapping[str, Mapping[str, object]],
    lots: Sequence[HeldLot],
) -> Saved:
    return Saved(
        batch.as_of,
        tuple(
            _saved_want(one, want, plans[want.design])
            for one, want in zip(to_make, batch.wants, strict=True)
        ),
        {number: made.want for made in batch.made for number in made.items},
        tuple(
            SavedCut(cut.item, skein.number, cut.role, cut.strand, cut.length)
            for skein in batch.skeins
            for cut in skein.cuts
        ),
        free_now(lots),
    )


def free_now(lots: Sequence[HeldLot]) -> dict[int, Mass]:
    """What is free of every skein, by number: the shelf a plan is made on."""
    return {skein.number: skein.free for held in lots for skein in held.skeins}


def _saved_want(one: _ToMake, want: Wanted, plan: Mapping[str, object]) -> SavedWant:
    name = one.known.design.name
    other = one.made != one.known.design
    return SavedWant(
        name,
        f"{name}, {one.asked.size}" if other else name,
        plan,
        serialise(at_size(one.made, one.need, f"{name}, {one.asked.size}")) if other else None,
        tuple(
            SavedRole(
                role.role,
                to_books(role.estimate.expected_m),
                to_books(role.set_aside_m),
                role.source.value,
            )
            for role in one.need.roles
        ),
        want.coins or None,
        want.minutes or None,
        want.order,
    )


def at_size(made: Design, need: Need, name: str) -> Design:
    """A plan made at another size; figures that told of its own are brought to that one."""
    if not (made.stated or made.weighed):
        return replace(made, name=name)
    stated = tuple((role.role, to_books(role.estimate.expected_m)) for role in need.roles)
    return replace(made, name=name, stated=stated, bought=(), weighed=())
