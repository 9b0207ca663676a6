"""A planned batch."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import Any

from stash.measures.money import Money
from stash.measures.written import show_minutes, show_money
from stash.planning.model.batch import Batch, CutSkein, Made, Unmet, Wanted, Why
from stash.rendering import figures, order
from stash.rendering.amounts import Page, colour, colour_name, counted, numbers
from stash.rendering.batch_aims import aim_keys, proof
from stash.rendering.batch_cuts import USED_UP, skeins_shown
from stash.rendering.batch_profit import profit_keys, profit_lines
from stash.rendering.columns import columns
from stash.rendering.first_screen import Part, first_screen, whole
from stash.rendering.her_words import hers
from stash.rendering.keys import named
from stash.rendering.not_made import NOT_MADE, not_made_keys, not_made_lines, other_reason
from stash.rendering.sentences.matching import COMPARE_IN_DAYLIGHT
from stash.rendering.sentences.say import sentence
from stash.rendering.too_alike import too_alike_keys, too_alike_lines
from stash.requirements.design import cautions
from stash.stock.yarn import Lot

Keys = dict[str, Any]
UNFINISHED = "note: stopped early; this is the best plan so far"


def keys(batch: Batch, currency: str) -> Keys:
    """The plan with stable keys; of several aims the first gives objective, bound and gap."""
    aims = [aim_keys(batch, one, currency) for one in batch.attained]
    return {
        "as_of": batch.as_of.isoformat(),
        "by": batch.terms.by and batch.terms.by.isoformat(),
        "made": [_made(batch, made) for made in batch.made],
        "unmet": [*order.unmet(batch), *(_unmet(batch, unmet) for unmet in batch.unmet)],
        "not_made": not_made_keys(batch),
        "unmet_mixes": [
            {"mix": batch.terms.mixes[i].name, "count": count}
            for i, count in batch.unmet_mixes.items()
        ],
        "unmet_different": too_alike_keys(batch),
        "clash": _clash(batch),
        "aim": aims[0]["aim"],
        "objective": aims[0]["value"],
        "bound": aims[0]["bound"],
        "gap": aims[0]["gap"],
        "aims": aims,
        "profit": profit_keys(batch, currency),
        "finished": batch.finished,
        "items": batch.items,
        "hours": batch.minutes / 60,
        "without_hours": [_named(want) for want in batch.without_hours],
        "skeins": [_skein(batch, skein) for skein in batch.skeins],
        "notes": cautions_of(batch),
    }


def cautions_of(batch: Batch) -> list[str]:
    """What holds of all of it: colours not seen by day, and what can hurt somebody."""
    notes = [batch.wants[made.want].need.notes for made in batch.made]
    by_name = any(
        lot.lot.colours and not lot.lot.daylight
        for made in batch.made
        if len(made.lots) > 1
        for lot in made.lots
    )
    hurts = [sentence(one) for one in cautions.ALL if any(one in each for each in notes)]
    return [*([hers(COMPARE_IN_DAYLIGHT)] if by_name else []), *hurts]


def _named(want: Wanted) -> Keys:
    return {"design": want.design, "size": want.size or None, "order": want.order}


def _made(batch: Batch, made: Made) -> Keys:
    want = batch.wants[made.want]
    roles = zip(want.need.roles, made.lots, strict=True)
    return {
        **_named(want),
        "count": len(made.items),
        "roles": {role.role: named(lot) for role, lot in roles},
        "items": list(made.items),
        "lightness_gap": made.lightness_gap,
        "colour_difference": made.colour_difference,
        "notes": [sentence(note) for note in made.notes],
    }


def _unmet(batch: Batch, unmet: Unmet) -> Keys:
    return {
        **_named(batch.wants[unmet.want]),
        "count": unmet.count,
        "reasons": [why.value for why in unmet.reasons],
        "short": {
            "yarn_m": {role: length.m for role, length in unmet.short.items()},
            "hours": unmet.minutes / 60,
        },
    }


def _clash(batch: Batch) -> Keys | None:
    clash = batch.clash
    if clash is None:
        return None
    more = clash.more_minutes
    return {
        "wants": [_named(batch.wants[want]) for want in clash.wants],
        "mixes": [batch.terms.mixes[mix].name for mix in clash.mixes],
        "lots": [lot.lot.ref for lot in clash.lots],
        "hours": clash.hours,
        "give_up": sum(unmet.count for unmet in batch.unmet),
        "more_hours": None if more is None else more / 60,
    }


def _skein(batch: Batch, skein: CutSkein) -> Keys:
    return {
        "number": skein.number,
        "lot_ref": skein.lot.lot.ref,
        "place": skein.place or None,
        "cuts": [
            {
                "item": cut.item,
                **_named(batch.wants[cut.want]),
                "role": cut.role,
                "strand": cut.strand,
                "take_m": cut.length.m,
            }
            for cut in skein.cuts
        ],
        "left_m": skein.left.m,
    }


def rows(batch: Batch) -> list[Keys]:
    """One row for each cut, by skein."""
    return [
        {
            "number": skein.number,
            "lot_ref": skein.lot.lot.ref,
            "place": skein.place or None,
            "item": cut.item,
            **_named(batch.wants[cut.want]),
            "role": cut.role,
            "strand": cut.strand,
            "take_m": cut.length.m,
            "left_m": skein.left.m,
        }
        for skein in batch.skeins
        for cut in skein.cuts
    ]


def text(batch: Batch, page: Page, across: int | None = None) -> str:
    """What to make of what, what falls short, where every skein is cut, and how good the plan is.

    Whole, or what fits the first screen of a terminal so many places wide.
    """
    parts = [*_parts(batch, page)]
    return whole(parts) if across is None else first_screen(parts, across)


def _parts(batch: Batch, page: Page) -> Iterator[Part]:
    yield Part([page.strong(_head(batch, page.currency)), *_no_hours(batch)])
    yield Part(_lines_of([*_made_rows(batch, page)]), "set")
    yield Part(note_lines(batch), "note")
    if batch.unmet or batch.unmet_mixes or batch.too_alike:
        yield Part(short_lines(batch), "shortfall", ["", "Not everything you asked for fits:"])
        yield Part(clash_lines(batch))
    yield Part([*not_made_lines(batch)], "reason", ["", NOT_MADE])
    title = page.strong("To cut, skein by skein:")
    yield Part(_lines_of([*_cut_rows(batch, page)]), "skein", ["", title])
    yield Part([*_closing(batch, page.currency)], head=[""])


def _lines_of(rows: Sequence[Sequence[str]]) -> list[str]:
    return columns(rows, "  ").splitlines()


def saved_text(path: Path) -> str:
    """Where the plan is kept, and how its yarn is set aside."""
    return f"Saved in {path}; `stash batch --aside {path}` sets its yarn aside"


def _head(batch: Batch, currency: str) -> str:
    if not batch.made:
        return nothing_made(batch)
    worth = sum(len(made.items) * batch.wants[made.want].coins for made in batch.made)
    parts = [
        f"{counted(batch.items, 'item')} to make",
        *([f"by {batch.terms.by.isoformat()}"] if batch.terms.by else []),
        *([f"worth {show_money(Money(worth), currency)}"] if worth else []),
        *([_time(batch)] if batch.minutes else []),
    ]
    return ", ".join(parts)


def _time(batch: Batch) -> str:
    limit = batch.terms.minutes
    used = show_minutes(batch.minutes)
    return f"in {used}" if limit is None else f"in {used} of {show_minutes(limit)}"


def _no_hours(batch: Batch) -> Iterator[str]:
    """What takes her time though nothing says how much: the hours above are without it."""
    found = batch.without_hours
    if found:
        names = dict.fromkeys(map(_with_order, found))
        setting = f"hours-{'-'.join(found[0].design.lower().split())}"
        yield f"  not counted, no hours known: {', '.join(names)}; `stash settings {setting} 2h10`"


def _with_order(want: Wanted) -> str:
    return want.name if want.order is None else f"{want.name} (order {want.order})"


def nothing_made(batch: Batch) -> str:
    """Why nothing is made, and what to do: more hours where one item takes longer, else yarn."""
    limit = batch.terms.minutes
    shortest = min(want.minutes for want in batch.wants)
    if limit is not None and shortest > limit:
        given = f"{limit // 60} hours" if limit > 60 and not limit % 60 else show_minutes(limit)
        return f"None fit in the {given}: the quickest takes {show_minutes(shortest)}"
    if not batch.finished:
        return "No plan yet: give it more time with `--seconds`"
    return "The shelf has too little yarn for any of these; `stash short` says what to buy"


def _made_rows(batch: Batch, page: Page) -> Iterator[list[str]]:
    roles = max((len(made.lots) for made in batch.made), default=0)
    for made in batch.made:
        want = batch.wants[made.want]
        named = [
            f"{role.role} {lot.lot.ref} {page.patch(lot.lot)}{colour(lot.lot)}"
            for role, lot in zip(want.need.roles, made.lots, strict=True)
        ]
        blank = [""] * (roles - len(named))
        yield [f"{len(made.items)} x", want.name, *named, *blank, f"no. {numbers(made.items)}"]


def note_lines(batch: Batch) -> list[str]:
    """What may go wrong with lots side by side, each once with all the items it is said of."""
    found: dict[str, list[int]] = {}
    for made in batch.made:
        for note in made.notes:
            found.setdefault(sentence(note), []).extend(made.items)
    return [f"  no. {numbers(of)}: {words}" for words, of in found.items()]


def short_lines(batch: Batch) -> list[str]:
    """How many of each want are missing, and what the next one would need."""
    lines = []
    for unmet in batch.unmet:
        lacks = [f"{figures.up(um)} more of {role}" for role, um in unmet.short.items()]
        lacks += [f"{show_minutes(unmet.minutes)} more"] if unmet.minutes else []
        why = f"; the next one needs {_and(lacks)}" if lacks else other_reason(unmet)
        lines.append(f"  {batch.wants[unmet.want].name}: {unmet.count} missing{why}")
    for i, count in batch.unmet_mixes.items():
        lines.append(f"  mix of {batch.terms.mixes[i].name}: {count} missing")
    return [*lines, *too_alike_lines(batch)]


def clash_lines(batch: Batch, called: Callable[[Lot], str] = lambda lot: lot.ref) -> list[str]:
    """Which wants cannot all be met, and the smallest change that would do."""
    clash = batch.clash
    if clash is None:
        return []
    names = [*dict.fromkeys(_with_order(batch.wants[want]) for want in clash.wants)]
    names += [f"the mix of {batch.terms.mixes[mix].name}" for mix in clash.mixes]
    lots = [*dict.fromkeys(called(lot.lot) for lot in clash.lots)]
    limits = all(unmet.reasons == (Why.LIMIT,) for unmet in batch.unmet)
    why = "" if batch.unmet and limits else _too_much(lots, len(names) > 1, hours=clash.hours)
    lines = [f"  {_and(names)} {why}"] if names and why else []
    fewer = [f"{unmet.count} fewer of {batch.wants[unmet.want].name}" for unmet in batch.unmet]
    ways = [_and(fewer)] if fewer else []
    ways += [f"{show_minutes(clash.more_minutes)} more"] if clash.more_minutes else []
    return [*lines, *([f"  It all fits with {', or with '.join(ways)}."] if ways else [])]


def _too_much(called: Sequence[str], several: bool, *, hours: bool) -> str:
    """What there is too little of; nothing of one want that is missing for another reason."""
    lots = f"{', '.join(called[:6])}{' …' if called[6:] else ''}"
    over = _and([*([lots] if called else []), *(["the hours"] if hours else [])])
    if several:
        return f"cannot share {over}" if over else "do not go together"
    return f"needs more than {over} can cover" if over else ""


def _and(parts: Sequence[str]) -> str:
    return " and ".join(parts)


def _cut_rows(batch: Batch, page: Page) -> Iterator[list[str]]:
    """Each skein with what is free of it, its cuts, and what is left."""
    for one in skeins_shown(batch):
        yield [
            one.skein.place,
            f"skein {one.skein.number}",
            f"{page.patch(one.skein.lot.lot)}{colour_name(one.skein.lot.lot)}",
            f"{one.free}:",
            " + ".join(one.cuts),
            f"{one.left} left{', too short to use' if one.too_short else ''}"
            if one.left
            else USED_UP,
        ]


def _closing(batch: Batch, currency: str) -> Iterator[str]:
    """The joins, how good the plan is, and what holds of all of it."""
    joins = sum(len(s.cuts) for s in batch.skeins) - len(
        {(c.item, c.role, c.strand) for s in batch.skeins for c in s.cuts}
    )
    if joins:
        yield f"{counted(joins, 'join')}; the cuts include yarn for the ends."
    if batch.made or not batch.finished:
        yield from profit_lines(batch, currency)
        yield from (proof(batch, one, currency) for one in batch.attained)
    yield from cautions_of(batch)
