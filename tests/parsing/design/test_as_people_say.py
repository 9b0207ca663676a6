"""Shapes and sizes in the words of people: what each means, what is asked, what is refused.

Written before what reads them; the second half of each table was not run until all of the first
was right. What a word means is common usage of the craft, no source, unless one is named.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from stash.errors import Ambiguous, BadInput, Unreadable
from stash.measures.length import Length, inches
from stash.parsing.design import design, shapes, wearers
from stash.rendering.sentences.say import sentence
from stash.requirements.design.shapes import Shape
from stash.requirements.design.sizing import BodyPart
from stash.requirements.design.whom import Whom
from stash.trade.bodies import Person, Sex

F, M = Sex.FEMALE, Sex.MALE
WOMAN, MAN, ADULT = Person(None, F), Person(None, M), Person()


def cm(count: float) -> Length:
    return Length(round(count * 10_000))


#: (what is typed, the shape, whether there is a word why)
SHAPES = [
    ("beanie", Shape.ROUND_HAT, True), ("Cap", Shape.ROUND_HAT, True),
    ("toque", Shape.ROUND_HAT, True), ("bobble hat", Shape.ROUND_HAT, True),
    ("sideways hat", Shape.SIDEWAYS_HAT, False), ("round hats", Shape.ROUND_HAT, False),
    ("mittens", Shape.MITTEN, False), ("gloves", Shape.MITTEN, True),
    ("fingerless gloves", Shape.MITTEN, True), ("Mitts", Shape.MITTEN, False),
    ("shawl", Shape.TRIANGLE, True), ("shawls", Shape.TRIANGLE, True),
    ("stole", Shape.SCARF, False), ("wrap", Shape.SCARF, False), ("scarves", Shape.SCARF, False),
    ("snood", Shape.COWL, False), ("infinity scarf", Shape.COWL, False),
    ("neck-warmer", Shape.COWL, False), ("afghan", Shape.BLANKET, False),
    ("throw", Shape.BLANKET, False), ("ear warmer", Shape.HEADBAND, False),
    ("earwarmer", Shape.HEADBAND, False), ("leg warmers", Shape.COWL, True),
    ("dishcloth", Shape.SQUARE, False), ("granny square", Shape.SQUARE, False),
    ("socks", Shape.SOCK, False), ("slippers", Shape.SOCK, True),
    ("doily", Shape.CIRCLE, False), ("beret", Shape.ROUND_HAT, True),
    ("baby blanket", Shape.BLANKET, False), ("women's beanie", Shape.ROUND_HAT, True),
    ("kids mittens", Shape.MITTEN, False), ("striped scarf", Shape.SCARF, False),
    ("two-colour hat in the round", Shape.ROUND_HAT, False),
    # held back
    ("tuque", Shape.ROUND_HAT, True), ("beanies", Shape.ROUND_HAT, True),
    ("pompom hat", Shape.ROUND_HAT, True), ("slouchy beanie", Shape.ROUND_HAT, True),
    ("watch cap", Shape.ROUND_HAT, True), ("bonnet", Shape.ROUND_HAT, True),
    ("baby hat in the round", Shape.ROUND_HAT, False), ("men's watch cap", Shape.ROUND_HAT, True),
    ("mitten", Shape.MITTEN, False), ("glove", Shape.MITTEN, True),
    ("wrist warmers", Shape.MITTEN, True), ("fingerless mitts", Shape.MITTEN, True),
    ("kerchief", Shape.TRIANGLE, False), ("triangular shawl", Shape.TRIANGLE, False),
    ("shawlette", Shape.TRIANGLE, True), ("rectangular shawl", Shape.SCARF, False),
    ("muffler", Shape.SCARF, False), ("gaiter", Shape.COWL, False), ("cowls", Shape.COWL, False),
    ("neckwarmer", Shape.COWL, False), ("lap blanket", Shape.BLANKET, False),
    ("bedspread", Shape.BLANKET, False), ("Throws", Shape.BLANKET, False),
    ("ear-warmers", Shape.HEADBAND, False), ("head band", Shape.HEADBAND, False),
    ("legwarmer", Shape.COWL, True), ("wash cloths", Shape.SQUARE, False),
    ("potholder", Shape.SQUARE, False), ("face cloth", Shape.SQUARE, False),
    ("bed socks", Shape.SOCK, False), ("baby booties", Shape.SOCK, True),
    ("round placemat", Shape.CIRCLE, False), ("mandala", Shape.CIRCLE, False),
    ("Baby Afghan", Shape.BLANKET, False), ("ladies gloves", Shape.MITTEN, True),
    ("chunky cowl", Shape.COWL, False), ("gray striped scarf", Shape.SCARF, False),
    ("colorwork mittens", Shape.MITTEN, False),
]  # fmt: skip


@pytest.mark.parametrize(("typed", "shape", "why"), SHAPES)
def test_a_thing_by_its_everyday_name_is_a_shape(typed: str, shape: Shape, why: bool) -> None:
    meant = shapes.meant(typed)

    assert meant.shape is shape
    assert bool(meant.notes) is why
    for note in meant.notes:
        assert note.facts["typed"].lower() in typed.lower()
        assert sentence(note)


@pytest.mark.parametrize(
    ("typed", "readings"),
    [
        ("hat", {"sideways hat", "round hat", "flat hat"}),
        ("winter hats", {"sideways hat", "round hat", "flat hat"}),
        ("coaster", {"circle", "square"}),
        # held back
        ("baby hat", {"sideways hat", "round hat", "flat hat"}),
        ("coasters", {"circle", "square"}),
        ("rug", {"circle", "blanket"}),
        ("placemat", {"circle", "blanket"}),
    ],
)
def test_a_thing_that_has_several_shapes_is_asked_about(typed: str, readings: set[str]) -> None:
    with pytest.raises(Ambiguous) as asked:
        shapes.meant(typed)

    assert set(asked.value.readings) == readings
    for reading in readings:
        assert shapes.meant(typed.replace(asked.value.text, reading, 1)).shape.value == reading


@pytest.mark.parametrize(
    ("typed", "nearest"),
    [
        ("beany", "beanie"), ("scarv", "scarf"), ("mitens", "mitten"), ("headbnd", "headband"),
        # held back
        ("cowel", "cowl"), ("blankit", "blanket"), ("toqe", "toque"), ("shwal", "shawl"),
        ("afgan", "afghan"), ("traingle", "triangle"),
    ],
)  # fmt: skip
def test_a_misspelt_shape_is_answered_with_the_nearest(typed: str, nearest: str) -> None:
    with pytest.raises(Unreadable) as refused:
        shapes.meant(typed)

    assert refused.value.facts["choices"][0] == nearest
    assert shapes.meant(nearest)


@pytest.mark.parametrize(
    "typed",
    ["cardigan", "sweater", "jumper", "amigurumi", "baby cardigan",
     # held back
     "poncho", "tote bag", "vest", "toys", "dress"],
)  # fmt: skip
def test_what_has_no_shape_says_what_to_give_instead(typed: str) -> None:
    with pytest.raises(Unreadable) as refused:
        shapes.meant(typed)

    assert refused.value.kind == "no_shape_near"
    assert "--stated" in sentence(refused.value)


@pytest.mark.parametrize(
    ("typed", "whom"),
    [("baby blanket", Whom.BABY), ("kids mittens", Whom.CHILD), ("women's beanie", Whom.ADULT),
     ("beanie", None),
     # held back
     ("Baby Afghan", Whom.BABY), ("baby booties", Whom.BABY), ("toddler beanie", Whom.CHILD),
     ("men's scarf", Whom.ADULT), ("throw", None)],
)  # fmt: skip
def test_whom_a_thing_is_for_is_kept_for_the_cautions(typed: str, whom: Whom | None) -> None:
    assert shapes.meant(typed).whom is whom


SIZES: list[tuple[str, Person | Length]] = [
    ("women", WOMAN), ("womens", WOMAN), ("women's", WOMAN), ("ladies", WOMAN), ("lady", WOMAN),
    ("adult woman", WOMAN), ("men", MAN), ("Mens", MAN), ("gents", MAN), ("adults", ADULT),
    ("unisex", ADULT), ("for a woman", WOMAN), ("child 5", Person(60)), ("kid 5", Person(60)),
    ("5 years", Person(60)), ("5-6 years", Person(66)), ("5/6 yrs", Person(66)),
    ("2T", Person(24)), ("3t", Person(36)), ("12m", Person(12)), ("3-6 months", Person(5)),
    ("3-6m", Person(5)), ("0-3 months", Person(2)), ("toddler 2", Person(24)),
    ("toddler 18m", Person(18)), ("baby 6 months", Person(6)), ("girl 8", Person(96, F)),
    ("8 year old girl", Person(96, F)), ("boys 10", Person(120, M)), ("aged 7", Person(84)),
    ("age 5-6", Person(66)), ("teen 14", Person(168)), ("teen girl 15", Person(180, F)),
    ("newborn", Person(0)), ("new born boy", Person(0, M)), ("5 y/o", Person(60)),
    ("18-24 months", Person(21)), ("preemie 32 weeks", Person(0, None, 32)),
    ("6 weeks old baby", Person(1)), ("56cm", cm(56)), ('22"', inches(22)), ("man 40", MAN),
    ("head 56cm", cm(56)), ("child of 5 years", Person(60)), ("two years", Person(24)),
    # held back
    ("mans", MAN), ("woman's", WOMAN), ("Lady's", WOMAN), ("female", WOMAN),
    ("female adult", WOMAN),
    ("an adult man", MAN), ("gentleman", MAN), ("male", MAN), ("grown-up", ADULT),
    ("grown up woman", WOMAN), ("my husband", MAN), ("mum", WOMAN), ("adult male", MAN),
    ("children 8", Person(96)), ("kids 4", Person(48)), ("4 yo", Person(48)),
    ("9-10 years", Person(114)), ("9/10 years", Person(114)), ("7-8yrs", Person(90)),
    ("5 to 6 years", Person(66)), ("4T", Person(48)), ("2T-3T", Person(30)),
    ("24m", Person(24)), ("6-12 months", Person(9)), ("12-18m", Person(15)),
    ("12m-18m", Person(15)), ("6 mo", Person(6)), ("9mths", Person(9)),
    ("toddler 3 yrs", Person(36)), ("baby girl 3 months", Person(3, F)),
    ("girls 6-7", Person(78, F)), ("boy aged 9", Person(108, M)), ("13 year old", Person(156)),
    ("teenage boy 16", Person(192, M)), ("teenager 17 years", Person(204)),
    ("premature 34 weeks", Person(0, None, 34)), ("36 week preemie", Person(0, None, 36)),
    ("2 month old", Person(2)), ("20.5in", inches(20.5)), ("56 cm head", cm(56)),
    ("size 56cm", cm(56)), ("woman 30 years", WOMAN), ("1 year", Person(12)),
    ("one year old", Person(12)), ("18 months girl", Person(18, F)), ("infant 3m", Person(3)),
    ("kid aged 6½", Person(78)),
]  # fmt: skip


@pytest.mark.parametrize(("typed", "read"), SIZES)
def test_a_size_as_it_stands_on_labels_is_somebody(typed: str, read: Person | Length) -> None:
    assert wearers.wearer(typed) == read


#: What is asked about, and one reading that must be among the choices.
ASKED = [
    ("baby", "baby 6 months"), ("toddler", "toddler 2 years"), ("child", "child 6 years"),
    ("kid", "kid 6 years"), ("teen", "teen 15 years"), ("teen girl", "teen girl 15 years"),
    ("preemie", "preemie 32 weeks"), ("size 6", "child 6 years"), ("5-6", "5-6 years"),
    ("L/XL", "59.5cm"), ("child medium", "child 6 years"), ("one size", "adult"),
    ("54-56cm", "55cm"), ("size 7 1/4", "57.9cm"), ("0-6 months", "3 months"),
    # held back
    ("girl", "girl 6 years"), ("boys", "boys 6 years"), ("infant", "infant 3 months"),
    ("tween", "tween 11 years"), ("teenager", "teenager 15 years"), ("kids", "kids 6 years"),
    ("prem", "prem 34 weeks"), ("premature baby", "premature baby 34 weeks"),
    ("size 8", "child 8 years"), ("10", "child 10 years"), ("3-6", "3-6 months"),
    ("S/M", "55.5cm"),
    ("kids small", "kids 6 years"),
    ("one size fits all", "woman"), ("21-22 in", "21in"), ("2-10 years", "6 years"),
    ("small child", "child 6 years"), ("baby boy", "baby boy 6 months"),
    ("32 weeks", "preemie 32 weeks"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("small", cm(53.5)), ("M", cm(55.5)), ("adult S", cm(53.5)), ("XL", cm(59.5)),
        ("ladies L", cm(57.5)), ("men's large", cm(57.5)), ("S (small)", cm(53.5)),
        ("woman medium", WOMAN), ("medium woman", WOMAN), ("Woman's M", WOMAN),
    ],
)  # fmt: skip
def test_a_letter_is_the_middle_of_the_centimetre_it_spans(
    typed: str, read: Person | Length
) -> None:
    assert wearers.wearer(typed) == read


@pytest.mark.parametrize(("typed", "among"), ASKED)
def test_a_size_that_may_be_several_is_asked_about(typed: str, among: str) -> None:
    with pytest.raises(Ambiguous) as asked:
        wearers.wearer(typed)

    assert among in asked.value.readings
    assert len(asked.value.readings) > 1
    for reading in asked.value.readings:
        answered = typed.replace(asked.value.text, reading, 1)
        assert wearers.wearer(answered), "a reading is taken without another question"
    assert len(sentence(asked.value).splitlines()) == 1


@pytest.mark.parametrize(
    ("typed", "suggested"),
    [("womam", "woman"), ("todler 2", "toddler 2"), ("chlid 5", "child 5"), ("newbron", "newborn"),
     # held back
     ("wimmen", "women"), ("teeen 14", "teen 14"), ("bbay 3 months", "baby 3 months"),
     ("4 yaers", "4 years"), ("premie 30 weks", "premie 30 weeks")],
)  # fmt: skip
def test_a_misspelt_size_is_answered_with_the_nearest(typed: str, suggested: str) -> None:
    with pytest.raises(Unreadable) as refused:
        wearers.wearer(typed)

    assert refused.value.facts["nearest"] == suggested
    assert suggested in sentence(refused.value)


@pytest.mark.parametrize(
    ("typed", "part", "read"),
    [
        ("medium woman", BodyPart.HAND, WOMAN),
        ("men's M", BodyPart.FOOT, MAN),
        # held back
        ("ladies medium", BodyPart.HAND, WOMAN),
    ],
)
def test_the_middle_of_a_table_is_medium_where_no_letters_are_known(
    typed: str, part: BodyPart, read: Person
) -> None:
    assert wearers.wearer(typed, part) == read


@pytest.mark.parametrize("typed", ["M", "adult medium", "one size"])
def test_a_hand_without_a_sex_is_asked_about(typed: str) -> None:
    with pytest.raises(Ambiguous) as asked:
        wearers.wearer(typed, BodyPart.HAND)
    assert {"woman", "man"} <= set(asked.value.readings)


@pytest.mark.parametrize("typed", ["large", "woman small", "XS"])
def test_letters_without_a_chart_are_to_be_measured(typed: str) -> None:
    with pytest.raises(BadInput) as refused:
        wearers.wearer(typed, BodyPart.HAND)
    assert refused.value.kind == "no_letters"


@pytest.mark.parametrize(
    ("typed", "whom"),
    [
        ("ladies", Whom.ADULT),
        ("toddlers", Whom.CHILD),
        ("preemie", Whom.BABY),
        ("kids", Whom.CHILD),
        # held back
        ("teenager", Whom.CHILD),
        ("mens", Whom.ADULT),
        ("infants", Whom.BABY),
        ("2T", Whom.CHILD),
    ],
)
def test_whom_cautions_are_for_is_said_in_the_same_words(typed: str, whom: Whom) -> None:
    assert design.meant_for(typed) is whom


#: Written after the reader and run on it once: 141 of 152 were right at first.
UNSEEN_SHAPES = {
    "Ladies' slouch hat": "round hat", "mens beanies": "round hat", "kid's toque": "round hat",
    "wool cap": "round hat", "newborn beanie": "round hat", "ski hat": "round hat",
    "pussy hat": "asked", "Santa hat": "asked", "newsboy cap": "round hat",
    "baseball cap": "round hat", "tam hat": "round hat", "cloche": "round hat",
    "fedora": "refused", "ear muffs": "refused", "earmuffs": "refused", "head-band": "headband",
    "sports headband": "headband", "neck cowl": "cowl", "neck tube": "cowl",
    "balaclava": "round hat", "infinity scarves": "cowl", "mobius scarf": "cowl",
    "moebius cowl": "cowl", "feather scarf": "scarf", "men's scarves": "scarf",
    "Prayer Shawl": "triangle", "shawls for women": "triangle", "triangular wrap": "triangle",
    "rectangular wrap": "scarf", "ruana": "refused", "serape": "refused",
    "bridal shawl": "triangle", "baby shawl": "triangle", "christening shawl": "triangle",
    "afghan throw": "blanket", "king size blanket": "blanket", "queen bed blanket": "blanket",
    "security blanket": "blanket", "wheelchair blanket": "blanket", "pet blanket": "blanket",
    "cat blanket": "blanket", "dog sweater": "refused", "bath mat": "blanket",
    "bathroom rug": "asked", "floor rug": "asked", "hot plate mat": "asked",
    "cotton dishcloths": "square", "spa cloth": "square", "burp cloth": "square",
    "coaster set": "asked", "9 patch square": "square", "granny squares blanket": "square",
    "mitten": "mitten", "kids' gloves": "mitten", "mittens for a child": "mitten",
    "wristlets": "mitten", "arm warmers": "cowl", "leg warmers for teens": "cowl",
    "baby socks": "sock", "ankle socks": "sock", "slipper socks": "sock", "baby bootie": "sock",
    "bed socks for men": "sock", "stuffy": "refused", "plushie": "refused",
    "headscarf": "triangle", "bandana cowl": "asked", "round doily": "circle",
    "potholders": "square", "tablecloth": "refused", "cushion covers": "square",
    "grey cap": "round hat", "colour block blanket": "blanket", "color-block hat": "asked",
}  # fmt: skip
UNSEEN_SIZES = {
    "Woman's M": Person(None, F), "size: medium": "girth", "S (small)": "girth",
    "small adult": "girth",
    "petite": "refused", "plus size": "refused", "XS": "refused", "small/medium": "asked",
    "toddler 2-4": Person(36), "toddler (2-3 years)": Person(30), "2-3T": Person(30),
    "24 months": Person(24), "18-24m": Person(21), "0-3 mos": Person(2), "3-6 mos.": Person(5),
    "6-9 months old": Person(8), "9 month old baby boy": Person(9, M),
    "girl, 4 yrs": Person(48, F), "4yr old boy": Person(48, M), "4yrs": Person(48),
    "Age 10": Person(120), "ages 3-5": Person(48), "10yo girl": Person(120, F),
    "teen girls 13-16": Person(174, F), "16 year old": Person(192), "sixteen": "asked",
    "child four": Person(48), "twelve years": Person(144), "newborn baby girl": Person(0, F),
    "0 months": Person(0), "birth": Person(0), "premature": "asked",
    "prem baby 32 weeks": Person(0, None, 32), "32-34 weeks preemie": Person(0, None, 33),
    "28wk prem": Person(0, None, 28), "8 weeks": Person(2), "Mum": Person(None, F),
    "Grandpa": Person(None, M), "ladies 56cm": "girth", "22in head": "girth",
    "21.5 inches": "girth", "21 1/2 in": "girth", "55 centimetres": "girth",
    "55 centimeters": "girth", "head 22\"": "girth", "56-58 cm": "asked", "56cm-58cm": "asked",
    "adult 56-58cm": "asked", "size 7 1/2": "asked", "hat size 7 3/8": "asked", "size 4": "asked",
    "size 4T": Person(48), "4": "asked", "6-7": "asked", "6/7 years": Person(78),
    "5 or 6 years": Person(66), "5 & 6 years": Person(66), "children aged 5-6": Person(66),
    "kids (5-6)": Person(66), "preschooler": "asked", "schoolchild": "asked",
    "kindergartner": "refused", "babies 3-6 months": Person(5), "infant 12m": Person(12),
    "L": "girth", "l": "girth", "mens xl": "girth", "Womens S/M": "asked",
    "adult one size": "asked", "woman one size": Person(None, F), "AdultMedium": "refused",
    "young adult": Person(), "small woman": "girth", "large man": "girth", "man large": "girth",
    "big man": "girth", "average woman": Person(None, F), "regular": "refused",
}  # fmt: skip


@pytest.mark.parametrize(("typed", "wanted"), UNSEEN_SHAPES.items())
def test_more_names_of_things(typed: str, wanted: str) -> None:
    assert _answer(lambda: shapes.meant(typed).shape.value) == wanted


@pytest.mark.parametrize(("typed", "wanted"), UNSEEN_SIZES.items())
def test_more_sizes(typed: str, wanted: Person | str) -> None:
    assert _answer(lambda: wearers.wearer(typed)) == wanted


def _answer(read: Callable[[], str | Person | Length]) -> object:
    try:
        found = read()
    except Ambiguous:
        return "asked"
    except Unreadable:
        return "refused"
    return "girth" if isinstance(found, Length) else found
