"""A planned batch."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from stash.measures.estimate import to_books
from stash.measures.money import Money, decimals
from stash.measures.written import show_money
from stash.planning.model.attained import Attained
from stash.planning.model.batch import Batch, CutSkein, Made, Unmet, Wanted
from stash.planning.model.problem import Aim
from stash.rendering import amounts
from stash.rendering.amounts import Page, colour, counted
from stash.rendering.columns import columns
from stash.rendering.keys import named
from stash.rendering.not_made import NOT_MADE, not_made_keys, not_made_lines
from stash.rendering.sentences.say import sentence
from stash.requirements.design import cautions

Keys = dict[str, Any]
UNFINISHED = "note: stopped before it was done; this is the best plan so far"
DAYLIGHT = "Colours here come from names or a screen; compare the yarn in daylight."


def keys(batch: Batch, currency: str) -> Keys:
    """The plan with stable keys; of several aims the first gives objective, bound and gap."""
    aims = [_aim(batch, one, currency) for one in batch.attained]
    return {
        "as_of": batch.as_of.isoformat(),
        "by": batch.terms.by and batch.terms.by.isoformat(),
        "made": [_made(batch, made) for made in batch.made],
        "unmet": [_unmet(batch, unmet) for unmet in batch.unmet],
        "not_made": not_made_keys(batch),
        "unmet_mixes": [
            {"mix": batch.terms.mixes[i].name, "count": count}
            for i, count in batch.unmet_mixes.items()
        ],
        "clash": _clash(batch),
        **aims[0],
        "aims": aims,
        "finished": batch.finished,
        "items": batch.items,
        "hours": batch.minutes / 60,
        "skeins": [_skein(batch, skein) for skein in batch.skeins],
        "notes": _cautions(batch),
    }


def _cautions(batch: Batch) -> list[str]:
    """What holds of all of it: colours not seen by day, and what can hurt somebody."""
    notes = [batch.wants[made.want].need.notes for made in batch.made]
    by_name = any(
        lot.lot.colours and not lot.lot.daylight
        for made in batch.made
        if len(made.lots) > 1
        for lot in made.lots
    )
    hurts = [sentence(one) for one in cautions.ALL if any(one in each for each in notes)]
    return [*([DAYLIGHT] if by_name else []), *hurts]


def _aim(batch: Batch, one: Attained, currency: str) -> Keys:
    objective, bound = (
        _reported(batch, one.aim, total, currency) for total in (one.total, one.bound)
    )
    return {
        "aim": one.aim and one.aim.value,
        "objective": objective,
        "bound": bound,
        "gap": (bound - objective) / max(abs(bound), 1),
    }


def _reported(batch: Batch, aim: Aim | None, total: int, currency: str) -> float:
    """In whole money, items, metres of part balls; of buying the metres to buy, below 0."""
    if aim is Aim.VALUE:
        return total / float(10 ** decimals(currency))
    if aim is Aim.LEFTOVERS:
        return total / 1_000_000
    if aim is Aim.BUYING:
        return (total - _wanted_um(batch)) / 1_000_000
    return total


def _wanted_um(batch: Batch) -> int:
    """All yarn of all that is wanted at most."""
    return sum((want.at_most or 0) * _need_um(want) for want in batch.wants)


def _need_um(want: Wanted) -> int:
    """All yarn to set aside for one."""
    return sum(to_books(role.set_aside_m).um for role in want.need.roles)


def _named(want: Wanted) -> Keys:
    return {"design": want.design, "size": want.size or None}


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


def text(batch: Batch, page: Page) -> str:
    """What to make of what, what falls short, where every ball is cut, and how good the plan is."""
    currency = page.currency
    lines = [page.strong(_head(batch, currency))]
    if batch.made:
        lines.append(columns([*_made_rows(batch, page)], "  "))
        lines += _note_lines(batch)
    lines += ["", *_short_lines(batch)] if batch.unmet or batch.unmet_mixes else []
    lines += ["", NOT_MADE, *not_made_lines(batch)] if batch.not_made else []
    if batch.skeins:
        lines += ["", page.strong("To cut, skein by skein:"), *_cut_lines(batch, page)]
    return "\n".join([*lines, "", *_proved(batch, currency), *_cautions(batch)])


def saved_text(path: Path) -> str:
    """Where the plan is kept, and how it is booked."""
    return f"kept in {path}: book it with `stash batch --aside {path}`"


def _head(batch: Batch, currency: str) -> str:
    if not batch.made:
        return "Nothing of this can be made from the shelf"
    worth = sum(len(made.items) * batch.wants[made.want].coins for made in batch.made)
    limit = batch.terms.minutes
    parts = [
        f"{counted(batch.items, 'item')} to make",
        *([f"by {batch.terms.by.isoformat()}"] if batch.terms.by else []),
        *([f"worth {show_money(Money(worth), currency)}"] if worth else []),
        *([f"in {_h(batch.minutes)}" + (f" of {_h(limit)}" if limit is not None else "")]
          if batch.minutes else []),
    ]  # fmt: skip
    return ", ".join(parts)


def _h(minutes: int) -> str:
    return f"{minutes / 60:.1f}".removesuffix(".0") + " h"


def _made_rows(batch: Batch, page: Page) -> Iterator[list[str]]:
    roles = max(len(made.lots) for made in batch.made)
    for made in batch.made:
        want = batch.wants[made.want]
        named = [
            f"{role.role} {lot.lot.ref} {page.patch(lot.lot)}{colour(lot.lot)}"
            for role, lot in zip(want.need.roles, made.lots, strict=True)
        ]
        items = _numbers(made.items)
        blank = [""] * (roles - len(named))
        yield [f"{len(made.items)} x", want.name, *named, *blank, f"item {items}"]


def _note_lines(batch: Batch) -> list[str]:
    """What may go wrong with lots side by side, each once with all the items it is said of."""
    found: dict[str, list[str]] = {}
    for made in batch.made:
        for note in made.notes:
            found.setdefault(sentence(note), []).append(_numbers(made.items))
    return [f"  item {', '.join(of)}: {words}" for words, of in found.items()]


def _numbers(items: Sequence[int]) -> str:
    """Items of one kind stand one after the other."""
    return f"{items[0]}" if len(items) == 1 else f"{items[0]}-{items[-1]}"


def _short_lines(batch: Batch) -> list[str]:
    """What is missing, which wants clash over what, and the smallest give."""
    lines = ["Not all that must be made can be:"]
    for unmet in batch.unmet:
        lacks = [f"{amounts.set_aside(um.m)} of {role}" for role, um in unmet.short.items()]
        lacks += [_h(unmet.minutes)] if unmet.minutes else []
        why = f"; the next one lacks {' and '.join(lacks)}" if lacks else ""
        lines.append(f"  {batch.wants[unmet.want].name}: {unmet.count} too few{why}")
    for i, count in batch.unmet_mixes.items():
        lines.append(f"  mix of {batch.terms.mixes[i].name}: {count} too few")
    return [*lines, *_clash_lines(batch)]


def _clash_lines(batch: Batch) -> list[str]:
    clash = batch.clash
    if clash is None:
        return []
    names = [batch.wants[want].name for want in clash.wants]
    names += [f"the mix of {batch.terms.mixes[mix].name}" for mix in clash.mixes]
    over = [lot.lot.ref for lot in clash.lots]
    short = [*([f"{', '.join(over[:6])}{' …' if over[6:] else ''}"] if over else []),
             *(["the hours"] if clash.hours else [])]  # fmt: skip
    lines = []
    if names:
        verb = "clash" if len(names) > 1 else "asks too much"
        lines.append(f"  {' and '.join(names)} {verb}{f' over {_and(short)}' if short else ''}")
    ways = [
        f"ask for {unmet.count} fewer of {batch.wants[unmet.want].name}" for unmet in batch.unmet
    ]
    freed = " and ".join(ways)
    if clash.more_minutes:
        freed = f"{freed}, or give {_h(clash.more_minutes)} more".removeprefix(", or ")
    return [*lines, *([f"  smallest give: {freed}"] if freed else [])]


def _and(parts: Sequence[str]) -> str:
    return " and ".join(parts)


def _cut_lines(batch: Batch, page: Page) -> list[str]:
    table = []
    for skein in sorted(batch.skeins, key=lambda s: (s.place, s.number)):
        cuts = " + ".join(
            f"{amounts.take(cut.length)} {cut.role} of {cut.item}" for cut in skein.cuts
        )
        stays = f"{amounts.yarn(skein.left)} stay" if skein.left else "used up"
        if skein.left and skein.left < batch.useful_end:
            stays = f"{amounts.yarn(skein.left)} left, too short to use"
        table.append(
            [
                skein.place or "place not known",
                f"skein {skein.number}",
                f"{page.patch(skein.lot.lot)}{colour(skein.lot.lot)}",
                cuts,
                stays,
            ]
        )
    return [columns(table, "  ")]


def _proved(batch: Batch, currency: str) -> list[str]:
    joins = sum(len(s.cuts) for s in batch.skeins) - len(
        {(c.item, c.role, c.strand) for s in batch.skeins for c in s.cuts}
    )
    lines = [f"{counted(joins, 'join')} in all, tails counted"] if joins else []
    for one in batch.attained:
        reached = _attained(batch, one, currency)
        gap = _aim(batch, one, currency)["gap"]
        if gap <= 0:
            lines.append(f"{reached}: proved, no plan does better")
        else:
            lines.append(f"{reached}: proved, at most {_percent(gap)} better is possible")
    return lines


def _percent(gap: float) -> str:
    return f"{math.ceil(1000 * gap - 1e-9) / 10:.1f} %"  # never better than was proved


def _attained(batch: Batch, one: Attained, currency: str) -> str:
    if one.aim is Aim.VALUE:
        return f"most value, {show_money(Money(one.total), currency)}"
    if one.aim is Aim.LEFTOVERS:
        return f"part balls used up, {amounts.estimate(one.total / 1_000_000)}"
    if one.aim is Aim.BUYING:
        left = max(0, _wanted_um(batch) - one.total)
        return f"least to buy for the rest, {amounts.estimate(left / 1_000_000)}"
    return f"most items, {one.total}"
