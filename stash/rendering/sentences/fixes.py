"""Sentences about what would make a near miss fit, its plan staying as it is."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any

from stash.matching.answer.fix import EACH_LOT, Fix
from stash.matching.lots.lot_view import Thickness
from stash.matching.question.wish import Contrast, Wash
from stash.measures.length import Length
from stash.measures.note import Note
from stash.measures.put_up import PutUp
from stash.rendering.amounts import chance as shown_chance
from stash.rendering.amounts import counted, dye_lot
from stash.rendering.figures import down, near
from stash.rendering.her_words import hers
from stash.rendering.sentences import redesigns
from stash.rendering.sentences.phrases import joined, thickness_words, yarn_called
from stash.rendering.sentences.say import sentence
from stash.rendering.sentences.words import FixWords, Words
from stash.requirements.fit.splitting import Way
from stash.stock.yarn import Lot

#: So many are shown at once, and the yarn to buy: a few to choose from are an answer, all of them
#: a list.
_SHOWN = 3


def first_fixes(fixes: Sequence[Fix]) -> tuple[Fix, ...]:
    """Those to show at once: the first few with what is on the shelf, and what there is to buy."""
    on_the_shelf = [fix for fix in fixes if not fix.buys]
    return (*on_the_shelf[:_SHOWN], *(fix for fix in fixes if fix.buys))


def fixes_in_words(fixes: Sequence[Fix]) -> str:
    """Those to show at once in one line."""
    return ", or ".join(map(sentence, first_fixes(fixes)))


def _for_role(role: str, fixes: Sequence[Fix]) -> str:
    return f"{role}: {'; and '.join(map(sentence, fixes))}"


def _all_of(fixes: Sequence[Fix]) -> str:
    """What each role lacks; which one it is need not be said of one alone."""
    if len(fixes) == 1 and fixes[0].kind == "for_role":
        return "; and ".join(map(sentence, fixes[0].facts["fixes"]))
    return "; ".join(map(sentence, fixes))


def _other_skeins(lot: Lot) -> str:
    return f"use other skeins of {lot.ref} as well"


def _remnants(role: str, lot: Lot) -> str:
    return f"use its remnants too: --with {role}={lot.ref}"


def _let_skein_in(skein: int, why: Note) -> str:
    return f"allow skein {skein}, which {sentence(why)}"


def _measure(skeins: Sequence[int]) -> str:
    numbers = ", ".join(map(str, skeins))
    return f"look up the length of skein {numbers} on its band, or weigh a length you measured"


def _lower_margin(margin: float, chance: float) -> str:
    return f"use a margin of {round(100 * margin)}% ({shown_chance(chance)} sure to be enough)"


def _by_skeins(skeins: Sequence[tuple[str, Sequence[int]]]) -> str:
    named = (f"--skeins {role}={','.join(map(str, numbers))}" for role, numbers in skeins)
    return f"set it aside by its skeins, without a margin: {' '.join(named)}"


def _release(promised: Length, lot: Lot) -> str:
    return f"release the {down(promised)} of {lot.ref} set aside for other items"


def _second_lot(role: str, lot: Lot, way: Way, place: str | Note, beside: Lot | None) -> str:
    where = sentence(place)
    if way is Way.CHANGE:
        where = f"with the change {where}"
    if way is Way.ALTERNATE:
        where = "in alternating rows"
    tied = f"--with {role}={beside.ref}/{lot.ref} " if beside else ""
    return f"use {lot.ref} {hers('of the same colour too')}, {where}: {tied}--two-lots {role}={way}"


def _more_skeins(count: int, lot: Lot, put_up: PutUp) -> str:
    full = f"{near(put_up.mass)} / {near(put_up.length)}"
    return f"buy {counted(count, 'more skein')} of {lot.ref} ({full}), {dye_lot(lot)}"


def _covers(role: str, covered: Length) -> str:
    return _smaller([(role, covered)])


def _smaller(covered: Sequence[tuple[str, Length]]) -> str:
    enough = joined(f"{down(length)} of {role}" for role, length in covered)
    return f"make something smaller: there is enough for {enough}"


def _each_lot(fixes: Sequence[Fix]) -> str:
    """What each lot lacks; of several that are enough for less it is said once."""
    smaller = [fix for fix in fixes if fix.kind == "covers_part"]
    others = joined(sentence(fix) for fix in fixes if fix not in smaller)
    less = _smaller([(fix.facts["role"], fix.facts["covered"]) for fix in smaller])
    return "; and ".join(filter(None, (others, less if smaller else "")))


def _give_length(thickness: Thickness | None) -> str:
    usual = f", or --assume the usual length for {thickness_words(thickness)}" if thickness else ""
    return f"look up its length on the band, or weigh a length you measured{usual}"


def _other_contrast(contrast: Contrast) -> str:
    return f"try --contrast {contrast}"


def _more_skeins_pressed(*, count: int, lot: Lot, put_up: PutUp) -> tuple[str, str]:
    full = f"{near(put_up.mass)} / {near(put_up.length)}"
    return f"Buy {counted(count, 'skein')}", f"{full}, {dye_lot(lot)}"


def _lower_margin_pressed(*, margin: float, chance: float) -> tuple[str, str]:
    return f"Margin {round(100 * margin)}%", f"{shown_chance(chance)} sure to be enough"


def _release_pressed(*, promised: Length, lot: Lot) -> tuple[str, str]:
    return f"Free {down(promised)} of {yarn_called(lot)}", "set aside for other items"


def _second_lot_pressed(
    *, role: str, lot: Lot, way: Way, place: str | Note, **_: Any
) -> tuple[str, str]:
    where = sentence(place)
    if way is Way.CHANGE:
        where = f"changed {where}"
    if way is Way.ALTERNATE:
        where = "in alternating rows"
    return f"{role} from two lots", f"{dye_lot(lot)} {hers('of the same colour')}, {where}"


def pressed(fix: Fix) -> tuple[str, str]:
    """A fix for a button: what is done, then its figures."""
    return FIXES[fix.kind].pressed(**fix.facts)


def _few(fix: Fix) -> str:
    """The same within a sentence: `band 2.3 cm (3 rows, not 5)`."""
    head, under = pressed(fix)
    as_it_is = fix.kind == "one_colour_more" or _OF_ROLE.match(head)
    few = head if as_it_is else head[:1].lower() + head[1:]
    return f"{few} ({under})" if under else few


#: A colour of a design, which stays a capital, as does what she calls a yarn.
_OF_ROLE = re.compile(r"[A-D][0-9]?[ :]")


def fixes_in_few_words(fixes: Sequence[Fix]) -> str:
    """Those to show at once in one line of the page."""
    return ", or ".join(map(_few, first_fixes(fixes)))


#: Each fix once for a terminal and once for the page.
_FIXES: Mapping[str, FixWords] = {
    "one_of": FixWords(
        fixes_in_words, lambda fixes: (" or ".join(map(_few, first_fixes(fixes))), "")
    ),
    "all_of": FixWords(_all_of, lambda fixes: ("; ".join(map(_few, fixes)), "")),
    "for_role": FixWords(
        _for_role, lambda role, fixes: (f"{role}: {'; and '.join(map(_few, fixes))}", "")
    ),
    EACH_LOT: FixWords(
        _each_lot,
        lambda fixes: (
            joined(pressed(fix)[0] for fix in fixes),
            joined(pressed(fix)[1] for fix in fixes),
        ),
    ),
    "other_skeins": FixWords(_other_skeins, lambda lot: ("Use its other skeins", yarn_called(lot))),
    "remnants_too": FixWords(
        _remnants, lambda role, lot: ("Use its remnants", f"{role}, {yarn_called(lot)}")
    ),
    "let_skein_in": FixWords(
        _let_skein_in, lambda skein, why: (f"Use no. {skein} too", f"it {sentence(why)}")
    ),
    "measure_skeins": FixWords(
        _measure,
        lambda skeins: (
            "Measure it",
            f"no. {', '.join(map(str, skeins))} has no length yet",
        ),
    ),
    "lower_margin": FixWords(_lower_margin, _lower_margin_pressed),
    "margin_by_skeins": FixWords(
        _by_skeins, lambda skeins: ("Without a margin", "set aside by its skeins")
    ),
    "release_promised": FixWords(_release, _release_pressed),
    "second_lot": FixWords(_second_lot, _second_lot_pressed),
    "more_skeins": FixWords(_more_skeins, _more_skeins_pressed),
    "covers_part": FixWords(
        _covers,
        lambda role, covered: (
            "Something smaller",
            f"enough for {down(covered)} of {role}",
        ),
    ),
    "another_lot": FixWords("use another lot", lambda: ("Another yarn", "")),
    "other_yarn": FixWords("make it in these instead", lambda: ("In these instead", "")),
    "give_length": FixWords(
        _give_length, lambda thickness: ("Look up its length", "on the band, or measure some")
    ),
    "give_thickness": FixWords(
        "add its --thickness or what the band says, or weigh a length you measured",
        lambda: ("Add its thickness", "from the band"),
    ),
    "give_colour": FixWords("add its colour: `stash change`", lambda: (hers("Add its colour"), "")),
    "give_colour_or_any_contrast": FixWords(
        "add its colour, or try --contrast any and look in daylight",
        lambda: ("Any contrast", "and look in daylight"),
    ),
    "give_fibre": FixWords(
        "add its --fibre from the band: `stash change`",
        lambda: (hers("Add its fibre"), "from the band"),
    ),
    "give_fineness": FixWords(
        "add what the band says, weigh a length you measured, or leave out --per-100g",
        lambda: ("Any length per 100 g", "or add what the band says"),
    ),
    "let_quarantined_in": FixWords(
        "use it all the same with --also quarantined, or clear it: `stash change` --condition none",
        lambda: ("Use it all the same", "though it is in quarantine"),
    ),
    "widen_tolerance": FixWords(
        'choose another lot, or allow it: `stash settings "thickness tolerance" 1`',
        lambda: ("Allow one thickness more", "in your settings"),
    ),
    "widen_fineness": FixWords(
        "widen --per-100g, or choose another lot", lambda: ("Any length per 100 g", "")
    ),
    "name_other_colour": FixWords(
        "name another colour, or choose another lot", lambda: (hers("Any colour"), "")
    ),
    "allow_fibre": FixWords(
        "choose another lot, or leave out --without", lambda: (hers("Any fibre"), "")
    ),
    "choose_for_heat": FixWords(
        "choose another lot; check the band and your local rules",
        lambda: ("No hot wash", "check the band and your local rules"),
    ),
    "allow_owner_and_place": FixWords(
        "leave out --owner or --not-in, or choose another lot", lambda: ("Any owner, any place", "")
    ),
    "name_another": FixWords(
        "choose another yarn for {role}", lambda role: (f"Another yarn for {role}", "")
    ),
    "ask_for_less": FixWords("drop some of these limits", lambda: ("Without these limits", "")),
    "ask_for_other_colour": FixWords(
        lambda role, wanted: (
            f"add yarn in {' or '.join(wanted)}, or ask for another colour for {role}"
        ),
        lambda role, wanted: (f"Another colour for {role}", f"none is {' or '.join(wanted)}"),
    ),
    "other_lot_for_one": FixWords(
        "choose another lot for one of them", lambda: ("Another yarn for one of them", "")
    ),
    "allow_steps": FixWords(
        'let them differ in thickness: `stash settings "thickness tolerance" {steps}`',
        lambda steps: ("Let them differ in thickness", counted(steps, "step")),
    ),
    "wash_as_wool": FixWords(
        f"wash both as wool, with --wash {Wash.ANY}", lambda: ("Wash both as wool", "")
    ),
    "allow_bleeding": FixWords(
        "leave out --no-bleeding, and wash a swatch first",
        lambda: ("Let them be", "wash a swatch first"),
    ),
    "give_it_or_any_contrast": FixWords(
        "add it, or try --contrast any and look in daylight",
        lambda: ("Any contrast", "and look in daylight"),
    ),
    "any_contrast": FixWords("try --contrast any", lambda: ("Any contrast", "")),
    "other_contrast": FixWords(
        _other_contrast, lambda contrast: (f"{contrast} contrast".capitalize(), "")
    ),
}
SENTENCES: Mapping[str, Words] = {kind: words.typed for kind, words in _FIXES.items()}
#: With those that change the design.
FIXES: Mapping[str, FixWords] = {**_FIXES, **redesigns.FIXES}
