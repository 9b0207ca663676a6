"""Everyday names of made things, and the shapes they have; common usage of the craft, no source."""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace

from stash.parsing import people
from stash.requirements.design.shapes import Shape
from stash.requirements.design.whom import Whom
from stash.trade.colour_words import PLAIN

_ROUND, _SIDEWAYS, _FLAT = Shape.ROUND_HAT, Shape.SIDEWAYS_HAT, Shape.FLAT_HAT
_HAT = (_SIDEWAYS, _ROUND, _FLAT)
_SHAWL = (Shape.TRIANGLE, Shape.SCARF, Shape.SQUARE, Shape.CIRCLE)
_BEANIE = (_ROUND, _SIDEWAYS, _FLAT)


@dataclass(frozen=True, slots=True)
class Known:
    """The shapes a thing may have, the likeliest first.

    With a `why` (a kind of note) the first is taken and the note said; else several are asked
    about. None at all: no shape here is near.
    """

    shapes: tuple[Shape, ...] = ()
    why: str = ""


_THINGS: tuple[tuple[Known, str], ...] = (
    *((Known((shape,)), shape.value) for shape in Shape),
    (Known(_HAT), "hat"),
    (
        Known(_BEANIE, "hat_in_the_round"),
        "beanie, cap, toque, tuque, watch cap, skull cap, skullcap, stocking cap, ski hat, ski cap,"
        " chemo cap, chemo hat, bonnet, cloche",
    ),
    (
        Known(_BEANIE, "pompom_beside"),
        "bobble hat, bobble beanie, bobble cap, pompom hat, pompom beanie, pompom cap",
    ),
    (Known(_BEANIE, "flaps_beside"), "earflap hat, ear flap hat, trapper hat, aviator hat"),
    (
        Known(_BEANIE, "hat_taller"),
        "slouch, slouch hat, slouchy, slouchy hat, slouchy beanie, slouch beanie",
    ),
    (
        Known((_ROUND,), "width_not_counted"),
        "beret, tam, tam o shanter, bucket hat, sun hat",
    ),
    (Known((_ROUND,), "neck_not_counted"), "balaclava, hood, pixie hat, pixie bonnet"),
    (
        Known((_ROUND,), "measured_by_itself"),
        "tea cosy, tea cozy, egg cosy, egg cozy",
    ),
    (
        Known((Shape.COWL,), "measured_by_itself"),
        "mug cosy, mug cozy, cup cosy, cup cozy, can cosy, can cozy, bottle cosy, bottle cozy",
    ),
    (
        Known((Shape.HEADBAND,)),
        "head band, ear warmer, ear band, hairband, hair band, sweatband, sweat band, headwrap,"
        " head wrap, head warmer",
    ),
    (
        Known((Shape.COWL,)),
        "snood, neck warmer, neck tube, gaiter, neck gaiter, infinity scarf, circle scarf,"
        " loop scarf, loop, circular scarf, round scarf, joined scarf, cowl scarf, mobius scarf,"
        " moebius scarf, eternity scarf, tube scarf, dickey",
    ),
    (
        Known((Shape.COWL,), "tubes_in_pairs"),
        "leg warmer, boot cuff, boot topper, arm warmer, ankle warmer",
    ),
    (Known((Shape.SCARF,)), "stole, wrap, muffler, skinny scarf, table runner, runner"),
    (Known((Shape.SCARF,), "long_flat_strip"), "belt, strap, bookmark, sash"),
    (
        Known((Shape.TRIANGLE, Shape.SCARF, Shape.SQUARE, Shape.CIRCLE), "shawl_as_triangle"),
        "shawl",
    ),
    (
        Known((Shape.TRIANGLE,), "shawl_as_triangle"),
        "shawlette, crescent shawl, half circle shawl, semicircle shawl, half circle",
    ),
    (
        Known((Shape.TRIANGLE,)),
        "kerchief, neckerchief, bandana, bandanna, headscarf, head scarf, triangle scarf,"
        " triangular scarf, triangle shawl, triangular shawl, triangle wrap,"
        " triangular wrap, bunting",
    ),
    (
        Known((Shape.BLANKET,)),
        "afghan, throw, bedspread, coverlet, lapghan, lap blanket, comforter,"
        " quilt, bath mat, tea towel, towel",
    ),
    (Known((Shape.CIRCLE,)), "round blanket, circular blanket, round rug, circular rug"),
    (Known((Shape.CIRCLE, Shape.BLANKET)), "rug, mat, placemat, floor mat"),
    (
        Known((Shape.SQUARE,)),
        "dishcloth, washcloth, facecloth, flannel, cloth, potholder, hot pad, trivet, granny,"
        " granny square, granny motif, face scrubby, scrubby, scrubbie, duster",
    ),
    (
        Known((Shape.SQUARE,), "squares_counted"),
        "granny square blanket, granny square afghan, granny blanket, granny afghan, patchwork,"
        " patchwork blanket, cushion, cushion cover, pillow, pillow cover, pillowcase",
    ),
    (Known((Shape.CIRCLE, Shape.SQUARE)), "coaster, mug rug, motif"),
    (Known((Shape.CIRCLE,)), "doily, mandala, disc, disk, round tablecloth"),
    (Known((Shape.MITTEN,)), "mitt"),
    (Known((Shape.MITTEN,), "fingers_not_counted"), "glove"),
    (
        Known((Shape.MITTEN,), "tips_left_open"),
        "fingerless glove, fingerless mitten, fingerless mitt, wrist warmer, wristwarmer,"
        " hand warmer, wristlet, fingerless",
    ),
    (
        Known((Shape.SOCK,)),
        "bed sock, ankle sock, boot sock, knee sock, stocking, christmas stocking",
    ),
    (Known((Shape.SOCK,), "leg_is_short"), "slipper, bootie, bootee, slipper sock, shoe, moccasin"),
    (
        Known(),
        "sweater, jumper, pullover, cardigan, cardi, vest, waistcoat, gilet, tank top, top, dress,"
        " skirt, poncho, cape, capelet, shrug, bolero, jacket, coat, bag, tote, tote bag, purse,"
        " pouch, basket, toy, amigurumi, doll, teddy, bib, romper, onesie, trousers, pants, shorts,"
        " bikini, scrunchie, collar, hoodie, tights, hexagon, star, heart, bear, animal",
    ),
)

#: What says which of its shapes a thing has.
_WAYS: dict[str, tuple[Shape, ...]] = {
    **dict.fromkeys(("round", "rounds", "seamless"), (_ROUND, Shape.CIRCLE)),
    **dict.fromkeys(("circular", "circle"), (Shape.CIRCLE, _ROUND)),
    "sideways": (_SIDEWAYS,),
    **dict.fromkeys(("flat", "seamed"), (_FLAT,)),
    **dict.fromkeys(("rectangular", "rectangle"), (Shape.SCARF, Shape.BLANKET)),
    **dict.fromkeys(("triangular", "triangle"), (Shape.TRIANGLE,)),
    "square": (Shape.SQUARE, Shape.BLANKET),
}
#: What says nothing about a shape.
_LOOKS = (
    "worked made crochet crocheted knit knitted hand handmade style "
    "pair one two three four five colour color coloured colored colours colors tone toned "
    "multicolour multicolor colorwork colourwork fairisle stranded striped stripy stripey "
    "stripe stripes plain simple basic easy quick classic chunky bulky fine lacy lace textured "
    "ribbed rib cabled cable brioche mosaic tapestry winter summer spring autumn fall christmas "
    "holiday warm cosy cozy soft fluffy wool woollen woolen cotton yarn small medium large big "
    "tiny mini little long short wide narrow thick thin skinny oversized light dark bright pale "
    "new favourite favorite c2c ripple chevron temperature sofa couch bed house dish prayer "
    "hospital twisted knotted set market dk aran worsted sport fingering"
)
_BETWEEN = frozenset(["a", "an", "the", "in", "of", "for", "my", "our", "and", "with"])
_ASIDE = (
    _BETWEEN
    | frozenset(_LOOKS.split())
    | frozenset(word for colour in PLAIN for word in colour.split())
)

#: Where only babies lie.
_FOR_BABIES = {"cot", "crib", "pram", "stroller", "nursery", "carseat"}


def _joined(words: Sequence[str]) -> str:
    return "".join(words).lower().replace("'", "")


_BY_NAME = {_joined(name.split()): known for known, names in _THINGS for name in names.split(", ")}
#: Every name as it is written, those that have a shape.
NAMES = tuple(name for known, names in _THINGS if known.shapes for name in names.split(", "))
_WORD = re.compile(r"[^\W_]+(?:'[^\W_]+)*")
_ENDINGS = (("", ""), ("s", ""), ("es", ""), ("ves", "f"), ("ies", "y"))


@dataclass(frozen=True, slots=True)
class Named:
    """What a text names: the words that do, what is known of them, and what they leave unsaid.

    `known` is None where no word is known. `left` are words that may matter and are not read,
    `looks` those that only say how it looks: they tell one design from another.
    """

    words: tuple[str, ...]
    known: Known | None = None
    left: tuple[str, ...] = ()
    whom: Whom | None = None
    looks: bool = False


def thing(text: str) -> Named:
    """The thing that a text names: `beanie`, `kids' mittens`, `two-colour hat in the round`."""
    typed = _WORD.findall(text.replace("\N{RIGHT SINGLE QUOTATION MARK}", "'"))
    whom = people.together(typed).whom or (Whom.BABY if _FOR_BABIES & {*_lower(typed)} else None)
    span, known = _longest(typed)
    if known is None:
        words = tuple(word for word in typed if not _aside(word))
        return Named(words or tuple(typed), whom=whom)
    rest = [*typed[: span.start], *typed[span.stop :]]
    ways = [word for word in rest if word.lower() in _WAYS]
    narrowed = _narrowed(known, ways)
    if narrowed is not known:
        rest = [word for word in rest if word not in ways]
    left = tuple(word for word in rest if not _aside(word))
    plain = {word.lower() for word in rest if not people.someone(word)}
    looks = bool(plain & _ASIDE - _BETWEEN)
    return _with_another(Named(tuple(typed[span]), narrowed, left, whom, looks))


def _longest(words: Sequence[str]) -> tuple[slice, Known | None]:
    """Where the longest name of a thing stands; of equal ones the last, which English means."""
    for length in range(len(words), 0, -1):
        for start in range(len(words) - length, -1, -1):
            span = slice(start, start + length)
            if known := _looked_up(words[span]):
                return span, known
    return slice(0), None


def _with_another(one: Named) -> Named:
    """Two names in a text: `beanie hat` is what both may be, `hat and scarf` either of them."""
    span, other = _longest(one.left)
    if other is None or one.known is None or not (other.shapes and one.known.shapes):
        return one
    left = (*one.left[: span.start], *one.left[span.stop :])
    both = [shape for shape in other.shapes if shape in one.known.shapes]
    if not both:
        return replace(one, known=Known((*other.shapes, *one.known.shapes)), left=left)
    likelier = other if other.why else one.known
    shapes = tuple(shape for shape in likelier.shapes if shape in both)
    why = likelier.why if shapes == likelier.shapes else ""
    return replace(one, known=Known(shapes, why), left=left)


def _lower(words: Sequence[str]) -> list[str]:
    return [word.lower() for word in words]


def _aside(word: str) -> bool:
    """Whether it says whom a thing is for or how it looks, and nothing about its shape."""
    plain = word.lower()
    return plain in _ASIDE | _FOR_BABIES or plain.isdigit() or people.someone(plain) is not None


def _narrowed(known: Known, ways: Collection[str]) -> Known:
    """The one of its shapes that the ways name; as it was where they name none of them."""
    for way in ways:
        for shape in _WAYS[way.lower()]:
            if shape in known.shapes:
                return Known((shape,))
    return known


def _looked_up(words: Sequence[str]) -> Known | None:
    """A name of so many words, each as it is or in the plural."""
    within = [word.removesuffix("s") for word in words[:-1]]
    for plain in dict.fromkeys(map(_joined, (words, [*within, *words[-1:]]))):
        for ending, singular in _ENDINGS:
            if plain.endswith(ending):
                known = _BY_NAME.get(plain.removesuffix(ending) + singular)
                if known:
                    return known
    return None
