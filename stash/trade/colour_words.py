"""Plain words for colours, as near as a screen comes to them.

The words are of the language only; the values are our own choice, meant for sorting a shelf by
lightness and hue until somebody gives a better value. Undyed and metal words are included because
labels use them.
"""

from __future__ import annotations

import re

from stash.measures.colour import Colour, ciede2000, lab

PLAIN: dict[str, str] = {
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
    "heather": "#9a86a4", "orchid": "#b873b4", "amethyst": "#8a62a8", "grape": "#5b3a72",
    "damson": "#4a2440", "mulberry": "#70284e", "blackberry": "#3f2138", "boysenberry": "#5f1f43",
    "iris": "#5d55a8", "thistle": "#b49cc0", "wisteria": "#a792cf", "periwinkle": "#8b93d6",
}  # fmt: skip

#: Things that colours are named after, and yarns as often: alone at the head of a line they may be
#: a name.
THINGS: dict[str, str] = {
    "snow": "#f7f8f8", "chalk": "#eeece4", "milk": "#f5f1e6", "pearl": "#e8e3d9", "bone": "#e3dac6",
    "winter white": "#f3efe4", "porcelain": "#edeae4", "vanilla": "#f0e4c0", "champagne": "#ecdcc0",
    "parchment": "#e8dcbc", "almond": "#e2cfae", "biscuit": "#d6b98a",
    "stone": "#b9b0a0", "putty": "#bfb09a", "mushroom": "#b0a090", "oyster": "#cfc8ba",
    "pebble": "#a8a098", "dove": "#b3b3b6", "pewter": "#7d8286", "steel": "#70787f",
    "smoke": "#8d9094", "storm": "#5a6470", "ink": "#1c2233",
    "onyx": "#19191b", "jet": "#111112", "coal": "#26272a", "soot": "#2d2c2d", "ebony": "#241d1a",
    "wheat": "#dcc38a", "barley": "#d0b27a", "oat": "#d8c7a4", "hay": "#d3bd74", "hazel": "#94683c",
    "hazelnut": "#94683c", "walnut": "#5d4130", "pecan": "#7d5230", "acorn": "#7f5a38",
    "clay": "#a8694c", "umber": "#5e4632", "sienna": "#98522d", "russet": "#87432a",
    "cocoa": "#5a3a28", "mocha": "#6b4a36", "espresso": "#33221a", "peat": "#3b2d22",
    "bark": "#5c4632", "bracken": "#8a5a2c", "fudge": "#8a5f3a", "nutmeg": "#82512e",
    "ginger": "#b5652a", "cider": "#b2702c", "bronze": "#8a6a3a", "brass": "#a98e4c",
    "saffron": "#e6a726", "turmeric": "#d99a1c", "marigold": "#eca322", "sunflower": "#f2bd27",
    "canary": "#f4e04d", "primrose": "#f2e6a0", "buttercup": "#f4cf45", "butter": "#f3e2a0",
    "custard": "#f1dd8c", "daffodil": "#f6db3f", "corn": "#ecc95a", "maize": "#ecc95a",
    "banana": "#f0dd80", "sunshine": "#f5cf3c", "melon": "#f0a070", "mango": "#f0a030",
    "papaya": "#f08a4a", "carrot": "#e2762a", "satsuma": "#ea7f26", "flame": "#e0502a",
    "paprika": "#a83a24", "chilli": "#b02a20", "tomato": "#cc3b2a", "poppy": "#d6322a",
    "pillar box red": "#c41f2a", "cardinal": "#b01c2e", "garnet": "#6e1a2c", "claret": "#6a1830",
    "bordeaux": "#5a1528", "oxblood": "#4e1418", "redcurrant": "#a4152c",
    "strawberry": "#d24a58", "rhubarb": "#b4525a", "cerise": "#c8246a", "peony": "#d6689a",
    "flamingo": "#f08a94", "candy": "#ef9ab4", "bubblegum": "#f29ac0",
    "ballet": "#eccdc8", "blossom": "#f0c4cc", "watermelon": "#e8566a", "lobster": "#cc4a34",
    "fern": "#5d7d3e", "leaf": "#5a8a3a", "grass": "#5f9a3a", "meadow": "#6f9a4a",
    "apple": "#86b040",
    "pear": "#b8c060", "pea": "#86a850", "pistachio": "#b2c48a", "lichen": "#a4ac86",
    "willow": "#8a9a68", "spruce": "#2e5044", "pine": "#26483a", "fir": "#244238", "ivy": "#34543a",
    "holly": "#1f4a30", "hunter": "#274a34", "hunter green": "#274a34", "racing green": "#14402c",
    "loden": "#4a5440", "avocado": "#6a7838", "pickle": "#6e7a36", "cactus": "#5c7a4e",
    "eucalyptus": "#84a494", "celadon": "#a8c4a8", "verdigris": "#4a9484", "duck egg": "#b4d0cc",
    "duck egg blue": "#b4d0cc", "azure": "#3a86c8", "cornflower": "#5f7fcc",
    "cornflower blue": "#5f7fcc", "bluebell": "#6670b8", "forget me not": "#86a8dc",
    "ocean": "#20648a", "sea": "#3a7c8c", "sea green": "#3f8f7c", "lagoon": "#2a8c96",
    "lake": "#346c88", "marine": "#1c3a60", "airforce": "#5a7590", "air force blue": "#5a7590",
    "french navy": "#1f2a50", "oxford blue": "#1a2c50", "cadet": "#50667c", "peacock": "#14616e",
    "kingfisher": "#147a8c", "mallard": "#1a4a52", "cyan": "#2ab0c8", "ice": "#dceaf0",
    "glacier": "#c8dce4", "frost": "#dde6ea", "mist": "#c4ccd0", "cloud": "#d8dce0",
    "electric blue": "#1c5ce0", "ultramarine": "#2a2c98", "delft": "#2c4a8c", "pitch": "#141414",
    "opal": "#cfdcd8", "topaz": "#d8a040", "lava": "#9c2f1e", "mink": "#8a7466", "otter": "#604a3a",
    "fox": "#b4602c", "robin": "#b8442c", "heath": "#8a6a88", "bilberry": "#39305c",
    "blueberry": "#3e4470", "beetroot": "#6a1c3c", "fig": "#55344a", "prune": "#47283a",
    "elderberry": "#3a2440", "sloe": "#2c2840", "olive green": "#666632",
    "royal": "#2543a0", "nude": "#e0c4ac", "sunset": "#e08050",
}  # fmt: skip

COLOURS: dict[str, str] = PLAIN | THINGS

#: Plain colours in other tongues that labels are in, and the word they stand for.
ELSEWHERE: dict[str, str] = {
    word: colour
    for colour, words in {
        "white": "weiß weiss wollweiß blanc blanche blanco blanca bianco bianca wit vit hvit hvid",
        "off white": "ecrù ullvit écru crudo ungebleicht gebroken-wit ubleget",
        "black": "schwarz noir noire negro nero zwart svart sort",
        "grey": "grau gris grigio grijs grå graumeliert",
        "red": "rot rouge rojo roja rosso rossa rood röd rød",
        "blue": "blau bleu bleue azul blu blauw blå",
        "green": "grün vert verte verde groen grön grønn grøn",
        "yellow": "gelb jaune amarillo amarilla giallo gialla geel gul",
        "brown": "braun brun brune marrón marron marrone bruin",
        "pink": "rosa rose-pâle roze",
        "purple": "lila violett morado viola paars purpur",
        "orange": "naranja arancione oranje oransje orange",
        "navy": "dunkelblau marineblau marine marinblå marineblå mörkblå mørkeblå donkerblauw",
        "dark green": "dunkelgrün tannengrün donkergroen mörkgrön mørkegrøn mørkegrønn",
        "dark red": "dunkelrot donkerrood mörkröd mørkerød bordeauxrot weinrot vinröd vinrød",
        "dark grey":
            "dunkelgrau anthrazit anthracite antraciet antracit antracita donkergrijs mörkgrå"
            " mørkegrå",
        "dark brown": "dunkelbraun donkerbruin mörkbrun mørkebrun",
        "light blue": "hellblau lichtblauw ljusblå lyseblå celeste",
        "light green": "hellgrün lichtgroen ljusgrön lysegrønn lysegrøn",
        "light grey": "hellgrau lichtgrijs ljusgrå lysegrå",
        "beige": "sable",
        "mustard": "senf senfgelb moutarde mostaza senape mosterd senap sennep",
        "turquoise": "türkis turquesa turchese turkoois turkos",
        "cream": "creme crème crema",
        "natural": "natur naturel naturale naturell wollweiss",
        "petrol": "pétrole petrolio petróleo",
    }.items()
    for word in words.split()
}  # fmt: skip

#: How far a word moves a colour: towards white (above nothing) or black (below), as a share.
MODIFIERS: dict[str, float] = {
    "light": 0.40, "lt": 0.40, "pale": 0.50, "pastel": 0.50, "soft": 0.20, "baby": 0.45,
    "dusty": 0.15, "dusky": 0.0, "greeny": 0.0, "bluey": 0.0, "reddish": 0.0, "greenish": 0.0,
    "bluish": 0.0, "pinkish": 0.0, "purply": 0.0, "browny": 0.0, "creamy": 0.2, "greyish": 0.0,
    "dark": -0.40, "dk": -0.40, "deep": -0.30,
    "hell": 0.40, "dunkel": -0.40, "clair": 0.40, "claro": 0.40, "chiaro": 0.40, "licht": 0.40,
    "ljus": 0.40, "lys": 0.40, "foncé": -0.40, "oscuro": -0.40, "scuro": -0.40, "donker": -0.40,
    "mörk": -0.40, "mørk": -0.40, "marino": -0.40, "dk.": -0.40, "lt.": 0.40,
    "darkest": -0.5, "neon": 0.0, "rich": -0.15, "dull": 0.0, "dirty": -0.1, "smoky": -0.1,
    "stormy": -0.2, "frosted": 0.2, "icy": 0.4, "antique": 0.0, "classic": 0.0, "true": 0.0,
    "bright": 0.0, "medium": 0.0, "mid": 0.0, "muted": 0.0, "warm": 0.0, "cool": 0.0,
    "vintage": 0.0, "faded": 0.20,
}  # fmt: skip

#: Words about how a colour lies in the yarn: they belong to a colour and add none.
EFFECTS = frozenset({
    "tweed", "fleck", "flecks", "flecked", "heathered", "marl", "marled", "ragg", "mix",
    "mixed", "variegated", "ombre", "gradient", "striping", "striped", "self", "stripe",
    "stripes", "speckle", "speckled", "speckles", "solid", "tonal", "semi", "semisolid",
    "multi", "multicolour", "multicolor", "multicoloured", "multicolored", "rainbow",
    "print", "melange", "mélange", "marls", "heathers", "tweedy", "tweeded", "twist", "ripple",
    "stripey", "stripy", "meliert", "regenbogen", "bunt", "pastels",
    "brights", "random", "undertones", "kettle", "barber", "pole", "tone", "twotone",
    "spotted", "space", "hues", "shades", "nep", "neps",
})  # fmt: skip
JOINING = frozenset({
    "and", "with", "w", "maybe", "or", "possibly", "perhaps", "to", "into", "on", "a",
    "in", "bit", "of", "ish", "und", "et", "y", "e", "en", "och", "og", "n",
})  # fmt: skip
#: Words about a colour that as often end a yarn's name: they do not begin its colour.
OFTEN_IN_NAMES = frozenset({
    "soft", "baby", "warm", "cool", "vintage", "mid", "medium", "tweed", "solid", "print", "mix",
    "twist", "marl", "space", "classic", "true", "rich", "two", "pole", "random", "melange",
})  # fmt: skip
_WORD = re.compile(r"[^\W\d_]+")


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


def nearest_word(colour: Colour) -> str:
    """The plain word whose value looks most like a colour (CIEDE2000), the first of equals."""
    wanted = lab(colour)
    return min(PLAIN, key=lambda word: ciede2000(wanted, lab(Colour(PLAIN[word]))))


def only_colour(words: str) -> bool:
    """True where every word is a colour, a shade of one, its effect, or a word that joins them."""
    tokens = _WORD.findall(words.lower())
    place, colours = 0, 0
    while place < len(tokens):
        size, _ = _name_at(tokens, place)
        token = tokens[place]
        if not size and token not in MODIFIERS and token not in EFFECTS and token not in JOINING:
            return False
        colours += bool(size) or token in EFFECTS
        place += size or 1
    return colours > 0 and not re.search(r"\d", words)


def _name_at(tokens: list[str], place: int) -> tuple[int, str]:
    """How many words the colour name at this place has, two before one, and its value."""
    for size in (3, 2, 1):
        name = " ".join(tokens[place : place + size])
        if name in COLOURS and place + size <= len(tokens):
            return size, COLOURS[name]
    if tokens[place].endswith("s") and tokens[place][:-1] in PLAIN:  # `browns and greens`
        return 1, PLAIN[tokens[place][:-1]]
    word = ELSEWHERE.get(tokens[place])
    return (1, _plain(word)) if word else (0, "")


def _plain(words: str) -> str:
    """The value of a plain word, or of one with a modifier."""
    modifier, _, name = words.rpartition(" ")
    return COLOURS.get(words) or _shifted(COLOURS[name], MODIFIERS[modifier])


def _shifted(hex_value: str, shift: float) -> str:
    """Mixed with white or black by that share."""
    target = 255 if shift > 0 else 0
    parts = [int(hex_value[i : i + 2], 16) for i in (1, 3, 5)]
    return "#" + "".join(f"{round(p + (target - p) * abs(shift)):02x}" for p in parts)
