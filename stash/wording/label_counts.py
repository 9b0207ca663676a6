"""How many skeins a line has, and what is left of a part one."""

from __future__ import annotations

import re
from fractions import Fraction

from stash.errors import Ambiguous, Unreadable
from stash.measures.length import Length
from stash.measures.mass import OUNCE_MG, Mass, grams
from stash.wording import numbers, quantities
from stash.wording.label_parts import ABOUT, AMOUNT, ENDS, PACKAGE, Line

_N = numbers.PATTERN
_TOOLS = r"(?:needles?|hooks?|bowl|bag|bobbin|dpns?|core|cone|tube|stitch\s?holder)"

_GROSS = re.compile(
    rf"(?:gross\s*:?\s*)?({AMOUNT})\s*\(?(?:gross\b|(?:incl?\b\.?|including|includes|with|on)\s*"
    rf"(?:(?:the|a|my|its)\s+)?({_TOOLS})\b\)?)|\bgross\s*:?\s*({AMOUNT})",
    re.IGNORECASE,
)
_TARE = re.compile(rf"\b(?:tare|core|empty cone)\s*(?:weighs|is|of|:)?\s*({AMOUNT})", re.IGNORECASE)
_LEFT = re.compile(
    rf"(?:({ABOUT})\s*)?({AMOUNT}(?:\s*[/=(]\s*{AMOUNT}\)?)?)(?:-?ish)?\s*"
    r"(?:left(?:[\s-]?overs?)?|remain(?:ing|s)|remnants?|partial|part[\s-]?(?:ball|skein|cake|hank)s?"
    r"|on\s+(?:the|my)\s+(?:kitchen\s+)?scales?)\b",
    re.IGNORECASE,
)
#: `150 yards of grey aran left`: an amount, words without another one, and then `left`.
_LEFT_BEHIND = re.compile(
    rf"(?:({ABOUT})\s*)?({AMOUNT})(?=\s+(?:of\s+)?[^,;|()\x01\d]*?\bleft\b(?![\s-]*overs?))",
    re.IGNORECASE,
)
_LEFT_BEFORE = re.compile(
    r"\b(?:left(?:[\s-]?over)?|remaining|remnant|part(?:ial)?(?:[\s-]?(?:ball|skein|cake|hank))?|only|weighs)"
    rf"\s*[:=]?\s*(?:of\s+)?(?:({ABOUT})\s*)?({AMOUNT})(?!\s*/)"
    rf"|(?:({ABOUT})\s*)?({AMOUNT})\s*(?:out\s+)?of\s+(?:an?\s+)?(?={AMOUNT})",
    re.IGNORECASE,
)
#: Said of a skein that is no longer whole, without saying how much of it there is.
_OPENED = re.compile(
    rf"\b(?:partial|partly used|part[\s-]?used|opened|started|in use|part)\b(?:[\s-]?{PACKAGE}\b)?"
    r"|\bleft[\s-]?overs?\b",
    re.IGNORECASE,
)
_NEARLY_ALL = re.compile(
    rf"\b(?:(?:nearly|almost|mostly)\s+(?:full|whole|all|a (?:full|whole))|most(?=\s+of))\b"
    rf"(?:\s+of)?(?:\s+(?:an?|the|it))?(?:\s+{PACKAGE}\b)?(?:\s+left\b)?",
    re.IGNORECASE,
)
#: What yarn is sold in (common practice, no source).
_SOLD_GRAMS = (10, 20, 25, 40, 50, 75, 100, 115, 125, 150, 200, 225, 250, 300, 400, 450, 500, 1000)
_SOLD_OUNCES = (1, 1.75, 2, 3, 3.5, 4, 5, 6, 7, 8, 12, 14, 16)
_WORDS = {"half": "1/2", "third": "1/3", "quarter": "1/4", "thirds": "2/3", "quarters": "3/4"}
_SHARE = (
    r"(?:an?\s+)?(?P<share>half|third|quarter|two[\s-]thirds|three[\s-]quarters"
    r"|(?<![\d/]\s)(?<![\d/.,])(?:1/2|1/3|2/3|1/4|3/4|0[.,][0-9]{1,2}))"
)
_LEAN = (
    r"(?P<more>(?:a\s+(?:bit|little|touch|tad)\s+|just\s+|slightly\s+)?(?:more\s+than|over))"
    r"|(?P<less>(?:a\s+(?:bit|little|touch|tad)\s+|just\s+|slightly\s+)?(?:less\s+than|under))"
    rf"|nearly|almost|{ABOUT}"
)
_PART = re.compile(
    rf"(?<!\w)(?:(?P<lean>{_LEAN})\s*)?{_SHARE}(?:[\s-]?ish)?"
    rf"(?:\s*(?:of\s+)?(?:(?:an?|the|one)\s+)?(?P<package>{PACKAGE})(?:[\s-]?ish)?"
    rf"|\s*of\s+(?:an?|the|one)(?P<whole>(?=\s+{AMOUNT})))?"
    r"(?:\s*(?P<state>left|remaining|full|used|gone))?(?!\w)",
    re.IGNORECASE,
)
_UNIT_AHEAD = re.compile(
    r"\s*(?:\d|[/x×]|(?:an?\s+)?(?:g|gr|oz|ounces?|lbs?|kg|m|yds?|yards?)\b)", re.I
)
NUMBER_WORDS = {
    "a": 1, "an": 1, "single": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6,
    "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "dozen": 12,
}  # fmt: skip
_FEW_WORDS = "|".join(NUMBER_WORDS)
_HALF_MORE = re.compile(rf"\b(\d{{1,2}}|{_FEW_WORDS})\s+and\s+a\s+half\b", re.IGNORECASE)
_AND_A_BIT = re.compile(
    rf"(?<![\w.,/])(?P<n>\d{{1,3}})\s*(?:full\s*|whole\s*)?(?:{PACKAGE}\s*)?(?:\+|&|and|plus)\s*"
    rf"(?:(?:an?|one|1)\s+)?"
    rf"(?:bits?|little|scraps?|some|part(?:ial)?(?:[\s-]?{PACKAGE})?|remnants?|opened|leftovers?)\b(?:\s+more)?"
    rf"(?:\s+{PACKAGE}\b)?",
    re.IGNORECASE,
)
_COUNTS = (
    re.compile(rf"(?<![\w.,/#])(?P<n>{_N})\s*(?:full|whole|new|more|small|large|jumbo)?\s*{PACKAGE}\b"
               rf"(?:\s+of\b)?(?!\s*\+)", re.I),
    re.compile(rf"(?<!\w)(?P<word>{_FEW_WORDS})\s+(?:(?:full|whole|new|single)\s+)?{PACKAGE}\b(?:\s+of\b)?",
               re.I),
    re.compile(rf"(?<!\w)(?P<word>{_FEW_WORDS})\s+(?={AMOUNT}[\s-]*{PACKAGE}\b)", re.I),
    re.compile(rf"(?<![\w.,/#])(?P<n>\d{{1,3}})\s*(?:[x×*]|of)\s*(?={AMOUNT})", re.I),
    re.compile(rf"(?:(?<=[a-z\"])|(?<=[\s(]))\s*[x×*]\s?(?P<n>\d{{1,3}})(?!\w|[.,]\d|\s*(?:sts|rows|{AMOUNT}))",
               re.I),
    re.compile(r"^\s*[x×]\s?(?P<n>\d{1,3})(?![\w.,])", re.I),
    re.compile(r"(?<![\w.,/#])(?P<n>\d{1,3})\s?[x×](?=\s+[^\W\d]|\s*(?:[,;\x01]|$))", re.I),
    re.compile(rf"\b(?:pack|bag|set|lot|box)\s+of\s+(?P<n>\d{{1,3}})\b(?!\s*{AMOUNT})", re.I),
    re.compile(r"\b(?:qty|quantity|count|number of skeins)\s*[:=.]?\s*(?P<n>\d{1,3})\b", re.I),
)  # fmt: skip


def with_halves(text: str) -> str:
    """`two and a half` in figures, before anybody takes the half for itself."""
    return _HALF_MORE.sub(lambda found: f"{NUMBER_WORDS.get(found[1].lower(), found[1])} 1/2", text)


def take_and_a_bit(line: Line) -> None:
    """Whole skeins with a bit beside them: the bit is a line of its own, never rounded up."""
    if more := line.take(_AND_A_BIT):
        _learn_count(line, int(more["n"]))
        line.notes.append(
            "the bit beside the whole skeins is not counted: weigh it, add it by itself"
        )
        line.kept.append(more[0].strip())


def take_counts(line: Line) -> None:
    """How many skeins there are; a half beside whole ones is a line of its own."""
    for pattern in _COUNTS:
        while found := line.take(pattern):
            word = found.groupdict().get("word")
            n = Fraction(NUMBER_WORDS[word.lower()]) if word else numbers.fraction(found["n"])
            if 0 < n < 1:
                _set_part(line, n, found[0])
            elif n.denominator != 1:
                raise _whole_and_part(line, n)
            else:
                _learn_count(line, int(n))


def take_left(line: Line) -> None:
    """What is left of a part skein: weighed, gross with a tool, or as a share of a full one."""
    if tare := line.take(_TARE):
        weight = quantities.mass(tare[1])
        line.learn("tare", str(weight), tare=weight)
    if gross := line.take(_GROSS):
        _learn_gross(line, gross)
    if part := _part_in(line.rest):
        line.cut(part.start(), part.end())
        _learn_part(line, part)
    elif nearly := line.take(_NEARLY_ALL):
        _set_part(line, Fraction(7, 8), nearly[0])
    if found := line.take(_LEFT) or line.take(_LEFT_BEFORE) or line.take(_LEFT_BEHIND):
        about, words = (found[1], found[2]) if found[2] else (found[3], found[4])
        kinds = quantities.found_in(words)
        amount = next((f for f in kinds if isinstance(f.value, Mass)), kinds[0])
        rough = line.so_far.about or bool(about)
        line.learn("left", words.strip(), left=amount.value, about=rough)
        line.take(_OPENED)
    elif line.so_far.left is None and line.part is None and (opened := line.take(_OPENED)):
        line.opened = True
        line.leftover = "left" in opened[0].lower()


def settle_part(line: Line) -> None:
    """A share of a skein becomes an amount once it is known what a full one holds."""
    if line.leftover:
        _take_as_left(line)
    if line.opened and line.part is None:
        raise Unreadable(
            line.text,
            "a line of whole skeins",
            "say what is left of the opened one, like `43g left`, on a line of its own",
        )
    if line.part is None or line.so_far.left is not None:
        return
    full = line.so_far.full_mass or line.so_far.full_length
    if isinstance(full, Mass) and line.so_far.full_length is None and not _is_a_put_up(full):
        raise Ambiguous(line.text, [f"{full} left", f"a skein of {full}, opened"])
    if full is None:
        line.notes.append("a share of a skein of unknown weight: weigh what is left")
        return
    size = full.mg if isinstance(full, Mass) else full.um
    part = round(size * line.part)
    left = Mass(part) if isinstance(full, Mass) else Length(part)
    line.learn("left", f"about {left}", left=left, about=True)


def _take_as_left(line: Line) -> None:
    """The one amount of a leftover is what there is of it; beside a put-up it is not clear."""
    mass, length = line.so_far.full_mass, line.so_far.full_length
    if (mass is None) != (length is None) and line.count in (None, 1):
        line.opened = False
        there = mass or length
        line.learn("left", str(there), left=there, full_mass=None, full_length=None)


def _is_a_put_up(mass: Mass) -> bool:
    """Whether yarn is sold in that weight, in grams or in ounces, printed a little rounded."""
    sold = [grams(g).mg for g in _SOLD_GRAMS] + [round(oz * OUNCE_MG) for oz in _SOLD_OUNCES]
    return any(abs(mass.mg - each) <= each / 50 for each in sold)


def _learn_count(line: Line, n: int) -> None:
    if line.count not in (None, n):
        readings = [f"{each} {'skein' if each == 1 else 'skeins'}" for each in (line.count, n)]
        raise Ambiguous(line.text, readings)
    if n < 1:
        raise Unreadable(line.text, "a number of skeins", "a count begins at 1")
    line.count = n


def _whole_and_part(line: Line, n: Fraction) -> Unreadable:
    whole = int(n)
    return Unreadable(
        line.text,
        "one line of yarn",
        f"write {whole} whole {'skein' if whole == 1 else 'skeins'} on one line "
        f"and {n - whole} of a skein on another",
    )


def _set_part(line: Line, share: Fraction, words: str) -> None:
    line.part = share
    line.so_far = line.roughly()
    words = re.sub(r"\s+of\s+(?:an?|the|one)$", "", words.strip())
    line.kept.append(words)
    line.notes.append(f"{words!r} is a guess: weigh it to be sure")


def _learn_gross(line: Line, gross: re.Match[str]) -> None:
    """The reading as it was, and a word about the tool that is still in it."""
    weight, tare = quantities.mass(gross[1] or gross[3]), line.so_far.tare
    line.kept.append(gross[0].strip())
    if tare and tare < weight:
        line.learn("left", f"{weight} less {tare}", left=weight - tare)
        return
    tool = f"the {gross[2].lower()}" if gross[2] else "what it stood in"
    line.learn("left", f"{weight} with {tool}", left=weight, about=True)
    line.notes.append(f"{weight} includes {tool}: weigh that and give it with --tare")


def _part_in(rest: str) -> re.Match[str] | None:
    """The first share that is plainly one of a skein, not a stray fraction."""
    for found in _PART.finditer(rest):
        last = re.match(rf"\s*{ENDS}", rest[found.end() :])
        if found["package"] or found["state"] or last or found["whole"] is not None:
            return found
        if found["lean"] and not _UNIT_AHEAD.match(rest, found.end()):
            return found
    return None


def _learn_part(line: Line, found: re.Match[str]) -> None:
    """`a bit more than half` lies between a half and three quarters; the middle is taken."""
    words = re.sub(r"[\s-]+", " ", found["share"].lower())
    last = words.split()[-1]
    share = numbers.fraction(_WORDS.get(last, last))
    if found["state"] and found["state"].lower() in ("used", "gone"):
        share = 1 - share
    if found["more"]:
        share = (share + min(Fraction(1), share + Fraction(1, 4))) / 2
    elif found["less"]:
        share = (share + max(Fraction(0), share - Fraction(1, 4))) / 2
    _set_part(line, share, found[0])
