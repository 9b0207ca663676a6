"""What an option or an argument takes, as the help shows it and the completion reads it.

Capitals name a kind of thing (`SKEIN`, `LENGTH`), small words are the words to choose from. Where
one command's option takes something else than its namesakes, it says so itself (`metavar=`).
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

#: By the name of an argument.
OF_ARGUMENTS: Mapping[str, str] = MappingProxyType(
    {
        "design": "DESIGN",
        "item": "ITEM",
        "skein": "SKEIN",
        "place": "PLACE",
        "name": "NAME",
        "amount": "AMOUNT",
        "reading": "WEIGHT",
        "what": "SKEIN|LOT",
        "which": "SET",
        "source": "FILE",
        "target": "FILE",
        "words": "WORDS",
        "entry": "ENTRY",
    }
)

#: By an option's first name; `TEXT` where it is not named, `NUMBER` for a whole number.
OF_OPTIONS: Mapping[str, str] = MappingProxyType(
    {
        option: metavar
        for metavar, options in {
            "text|json|csv": "--as",
            "us|uk": "--terms",
            "brim|crown|centre|edge|toe": "--from",
            "carried|cut": "--ends",
            "flat|decreased|gathered": "--crown",
            "together|hot|any": "--wash",
            "specific|fifo|average": "--method",
            "value|profit|items|leftovers|buying": "--aim",
            "name|free|thickness|colour|place|age": "--sort",
            "yarn|lot": "--by",
            "given|sold|lost|spoilt|mistake": "--why",
            "quarantined": "--also",
            "solid|heathered|tweed|speckled|variegated|striping": "--dyed",
            "smooth|single|cabled|brushed|looped": "--surface",
            "FILE": "--file --save --print",
            "DAY": "--on --bought --to --opening",
            "LENGTH": "--around --tall --wide --long --brim --free",
            "WEIGHT": "--tare",
            "WEIGHT/LENGTH": "--full",
            "LENGTH=WEIGHT": "--metre",
            "PERCENT": "--margin --overhead --fees --loss --hold-back",
            "MONEY": "--paid --fee --fee-back --wage --sundries --postage --gifts-at",
            "HOURS": "--hours --hours-a-week",
            "SECONDS": "--seconds",
            "NUMBER": "--count --strands --per-pair --per-colour --different --rows-left "
            "--stitches-left",
            "THICKNESS": "--thickness",
            "PLACE": "--place --not-in",
            "SKEIN|LOT": "--like --keep-out",
            "SKEIN": "--skein",
            "SKEINS": "--tick --lost",
            "SKEIN=WEIGHT": "--left --weigh",
            "SKEIN=SKEIN": "--into",
            "A=SKEINS": "--skeins",
            "A=SKEIN|LOT": "--with",
            "A=LENGTH": "--need --stated",
            "A=AMOUNT": "--have",
            "[A=]COLOUR": "--not-colour",
            "A=WAY": "--two-lots",
            "A": "--strands-apart",
            "WEIGHT|A=WEIGHT": "--weighed",
            "DESIGN=NUMBER": "--want",
            "DESIGN": "--design",
            "ORDER": "--order",
            "SHAPE": "--shape",
            "SIZE": "--size",
            "SIZES": "--sizes",
            "WHOM": "--for",
            "BAND": "--band",
            "BANDS": "--bands",
            "COLOUR": "--colour --family",
            "#RRGGBB": "--hex",
            "FIBRE": "--fibre --without --functional",
            "CONTRAST": "--contrast",
            "COMMANDS": "--kind",
            "NAME": "--device",
        }.items()
        for option in options.split()
    }
)

#: Where the help of a long command puts an option: headings in their order, the most used first.
HEADINGS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        heading: tuple(options.split())
        for heading, options in {
            "What to make": "--want --offer --count --aim --hours --hours-a-week --by "
            "--per-pair --per-colour --different --hold-back --keep-out --seconds --save --over "
            "--aside --aside-now",
            "Your own choice": "--skeins --note --skein",
            "Shape and size": "--shape --size --for --around --tall --brim --wide --long --ease",
            "Stitches and colours": "--gauge --fabric --band --stripes --ends --seam --crown "
            "--from --extra --terms",
            "Figures you have": "--stated --swatch --weighed",
            "The yarn": "--need --with --colour --not-colour --contrast --thickness --full "
            "--strands --without --wash --no-bleeding --per-100g --owner --not-in --also --margin "
            "--two-lots --strands-apart --assume",
        }.items()
    }
)
#: Up to so many options stand under one heading; less than two need none of their own.
FEW = 14
