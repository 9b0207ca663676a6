"""A sale tag as keys and as a sheet to print: content, care, batch, and what to mind."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from stash.costing.label import MOST_OTHER, OTHER, UNKNOWN, Content, Line, Place
from stash.measures.mass import Mass
from stash.stock.yarn import Lot
from stash.trade.care import Care, Wash, most_delicate
from stash.trade.fibres import FIBRES
from stash.wording import care_words
from stash.wording.columns import columns
from stash.wording.show import grams, numbers

_RULES = {
    Place.EU: "Regulation (EU) No 1007/2011",
    Place.US: "16 CFR parts 300, 303 and 423",
}
_HAIR = frozenset(fibre.name for fibre in FIBRES if fibre.animal)
#: What is always said: the rules change, and only their own text counts.
CHECK_RULES = "check your local rules before you sell; this is a help to remember them, no more"


@dataclass(frozen=True, slots=True)
class Facts:
    """All that a tag is made from; `sources` are lot, skeins and grams, `batch` the article."""

    batch: int
    name: str
    made_on: date | None
    content: Content
    sources: Sequence[tuple[Lot, Sequence[int], Mass]]
    for_child: bool
    hat: bool
    small: Sequence[str]


def keys(facts: Facts) -> dict[str, Any]:
    """A tag with stable keys."""
    care, unread = _care(facts)
    return {
        "batch": facts.batch,
        "piece": facts.name or None,
        "made_on": facts.made_on.isoformat() if facts.made_on else None,
        "place": facts.content.place.value,
        "fibres": list(rows(facts)),
        "content": content_words(facts.content),
        "pure": facts.content.pure,
        "care": {kind.replace(" ", "_"): text for kind, text in care_words.told(care).items()},
        "care_not_read": unread,
        "sources": [
            {
                "lot_ref": lot.ref,
                "yarn": str(lot.yarn),
                "colour": lot.colour or None,
                "lot": lot.lot or None,
                "skeins": list(skeins),
                "used_g": mass.g,
            }
            for lot, skeins, mass in facts.sources
        ],
        "notes": list(notes(facts)),
        "cautions": list(cautions(facts)),
    }


def rows(facts: Facts) -> Iterator[dict[str, Any]]:
    """The fibres line by line, for a sheet."""
    for line in facts.content.lines:
        yield {
            "name": line.name,
            "percent": line.tenths / 10,
            "exact_percent": float(100 * line.share),
            "grouped": list(line.grouped),
        }


def content_words(content: Content) -> str:
    """The fibre content as it stands on the label: `90% wool, 10% polyamide`."""
    return ", ".join(f"{line.tenths / 10:g}% {line.name}" for line in content.lines)


def _care(facts: Facts) -> tuple[Care, list[str]]:
    """The care of the most delicate part, and the words of bands that were not understood."""
    read = [care_words.care(lot.care) for lot, _, _ in facts.sources]
    refs = [lot.ref for lot, _, _ in facts.sources]
    unread = [f"{ref}: {rest}" for ref, (_, rest) in zip(refs, read, strict=True) if rest]
    return most_delicate([care for care, _ in read]), unread


def sheet(facts: Facts) -> str:
    """A plain sheet to print: the tag, and under a line to cut along what is for her records."""
    care, unread = _care(facts)
    made = f", made {facts.made_on}" if facts.made_on else ", not finished yet"
    cared = [[kind, words or "not known"] for kind, words in care_words.told(care).items()]
    tag = [
        facts.name,
        f"batch {facts.batch}{made}",
        "",
        content_words(facts.content),
        columns(cared),
        "",
        "made by ____________________  in ____________________",
    ]
    traced = [
        [lot.ref, f"{lot.yarn}, {lot.colour_words}, {lot.lot_words}", f"skein {numbers(skeins)}",
         grams(mass)]
        for lot, skeins, mass in facts.sources
    ]  # fmt: skip
    asked = [f"care not understood, {text}" for text in unread]
    minded = [
        textwrap.fill(text, 78, initial_indent="- ", subsequent_indent="  ")
        for text in (*notes(facts), *asked, *cautions(facts))
    ]
    kept = [f"batch {facts.batch} is of:", columns(traced, "  "), *minded]
    return "\n".join([*tag, "- " * 30, *kept])


def notes(facts: Facts) -> Iterator[str]:
    """How the figures came about, and what they lack."""
    content = facts.content
    yield (
        f"shares by grams used, made to 100% by largest remainder; {_RULES[content.place]}; "
        "buttons, fillings, sewing thread and trimmings are not counted"
    )
    if content.unknown:
        refs = ", ".join(lot.ref for lot, _, _ in facts.sources if not lot.fibre)
        where = f" of {refs}" if refs else ""
        yield f"fibres{where} not known: give them with `stash change --fibre` before you label it"
    yield from _grouping_notes(content)
    if content.left_off:
        yield f"too little of it to print a share: {', '.join(content.left_off)}"
    care, _ = _care(facts)
    if None in care_words.told(care).values():
        silent = ", ".join(lot.ref for lot, _, _ in facts.sources if not lot.care)
        said = f"; nothing is kept of {silent}" if silent else ""
        yield f"care that is not known: put it right with `stash change LOT --care`{said}"
    if content.place is Place.US and care.wash in (None, Wash.NO) and care.clean is None:
        yield "a care label must say how to wash or how to dry clean, or that neither can be done"
    if content.place is Place.US and facts.hat:
        yield "headwear is outside the textile rules, wool in it inside the wool rules"


def _grouping_notes(content: Content) -> Iterator[str]:
    other = content.other
    if other is None:
        return
    if content.place is Place.US and _meant(other):
        yield (
            f"under 5%, so {OTHER[Place.US]}: {', '.join(_meant(other))}; "
            "say --functional for one that does something, such as stretch"
        )
    if content.place is Place.EU:
        most = "more than may stand without names" if other.share > MOST_OTHER else "as a band says"
        yield f"{OTHER[Place.EU]}: {most}; names are needed unless hard to state when it was made"


def _meant(other: Line) -> list[str]:
    return [name for name in other.grouped if name not in OTHER.values()]


def cautions(facts: Facts) -> Iterator[str]:
    """What can hurt somebody, and where the rules are."""
    content = facts.content
    if facts.for_child:
        yield (
            "for a child: no cords or loose ends at hood and neck up to 7 years (EN 14682); under "
            "3 years nothing that can come off and be swallowed, such as buttons and eyes"
        )
        if content.place is Place.US:
            yield (
                "for a child: a lasting mark with maker, place, date and batch "
                "(15 U.S.C. 2063(a)(5)), and testing or its relief for small makers"
            )
    if facts.small:
        yield f"{' and '.join(facts.small)}: sew it on so that it holds; not for the smallest"
    fibres = {s.name for s in content.lines}
    if fibres & _HAIR and not fibres <= {UNKNOWN[content.place]}:
        yield "wool and hair can trouble the skin: say so to whoever asks"
    yield CHECK_RULES
