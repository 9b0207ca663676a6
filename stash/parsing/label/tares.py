"""What a core, a cone or a tool weighs, and readings with one of them."""

from __future__ import annotations

from stash.parsing.label.vocabulary import (
    ABOUT,
    AMOUNT,
    compiled,
)

_TOOLS = (
    r"(?:needles?|hooks?|bowl|bag|bobbin|dpns?|stitch\s?holder|jar|tin|basket|(?:cardboard\s+)?"
    r"(?:core|cone|tube|roll|spool)|inner|label|wrapper|band)"
)


_CORE = (
    r"(?:(?:ball\s+|paper\s+|inner\s+|empty\s+|cardboard\s+|plastic\s+|the\s+)?(?:core|tube|inner)"
    r"|tare|empty\s+(?:cone|bobbin|spool|roll))"
)


_CONE = (
    r"(?:(?:the\s+|its\s+)?(?:cone|bobbin|spool|roll|reel|bowl|kone|cône|kon|konus|cono|bobine"
    r"|spule|spoel))"
)


GROSS = compiled(
    rf"(?:gross\s*:?\s*)?(?P<gross>{AMOUNT}(?:\s*{AMOUNT})?)\s*\(?(?:gross\b|brutto\b|bruto\b"
    rf"|brut\b|lordo\b|(?:incl?\b\.?|including|includes|with|on(?!\s+(?:an?\s+|the\s+)?(?:cone"
    rf"|tube|spool|bobbin|roll|core|card))|inc|inkl\.?|avec|con|met|med|in)\s*"
    rf"(?:(?:the|a|my|its|le|la|il|el|de|het)\s+)?(?P<tool>{_TOOLS})\b(?:\s+on\b)?\)?)|\b"
    rf"(?:gross|brutto|bruto|lordo)(?:\s+weight)?\s*:?\s*(?P<gross2>{AMOUNT})"
)


_WEIGHS = (
    r"(?:alone\s+|by\s+itself\s+|itself\s+)?(?:weighs|weight|is|=|at|:|wiegt|pèse|pesa|weegt|väger"
    r"|vejer|veier)"
)


TARE = compiled(
    rf"\b(?:{_CORE}\s*(?:{_WEIGHS})?|{_CONE}\s*{_WEIGHS})\s*(?:{ABOUT}\s*)?(?P<a>{AMOUNT})"
    rf"|(?:incl?\b\.?|including|includes|minus|less|with|inkl\.?)\s+(?:an?\s+|the\s+|its\s+)?"
    rf"(?:{ABOUT}\s*)?(?P<b>{AMOUNT})\s*(?:for\s+|of\s+)?(?:the\s+|of\s+)?(?:{_CORE}|{_CONE}"
    rf"|tare)"
    rf"|(?P<c>{AMOUNT})\s+(?:{_CORE})(?:\s+weight)?(?=\s*(?:[,;)]|$))|\b(?:incl?\b\.?"
    rf"|including|minus|less)\s+(?P<d>{AMOUNT})\s+(?:for|of)\s+(?:the\s+)?(?:{_CORE}|{_CONE})"
)


#: A bare weight behind the cone is the cone's own only where the yarn was weighed with it.
CONE_ALONE = compiled(rf"\b{_CONE}\s*,?\s*(?:{ABOUT}\s*)?(?P<a>{AMOUNT})(?=\s*(?:[,;)]|$))")


WITH_CONE = compiled(
    rf"\b(?:with|incl\w*\.?|including|on|inkl\.?|gross|mit|avec|med|met)\s+(?:the\s+|its\s+|a"
    rf"\s+)?{_CONE}|\bgross\b|\bbrutto\b|\bbrut[o]?\b|\blordo\b|on\s+(?:the\s+)?scales?"
)
