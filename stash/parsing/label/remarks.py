"""What a line says beside the yarn itself: days, care, tools, state, and what it is for."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date

from stash.errors import BadInput, Refusal, StashError
from stash.parsing import days
from stash.parsing.label import words
from stash.parsing.label.span import Kind, Span, span_of
from stash.parsing.label.text import Text
from stash.parsing.label.vocabulary import ABOUT, PACKAGE, N, compiled
from stash.stock.yarn import Condition
from stash.trade import colour_words

_NOTE = compiled(r"\b(?:notes?|nb|remarks?|ps)\s*[:=]\s*([^;|]+)")
_BAR_CODE = compiled(
    r"\b(?:ean|upc|barcode|bar code|sku|isbn|art(?:icle)?\.?\s*(?:no|nr)\.?)\s*:?\s*[0-9][0-9"
    r" ]{4,}[0-9]"
)
_FIELDS = {
    Kind.MAKER: compiled(
        r"(?<![\w])(?:maker|made by|brand|mill|dyer|dyed by|spun by|producer)\s*[:=]\s*"),
    Kind.NAME: compiled(r"(?<![\w])(?:yarn|name|garn|fil|laine)\s*[:=]\s*"),
    Kind.OWNER: compiled(r"(?<![\w])(?:owner|belongs to)\s*[:=]?\s*(?=\S)"),
    Kind.CARE: compiled(r"(?<![\w])(?:care|washing)\s*[:=]\s*"),
    Kind.COLOUR: compiled(
        r"(?<![\w])(?:colou?r(?:way)?|col|shade|farbe|couleur|coloris|kleur|färg|farge|farve"
        r"|colore)\.?\s*[:=]\s*(?=[^\W\d_])"),
}  # fmt: skip
_BY = re.compile(r"\b[Bb]y\s+([A-Z][\w'&-]*(?:\s+(?:&\s+|and\s+)?[A-Z][\w'&-]*){0,3})")
_DATE = compiled(
    r"(?:\b(?:bought|purchased|acquired|got)\s*(?:on|:)?\s*)?"
    r"(?<![\w/.-])(\d{4}-\d{1,2}-\d{1,2}|\d{1,2}([/.-])\d{1,2}\2(?:\d{4}|\d{2})"
    r"|\d{1,2}(?:st|nd|rd|th)?\s+(?:jan|feb|mar|apr|may|june?|july?|aug|sept?|oct|nov|dec)[a-z]*\.?"
    r"\s+\d{4})(?![\w/])|\b(?:bought|purchased)\s+(today|yesterday)\b"
)
_SEASON = compiled(
    r"\b(?:bought\s+(?:in\s+)?)?(?:(?:early|late|mid)\s+)?"
    r"(?:spring|summer|autumn|fall|winter|christmas|xmas|easter|jan(?:uary)?|feb(?:ruary)?"
    r"|march|april|may|june|july|aug(?:ust)?|sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec"
    r"(?:ember)?)\s+(?:of\s+)?(?:'?\d{2}|\d{4})\b(?!\s*(?:g|m|yd|x)\b)[?]*"
    r"|\b(?:bought|purchased|from|since|circa|about)\s+(?:in\s+|around\s+|about\s+)?(?:19"
    r"|20)\d{2}\b(?!\s*(?:g|m|yds?)\b)[?]*"
    r"|\b(?:bought|purchased)\s+(?:last|this)\s+(?:year|month|week|spring|summer|autumn|winter)"
)
_HAND_DYED = compiled(
    r"\b(?:hand|kettle|plant|indie|naturally)[\s-]*(?:dyed|painted)\b|\bhand-?dye\b"
    r"|\bhandgefärbt\b|\bhandverf\w*\b|\bhandfärgad\w*|\bteint\s+main\b"
)
_CARE = compiled(
    r"\b(?:super[\s-]?wash(?:able)?|(?:do not |don't |no |never )(?:bleach|iron|tumble(?:["
    r"\s-]dry)?|wring"
    r"|machine wash|wash)"
    r"|(?:(?:machine|hand|cool|cold|warm|gentle|wool)[\s-]+)+(?:wash(?:able)?|cycle)(?:\s+only)?"
    r"(?:\s+(?:at\s+)?\d{2}(?:\s*°?\s*C\b|°)?)?"
    r"|(?:machine\s+)?wash(?:able)?\s+(?:at\s+)?\d{2}(?:\s*°?\s*C\b|°|\s*degrees)?|\d{2}\s*"
    r"(?:°|degrees?)\s*(?:C\b)?\s*(?:machine\s+)?wash"
    r"|(?:machine )?washable|dry[\s-]clean(?:\s+only)?|(?:can\s+be\s+)?tumble[\s-]dr(?:y|ied)"
    r"(?:\s+low)?|handwäsche|maschinenwaschbar|lavage\s+(?:à\s+la\s+)?main|lavable|handwas"
    r"|maskinvask|handtvätt|maskintvätt|lavar\s+a\s+mano|lavare\s+a\s+mano"
    r"|(?:lay |dry )flat(?: to dry)?)|(?<!\w)\d{2}\s*°\s*C?\b(?:\s*wash)?"
)
_CONDITIONS = {
    Condition.SMOKE: r"smok(?:e|y|er'?s?|ing)[\s-]+(?:smells?|home|house|damage)"
    r"|smells?\s+(?:of|like)\s+(?:\w+\s+)?(?:smoke|cigarettes)",
    Condition.PETS: r"(?:pet|cat|dog)[\s-]+(?:hairs?|home|house)"
    r"|(?:cat|dog)\s+(?:slept|sat)\s+on\s+it",
    Condition.FADED: r"(?:sun|light)[\s-]?(?:faded|bleached)"
    r"|faded\s+(?:in|by|from|on|at|along)\b[^,;|()]*|(?:a\s+bit|slightly|bit)\s+faded(?:\s+"
    r"(?:in|by|from|on|at)\b[^,;|()]*)?",
    Condition.QUARANTINED: r"(?:in\s+)?quarantined?(?:\s+(?:in|since|until|for)\b[^,;|()]*)?"
    r"|(?:check(?:ed)?\s+for"
    r"\s+"
    r"|possible\s+|some\s+|had\s+|signs\s+of\s+|maybe\s+|has\s+|found\s+(?:a\s+)?)moths?\b[^,;"
    r"|()]*"
    r"|moths?[\s-]+(?:holes?|damage[d]?|eaten|nibbled|larva[e]?|risk|suspected|attack"
    r"|infest\w*|got|in|found|alert|worry|bitten|problem|eggs?|grubs?)\b[^,;|()]*|moths\b[^,;|"
    r"()]*|motten\w*",
}
_CONDITION = {
    condition: compiled(rf"(?<!\w)(?:from\s+an?\s+)?(?:{words})(?!\w)")
    for condition, words in _CONDITIONS.items()
}

_RANGE = rf"{N}(?:\s*[-–]\s*{N})?"
_STITCHES = (
    r"(?:sts?|stitches|scs?|dcs?|hdcs?|trs?|rows?|rnds?|rounds?|r|maschen|reihen|mailles"
    r"|rangs)\b\.?"
)
_SPAN = r"(?:cms?|mms?|inch(?:es)?|ins?\b|\"|m\b)"
_TOOL = (
    r"(?:(?:crochet|circular|double[\s-]pointed|knitting)\s+)?(?:needles?|hooks?|dpns?|ndls?"
    r"|nadeln?|nadelstärke|aiguilles?|crochet|naalden?|haaknaald|stickor|virknål|pinde|pinner"
    r"|hæklenål|ferri|uncinetto|agujas|ganchillo)"
)
_TOOLS = (
    compiled(
        rf"(?:(?:gauge|tension|maschenprobe|{ABOUT})\s*(?::\s*)?){{0,3}}(?<![\w.,]){_RANGE}"
        rf"\s*{_STITCHES}"
        rf"(?:\s*(?:[x×,&/+]|by|and)?\s*{_RANGE}\s*{_STITCHES})?"
        rf"(?P<over>\s*(?:[=/]|to|per|over|in)\s*(?P<span>{N}?\s*{_SPAN}))?(?:\s*(?:[x×]|by)"
        rf"\s*{N}\s*{_SPAN})?"
        rf"(?:\s*(?:on|with|using|,|@)?\s*(?:an?\s+)?{N}\s*mm\b(?:\s*{_TOOL}\b)?)?"
    ),
    compiled(
        rf"(?<!\w)(?:(?:wpi|wraps\s+per\s+inch)\s*:?\s*{_RANGE}|(?:{ABOUT}\s*)?{_RANGE}\s*"
        rf"(?:wpi\b|wraps(?:\s+per\s+inch|/in)\b))"
    ),
    compiled(
        rf"(?:\bhook:?\s*(?:size\s*)?)?(?<![\w/])(?P<label>[A-S]\s?[/-]\s?\d{{1,2}}(?:\s?1/2"
        rf"|\.5)?)(?![\w/])"
        rf"(?:\s*[,(/]?\s*(?P<mm>{N})\s*mm\)?)?(?:\s*hook\b)?"
    ),
    compiled(
        rf"(?<!\w)(?:(?:{_TOOL})\s*(?:sizes?)?\s*:?\s*(?:US|UK)?\s*{_RANGE}(?:\s*mm)?(?!\s*"
        rf"(?:g|oz|yds?|m)\b)"
        rf"(?:\s*[,(/]?\s*(?:US|UK)\s?{_RANGE}\)?)?"
        rf"|{_RANGE}\s*mms?\b(?:\s*[,(/]?\s*(?:US|UK)\s?{_RANGE}\)?)?(?:\s*(?:{_TOOL})\b)?"
        rf"|(?:US|UK)\s?{_RANGE}\s*(?:{_TOOL})\b|(?:US|UK)\s?{_RANGE}(?!\s*[a-z\"$£])(?:\s*[,"
        rf"(/]?\s*{N}\s*mm\)?)?(?:\s*(?:{_TOOL})\b)?)"
    ),
)
_THREAD_SIZE = compiled(
    r"\b(?:size|no\.?|nr\.?|#)\s*(?:3|5|8|10|12|15|20|30|40|50|60|70|80|100)(?=\s*"
    r"(?:mercerised\s+|mercerized\s+|cotton\s+)?(?:crochet|thread|perl[eé]|pearl))"
)
_TOOL_HINT = compiled(
    r"mms?\b|\bsts?\b|stitch|rows?\b|rnds?\b|rounds?\b|masch|maill|\bscs?\b|\bdcs?\b|\bhdcs?\b"
    r"|\btrs?\b|hook|needle|ndl|dpn|nadel|aiguill|naald|stick|virkn|pinde|pinner|ferri|uncinet"
    r"|aguja|ganchill|crochet|wpi|wraps|\b[A-S]\s?[/-]\s?[0-9]|\bU[SK]\s?[0-9]|\br\b"
)
#: How a part that is only a remark begins.
_OPENS_REMARK = compiled(
    r"(?:came\s|knits?\s+(?:up|like|as)|works\s+(?:up|as|like)|crochets\s+(?:up|like)|arrived"
    r"|rescued|donated|passed\s+on|handed\s+down|not\s+for|for(?!\s*[£€$\d])|from(?!\s+(?:bin"
    r"|box|shelf))|gifts?\b(?:\s+(?:from|of))|given|a?\s*presents?|was(?!\s*\d)|were(?!\s*\d)"
    r"|bought(?!\s+\d)|got\s+(?:it|this|from|at|in)|half[\s-]price|won|swapped|traded"
    r"|thrift\w*|charity|op\s+shop|craft\s+fair|market|fair\b|found|lost|missing|no\s+(?:label"
    r"|band|ball\s*band|tag|idea|name|info|longer|smell|moth)"
    r"|(?:ball\s*)?bands?\b|label\b|tag\b|wrapper|think|thought|i\s|we\s|it\b|it's|that|this"
    r"|these|they|she|he|you|smell\w*|feels?|scratch\w*|itch\w*|soft\b|squish\w*|lovely|nice"
    r"|pretty|gorgeous|beautiful|love|like|hate|good|great|bad|very|really|so\b|too\b|not\s"
    r"|don't|do\s+not|doesn't|didn't|can't|never|must|will\b|would|could|should|might|may\b"
    r"|need\w*|want\w*|use\b|using|meant|intended|planned|reserved|saved|saving|save|keep|kept"
    r"|promised|earmarked|enough|makes?\b|made\b|perfect|ideal|leftover\s+from|left\s+(?:over"
    r"\s+)?from|remains\s+of|rest\s+of|scraps?\s+of|remnants?\s+of|ends?\s+of|odds|frogged"
    r"|unravelled|unraveled|reclaimed|recycled\s+from|rewound|wound|hand-?\s?wound|balled"
    r"|tangled|knots?\b|has\b|had\b|have\s+(?!\d)|some\s+(?!used|gone)|slightly|faint|a\s+bit\b"
    r"|with\s+(?:a\s+)?(?:knot|tag|label|band|sparkle)|without\s+(?:band|label)|w/o|old"
    r"\s+stock|discontinued|vintage\s+(?:stock|find)|clearance|sale\b|on\s+sale|reduced"
    r"|bargain|destash|swap|mystery|unlabell?ed|inherited|grandma\w*|granny\w*|nan'?s|mum'?s"
    r"|mom'?s|auntie?'?s|aunt\b|my\s|her\s|his\s|our\s|their\s|(?:my\s+)?friend|neighbour"
    r"|sister|mother|see\s|ask\b|check\b|todo|wip|second\s+hand|secondhand|2nd\s+hand|unsure"
    r"|unclear|unknown|probably\s+(?!dk|aran)|prob\s+(?!dk|aran)|maybe\s+(?!\d)|perhaps"
    r"|possibly|sort\s+of|kind\s+of|think|same\s+as|matches|goes\s+with|weighed|wash\s+before"
    r"|beware|careful|caution|please|note|last\s+one|last\s+of|one\s+of\s+my|most\s+of\s+it|if"
    r"\s|because|but\s|and\s+(?:it|the|a)\b|when|where|while|until|till|since|als\b|für\s|von"
    r"\s+(?!\d)|vom\s|aus\s|pour\s(?!\d)|de\s+(?:ma|mon|la\s+foire)|cadeau|souvenir|para\s|de"
    r"\s+mi|regalo\s+de|per\s+(?:la|il|un)\s|regalo|van\s+(?:oma|mijn|de)|voor\s|till\s+\w"
    r"|från|fra\s|til\s\w|fynd|loppis|kringloop|flohmarkt|geschenk|brocante|vide-grenier"
    r"|rastro|mercatino)"
)
#: How a part that is only a remark ends.
_CLOSES_REMARK = compiled(
    r"(?:find|finds|haul|score|stall|sale|bargain|jumble|rummage|swap|present|prezzie"
    r"|donation)\s*!*"
)
#: A remark that leads a line, up to the name behind it.
_LEADS = compiled(
    rf"^(?:(?:not\s+for\s+sale|do\s+not\s+(?:use|sell)|don't\s+(?:use|sell)|for\s+(?:sale"
    rf"|swap))\s+|(?:(?:{PACKAGE}|scraps?|remnants?|leftovers?|left\s*overs?|oddments?|ends?"
    rf"|bits?|remains|some|few|last|bag|lot)\s+of(?!\s+\d)(?:\s+(?:some|the|my|an?"
    rf"|old))?"
    rf"|restes?\s+d[e']|reste?n?\s+(?:von|af|av|van)|restos?\s+de|avanz[io]\s+di|restant(?:en"
    rf"|je)?\s+van|rester\s+(?:av|af)|(?:a|one|1|my|the|this|jumbo|mini|giant|huge|big|small"
    rf"|large|single|full|new|whole|half)\s+(?:{PACKAGE})\s+of"
    rf"|(?:jumbo|mini|giant|huge|big|large|small)\s+(?:{PACKAGE})(?:\s+of)?|(?:i\s+)?(?:have"
    rf"|got)\s+(?:some|an?)|(?:i\s+)?think\s+(?:it's|it\s+is|this\s+is|its)|it's|this\s+is"
    rf"|probably|prob\.?|maybe|possibly|perhaps|might\s+be|could\s+be|looks\s+like|lost\s+"
    rf"(?:the\s+)?(?:band|label))\s+)+"
)
_DOUBTED = compiled(
    r"\b(?:probably|prob\.?|maybe|possibly|perhaps|think(?:\s+it'?s(?:\s+an?)?)?|could\s+be"
    r"|might\s+be|looks\s+like|guess(?:ing)?|i\s+think|not\s+sure\s+if)(?:\s+an?)?\s+"
)


def remark_spans(text: Text, today: date) -> Iterator[Span]:
    """Everything with a word of its own that is no fact of the yarn's amount, look or name."""
    yield from _fields(text)
    yield from _days(text, today)
    for m in _CARE.finditer(text.plain):
        yield span_of(text, m, Kind.CARE, " ".join(m[0].split()), 2.5)
    for m in _HAND_DYED.finditer(text.plain):
        yield span_of(text, m, Kind.DYED, True, 2.5)
    for condition, pattern in _CONDITION.items():
        for m in pattern.finditer(text.plain):
            yield span_of(text, m, Kind.CONDITION, (condition, m[0].strip()), 3.0)
    for m in _THREAD_SIZE.finditer(text.plain):
        yield span_of(text, m, Kind.NOTE, "thread size", 1.0)
    tools = _TOOLS if _TOOL_HINT.search(text.plain) else ()
    for what, pattern in zip(("gauge", "wraps", "hook", "tool size"), tools, strict=False):
        for m in pattern.finditer(text.plain):
            yield span_of(text, m, Kind.NOTE, what, 2.5)
    yield from _whole_parts(text)


def _fields(text: Text) -> Iterator[Span]:
    """Parts with their name before a colon."""
    for m in _NOTE.finditer(text.plain):
        first, last = text.tokens_of(m.start(), m.end())
        yield Span(first, last, Kind.NOTE, 3.0 * (last - first) + 5, "note", m[1].strip())
    for m in _BAR_CODE.finditer(text.plain):
        yield span_of(text, m, Kind.NOTE, "bar code", 5.0)
    for m in _BY.finditer(text.plain):
        first, start = text.tokens_of(m.start(), m.start(1))
        if first and first - 1 in text.breaks:
            end = text.at(m.end())
            yield Span(first, end, Kind.MAKER, 2.0 * (end - first) + 2, m[1])
    for kind, pattern in _FIELDS.items():
        for m in pattern.finditer(text.plain):
            first, start = text.tokens_of(m.start(), m.end())
            end = _field_end(text, start, kind)
            if end > start:
                value = text.words(start, end)
                yield Span(first, end, kind, 2.0 * (end - first) + 3, value, "told")


def _field_end(text: Text, start: int, kind: Kind) -> int:
    """Where a field's value ends: with its part, or before the first figure."""
    end = text.part_end(start)
    if kind in (Kind.NAME, Kind.CARE):
        return end
    figures = [at for at in range(start, end) if text.tokens[at].is_figure]
    return figures[0] if figures else end


def _days(text: Text, today: date) -> Iterator[Span]:
    for m in _DATE.finditer(text.plain):
        first, last = text.tokens_of(m.start(), m.end())
        try:
            value: date | StashError = days.day(m[1] or m[3], today)
        except (BadInput, Refusal) as wrong:
            value = wrong
        yield Span(first, last, Kind.DAY, 2.0 * (last - first) + 3, value, m[0].strip())
    for m in _SEASON.finditer(text.plain):
        yield span_of(text, m, Kind.NOTE, "about when", 3.0)


def _titled(text: Text, first: int) -> bool:
    """Whether a line begins like a name: `Soft Whisper DK`."""
    two = text.tokens[first : first + 2]
    return (
        first == 0 and text.mixed_case and len(two) == 2 and all(t.text[0].isupper() for t in two)
    )


def _only_says_colour(typed: str) -> bool:
    """`they're navy`, `it's the mustard one`: a colour, however much is said around it."""
    said = [w for w in re.findall(r"[^\W_]+(?:'[^\W_]+)*", typed.lower()) if not words.is_filler(w)]
    return bool(said) and colour_words.only_colour(" ".join(said))


def _whole_parts(text: Text) -> Iterator[Span]:
    """A part that opens as a remark does is one to its end, whatever words it holds."""
    if m := _LEADS.match(text.plain):
        first, last = text.tokens_of(m.start(), m.end())
        if re.search(
            r"scrap|remnant|leftover|rest|avanz|left\s*over|oddment|\bends?\b|\bbits?\b", m[0], re.I
        ):
            yield Span(first, last, Kind.OPENED, 2.0 * (last - first) + 1, "scraps", m[0].strip())
        kind = (
            Kind.NOTE
            if re.search(r"think|probably|maybe|lost|sale|use|sell", m[0], re.I)
            else Kind.GAP
        )
        yield Span(first, last, kind, 2.0 * (last - first), "lead", m[0].strip())
    for m in _DOUBTED.finditer(text.plain):
        first, last = text.tokens_of(m.start(), m.end())
        yield Span(first, last, Kind.GAP, -0.2, "doubt")
    for first in range(len(text.tokens)):
        if first and first - 1 not in text.breaks:
            continue
        end = text.part_end(first)
        start = text.tokens[first].start
        typed = text.words(first, end)
        closes = end - first > 1 and _CLOSES_REMARK.fullmatch(text.tokens[end - 1].text)
        if (
            first < end
            and (closes or _OPENS_REMARK.match(text.plain, start))
            and not _only_says_colour(typed)
            and not _titled(text, first)
        ):
            each, flat = (0.5, 1.0) if re.search(r"\d", typed) else (1.2, 3.5)
            yield Span(first, end, Kind.NOTE, each * (end - first) + flat, "remark", typed)
