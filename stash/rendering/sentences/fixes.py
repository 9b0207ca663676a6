"""Sentences about what would make a near miss fit, its plan staying as it is."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

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
from stash.rendering.sentences.phrases import joined, thickness_words
from stash.rendering.sentences.say import sentence
from stash.rendering.sentences.words import Words
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


SENTENCES: Mapping[str, Words] = {
    "one_of": fixes_in_words,
    "all_of": _all_of,
    "for_role": _for_role,
    EACH_LOT: _each_lot,
    "other_skeins": _other_skeins,
    "remnants_too": _remnants,
    "let_skein_in": _let_skein_in,
    "measure_skeins": _measure,
    "lower_margin": _lower_margin,
    "margin_by_skeins": _by_skeins,
    "release_promised": _release,
    "second_lot": _second_lot,
    "more_skeins": _more_skeins,
    "covers_part": _covers,
    "another_lot": "use another lot",
    "other_yarn": "make it in these instead",
    "give_length": _give_length,
    "give_thickness": "add its --thickness or what the band says, or weigh a length you measured",
    "give_colour": "add its colour: `stash change`",
    "give_colour_or_any_contrast": "add its colour, or try --contrast any and look in daylight",
    "give_fibre": "add its --fibre from the band: `stash change`",
    "give_fineness": "add what the band says, weigh a length you measured, or leave out --per-100g",
    "let_quarantined_in": (
        "use it all the same with --also quarantined, or clear it: `stash change` --condition none"
    ),
    "widen_tolerance": 'choose another lot, or allow it: `stash settings "thickness tolerance" 1`',
    "widen_fineness": "widen --per-100g, or choose another lot",
    "name_other_colour": "name another colour, or choose another lot",
    "allow_fibre": "choose another lot, or leave out --without",
    "choose_for_heat": "choose another lot; check the band and your local rules",
    "allow_owner_and_place": "leave out --owner or --not-in, or choose another lot",
    "name_another": "choose another yarn for {role}",
    "ask_for_less": "drop some of these limits",
    "ask_for_other_colour": lambda role, wanted: (
        f"add yarn in {' or '.join(wanted)}, or ask for another colour for {role}"
    ),
    "other_lot_for_one": "choose another lot for one of them",
    "allow_steps": 'let them differ in thickness: `stash settings "thickness tolerance" {steps}`',
    "wash_as_wool": f"wash both as wool, with --wash {Wash.ANY}",
    "allow_bleeding": "leave out --no-bleeding, and wash a swatch first",
    "give_it_or_any_contrast": "add it, or try --contrast any and look in daylight",
    "any_contrast": "try --contrast any",
    "other_contrast": _other_contrast,
}
