"""A sale tag as keys and as a sheet to print: what it is and is of, care, maker, warnings.

The care label of the US (16 CFR part 423) is asked of clothing, and leaves out shoes, gloves and
hats (so the trade association's guide to it); a lasting mark of items for children up to 12
(15 U.S.C. 2063(a)(5)). In the EU the general safety regulation, (EU) 2023/988, item 9, applies
since 13 December 2024: name, postal and electronic address of the maker and what identifies the
item, easily seen; warnings where they are needed. The British regulations of 2005 ask for name
and address (from memory).
"""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from stash.costing.label import MOST_OTHER, Content, FibreLine, Group, Named, Rules
from stash.measures.mass import Mass
from stash.measures.note import Note
from stash.rendering.amounts import colour_name, dye_lot, grams, numbers
from stash.rendering.care import care_words
from stash.rendering.columns import columns
from stash.rendering.her_words import hers
from stash.rendering.keys import lot_name
from stash.rendering.sentences.say import sentence
from stash.requirements.design.cautions import CHILD
from stash.requirements.design.shapes import HATS, Shape
from stash.requirements.design.whom import Whom
from stash.stock.yarn import Lot
from stash.trade.care import Care, Wash, most_delicate
from stash.trade.fibres import FIBRES
from stash.trade.regain import shares_of

#: Whose names and order the fibres follow.
_NAMES = {Rules.EU: "EU fibre names", Rules.UK: "UK fibre names", Rules.US: "US fiber names"}
#: What lines are called that name no fibre.
OTHER = {Rules.EU: "other fibres", Rules.UK: "other fibres", Rules.US: "other fiber"}
UNKNOWN = {
    Rules.EU: "fibres not known",
    Rules.UK: "fibres not known",
    Rules.US: "unknown fibers",
}
#: What the US asks a care label of: clothing, but for what covers head or hands alone.
_CARE_LABELLED = (Shape.SCARF, Shape.COWL, Shape.SOCK, Shape.TRIANGLE)
_HEADWEAR = (*HATS, Shape.HEADBAND)
#: Said wherever fibres are worked out from grams that nobody weighed.
ESTIMATED = "estimated; weigh before you label"
_HAIR = frozenset(fibre.name for fibre in FIBRES if fibre.animal)
#: Always said, and last: the rules change, and only their own text counts.
CHECK_RULES = "This is a reminder, not legal advice: before you sell, check your local rules."


@dataclass(frozen=True, slots=True)
class Maker:
    """Who made it, as she has set it; empty where she has not."""

    name: str = ""
    address: str = ""
    contact: str = ""

    @property
    def line(self) -> str:
        """As it stands on the tag, with a blank where nothing is set."""
        said = [part for part in (self.name, self.address, self.contact) if part]
        return f"made by {', '.join(said) or '____________________  in ____________________'}"


@dataclass(frozen=True, slots=True)
class Facts:
    """All that a tag is made from; `sources` are lot, skeins and grams, `batch` the item.

    `care` is what each lot's band says of it, by lot, with the words that were not understood.

    `warnings` stand on the tag, `minded` is for the maker.
    """

    batch: int
    name: str
    made_on: date | None
    content: Content
    sources: Sequence[tuple[Lot, Sequence[int], Mass]]
    care: Mapping[str, tuple[Care, str]]
    estimated: bool = False
    shape: Shape | None = None
    whom: Whom | None = None
    warnings: Sequence[Note] = ()
    minded: Sequence[Note] = ()
    maker: Maker = Maker()

    @property
    def product(self) -> str:
        """What it is, by the name of its plan and its shape."""
        if self.shape is None or self.shape.value in self.name.lower():
            return self.name
        return f"{self.name} ({self.shape})" if self.name else self.shape.value

    @property
    def child(self) -> bool:
        """Whether it is for somebody small."""
        return self.whom in (Whom.BABY, Whom.CHILD)


def keys(facts: Facts) -> dict[str, Any]:
    """A tag with stable keys."""
    care, unread = _care(facts)
    return {
        "batch": facts.batch,
        "design": facts.name or None,
        "product": facts.product or None,
        "made_on": facts.made_on.isoformat() if facts.made_on else None,
        "rules": facts.content.rules.value,
        "fibres": list(rows(facts)),
        "content": content_words(facts.content),
        "estimated": facts.estimated,
        "pure": facts.content.pure,
        "care": {kind.replace(" ", "_"): words for kind, words in _care_lines(facts, care).items()},
        "care_not_read": unread,
        "sources": [
            {
                **lot_name(lot),
                "skeins": list(skeins),
                "used_g": mass.g,
            }
            for lot, skeins, mass in facts.sources
        ],
        "maker": {
            "name": facts.maker.name or None,
            "address": facts.maker.address or None,
            "contact": facts.maker.contact or None,
        },
        "warnings": [sentence(one) for one in facts.warnings],
        "notes": list(notes(facts)),
        "cautions": list(cautions(facts)),
    }


def rows(facts: Facts) -> Iterator[dict[str, Any]]:
    """The fibres line by line, for a sheet."""
    rules = facts.content.rules
    for line in facts.content.lines:
        yield {
            "name": _name(line.name, rules),
            "percent": line.tenths / 10,
            "exact_percent": float(100 * line.share),
            "grouped": [_name(name, rules) for name in line.grouped],
        }


def content_words(content: Content) -> str:
    """The fibre content as it stands on the label: `90% wool, 10% polyamide`."""
    rules = content.rules
    return ", ".join(f"{line.tenths / 10:g}% {_name(line.name, rules)}" for line in content.lines)


def _name(named: Named, rules: Rules) -> str:
    if isinstance(named, Group):
        return (OTHER if named is Group.OTHER else UNKNOWN)[rules]
    return named


def _care(facts: Facts) -> tuple[Care, list[str]]:
    """The care of the most delicate part, and the words of bands that were not understood."""
    read = [facts.care[lot.ref] for lot, _, _ in facts.sources]
    refs = [lot.ref for lot, _, _ in facts.sources]
    unread = [f"{ref}: {rest}" for ref, (_, rest) in zip(refs, read, strict=True) if rest]
    return most_delicate([care for care, _ in read]), unread


def _care_lines(facts: Facts, care: Care) -> dict[str, str | None]:
    return care_words(care, fahrenheit=facts.content.rules is Rules.US)


def known_of_it(facts: Facts) -> dict[str, str]:
    """What the tag says of fibres and care, by its kind; what is not known it leaves out.

    A part of the fibres is none of them: shares of the rest would not be those of the whole.
    """
    care, _ = _care(facts)
    cared = {kind: words for kind, words in _care_lines(facts, care).items() if words}
    fibres = "" if facts.content.unknown else content_words(facts.content)
    return {**({"fibres": fibres} if fibres else {}), **cared}


def text(facts: Facts) -> str:
    """A plain sheet to print: the tag, and under a line to cut along what is for her records."""
    _, unread = _care(facts)
    made = f", made {facts.made_on}" if facts.made_on else ""
    known = known_of_it(facts)
    cared = [[kind, words] for kind, words in known.items() if kind != "fibres"]
    warned = [sentence(one) for one in facts.warnings]
    tag = [
        facts.product,
        f"item {facts.batch}{made}",
        *([""] if known else []),
        *([known["fibres"]] if "fibres" in known else []),
        *([columns(cared)] if cared else []),
        *(["", *(_fill(one) for one in warned)] if warned else []),
        "",
        _fill(facts.maker.line),
    ]
    traced = [
        [lot.ref, f"{lot.yarn}, {colour_name(lot)}, {dye_lot(lot)}", f"skein {numbers(skeins)}",
         grams(mass)]
        for lot, skeins, mass in facts.sources
    ]  # fmt: skip
    asked = [f"Care words not understood, {words}" for words in unread]
    said = [one for one in cautions(facts) if one not in warned]
    minded = [_fill(one, "- ", "  ") for one in (*notes(facts), *asked, *said)]
    kept = [f"Item {facts.batch} is made from:", columns(traced, "  "), *minded]
    return "\n".join([*tag, "- " * 30, *kept])


def _fill(said: str, first: str = "", rest: str = "") -> str:
    """Broken to the width of a sheet, but never within a command."""
    held = re.sub("`[^`]*`", lambda found: found[0].replace(" ", "\xa0"), said)
    filled = textwrap.fill(held, 78, initial_indent=first, subsequent_indent=rest)
    return filled.replace("\xa0", " ")


def written_text(facts: Facts, target: Path) -> str:
    """That the sheet is in a file."""
    return f"Saved the tag of item {facts.batch} in {target}"


def notes(facts: Facts) -> Iterator[str]:
    """How the figures came about, and what they lack."""
    content = facts.content
    by = "" if facts.estimated else "by grams used. They are "
    yield (
        f"Shares are {by}rounded to 100%, with {hers(_NAMES[content.rules])}; "
        "buttons, filling, sewing thread and trimmings are not counted."
    )
    yield from (gap.words for gap in gaps(facts))
    yield from _grouping_notes(content)
    if content.left_off:
        off = ", ".join(_name(name, content.rules) for name in content.left_off)
        yield f"Too little to show a share: {off}."
    yield from _place_notes(facts, _care(facts)[0])


@dataclass(frozen=True, slots=True)
class Gap:
    """What a tag leaves out or blank, for it is not known; said to the maker alone.

    `way`: how to add it at the command line, `fact` under what name it is kept, of which `lots`.
    """

    what: str
    way: str = ""
    fact: str = ""
    lots: tuple[Lot, ...] = ()

    @property
    def words(self) -> str:
        """What, and the way to add it, as a sentence."""
        return f"{self.what}: {self.way}." if self.way else f"{self.what}."


def gaps(facts: Facts) -> Iterator[Gap]:
    """All that the tag does not say for it is not known; none of it stands on the tag."""
    if facts.made_on is None:
        yield Gap("It is not finished yet")
    yield from _fibre_gaps(facts)
    yield from _care_gaps(facts)
    rules, maker = facts.content.rules, facts.maker
    hers = {"maker": maker.name, "address": maker.address, "contact": maker.contact}
    missing = [
        name for name, said in hers.items() if not said and (rules is Rules.EU or name != "contact")
    ]
    if missing and rules is not Rules.US:
        what = f"{_MAKER_ASKED[rules]}; not set yet: {', '.join(missing)}"
        yield Gap(what, "set them with `stash settings`", "maker")


def _fibre_gaps(facts: Facts) -> Iterator[Gap]:
    if facts.content.unknown:
        lots = tuple(lot for lot, _, _ in facts.sources if _told(lot) < 0.999)
        fibre = "fiber" if facts.content.rules is Rules.US else "fibre"
        yield Gap(
            f"{fibre.capitalize()}s{_named_lots(lots)} not known in full, so the tag names none",
            f'add them, as in `stash change {_example(facts, lots)} --{fibre} "100% wool"`',
            "fibre",
            lots,
        )
    elif facts.estimated:
        yield Gap(f"Shares are {ESTIMATED}")


def _care_gaps(facts: Facts) -> Iterator[Gap]:
    care, _ = _care(facts)
    lots = tuple(lot for lot, _, _ in facts.sources if not lot.care)
    if None in care_words(care).values():
        yield Gap(
            f"Some care{_named_lots(lots)} is not known",
            f'add it, as in `stash change {_example(facts, lots)} --care "hand wash 30"`',
            "care",
            lots,
        )
    elif care.max_c is None and care.wash is not Wash.NO:
        yield Gap("How hot it may be washed is not known", "", "care", lots)


def _example(facts: Facts, lots: Sequence[Lot]) -> str:
    of = [*lots, *(lot for lot, _, _ in facts.sources)]
    return of[0].ref if of else "LOT"


def _told(lot: Lot) -> float:
    """How much of a lot is of fibres with their shares known."""
    return sum(share.part for share in shares_of(lot.fibre))


def _named_lots(lots: Sequence[Lot]) -> str:
    return f" of {', '.join(f'{lot.ref} ({colour_name(lot)})' for lot in lots)}" if lots else ""


#: What a tag says of its maker, and where from.
_MAKER_ASKED = {
    Rules.EU: "The EU wants the maker's name, postal and electronic address and what the item is",
    Rules.UK: "The UK wants the maker's name and address",
}


def _place_notes(facts: Facts, care: Care) -> Iterator[str]:
    """What only the US asks, of what its rules cover."""
    if facts.content.rules is not Rules.US:
        return
    if facts.shape in _CARE_LABELLED and care.wash in (None, Wash.NO) and care.clean is None:
        yield "Clothing needs a label on how to wash or dry clean it, or that neither works."
    if facts.shape in _HEADWEAR:
        yield "Hats are outside the textile rules, but wool in them comes under the wool rules."
    if facts.child:
        yield (
            "Children's items need a permanent mark with maker, place, date and batch, and "
            "testing, with some relief for small makers."
        )


def _grouping_notes(content: Content) -> Iterator[str]:
    other = content.other
    if other is None:
        return
    if content.rules is Rules.US and _meant(other):
        yield (
            f"Under 5%, so shown as {OTHER[Rules.US]}: {', '.join(_meant(other))}; "
            "add --functional for one that does a job, such as stretch."
        )
    if content.rules is not Rules.US:
        why = "too much to go unnamed" if other.share > MOST_OTHER else "as the band says"
        named = OTHER[content.rules].capitalize()
        yield f"{named}: {why}; name them unless they could not be known when it was made."


def _meant(other: FibreLine) -> list[str]:
    return [name for name in other.grouped if isinstance(name, str)]


def cautions(facts: Facts) -> Iterator[str]:
    """What can hurt somebody, and where the rules are."""
    content = facts.content
    if facts.child and CHILD not in facts.minded:  # buttons and eyes are no part of a plan
        yield sentence(CHILD)
    yield from map(sentence, facts.minded)
    fibres = {s.name for s in content.lines}
    if fibres & _HAIR and not fibres <= {Group.UNKNOWN}:
        yield "Wool and hair can irritate skin: tell buyers who ask."
    yield CHECK_RULES
