"""What kind of yarn and which colour number: both may be written as `#` and a digit."""

from __future__ import annotations

import re
from functools import cache

from stash.errors import Ambiguous, Unreadable
from stash.measures.colour import Colour
from stash.trade import colour_words, thickness
from stash.wording.label_parts import COLOUR_MARK, ENDS, Line

_NUMBERED = re.compile(
    r"\b(?:class|category|cat|cyc|weight|wt)\.?\s*[:#]?\s*(?P<classes>[0-7](?:\s*(?:[-–/]|to|or)\s*[0-7])?)"
    r"(?!\d|[.,/]\d|\s*[-–]\s*\d|\s*(?:g|gr|oz|kg|lbs?|m|yds?|skeins?|balls?)\b)",
    re.IGNORECASE,
)
#: The number beside its own name, as charts print it: `4 medium`, `(5) bulky`, `light (3)`.
_CLASS_NAMES = r"lace|super\s*fine|super\s*bulky|fine|light|medium|bulky|jumbo"
_WITH_NAME = re.compile(
    rf"(?<![\w.,/#])\(?(?P<n>[0-7])\)?\s+(?P<name>{_CLASS_NAMES})\b(?![\s-]*(?:grey|gr[ae]y|blue|green))"
    rf"|\b(?P<name2>{_CLASS_NAMES})\s+\(?(?P<n2>[0-7])\)?(?![\w.,/%]|\s*[x×])",
    re.IGNORECASE,
)
_PLY = re.compile(
    r"(?<![\w.,])(?P<ply>\d{1,2}[\s-]*ply)\b|(?<![\w.,])(?P<german>[23468][\s-]*(?:fach|f[aä]dig))\b",
    re.I,
)
_COLOUR_NO = re.compile(
    r"\b(?:colou?r(?:way)?|col|clr|shade|farbe)\b\.?\s*(?:no\b\.?|number|nr\b\.?)?\s*[:#]?\s*#?\s*"
    r"(?P<told>[0-9][\w-]*(?:/[\w-]+)*)(?!\s*%)|(?<!\w)#\s*(?P<hash>[A-Za-z]{0,2}[0-9][\w-]*)",
    re.IGNORECASE,
)
_COLOUR_TOLD = re.compile(
    rf"\b(?:colou?r(?:way|s)?|col|clr|shade)\b\.?\s*[:=]?\s+?(?P<name>[^\W\d][^\x01\x02]*?)\s*(?={ENDS})",
    re.I,
)
_HEX = re.compile(r"(?<!\w)#(?=[0-9]*[a-f])([0-9a-f]{6})\b", re.IGNORECASE)
_TWO_NUMBERS = re.compile(
    r"(?<!\w)([^\W\d]+)\s+#?(\d+)\s+(?:vs\.?|versus|or)\s+([^\W\d]+)\s+#?(\d+)\b", re.IGNORECASE
)
#: Whole parts of a line that are adjectives before they are classes.
_LONE = re.compile(rf"(?:(?<=^)|(?<=[,;|(\x01]))\s*(light|medium|fine)\s*(?={ENDS})", re.IGNORECASE)


@cache
def _trade_name() -> re.Pattern[str]:
    """The trade's names, alone or in a chain: `worsted-ish/heavy DK`."""
    certain = [
        name for name in thickness.TRADE_NAMES
        if name not in thickness.PLAIN_ADJECTIVES and not name[0].isdigit()
    ]  # fmt: skip
    words = sorted(certain, key=lambda name: (-len(name), name))
    sure = "|".join(re.escape(word).replace(r"\ ", r"[\s-]+") for word in words)
    plain = "|".join(sorted(thickness.PLAIN_ADJECTIVES))
    one = (
        rf"(?:(?:(?:heavy|light)[\s-]+)?(?:{sure})(?:[\s-]?(?:weight|wt)|[\s-]?ish)?"
        rf"|(?:{plain})[\s-]?(?:weight|wt))\b"
    )
    return re.compile(
        rf"(?<![\w]){one}(?:\s*(?:[/–-]|to|or)\s*{one})*(?!\s*(?:spun|ball|thread))", re.IGNORECASE
    )


def take_colour_number(line: Line) -> None:
    """`#941`, `col 941`, a colour value; a lone digit after `#` waits for the rest of the line."""
    if value := line.take(_HEX):
        hexed = f"#{value[1].lower()}"
        line.learn("colour value", hexed, colours=(Colour(hexed),))
    if two := line.take(_TWO_NUMBERS):
        line.learn(
            "colour", two[0], colour=two[0], colours=colour_words.colour_of(two[1] + " " + two[3])
        )
        line.notes.append(
            f"two colours, {two[1]} {two[2]} and {two[3]} {two[4]}: look at the label"
        )
    for found in _COLOUR_NO.finditer(line.rest):
        number = found["told"] or found["hash"]
        if found["hash"] and re.fullmatch("[0-7]", number):
            continue
        line.cut(found.start(), found.end(), COLOUR_MARK)
        line.learn("colour number", number, colour_no=number)
        return


def take_colour_told(line: Line) -> None:
    """A colour with the word `colour` before it, whatever it is called."""
    if told := line.take(_COLOUR_TOLD):
        name = told["name"].strip()
        values = line.so_far.colours or colour_words.colour_of(name)
        line.learn("colour", name, colour=name, colours=values)


def take_class(line: Line) -> None:
    """The thickness class, by number, ply or trade name; two that differ span both."""
    spans = _with_name(line)
    for pattern in (_NUMBERED, _PLY, _trade_name()):
        while found := pattern.search(line.rest):
            _refuse_dark(line, found)
            line.cut(found.start(), found.end())
            classes = thickness.named(found.groupdict().get("classes") or found[0])
            spans += [classes] if classes else []
            if classes is None:
                line.keep("thickness", found[0].strip())
    if not spans and (lone := _LONE.search(line.rest)):
        spans.append(_lone_adjective(line, lone))
    if spans:
        _learn_class(line, min(low for low, _ in spans), max(high for _, high in spans))
        if len(set(spans)) > 1:
            line.notes.append("the class is said twice and differs: both are kept")


def _with_name(line: Line) -> list[tuple[int, int]]:
    """The class said twice over, as number and name; a number that is not its name's waits."""
    found = _WITH_NAME.search(line.rest)
    if not found:
        return []
    number, name = found["n"] or found["n2"], found["name"] or found["name2"]
    plain = " ".join(re.sub(r"super(?=\w)", "super ", name.lower()).split())
    if thickness.plain_name(int(number), int(number)) != f"{plain} ({number})":
        return []
    line.cut(found.start(), found.end())
    return [(int(number), int(number))]


def settle_hash(line: Line) -> None:
    """`#4` is the colour where the class is said, the class where the colour is, else asked."""
    found = re.search(r"(?<!\w)#\s*([0-7])(?![\w-])", line.rest)
    if not found:
        return
    digit = found[1]
    if line.so_far.class_from is not None and not line.so_far.colour_no:
        line.cut(found.start(), found.end(), COLOUR_MARK)
        line.learn("colour number", digit, colour_no=digit)
    elif line.so_far.class_from is not None:
        raise Unreadable(line.text, "one line of yarn", f"say what #{digit} is, or leave it out")
    elif line.so_far.colour_no or line.so_far.colour or colour_words.colour_of(line.rest):
        line.cut(found.start(), found.end())
        _learn_class(line, int(digit), int(digit))
        line.notes.append(f"#{digit} is taken for the class, because the colour is named")
    else:
        raise Ambiguous(found[0], [f"class {digit}", f"colour {digit}"])


def _learn_class(line: Line, low: int, high: int) -> None:
    line.learn("class", thickness.plain_name(low, high), class_from=low, class_to=high)


def _lone_adjective(line: Line, lone: re.Match[str]) -> tuple[int, int]:
    """`medium` by itself is a class; `light` and `fine` might be about anything."""
    word = lone[1].lower()
    low, high = thickness.TRADE_NAMES[word]
    if word != "medium":
        raise Ambiguous(word, [f"class {low}", f"colour: {word}"])
    line.cut(lone.start(), lone.end())
    return low, high


def _refuse_dark(line: Line, found: re.Match[str]) -> None:
    """`dk green` in small letters at the head of a part may be a class or a dark colour."""
    if found[0].strip() != "dk" or line.so_far.class_from is not None:
        return
    before = re.search(r"(?:^|[,;|()\x01\x02])\s*$", line.rest[: found.start()])
    after = re.match(r"\s+([^\W\d]+)", line.rest[found.end() :])
    if before and after and colour_words.colour_of(after[1]):
        colour = after[1]
        raise Ambiguous(f"dk {colour}", [f"DK, {colour}", f"dark {colour}"])
