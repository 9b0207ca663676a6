"""The words around a fact, in the languages labels are in: fragments of patterns.

Words of the trade and of everyday speech in English, German, French, Spanish, Italian, Dutch and
the Nordic languages (common practice, no source).
"""

from __future__ import annotations

import re
import sys
from collections.abc import Iterator
from functools import cache

from stash.parsing import numbers, quantities
from stash.parsing.label.text import NUMBER_WORDS

N = numbers.PATTERN
#: An amount with its unit, without names for its parts; a figure behind a slash of counts
#: (`2/8 240 g`) does not reach back over the slash.
AMOUNT = quantities.PATTERN.replace("?P<number>", "?:").replace("?P<unit>", "?:")
ABOUT = (
    r"(?:about|abt\.?|approx(?:imately|\.)?|circa|ca\.|c\.|ca(?=[\s.\d])|roughly|around|maybe"
    r"|est\.?|nearly|almost"
    r"|probably|prob\.?|at\s+most|at\s+least|ungefähr|etwa|environ|ongeveer|cirka|~|≈|±|ish\b)"
)


#: A skein in any of its packages, with the slips of the finger that are common.
PACKAGE = (
    # letters changed round, doubled or left out: skien, ballls, hnaks
    r"(?:(?:mini[\s-]*)?(?:s(?=[ein]*k)[kein]{3,6}s?|b(?=a*l)[al]{2,5}s{0,2}|h"
    r"(?=[an]*k)[ank]{2,4}s?)|skeynes?|sckeins?|skeine?'?s|sk[sn]s?|sks?"
    r"|cakes?|yarn\s+cakes?|cones?|bobbins?|donuts?|minis?|packages?"
    r"|pcs?|pieces?|nos|units?|spools?|reels?|tubes?|centre[\s-]pulls?"
    r"|kn(?:ä|ae?)ue?ls?|knäueln|str(?:ä|ae?)nge?n?|st(?:ü|ue)cke?|konen?|wickel"
    r"|pelot(?:t)?es?|[ée]cheveaux?|cônes?|boules?"
    r"|ovillos?|madejas?|conos?|gomitol[oi]|matass[ae]|rocc(?:a|he)"
    r"|bollen|bolle(?:tje)?s?|bol(?:letje)?s?|knot(?:ten)?|streng(?:en)?|strengs"
    r"|nystan|nysta|h[äa]rvor|h[äa]rva|nøster|nøste|nøgler|nøgle|fed|bundter|bundt|hespel|hesper"
    r"|novelos?|meadas?|kerää|kerät)(?![^\W\d_])"
)
TO_A_WORD = rf"(?:{'|'.join(sorted(NUMBER_WORDS, key=len, reverse=True))})"
#: What is said of balls before their name.
_SIZES = (
    r"(?:virgin|unused|full|whole|new|small|large|big|huge|mini|giant|more|jumbo|unopened|sealed"
    r"|complete|untouched|single|more|volle?|ganze?|nouvelles?|nya|hele|hela|intere|interi"
    r"|enteros?|identical|matching)"
)
BALLS = rf"(?:(?P<size>{_SIZES})\s+)?{PACKAGE}"

LEFT = (
    r"(?:left(?:[\s-]?overs?)?(?!\s+(?:side|hand|drawer|shelf|over\s+from))|remain(?:ing|s"
    r"|der)?|remnants?"
    r"|still\s+there|to\s+go|spare|to\s+use(?:\s+up)?|on\s+(?:the|my)\s+(?:kitchen\s+)?scales?"
    r"|übrig|rest(?:lich|ant|ants|ante|antes|an|erend|erende)?"
    r"|kvar|igjen|tilbage|over(?=\s*(?:,|;|$))|qued(?:a|an)|rimast[oiae]|resto|reste)(?![^\W\d_])"
)
USED = (
    r"(?:used(?:\s+up)?|gone|taken(?:\s+(?:off|out))?|missing|consumed|knitted|crocheted|hooked"
    r"|worked(?:\s+up)?|off\s+it|weg|verbraucht|verstrickt|utilis[ée]e?s?|gebruikt|usat[oaie]"
    r"|usad[oa]s?|brugt"
    r"|brukt|använ[td]|förbrukat|gastad[oa]s?)(?![^\W\d_])"
)
#: Said of a skein that is no longer whole, without saying how much of it there is.
OPENED = (
    r"(?:part(?:ial(?:ly)?|ly|s)?(?:[\s-]?(?:used|knitted|worked|gone))?(?:[\s-]+" + PACKAGE + r")?"
    r"|(?:already\s+)?opened|already\s+open|open(?=\s*(?:,|;|$|\)))|started|begun|in\s+use"
    r"|been\s+(?:used|started|opened)|left[\s-]?overs?|remnants?|scraps?|oddments?|odds\s+and"
    r"\s+ends|used|not\s+(?:quite\s+)?full|not\s+whole"
    r"|some\s+(?:used|gone|missing)|angebrochen\w*|angefangen\w*|entam[ée]e?s?|commenc[ée]e?s?"
    r"|iniziat[oaie]"
    r"|aangebroken|begonnen|påbörja[dt]e?|påbegyndt|påbegynt|empezad[oa]s?|abiert[oa]s?"
    r"|rester?)(?![^\W\d_])"
)
WHOLE = (
    r"(?:virgin|pristine|un(?:used|opened|touched|worked)|never\s+(?:used|opened)|not\s+"
    r"(?:used|opened|started)(?:\s+yet)?|brand\s+new|sealed|whole|full|new|intact|ungeöffnet|"
    r"neu|neuf|neuve|nueva?|nuovo|nieuw|ny|complete)(?![^\W\d_])"
)
EACH = (
    rf"(?:each(?:\s+one)?|ea\b\.?|apiece|a\s+piece|p\s?/\s?(?:ball|skein)|per\s+(?:{PACKAGE}"
    rf"|piece|one|item)|a\s+{PACKAGE}"
    rf"|/\s?(?:ea\b|each|{PACKAGE})|(?:je|pro)\s+{PACKAGE}|pro\s+stück|je(?![^\W\d_])|l[ae]\s+"
    rf"(?:{PACKAGE}|pi[èe]ce)"
    rf"|(?:per|par|por|cada|pr\.?|il)\s+{PACKAGE}|/\s?st\b\.?|styck(?:et)?|per\s+stuk|per\s+st\b\.?"
    r"|(?:l'un|l'una|cad\.?|c/u|chacune?|ciascuno|elk|stuk|stk|cada\s+uno|chaque|p\.?\s?st\.?"
    r"|p\.\s?stuk|pr\.?\s+stk\.?|/stk))(?![^\W\d_])"
)
FOR_ALL = (
    r"(?:(?:in\s+)?total(?:\s+(?:cost|paid|price))?|in\s+all|altogether|all\s+together|all"
    r"\s+in|together"
    r"|for\s+(?:all|both|everything|(?:all\s+)?the\s+(?:lot|bag|pack|set|pair|two|three|four"
    r"|five|six|bundle|whole\s+lot)|the\s+lot|them\s+all|all\s+(?:of\s+(?:it|them)|\w+))"
    r"|the\s+lot|the\s+(?:pack|bag|bundle|set)|all\s+in|zusammen|insgesamt|gesamt|pour\s+(?:le"
    r"\s+)?(?:tout|lot)|en\s+tout|en\s+total|in\s+totale|por\s+todo|samen|totaal|totalt"
    r"|tillsammans|i\s+alt|tilsammen|sammanlagt|ialt|het\s+geheel)(?![^\W\d_])"
)
#: A whole amount for some balls: words before and behind it.
IN_ALL = (
    r"(?:(?:in\s+)?total(?:\s+weight)?|in\s+all|altogether|all\s+together|all\s+in|all\s+told"
    r"|combined|together"
    r"|overall|between\s+them|zusammen|insgesamt|gesamt|en\s+tout|au\s+total|en\s+total|in"
    r"\s+totale|totale|samen|(?:in\s+)?totaal|totalt|sammanlagt|tillsammans|i\s+alt|tilsammen"
    r"|ialt)(?![^\W\d_])"
)


def words_of(text: str) -> frozenset[str]:
    """A set of words, written out with spaces between them."""
    return frozenset(text.split())


class Pattern:
    """A pattern that minds no capitals and is compiled when it is first looked for.

    A line needs few of the some two hundred patterns of a label, and compiling them all would take
    longer than everything else a command does.
    """

    __slots__ = ("_compiled", "pattern")

    def __init__(self, pattern: str) -> None:
        self.pattern = pattern
        self._compiled: re.Pattern[str] | None = None

    def compiled(self) -> re.Pattern[str]:
        """The pattern itself."""
        if self._compiled is None:
            self._compiled = re.compile(self.pattern, re.IGNORECASE)
        return self._compiled

    def finditer(
        self, text: str, start: int = 0, end: int = sys.maxsize
    ) -> Iterator[re.Match[str]]:
        """Every place it fits, from left to right."""
        return self.compiled().finditer(text, start, end)

    def search(self, text: str) -> re.Match[str] | None:
        """The first place it fits."""
        return self.compiled().search(text)

    def match(self, text: str, start: int = 0) -> re.Match[str] | None:
        """Whether it fits at a place."""
        return self.compiled().match(text, start)

    def fullmatch(self, text: str) -> re.Match[str] | None:
        """Whether it is the whole text."""
        return self.compiled().fullmatch(text)


@cache
def compiled(pattern: str) -> Pattern:
    """One pattern for the same words wherever they are looked for."""
    return Pattern(pattern)
