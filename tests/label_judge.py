"""What a careful person would have understood from a label line, held against what was read.

The table is `fixtures/checks/label_lines.csv`: invented lines, written by people who had not seen
the reader, each with its key: `a|b` are alternatives, `?` or nothing allows "not known", `<x` and
`x..y` are ranges; `must` says whether the line is to be read, to be asked about, or either.
"""

from __future__ import annotations

import re
from dataclasses import replace

from stash.actions.arriving import mass_of_each, pair_of
from stash.errors import BadInput, Refusal
from stash.parsing import coins
from stash.parsing.label import NO_NAME, Label, read
from stash.stock.yarn import LotState
from stash.trade.fibres import fibre_named, without_adjectives

Row = dict[str, str]


def verdict(row: Row) -> tuple[str, list[str]]:
    """`right`, `asked` (needlessly), `partial` (a fact not taken) or `wrong`, and the faults."""
    try:
        label = read(row["line"])
        faults = _faults(row, label)
    except (BadInput, Refusal) as asked:
        return ("asked" if row["must"] == "read" else "right"), [str(asked)]
    if any(not fault.startswith("not taken") for fault in faults):
        return "wrong", faults
    if faults:
        return "partial", faults
    return ("partial", ["should have asked"]) if row["must"] == "ask" else ("right", [])


def _faults(row: Row, label: Label) -> list[str]:
    line = label.incoming
    pair = pair_of(line)
    one = replace(line, count=1, part_balls=())
    balls = [one] * line.count + [replace(one, left=left) for left in line.part_balls]
    held = sum(mass_of_each(ball, pair).mg for ball in balls) / 1000
    full = pair.put_up.mass if pair.put_up else line.full_mass
    full_g = full.mg / 1000 if full else None
    full_m = pair.put_up.length.m if pair.put_up else None
    low, high = line.thickness_from, line.thickness_to
    classes = "" if low is None else str(low) if low == high else f"{low}-{high}"
    faults = [
        words_alike("name", row["yarn_name"], line.name, maker=f"{line.maker} ", no=NO_NAME),
        words_alike("maker", row["maker"], line.maker),
        words_alike("colour", row["colour"], line.colour),
        words_alike("colour_no", row["colour_no"], line.colour_no),
        words_alike("lot", row["lot"], line.lot),
        words_alike("class", row["class"], classes),
        words_alike("place", row["place"], line.place),
        _fibre(row["fibre"], line.fibre),
        _lot_state(row, line.lot_state),
        _paid(row["paid"], label),
    ]
    remnant = row["full_g"] == "" and bool(row["left_g"] or row["left_m"]) and full_g == held
    if not remnant:
        faults += [
            _number("full_g", row["full_g"], full_g),
            _number("full_m", row["full_m"], full_m),
        ]
    if str(len(balls)) not in row["count"].split("|"):
        faults.append(f"count {len(balls)} for {row['count']}")
    per_g = full_m / full_g if full_m and full_g else 0.0
    faults.append(_left(row, held, full_g, held * per_g))
    return [fault for fault in faults if fault]


def _words(text: str) -> str:
    small = text.casefold().replace("gray", "grey").replace("’", "'")
    said = re.findall(r"[^\W_]+", re.sub(r"[\"']", "", small))
    return " ".join(word for word in said if word not in ("and", "in", "the", "on", "of", "a"))


def words_alike(what: str, wanted: str, got: str, maker: str = "", no: str = "") -> str:
    """The fault where words are none of those wanted; nothing where they are."""
    ways = wanted.split("|")
    got = "" if got == no else got
    if not got:
        return "" if {"", "?"} & {*ways} else f"not taken: {what}"
    joined = [_words(maker + got).replace(" ", ""), _words(got).replace(" ", "")]
    fits = any(_words(way).replace(" ", "") in joined for way in ways if way not in ("", "?"))
    return "" if fits else f"{what} {got!r} for {wanted!r}"


def _number(what: str, wanted: str, got: float | None) -> str:
    ways = wanted.split("|")
    if got is None:
        return "" if {"", "?"} & {*ways} else f"not taken: {what}"
    fits = any(_within(way, got) for way in ways if way not in ("", "?"))
    return "" if fits else f"{what} {got:g} for {wanted!r}"


def _within(way: str, got: float, slack: float = 0.03) -> bool:
    if way.startswith("<"):
        return got < float(way[1:])
    low, _, high = way.partition("..")
    least, most = float(low), float(high or low)
    return least * (1 - slack) <= got <= most * (1 + slack)


def _fibre(wanted: str, got: str) -> str:
    ways = wanted.split("|")
    if not got:
        return "" if {"", "?"} & {*ways} else "not taken: fibre"
    fits = any(_blend(way) in (_blend(got), _bare(got)) for way in ways if way not in ("", "?"))
    return "" if fits else f"fibre {got!r} for {wanted!r}"


def _blend(text: str) -> dict[str, str]:
    parts = [p.strip() for p in re.split(r"[,/]", text.casefold()) if p.strip()]
    found = {}
    for part in parts:
        share = re.match(r"(\d+)\s*%?\s*", part)
        name = part[share.end() :] if share else part
        fibre = fibre_named(name) or fibre_named(without_adjectives(name))
        same = "polyamide" if fibre and fibre.name == "nylon" else fibre.name if fibre else name
        found[same] = share[1] if share else ""
    return found


def _bare(text: str) -> dict[str, str]:
    return dict.fromkeys(_blend(text), "")


def _lot_state(row: Row, got: LotState) -> str:
    wanted = row["lot_state"].split("|")
    if got.value in wanted or "hand-dyed" in wanted:
        return ""
    return "not taken: lot" if got is LotState.UNKNOWN else f"lot is {got} for {row['lot_state']}"


def _paid(wanted: str, label: Label) -> str:
    paid = label.incoming.paid
    ways = wanted.split("|")
    if paid is None:
        return "" if {"", "?"} & {*ways} else "not taken: paid"
    currency = coins.currency_in(label.incoming.typed)
    for way in ways:
        code, _, amount = way.partition(" ")
        known = not currency or code in ("?", currency)
        if amount and abs(float(amount) * 100 - paid.coins) <= 3 and known:
            return ""
    return f"paid {paid.coins} for {wanted!r}"


def _left(row: Row, held: float, full_g: float | None, held_m: float) -> str:
    if row["left_g"]:
        return _number("left_g", row["left_g"], held)
    if row["left_m"]:
        return _number("left_m", row["left_m"], held_m)
    if row["left_share"]:
        return (
            _number("left_share", row["left_share"], held / full_g) if full_g else "not taken: left"
        )
    return ""
