"""A lot or a skein as a picture with its words: drawn by what is left, its amounts as a bar."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from stash.measures.colour import lab
from stash.measures.mass import NO_MASS, Mass
from stash.rendering.amounts import colour_name, counted, dye_lot, numbers
from stash.rendering.drawing.bars import BarShown, skein_bar
from stash.rendering.drawing.swatch import Left, Shown
from stash.rendering.held import AS_KNOWN, Held, held, held_in_rows, lengths_known
from stash.stock.holding import HeldLot, HeldSkein, SkeinState
from stash.stock.yarn import Lot

#: A skein by how far it is used, as a maker calls it.
LEFT_WORDS = {
    SkeinState.WHOLE: "skein",
    SkeinState.OPENED: "part ball",
    SkeinState.REMNANT: "remnant",
    SkeinState.SPENT: "used up",
}
_DRAWN = {
    SkeinState.WHOLE: Left.WHOLE,
    SkeinState.OPENED: Left.OPENED,
    SkeinState.REMNANT: Left.REMNANT,
    SkeinState.SPENT: Left.REMNANT,
}
#: More letters than this do not go on a paper band.
_BAND = 8
#: More skeins than this are not each shown by a sign.
_SIGNS = 4


@dataclass(frozen=True, slots=True)
class Drawn:
    """How large a swatch is drawn, in pixels, and whether in grey."""

    width: int = 184
    height: int = 92
    grey: bool = False


@dataclass(frozen=True, slots=True)
class YarnCard:
    """A lot as one looks at it: `swatch` and `bar` are SVG, `signs` stand for its skeins,
    each by its name and, where it stands for several, how many.

    `left` is what of it is there in words, `light` how light it is from 0 to 100.
    """

    lot: Lot
    name: str
    lot_words: str
    signs: tuple[tuple[str, str], ...]
    left: str
    place: str
    free: str
    aside: str
    light: str
    swatch: str
    bar: str


#: Draws a lot by what is left of it; the page it is for keeps what its drawings share.
Swatch = Callable[[Lot, Left, Shown], str]


def card(lot: Lot, skeins: Sequence[HeldSkein], drawn: Drawn, swatch: Swatch) -> YarnCard:
    """What a card shows of some skeins of a lot."""
    return _card(lot, skeins, held(skeins), drawn, swatch)


def card_above_rows(
    lot: Lot, skeins: Sequence[HeldSkein], drawn: Drawn, swatch: Swatch
) -> YarnCard:
    """The same where each of the skeins has its row below: what it holds is their sum."""
    return _card(lot, skeins, held_in_rows(skeins), drawn, swatch)


def _card(
    lot: Lot, skeins: Sequence[HeldSkein], holds: Held, drawn: Drawn, swatch: Swatch
) -> YarnCard:
    return YarnCard(
        lot,
        lot.colour or colour_name(lot),
        dye_lot(lot),
        tuple(_signs(skeins)),
        left_words(skeins),
        ", ".join(dict.fromkeys(s.place for s in skeins if s.place)),
        free_words(holds) + ("" if lengths_known(skeins) or not holds.free.length else AS_KNOWN),
        aside_words(holds),
        lightness_numbers(lot),
        _drawn(lot, skeins, drawn, swatch),
        amounts_bar(lot, skeins, drawn.width),
    )


def told_apart(lots: Sequence[HeldLot]) -> dict[int, str]:
    """What tells lots of one name apart, by lot: their yarns, dye lots, else their skeins.

    Nothing for a lot whose name stands alone.
    """
    by_name: dict[str, list[HeldLot]] = {}
    for one in lots:
        by_name.setdefault((one.lot.colour or colour_name(one.lot)).casefold(), []).append(one)
    return {
        one.lot.id: words
        for same in by_name.values()
        if len(same) > 1
        for one, words in zip(same, _apart(same), strict=True)
    }


def _apart(same: Sequence[HeldLot]) -> list[str]:
    """The same for lots of one name: the first fact, or two of them, that no two have alike."""
    yarns = [str(one.lot.yarn) for one in same]
    lots = [dye_lot(one.lot) for one in same]
    skeins = [f"no. {numbers([s.number for s in one.skeins])}" for one in same]
    both = [f"{yarn}, {lot}" for yarn, lot in zip(yarns, lots, strict=True)]
    ways = (yarns, lots, both)
    return next((words for words in ways if len({*words}) == len(words)), skeins)


def free_words(holds: Held) -> str:
    """`690 m free`; by weight where no length is known."""
    return f"{holds.free.length or holds.free.weight or 'amount not known'} free"


def aside_words(holds: Held) -> str:
    """`42 m set aside`; nothing where none is."""
    return f"{holds.aside.length or holds.aside.weight} set aside" if holds.aside else ""


def left_words(skeins: Sequence[HeldSkein]) -> str:
    """`3 skeins`, `1 part ball`, `skein, part ball`: what there is of each kind."""
    count = Counter(skein.state for skein in skeins)
    kinds = [state for state in SkeinState if count[state]]
    if len(kinds) == 1:
        return _so_many(count[kinds[0]], kinds[0])
    return ", ".join(
        LEFT_WORDS[kind] if count[kind] == 1 else _so_many(count[kind], kind) for kind in kinds
    )


def _so_many(count: int, kind: SkeinState) -> str:
    return "used up" if kind is SkeinState.SPENT else counted(count, LEFT_WORDS[kind])


def lightness_numbers(lot: Lot) -> str:
    """How light its colours are, 0 black to 100 white: `28`, `24–61`; nothing where not known."""
    lights = sorted({int(lab(colour).lightness) for colour in lot.colours})
    if not lights:
        return ""
    return f"{lights[0]}" if len(lights) == 1 else f"{lights[0]}–{lights[-1]}"


def _signs(skeins: Sequence[HeldSkein]) -> list[tuple[str, str]]:
    """A sign for each skein; of many, one for each kind with how many there are of it."""
    order = [*SkeinState]
    states = sorted((s.state for s in skeins if s.held), key=order.index)
    if len(states) <= _SIGNS:
        return [(LEFT_WORDS[state], "") for state in states]
    return [(LEFT_WORDS[state], f"{count}") for state, count in Counter(states).items()]


def _drawn(lot: Lot, skeins: Sequence[HeldSkein], drawn: Drawn, swatch: Swatch) -> str:
    """The strand by what is left: opened where one ball is, else whole with its numbers on."""
    states = [skein.state for skein in skeins]
    kinds = (SkeinState.OPENED, SkeinState.WHOLE, SkeinState.REMNANT, SkeinState.SPENT)
    state = next((kind for kind in kinds if kind in states), SkeinState.SPENT)
    whole = [skein.number for skein in skeins if skein.state is SkeinState.WHOLE]
    label = _band(whole) if state is SkeinState.WHOLE else ""
    shown = Shown(drawn.width, drawn.height, drawn.grey, label)
    return swatch(lot, _DRAWN[state], shown)


def _band(whole: Sequence[int]) -> str:
    words = numbers(whole).replace("-", "–")
    return words if len(words) <= _BAND else f"{words.split(',')[0]} …"


def amounts_bar(lot: Lot, skeins: Sequence[HeldSkein], width: int) -> str:
    """Free, set aside and used up as shares of what was there when all of them were full."""
    free = sum((skein.free for skein in skeins), NO_MASS)
    aside = sum((skein.set_aside for skein in skeins), NO_MASS)
    full = sum((_full(lot, skein) for skein in skeins), NO_MASS)
    used = max(0.0, full.g - free.g - aside.g)
    return skein_bar(free.g, aside.g, used, BarShown(width=width))


def _full(lot: Lot, skein: HeldSkein) -> Mass:
    put_up = skein.pair.put_up
    full = put_up.mass if put_up is not None and not skein.by_metre else lot.full_mass
    return max(skein.held, full or NO_MASS)
