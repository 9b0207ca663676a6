"""Plain words for colours, as near as a screen comes to them.

The words are of the language only; the values are our own choice, meant for sorting a shelf by
lightness and hue until somebody gives a better value. Undyed and metal words are included because
labels use them.
"""

from __future__ import annotations

import re

from stash.measures.colour import Colour

COLOURS: dict[str, str] = {
    # white, grey, black
    "white": "#f8f8f5", "off white": "#f2ede0", "ivory": "#f3ecd6", "cream": "#f1e6c8",
    "natural": "#e9dfc7", "undyed": "#e9dfc7", "ecru": "#dfd2b3", "silver": "#b9bcc0",
    "grey": "#8a8c8f", "gray": "#8a8c8f", "ash": "#a9aaa6", "slate": "#5b6670",
    "graphite": "#4a4c50", "charcoal": "#3b3d42", "black": "#161616",
    # brown and beige
    "beige": "#d8c6a5", "sand": "#d2bc93", "oatmeal": "#cfc1a5", "taupe": "#8b7d70",
    "camel": "#b98d57", "tan": "#b8905f", "fawn": "#c2a27c", "caramel": "#a86b32",
    "toffee": "#8f5c33", "cinnamon": "#9c5428", "chestnut": "#7a3b24", "brown": "#6b4628",
    "coffee": "#553a28", "chocolate": "#43281a", "mahogany": "#552018",
    # red and pink
    "red": "#bf2030", "scarlet": "#cf2a20", "crimson": "#a5152d", "cherry": "#a61231",
    "cranberry": "#84172f", "ruby": "#8e0f33", "maroon": "#611724", "burgundy": "#5e1528",
    "wine": "#621a33", "brick": "#9b412f", "rust": "#a5461f", "terracotta": "#b9603f",
    "copper": "#ad6237", "pink": "#e68fac", "hot pink": "#e0287d", "rose": "#cf6680",
    "blush": "#e8bdb8", "salmon": "#ea8a74", "coral": "#ea6b58", "peach": "#f2b894",
    "apricot": "#efa368", "fuchsia": "#bf2079", "magenta": "#b51b72", "raspberry": "#a61e50",
    # orange and yellow
    "orange": "#e5781f", "burnt orange": "#b8541a", "tangerine": "#ea7f26", "pumpkin": "#d06b20",
    "amber": "#d98e1f", "honey": "#d29a3a", "gold": "#c79a33", "ochre": "#bd8430",
    "mustard": "#c1962a", "yellow": "#f0cf34", "lemon": "#f3e36a", "straw": "#dfcb85",
    # green
    "green": "#2f7d42", "lime": "#a2c93a", "mint": "#aadcbd", "sage": "#9aa983", "moss": "#6b7540",
    "olive": "#666632", "khaki": "#8d8559", "emerald": "#14805a", "jade": "#3b9a75",
    "forest green": "#234a30", "forest": "#234a30", "bottle green": "#16402f",
    "seafoam": "#9fd5c1",
    # blue and turquoise
    "teal": "#1c6c72", "turquoise": "#35a9ad", "aqua": "#72c8c9", "petrol": "#1d4f5c",
    "blue": "#2c5ba3", "sky blue": "#8abfe3", "sky": "#8abfe3", "baby blue": "#acd0e8",
    "powder blue": "#b3cce0", "royal blue": "#2543a0", "cobalt": "#22479c", "sapphire": "#1f3d86",
    "denim": "#48688e", "indigo": "#33326b", "navy": "#1d2544", "navy blue": "#1d2544",
    "midnight": "#171c33", "ice blue": "#cfe3ec",
    # purple
    "purple": "#663388", "violet": "#6f4aa0", "lilac": "#b9a0d2", "lavender": "#b4a6d6",
    "mauve": "#a5819f", "plum": "#5e2a52", "aubergine": "#3d1f3a", "eggplant": "#3d1f3a",
    "heather": "#9a86a4", "orchid": "#b873b4",
}  # fmt: skip

#: How far a word moves a colour: towards white (above nothing) or black (below), as a share.
MODIFIERS: dict[str, float] = {
    "light": 0.40, "lt": 0.40, "pale": 0.50, "pastel": 0.50, "soft": 0.20, "baby": 0.45,
    "dusty": 0.15, "dark": -0.40, "dk": -0.40, "deep": -0.30,
    "bright": 0.0, "medium": 0.0, "mid": 0.0, "muted": 0.0, "warm": 0.0, "cool": 0.0,
    "vintage": 0.0, "faded": 0.20,
}  # fmt: skip

#: Words about how a colour lies in the yarn: they belong to a colour and add none.
EFFECTS = frozenset({
    "tweed", "fleck", "flecks", "flecked", "heathered", "marl", "marled", "ragg", "mix",
    "mixed", "variegated", "ombre", "gradient", "striping", "striped", "self", "stripe",
    "stripes", "speckle", "speckled", "speckles", "solid", "tonal", "semi", "semisolid",
    "multi", "multicolour", "multicolor", "multicoloured", "multicolored", "rainbow",
    "print", "melange",
})  # fmt: skip
_JOINING = frozenset({
    "and", "with", "w", "maybe", "or", "possibly", "perhaps", "to", "into", "on", "a",
    "in", "bit", "of", "ish",
})  # fmt: skip
#: Words about a colour that as often end a yarn's name: they do not begin its colour.
_OFTEN_IN_NAMES = frozenset({
    "soft", "baby", "warm", "cool", "vintage", "mid", "medium", "tweed", "solid", "print", "mix",
})  # fmt: skip
_WORD = re.compile(r"[a-z]+")


def colour_of(words: str) -> tuple[Colour, ...]:
    """Every colour named, in the order it was written, each once.

    `navy-ish, maybe black` is two, `teal/rust/cream` three; `dark green` and `plum / light` are
    one, darker or lighter. Words that are no colour are passed over; with none, nothing comes back.
    """
    tokens = _WORD.findall(words.lower())
    found: list[Colour] = []
    shift, place = 0.0, 0
    while place < len(tokens):
        size, hex_value = _name_at(tokens, place)
        if not size:
            shift = MODIFIERS.get(tokens[place], shift)
            place += 1
            continue
        place += size
        if place == len(tokens) - 1 and tokens[place] in MODIFIERS:
            shift = MODIFIERS[tokens[place]]
        colour = Colour(_shifted(hex_value, shift))
        found += [colour] if colour not in found else []
        shift = 0.0
    return tuple(found)


def only_colour(words: str) -> bool:
    """True where every word is a colour, a shade of one, its effect, or a word that joins them."""
    tokens = _WORD.findall(words.lower())
    place, colours = 0, 0
    while place < len(tokens):
        size, _ = _name_at(tokens, place)
        token = tokens[place]
        if not size and token not in MODIFIERS and token not in EFFECTS and token not in _JOINING:
            return False
        colours += bool(size) or token in EFFECTS
        place += size or 1
    return colours > 0 and not re.search(r"\d", words)


def colour_at_end(words: str) -> tuple[str, str]:
    """A name and the colour it ends with: `Harbour Soft dark navy` -> `Harbour Soft`, `dark navy`.

    The colour is empty where the words end in none; the name is never left empty.
    """
    parts = words.split()
    for start in range(1, len(parts)):
        tail = " ".join(parts[start:])
        if parts[start].lower() in _JOINING | _OFTEN_IN_NAMES:
            continue
        if only_colour(tail):
            while start > 1 and parts[start - 1].lower() in _JOINING:
                start -= 1
            return " ".join(parts[:start]), tail
    return words, ""


def _name_at(tokens: list[str], place: int) -> tuple[int, str]:
    """How many words the colour name at this place has, two before one, and its value."""
    for size in (2, 1):
        name = " ".join(tokens[place : place + size])
        if name in COLOURS and place + size <= len(tokens):
            return size, COLOURS[name]
    return 0, ""


def _shifted(hex_value: str, shift: float) -> str:
    """Mixed with white or black by that share."""
    target = 255 if shift > 0 else 0
    parts = [int(hex_value[i : i + 2], 16) for i in (1, 3, 5)]
    return "#" + "".join(f"{round(p + (target - p) * abs(shift)):02x}" for p in parts)
