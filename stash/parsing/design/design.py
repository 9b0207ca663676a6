"""A design as a maker types it: gauge, bands, swatch, sizes and figures."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TypeVar

from stash.errors import Ambiguous, BadInput, Refusal, Unreadable
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.put_up import PutUp
from stash.parsing import facts, names, numbers, quantities
from stash.parsing.design import shapes, sizes, wearers
from stash.parsing.design.bands import band, stripes
from stash.parsing.design.extras import extra
from stash.parsing.design.fabric import fabric
from stash.requirements.design.bands import MAIN, Ends
from stash.requirements.design.design import Design
from stash.requirements.design.evidence import GRAM, Swatch
from stash.requirements.design.gauge import FOUR_INCHES, Gauge
from stash.requirements.design.shapes import BUILDS, Crown, Seam, Shape, Start
from stash.requirements.design.sizing import Fit
from stash.requirements.design.whom import Whom

_Choice = TypeVar("_Choice", bound=StrEnum)

_N = numbers.PATTERN
_LENGTH = rf"{_N}\s*(?:[a-z]+|\")"

_STS = rf"(?P<stitches>{_N})\s*(?:sts?|stitch(?:es)?)\.?"
_ROWS = rf"(?P<rows>{_N})\s*(?:rows?|rounds?|rnds?)\.?"
_BETWEEN = r"\s*(?:x|×|\*|by|and|&|,|/)\s*"
_ABOUT = r"(?:(?:approx\.?|about|ca\.?|~)\s*)?"
#: Over what: `per 10cm`, `= 4in`, `to 4 x 4 in`; a needle size behind it is passed over.
_OVER = (
    r"(?:\s*(?:per|=|to|over|on|in|/)\s*"
    rf"(?:{_N}\s*(?:[a-z]+|\")?\s*[x×]\s*)?(?P<over>{_LENGTH})(?:\s+square)?)?"
    r"(?:\s+in\s+(?P<plain>plain|stockinette|stocking stitch|sc|single crochet)(?:\s+fabric)?)?"
    r"(?:[\s,]+[0-9.]+\s*mm)?"
)
_GAUGES = tuple(
    re.compile(_ABOUT + first + _BETWEEN + second + _OVER)
    for first, second in ((_STS, _ROWS), (_ROWS, _STS))
)
_STITCHES_ONLY = re.compile(_ABOUT + _STS + r".*")


def gauge(text: str, per: str = "") -> Gauge:
    """Stitches and rows, to 4 in unless the text or `per` says otherwise.

    Read: `14 sts x 22 rows`, `22 sts x 30 rows = 10cm`, `4 sts and 5 rows to 1 in`; counted in
    plain fabric where the design's own is not, `22 sts x 30 rows in stockinette`.
    """
    plain = numbers.cleaned(text).strip().lower()
    found = next((match for one in _GAUGES if (match := one.fullmatch(plain))), None)
    if found is None:
        only_stitches = _STITCHES_ONLY.fullmatch(plain)
        raise Unreadable(text, "gauge_without_rows" if only_stitches else "no_gauge")
    over_text = found["over"] or per
    over = quantities.length(over_text) if over_text else FOUR_INCHES
    stitches, rows = numbers.fraction(found["stitches"]), numbers.fraction(found["rows"])
    if not (stitches and rows and over):
        raise Unreadable(text, "gauge_of_nothing")
    return Gauge(stitches, rows, over, plain=found["plain"] is not None)


#: `15x14cm`: one unit for both sides.
_SHARED_UNIT = re.compile(rf"({_N})\s*[x×*]\s*({_N})\s*([a-z]+|\")", re.IGNORECASE)


def swatch(text: str, step: Mass = GRAM) -> Swatch:
    """A weighed swatch: `12g, 15cm x 14cm`, on a scale of that step.

    A decimal means a scale that shows tenths.
    """
    plain = _SHARED_UNIT.sub(r"\1\3 x \2\3", numbers.cleaned(text))
    found = quantities.found_in(plain)
    between = plain
    for one in reversed(found):
        between = between[: one.start] + between[one.end :]
    match [one.value for one in found]:
        case [Mass() as mass, Length() as wide, Length() as tall] if (
            mass and wide and tall and re.fullmatch(r"(?:[\s,;:x×*=]|by)*", between)
        ):
            weighed = plain[found[0].start : found[0].end]
            tenths = found[0].unit == "g" and re.search(r"[.,]", weighed)
            return Swatch(mass, wide, tall, min(step, Mass(100)) if tenths else step)
    raise Unreadable(text, "no_swatch")


#: A figure for buying: `2 skeins`, `1 ball`.
_SKEINS = re.compile(r"([0-9]{1,3})\s*(?:whole\s+)?(?:skein|ball|hank|cake|cone)s?", re.IGNORECASE)


def stated(
    texts: Iterable[str], put_up: PutUp | None = None
) -> tuple[tuple[tuple[str, Length], ...], tuple[tuple[str, int], ...]]:
    """A pattern's figure per role, and which of them are whole skeins to buy, and how many.

    Read: `A=200yd`, `A=2 skeins` (of the put-up), each by itself or several in one text.
    """
    lengths: list[tuple[str, Length]] = []
    bought: list[tuple[str, int]] = []
    for role, words in _by_role(texts, "length"):
        skeins = _SKEINS.fullmatch(numbers.cleaned(words).strip())
        if skeins is None:
            lengths.append((role, quantities.length(words)))
            continue
        count = int(skeins[1])
        if count == 0 or put_up is None:
            raise Unreadable(words, "skeins_of_unknown_length")
        lengths.append((role, Length(count * put_up.length.um)))
        bought.append((role, count))
    return tuple(lengths), tuple(bought)


def weighed(text: str) -> tuple[tuple[str, Mass], ...]:
    """A finished item by role: `A=71g,B=9g`; of one colour, just `80g`."""
    texts = [text] if "=" in text else [f"{MAIN}={text}"]
    pairs = _by_role(texts, "weight")
    return tuple((role, quantities.mass(words)) for role, words in pairs)


def _by_role(texts: Iterable[str], measure: str) -> list[tuple[str, str]]:
    """Roles and the words behind them, A first; each role once."""
    found: dict[str, str] = {}
    for text in texts:
        for part in re.split(r"\s*[,;]\s*(?=[A-Za-z]\s*=)", text.strip()):
            pair = re.fullmatch(r"([A-Da-d])\s*=\s*(.*\S)", part)
            if pair is None:
                raise Unreadable(text, "no_amount_by_role", measure=measure)
            role = pair[1].upper()
            if role in found:
                raise Unreadable(text, "role_given_twice", measure=measure, role=role)
            found[role] = pair[2]
    return sorted(found.items())


def margin(text: str) -> float:
    """A margin as a share: `15%`, `15` or `0.15` are the same."""
    plain = numbers.cleaned(text).strip()
    try:
        share = numbers.fraction(plain.removesuffix("%"))
    except Unreadable:
        raise Unreadable(text, "no_margin") from None
    if plain.endswith("%"):
        return float(share / 100)
    if share == 1:
        raise Ambiguous(text, ("1%", "100%"))
    return float(share if share < 1 else share / 100)


def strands(text: str) -> int:
    """How many strands are held together."""
    count = numbers.fraction(text)
    if count < 1 or count.denominator != 1:
        raise Unreadable(text, "no_strands")
    return int(count)


#: As many squares as anybody joins.
_MOST = 2000

#: Other names in use for a choice.
_ALSO = {
    "sl st": Seam.SLIP_STITCH,
    "sc": Seam.SINGLE_CROCHET,
    "whipstitch": Seam.WHIP,
    "flat disc": Crown.FLAT,
    "center": Start.CENTRE,
}


def _chosen(text: str, choice: type[_Choice], kind: str) -> _Choice:
    plain = " ".join(text.lower().split())
    plain = _ALSO.get(plain, plain)
    if plain in set(choice):
        return choice(plain)
    choices = [one.value for one in choice]
    near = names.nearest(plain, choices, limit=2)
    raise Unreadable(text, kind, choices=tuple(near or choices))


@dataclass(frozen=True, slots=True)
class DesignWords:
    """A design as typed, option by option; an empty text is an option not given.

    `terms` says whose crochet names the fabric is written in, `us` or `uk`; `scale_step` is that
    of the scale a swatch was weighed on. `sides` are lengths by the names of their options that are
    known without being typed.
    """

    name: str = ""
    shape: str = ""
    around: str = ""
    tall: str = ""
    wide: str = ""
    long: str = ""
    gauge: str = ""
    fabric: str = ""
    bands: tuple[str, ...] = ()
    thickness: str = ""
    put_up: str = ""
    strands: str = ""
    swatch: str = ""
    scale_step: Mass = GRAM
    stated: tuple[str, ...] = ()
    weighed: str = ""
    terms: str = "us"
    seam: str = ""
    crown: str = ""
    start: str = ""
    count: str = ""
    brim: str = ""
    size: str = ""
    ease: str = ""
    extras: tuple[str, ...] = ()
    stripes: tuple[str, ...] = ()
    ends: str = ""
    whom: str = ""
    sides: tuple[tuple[str, Length], ...] = ()


def design_name(text: str) -> str:
    """What a design is called; never a number alone, which means an item or a skein."""
    name = text.strip()
    if not name or name.isdigit():
        raise BadInput("no_name_of_a_design", name=text)
    return name


def in_her_words(
    words: DesignWords,
    terms: str,
    scale_step: Mass,
    own_size: Callable[[str], Mapping[str, Length] | None],
) -> DesignWords:
    """Her names of stitches, and the sides of a size of her own where none is typed beside it."""
    hers = own_size(words.size) or {}
    sides = tuple((name, side) for name, side in hers.items() if not getattr(words, name))
    return replace(words, terms=words.terms or terms, scale_step=scale_step, sides=sides)


def design(words: DesignWords) -> Design:
    """The design all these words describe; what cannot be read or is missing is one error."""
    said = shapes.meant(words.shape) if words.shape else None
    made = said.shape if said else None
    low, high = facts.thickness(words.thickness) if words.thickness else (None, None)
    fit = _fit(words, made)
    if said and said.unsized and fit and not isinstance(fit.made_from, str):
        raise Refusal("no_table_of_thing", typed=words.shape, sides=BUILDS[said.shape].words)
    put_up = quantities.put_up(words.put_up) if words.put_up else None
    figures, bought = stated(words.stated, put_up)
    return Design(
        name=words.name,
        shape=made,
        size=sizes.sized(made, _given_sides(words), fit),
        gauge=gauge(words.gauge) if words.gauge else None,
        fabric=fabric(words.fabric, words.terms) if words.fabric else None,
        bands=tuple(band(text) for text in words.bands if not _none(text)),
        stripes=tuple(stripes(text) for text in words.stripes if not _none(text)),
        ends=_chosen(words.ends, Ends, "no_ends") if words.ends else None,
        thickness_from=low,
        thickness_to=high,
        put_up=put_up,
        strands=strands(words.strands) if words.strands else 1,
        crown=_chosen(words.crown, Crown, "no_crown") if words.crown else None,
        seam=_chosen(words.seam, Seam, "no_seam") if words.seam else None,
        swatch=swatch(words.swatch, words.scale_step) if words.swatch else None,
        stated=figures,
        bought=bought,
        weighed=_weighed(words),
        start=_chosen(words.start, Start, "no_start") if words.start else None,
        count=_count(words.count),
        brim=sizes.brim(words.brim),
        extras=tuple(extra(text) for text in words.extras if not _none(text)),
        fits=fit.made_from if fit else "",
        whom=meant_for(words.whom) or _whom(said, fit, words.size),
    )


def _whom(said: shapes.Meant | None, fit: Fit | None, size: str) -> Whom | None:
    """Whom its other words say it is for: `baby blanket`, or a size that fits no one by itself."""
    of_nobody = fit and (isinstance(fit.made_from, str) or fit.made_from.person is None)
    if of_nobody and (named := wearers.whom(size)):
        return named
    return said.whom if said else None


def meant_for(text: str) -> Whom | None:
    """Whom it is for, as far as cautions go."""
    return (wearers.whom(text) or _chosen(text, Whom, "no_wearer")) if text else None


def _none(text: str) -> bool:
    """Typed in `design change` to take away what was planned."""
    return text.strip().lower() == "none"


def put_right(old: Design, words: DesignWords) -> Design:
    """A plan with the parts that were typed in place of its own; the rest stays.

    A side that is not typed again, and does not follow from a size, stays as long as the shape is
    measured by it, a stated figure as long as its role is not stated again. Another shape is begun
    and closed as usual; `none` takes the brim, the bands, the stripes or the extras away.
    """
    shaped = words if words.shape or old.shape is None else replace(words, shape=old.shape.value)
    new = design(_with_old_put_up(old, _with_old_sides(old, shaped)))
    if new.shape is not None and new.shape is not old.shape:
        old = replace(old, crown=None, start=None, count=None, brim=None, fits="")
    figures = tuple(sorted({**dict(old.stated), **dict(new.stated)}.items()))
    kept = [one for one in old.bought if one[0] not in dict(new.stated)]
    bought = tuple(sorted([*kept, *new.bought]))
    typed = {
        "name": words.name,
        "shape": words.shape,
        "size": _given_sides(words) or words.size or words.shape,
        "gauge": words.gauge,
        "fabric": words.fabric,
        "bands": words.bands,
        "thickness_from": words.thickness,
        "thickness_to": words.thickness,
        "put_up": words.put_up,
        "strands": words.strands,
        "crown": words.crown,
        "seam": words.seam,
        "swatch": words.swatch,
        "stated": words.stated,
        "weighed": words.weighed,
        "start": words.start,
        "count": words.count,
        "brim": words.brim,
        "extras": words.extras,
        "stripes": words.stripes,
        "ends": words.ends,
        "fits": words.size or words.around,
        "whom": new.whom,
    }
    put = {name: getattr(new, name) for name, given in typed.items() if given}
    return replace(old, **{**put, "stated": figures, "bought": bought})


def _with_old_sides(old: Design, words: DesignWords) -> DesignWords:
    if old.shape is None or old.size is None or not words.shape:
        return words
    made = shapes.meant(words.shape).shape
    fit = _fit(words, made)
    given = {*_given_sides(words), *(fit.sides if fit else ())}
    sides = zip(old.build.words, old.size.sides, strict=False)
    kept = ((name, side) for name, side in sides if name in BUILDS[made].words)
    missing = tuple((name, side) for name, side in kept if name not in given)
    return replace(words, sides=(*words.sides, *missing))


def _with_old_put_up(old: Design, words: DesignWords) -> DesignWords:
    """So many skeins are of the put-up there is, where no other is typed."""
    if old.put_up is None or words.put_up:
        return words
    mass, length = old.put_up.mass, old.put_up.length
    return replace(words, put_up=f"{mass.mg / 1000}g/{length.um / 1000}mm")


def _given_sides(words: DesignWords) -> dict[str, str | Length]:
    """Every side: as it was typed, else as it is known."""
    typed = {name: text for name in sizes.SIDES if (text := getattr(words, name))}
    return {**dict(words.sides), **typed}


def _fit(words: DesignWords, made: Shape | None) -> Fit | None:
    """What follows from --size."""
    if words.size:
        return sizes.fit(made, _given_sides(words), words.size, words.ease, words.brim)
    if words.ease:
        raise Refusal("ease_without_size")
    return None


def _count(text: str) -> int | None:
    if not text:
        return None
    count = numbers.fraction(text)
    if count.denominator != 1 or not 1 <= count <= _MOST:
        raise Unreadable(text, "no_count_of_squares", most=_MOST)
    return int(count)


def _weighed(words: DesignWords) -> tuple[tuple[str, Mass], ...]:
    if (words.bands or words.stripes) and words.weighed and "=" not in words.weighed:
        raise Refusal("weighed_without_colours")
    return weighed(words.weighed) if words.weighed else ()
