"""Words for how yarn is dyed and what its strand is like, as labels and makers use them.

Words of the trade in English, German, French, Italian, Spanish, Dutch and the Nordic languages
(common practice, no source). Where makers differ, it was settled here, once:

- Long changes of colour (*ombre*, *gradient*, *dégradé*) are striping: whole rows share a colour.
- *Semi-solid* is solid. *Tonal* and *kettle-dyed* are heathered: near shades of one colour.
- *Rainbow*, *print*, *hand-painted*, *space-dyed* are variegated, unless stripes are named too.
- *Marl*, *ragg*, *mélange*, *barber pole* are plied or spun of near shades: heathered.
- *Fleck*, *nep*, *knop* are tweed. *Plied* and *mercerised* are smooth, *roving* is a single.
- *Heather* is a colour by itself, and heathered beside another one.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache
from typing import TypeVar

from stash.errors import Unreadable
from stash.parsing import names
from stash.parsing.facts import NOT_KNOWN
from stash.parsing.label.vocabulary import Pattern, compiled
from stash.stock.yarn import Dyed, Surface

Said = TypeVar("Said", Dyed, Surface)


class Where(StrEnum):
    """Where a word stands that is read by what it says."""

    NAME = "n"
    END_OF_NAME = "e"
    COLOUR = "c"
    REMARK = "r"
    PART = "p"  # with nothing but such words between two commas


@dataclass(frozen=True, slots=True)
class Row:
    """Words that say one thing, and where they do."""

    says: Dyed | Surface
    where: str
    words: str

    @property
    def pattern(self) -> Pattern:
        """The words, whole ones only."""
        return compiled(rf"(?<![\w'-])(?:{self.words})(?![\w'])")


_ANYWHERE, _NOUN = "necrp", "ecrp"
#: What says most comes first: rainbow stripes are stripes.
ROWS: tuple[Row, ...] = (
    Row(Dyed.STRIPING, _ANYWHERE, r"self[\s-]?(?:striping|patterning)|striping|strip(?:ed|e?y)"
        r"|ombr[eé]s?|gradients?|d[ée]grad[ée]s?|(?:farb)?verlauf\w*|gestreift\w*|ray[ée]e?s?"
        r"|randig[at]?|stribet|long colou?r[\s-]?(?:changes?|repeats?|runs?)"
        r"|(?:slow|long)ly chang(?:es|ing) colou?r"),
    Row(Dyed.STRIPING, _NOUN, r"stripes?"),
    Row(Dyed.SPECKLED, _ANYWHERE, r"speckled|speckly|(?:speckle|sprinkle)[\s-]dyed|gesprenkelt\w*"),
    Row(Dyed.SPECKLED, _NOUN, r"speckles?"),
    Row(Dyed.TWEED, _ANYWHERE, r"tweed(?:y|ed)|flecked|nepp(?:y|ed)"),
    Row(Dyed.TWEED, _NOUN, r"tweeds?|flecks?|neps?|knops?"),
    Row(Dyed.VARIEGATED, _ANYWHERE, r"variegated|multi[\s-]?colou?r(?:ed|s)?"
        r"|(?:space|random)[\s-]?dyed|(?:bunt|mehrfarbig)(?:e[rsn]?)?|flerf[aä]rgad|flerfarvet"),
    Row(Dyed.VARIEGATED, _NOUN, r"multis?"),
    Row(Dyed.VARIEGATED, "cp", r"rainbow|regenbogen|prints?"),
    Row(Dyed.HEATHERED, _ANYWHERE, r"heathered|heathery|marled|m[ée]lang[ée]e?s?|\w*meliert\w*"
        r"|chin[ée]e?s?|gem[êe]leerd|barber[\s-]?pole|tonals?"),
    Row(Dyed.HEATHERED, _NOUN, r"marls?|ragg"),
    Row(Dyed.SOLID, _ANYWHERE, r"semi[\s-]?solids?|solid[\s-](?:colou?r(?:ed)?|dyed|shades?)"
        r"|(?:one|single)[\s-]colou?r(?:ed)?|einfarbig\w*|ensfarvet|enf[aä]rgad|unicolore?"),
    Row(Dyed.SOLID, _NOUN, r"solids?"),
    Row(Surface.LOOPED, _ANYWHERE, r"boucl[eé]\w*|loop(?:ed|y)|loop yarn|fris[ée]"),
    Row(Surface.BRUSHED, "nerp", r"brushed|gebürstet\w*|flauschig\w*|bross[ée]e?s?|børstet"
        r"|borstad[et]?|geborsteld\w*|spazzolat[oaie]|cepillad[oa]s?"),
    Row(Surface.BRUSHED, _ANYWHERE, r"fluffy|fuzzy"),
    Row(Surface.BRUSHED, "rp", r"halo(?:ed)?|mohair[\s-](?:like|look|style)|hairy"),
    Row(Surface.CABLED, "nerp", r"cabled|cable[\s-]?(?:pl(?:y|ied)|spun|twist(?:ed)?)"),
    Row(Surface.SINGLE, _ANYWHERE, r"single[\s-]pl(?:y|ied)|un(?:plied|spun)"),
    Row(Surface.SINGLE, "erp", r"singles"),
    Row(Surface.SINGLE, "er", r"roving"),
    Row(Surface.SMOOTH, "nerp", r"(?:tightly[\s-])?plied|merceri[sz]ed|gassed|worsted[\s-]spun"),
    Row(Surface.SMOOTH, "rp", r"smooth"),
)  # fmt: skip
#: What a way of dyeing makes likely, where nothing else is said of it.
BY_WAY: tuple[Row, ...] = (
    Row(Dyed.HEATHERED, _ANYWHERE, r"kettle[\s-]?dyed"),
    Row(Dyed.VARIEGATED, _ANYWHERE, r"hand[\s-]?paint(?:ed)?"),
)
#: Before or behind a word, that it is not so, or nobody is sure.
_NOT_SO = compiled(
    r"(?:\b(?:not|no|non|never|isn't|aren't|without|hardly|maybe|possibly|perhaps|probably|prob"
    r"|might be|could be|kein|nicht|pas|niet|inte|ikke)\W+(?:(?:an?|any|very|really|too|so)\s+)*"
    r"|\bnon-)$"
)


def rows_for(says: type[Said], where: Where) -> tuple[Row, ...]:
    """The words that say something of one kind in such a place, what says most first."""
    return tuple(row for row in ROWS if isinstance(row.says, says) and where.value in row.where)


def meant_in(row: Row, text: str) -> Iterator[tuple[int, int]]:
    """Where a text has such words and means them: not `not brushed`, nor `striped?`."""
    for m in row.pattern.finditer(text):
        doubted = text[m.end() :].lstrip().startswith("?")
        if not doubted and not _NOT_SO.search(text[: m.start()]):
            yield m.span()


def dyed(text: str) -> Dyed | None:
    """How yarn is dyed, typed by itself; None for `unknown`. Raises Unreadable."""
    return _typed(Dyed, text, "no_dyed")


def surface(text: str) -> Surface | None:
    """What a strand is like, typed by itself; None for `unknown`. Raises Unreadable."""
    return _typed(Surface, text, "no_surface")


@lru_cache(maxsize=1024)
def _typed(says: type[Said], text: str, kind: str) -> Said | None:
    plain = " ".join(text.casefold().split())
    if plain in NOT_KNOWN or plain in ("", "none"):
        return None
    if plain in set(says):
        return says(plain)
    for row in (*ROWS, *BY_WAY):
        if isinstance(row.says, says) and any(True for _ in meant_in(row, plain)):
            return row.says
    choices = tuple(one.value for one in says)
    near = names.nearly(plain, choices)
    if len(near) != 1:
        raise Unreadable(text, kind, choices=choices)
    return says(choices[near[0]])
