"""Where yarn is kept: a container or a room, with what stands beside it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from stash.parsing.label.span import Kind, Span, span_between
from stash.parsing.label.text import Text
from stash.parsing.label.vocabulary import AMOUNT, compiled
from stash.trade import colour_words

#: What holds yarn, sure enough to be a place by itself.
_STORE = (
    r"(?:bins?|pillowcase|bookshelf|bookshelves|rucksack|backpack|box(?:es)?|shelf|shelves"
    r"|drawers?|baskets?|tubs?|crates?|totes?|cupboards?"
    r"|closets?|wardrobes?|trunks?|chests?|attic|loft"
    r"|garage|cellar|basement|shed|studio|workroom|bedroom|bookcase|cabinet|dresser|sideboard"
    r"|suitcase|sewing\s+room|spare\s+room|craft\s+room|living\s+room"
    r"|box\s*room|utility(?:\s+room)?|conservatory|hallway|pantry|under(?:\s+the)?\s+(?:the"
    r"\s+)?(?:bed|stairs|sofa|desk|table)|zip\s*bag|carrier\s+bag|project\s+bag|vacuum\s+bag"
    r"|hamper|jar|cubby|trolley|rack|bucket|ottoman"
    r"|kiste|karton|regal|schrank|schublade|korb|keller|dachboden|truhe|kommode|panier|boîte"
    r"|bo[iî]te|étagère|tiroir|armoire|placard|grenier|cave|caja|cajón|estante|armario|cesta"
    r"|scatola|cassetto|scaffale|armadio|cesto|soffitta|doos|kast|lade|mand|zolder|krat|plank"
    r"|låda|lådan|hylla|hyllan|korg|korgen|garderob|garderoben|skåp|skåpet|byrå|byrån|källaren"
    r"|vinden|förråd|förrådet|kasse|kassen|hylde|hylle|skap|skab|skuffe|skuff|loftet|kurv)"
)
#: Rooms and furniture that are a place only with a word before them.
_ROOM = (
    r"(?:bag|bed|stairs|sofa|desk|table|room|kitchen|hall|office|landing|den|car|van|caravan|study"
    r"|lounge|barn|fridge|freezer|corner|window\s*sill|chair|piano|work|mum's|nan's|box)"
)
_MOD = (
    r"(?:left-hand|right-hand|the|my|a|an|our|old|new|top|bottom|middle|upper|lower|left|right"
    r"|back|front|big|small|large|little|tall|low|high|long|spare|plastic|wicker|wooden|wood"
    r"|metal"
    r"|cardboard|clear|glass|tin|cloth|canvas|linen|storage|yarn|wool|stash|craft|sewing"
    r"|kitchen|hall|hallway|bedroom|guest|living|dining|room|garden|laundry|airing|bathroom"
    r"|kids|kids'|office|attic|loft|second|first|third|fourth|2nd|1st|3rd|4th|5th|under-?bed"
    r"|vacuum|zip|shoe|hat|moving|banana|toy|blanket|bedside|filing|lidded|striped|spotty"
    r"|flowery|tartan"
    r"|leftovers?|sock|scrap|der|die|das|dem|den|le|la|les|l|du|il|el|de|het|en|ett|oberste?"
    r"|untere?|mum's|nan's|gran's|grandma's|[^\W\d_]+'s|"
    + "|".join(sorted((w for w in colour_words.PLAIN if " " not in w), key=len, reverse=True))
    + r")"
)
_PREP = (
    r"(?:in(?:side)?|on(?:\s+top\s+of)?|at|under(?:neath)?|behind|above|below|beside|next\s+to|top"
    r"\s+of|by|from|near|im|in\s+der|auf\s+dem|unterm|dans|sur|sous|en|nella|nel|nello|sul|op"
    r"|onder|i|på|under)"
)
_TAIL = (
    rf"(?:\s*(?:no\.?|nr\.?|number|#)?\s*(?!{AMOUNT})"
    r"(?:[0-9]{1,3}[a-zA-Z]?|[A-Z][0-9]{0,2})(?![\w.,]*\d|\w"
    r"|\s*(?:[x×%]|g\b|m\b|gr\b|yd|oz|sk|ball|hank)))?"
    r"(?:\s*,?\s*(?:on\s+the\s+)?(?:left|right|top|bottom|back|front)(?:\s+(?:side|hand\s+side"
    r"|row|shelf|one|corner))?(?![^\W\d_])){0,2}"
    rf"(?:\s+(?:in|under|on|by|of|behind|at|beside|next\s+to|near|from)\s+(?:the\s+|my\s+|our"
    rf"\s+)?(?:[^\W\d_'-]+\s+){{0,2}}(?:{_STORE}|{_ROOM})(?![^\W\d_])(?:\s+(?:[0-9]{{1,3}}"
    rf"|[A-Z])(?![\w]))?)?"
)
_WITH_PREP = compiled(
    rf"(?<![\w'])(?:(?:now|kept|stored|lives|still|is|it's)\s+)?{_PREP}\s+(?:{_MOD}\s+){{0,4}}"
    rf"(?:{_STORE}|{_ROOM})(?![^\W\d_]){_TAIL}(?:\s+(?:{_STORE})(?![^\W\d_]){_TAIL})?"
)
_WITH_ID = compiled(
    rf"(?<![\w'])(?:{_MOD}\s+){{0,3}}(?:bins?|box|shelf|drawer|tub|crate|tote|basket|bag|tin"
    rf"|jar|pot|sack|trunk|chest|hamper|suitcase|wardrobe|bucket|folder|pouch|cupboard|kiste"
    rf"|karton|regal|boîte|caja|scatola|doos|låda|kasse|hylla|rack|row|cubby)\s*(?:no\.?|nr\.?"
    rf"|#|number)?\s*"
    r"(?:[0-9]{1,3}[a-z]?|[A-Z][0-9]{0,2})(?![\w.,]*\d|\w|\s*(?:[x×%]|g\b|m\b|gr\b|yd|oz|sk"
    r"|ball|hank))"
)
_BARE = compiled(rf"(?<![\w'])(?:{_MOD}\s+){{0,4}}(?P<store>{_STORE})(?![^\W\d_]){_TAIL}")
#: A bag or a tin is a place where something is said of it: `red bag`.
_COLOURED_BAG = compiled(
    rf"(?<![\w'])(?P<mods>(?:{_MOD}\s+){{1,3}})(?P<store>bags?|pouch|sack|tin|jar|pot)"
    rf"(?![^\W\d_])(?!\s+of)"
)
_STORE_LAST = compiled(rf"(?<![\w'])(?:{_STORE})(?![^\W\d_])")
_HINT = compiled(
    rf"{_STORE}|{_ROOM}|tin|pot|sack|folder|pouch|row|place|location|where|kept|stored|lives"
    rf"|lagerort|plats|plaats|emplacement"
)
#: A place in quotes is all of what stands in them, and no more.
_QUOTED = compiled(
    r"(?<![\w'])(?:(?:place|location|where|kept|stored|lives|is|in|on|at|under|behind)\s*[:=]?\s+"
    r"|(?:place|location)\s*[:=]\s*)+(?P<q>['\"])(?P<place>[^'\"]*[^\W_][^'\"]*)(?P=q)(?!\w)"
)
#: `place attic` goes before what is a place by itself; a name may have the word in it.
_NAMED = compiled(r"(?<![\w'])(?P<key>place|location)\s+(?=[\w'])")
_FIELD = compiled(
    r"\b(?:place|location|where|kept\s+in|stored\s+in|kept|stored|lives|lives\s+in|lagerort"
    r"|ort|emplacement|plaats|plats)\s*[:=]\s*(?!['\"\s])"
)


def place_spans(text: Text) -> Iterator[Span]:
    """Every place a line may hold; a container by itself only where no name goes on from it."""
    if not _HINT.search(text.plain):
        return
    for m in _QUOTED.finditer(text.plain):
        yield span_between(text, m.start(), m.end(), Kind.PLACE, m["place"].strip(), 4.0)
    yield from _after_the_word(text, [*_unnamed(text)])


def _after_the_word(text: Text, found: Sequence[Span]) -> Iterator[Span]:
    """The places a line may hold, each with the word `place` before it where that is there."""
    yield from found
    keys = {text.at(m.start()): text.at(m.end()) for m in _NAMED.finditer(text.plain)}
    ends = {end: first for first, end in keys.items()}
    for span in found:
        if span.first in ends:
            yield replace(span, first=ends[span.first], score=span.score + 4.0)
    for first, start in keys.items():
        end = text.part_end(start)
        if first and first - 1 in text.breaks and start < end:
            yield Span(first, end, Kind.PLACE, 2.0 * (end - first) + 4, text.words(start, end))


def _unnamed(text: Text) -> Iterator[Span]:
    for m in _WITH_PREP.finditer(text.plain):
        yield from _span(text, m, 2.0)
    for m in _WITH_ID.finditer(text.plain):
        first, last = text.tokens_of(m.start(), m.end())
        for start in range(first, last - 1):
            colours = _colours_in(text, start, last)
            yield Span(
                start,
                last,
                Kind.PLACE,
                2.0 * (last - start) + 2 - 0.8 * colours,
                text.words(start, last),
            )
    for m in _BARE.finditer(text.plain):
        yield from _alone(text, m)
    for m in _COLOURED_BAG.finditer(text.plain):
        yield from _alone(text, m)
    yield from _part_that_ends_so(text)
    for m in _FIELD.finditer(text.plain):
        first, last = text.tokens_of(m.start(), m.end())
        end = text.part_end(last)
        if end > last:
            yield Span(first, end, Kind.PLACE, 2.0 * (end - first) + 4, text.words(last, end))


def _span(text: Text, m: re.Match[str], bonus: float) -> Iterator[Span]:
    words = m[0].strip()
    if re.search(
        r"\b(?:bag|box|set|pack)\s+of\b", text.plain[m.start() : m.end() + 4], re.IGNORECASE
    ):
        return
    first, last = text.tokens_of(m.start(), m.end())
    yield Span(first, last, Kind.PLACE, 2.0 * (last - first) + bonus, words)


def _part_that_ends_so(text: Text) -> Iterator[Span]:
    """A part of a few words that ends in a container is a place, whatever leads it."""
    for m in _STORE_LAST.finditer(text.plain):
        _, end = text.tokens_of(m.start(), m.end())
        if end < len(text.tokens) and end not in text.breaks:
            continue
        first = end - 1
        while first > 0 and first - 1 not in text.breaks and text.tokens[first - 1].is_word:
            first -= 1
        if 1 < end - first <= 4 and (first == 0 or first - 1 in text.breaks):
            yield Span(
                first,
                end,
                Kind.PLACE,
                2.0 * (end - first) - (1.5 if first else 3.5),
                text.words(first, end),
            )


def _colours_in(text: Text, first: int, end: int) -> int:
    return sum(token.text.lower() in colour_words.PLAIN for token in text.tokens[first:end])


def _alone(text: Text, m: re.Match[str]) -> Iterator[Span]:
    """`top drawer`, and `blue tub` behind a colour, whose own words may be part of it or not."""
    if re.match(r"\s+(?:of|set|cutter|full|find|end)\b", text.plain[m.end() :], re.IGNORECASE):
        return
    if re.search(
        r"(?:half[\s-]price|sale|bargain|clearance|reduced|remnants?)\s+$",
        text.plain[: m.start()],
        re.IGNORECASE,
    ):
        return
    first, last = text.tokens_of(m.start(), m.end())
    ends = last >= len(text.tokens) or last in text.breaks or not text.tokens[last].is_word
    if not ends:
        return
    for start in range(first, text.at(m.start("store")) + 1):
        opens = start == 0 or start - 1 in text.breaks
        score = 2.0 * (last - start) + (1.5 if opens else 0.3 if start == first else 0.0)
        coloured = _colours_in(text, start, last)
        # a container behind a colour is of the nearest colour only: `cream blue tub`
        score += 1.2 if coloured == 1 else -1.5 * coloured
        if start == 0:
            score -= 3.0 + 2.0 * coloured
        yield Span(start, last, Kind.PLACE, score, text.words(start, last))
