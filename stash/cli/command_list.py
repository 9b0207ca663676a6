"""Every command by its group, with its line in `stash --help`, and what else people call it.

The one table of the command line: the help, the hints and the completion are made from it, and a
command's module is imported only when the command is asked for.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple


class Listed(NamedTuple):
    """A command: its module in `stash.cli`, its line in the list, and its shortest example."""

    name: str
    module: str
    line: str
    example: str


GROUPS: Mapping[str, tuple[Listed, ...]] = MappingProxyType(
    {
        "Everyday": (
            Listed("ideas", "reaching", "What could I make from my yarn?", "stash ideas"),
            Listed(
                "match", "matching", "Sets of yarns that cover a design", 'stash match "Winter hat"'
            ),
            Listed(
                "aside", "items", "Set yarn aside for an item", 'stash aside "Winter hat" 1'
            ),
            Listed("release", "items", "Free the yarn set aside for an item", "stash release 3"),
            Listed("begin", "items", "Note that you have begun an item", "stash begin 3"),
            Listed("weigh", "booking", "Weigh a skein: how much was used?", "stash weigh 12 43g"),
            Listed("use", "booking", "Note yarn you used, by weight or length", "stash use 12 20g"),
            Listed("lasts", "lasting", "Will the yarn last?", "stash lasts 3"),
            Listed("done", "items", "Finish items", "stash done 3 --weighed 80g"),
            Listed(
                "items", "item_list", "What is planned, begun, done, sold", "stash items --open"
            ),
        ),
        "Shelf": (
            Listed(
                "add", "adding", "Put yarn on the shelf",
                'stash add "Fell Wool DK, 3 x 50g/120m, navy, lot 48213"',
            ),
            Listed("shelf", "shelf", "What you have, and what is free", "stash shelf navy"),
            Listed("show", "shelf", "All about a skein, a lot or an item", "stash show 12"),
            Listed(
                "change", "changing", "Change what is noted of your yarn",
                'stash change 12 --place "blue box"',
            ),
            Listed(
                "gone", "booking", "Yarn you gave away, sold, lost or spoilt",
                "stash gone 12 --why given",
            ),
            Listed("split", "stocktaking", "Wind part of a skein off", "stash split 12 40g"),
            Listed(
                "unravel", "stocktaking", "Unravel an item to reuse its yarn", "stash unravel 3"
            ),
            Listed(
                "count", "stocktaking", "Count what is in a box or on a shelf",
                'stash count "blue box" --tick 12,14-17',
            ),
            Listed("import", "sheets", "Bring in a csv, xlsx or json", "stash import yarn.csv"),
            Listed(
                "export", "sheets", "Write your shelf to csv, xlsx or json",
                "stash export yarn.csv",
            ),
        ),
        "Designs": (
            Listed("design", "designs", "What you make again and again", "stash design list"),
            Listed(
                "need", "designs", "The yarn a design takes, by colour", 'stash need "Winter hat"'
            ),
            Listed(
                "grade", "grading", "The yarn for several sizes",
                'stash grade "Winter hat" --sizes "child 5, ladies"',
            ),
            Listed(
                "reach", "reaching", "How far your yarn goes",
                'stash reach "Winter hat" --have A=150m',
            ),
        ),
        "Selling": (
            Listed("order", "orders", "Who wants what by when", "stash order list"),
            Listed(
                "batch", "batching", "Plan what to make before a market",
                'stash batch --want "Winter hat=6"',
            ),
            Listed(
                "short", "shopping", "What is missing, and what to buy",
                'stash short --want "Winter hat=6"',
            ),
            Listed("cost", "selling", "What an item cost, and what to ask", "stash cost 3"),
            Listed("tag", "tagging", "The sale tag of an item", "stash tag 3"),
            Listed("sold", "selling", "Sell a finished item", "stash sold 3 --for 28"),
            Listed("returned", "selling", "A sold item came back", "stash returned 3"),
            Listed("sales", "sales", "What you sold, by period", "stash sales --by month"),
            Listed(
                "value", "selling", "What your stock cost you", "stash value --on 2026-12-31"
            ),
            Listed(
                "year", "sales", "Your year as a workbook, for your books",
                "stash year 2026 year.xlsx",
            ),
        ),
        "Record": (
            Listed("log", "booking", "What you did, entry by entry", "stash log"),
            Listed("undo", "booking", "Cancel an entry", "stash undo"),
            Listed("check", "upkeep", "Check the file for damage", "stash check"),
            Listed("backup", "stocktaking", "Make a safety copy", "stash backup copy.stash"),
            Listed("restore", "stocktaking", "Return to a safety copy", "stash restore copy.stash"),
            Listed("settings", "upkeep", "Your settings", "stash settings units us"),
            Listed("demo", "demo", "Watch the whole job, in a throwaway file", "stash demo"),
            Listed("serve", "serving", "Your stash as a page in the browser", "stash serve"),
            Listed(
                "completion", "completing", "Let your shell complete words with Tab",
                "stash completion bash",
            ),
        ),
    }
)  # fmt: skip

COMMANDS: Mapping[str, Listed] = MappingProxyType(
    {one.name: one for group in GROUPS.values() for one in group}
)

#: The shortest example of each command of a group, by the whole command.
OF_GROUPS: Mapping[str, str] = MappingProxyType(
    {
        "stash design add": 'stash design add "Winter hat" --shape beanie --size woman',
        "stash design list": "stash design list",
        "stash design show": 'stash design show "Winter hat"',
        "stash design change": 'stash design change "Winter hat" --tall 23cm',
        "stash design copy": 'stash design copy "Winter hat" "Summer hat"',
        "stash design drop": 'stash design drop "Winter hat"',
        "stash order add": 'stash order add "aunt" "Winter hat" --by 2026-12-12',
        "stash order list": "stash order list",
        "stash order change": "stash order change 2 --price 32",
        "stash order drop": "stash order drop 2",
    }
)


class Meant(NamedTuple):
    """What somebody wants who types one of these words: the aim, and the command to type."""

    aim: str
    example: str
    words: str


#: Words that are no command but mean one; what is common is named, what is vague is left out.
OTHER_WORDS: tuple[Meant, ...] = (
    Meant(
        "to see or find yarn", "stash shelf navy",
        "list ls find search look where stock inventory yarn yarns wool skein skeins lot lots "
        "lookup filter browse view have stashed",
    ),
    Meant("to read all about a skein", "stash show 12", "info about details display describe get"),
    Meant(
        "to put yarn on the shelf", 'stash add "Fell Wool DK, 3 x 50g/120m, navy"',
        "new buy bought purchase insert received enter got addition",
    ),
    Meant(
        "to change what is noted of your yarn", 'stash change 12 --place "blue box"',
        "edit rename update modify set fix correct move put place store relabel note amend",
    ),
    Meant(
        "to take yarn off the shelf", "stash gone 12 --why lost",
        "delete remove rm del drop discard lose lost give give-away giveaway toss destash donate",
    ),
    Meant(
        "to see what is planned or under way", "stash items",
        "articles article projects project wip wips reserved promised planned status",
    ),
    Meant(
        "to see your designs", "stash design list",
        "pattern patterns piece pieces designs templates template recipes recipe",
    ),
    Meant("to plan before a market", 'stash batch --want "Winter hat=6"', "plan market fair plans"),
    Meant(
        "to see what your yarn could become", "stash ideas",
        "what make suggest idea inspire could can possible possibilities",
    ),
    Meant(
        "to find yarns that go together", 'stash match "Winter hat"',
        "pair pairs combine combos colours colors palette propose proposals",
    ),
    Meant(
        "to set yarn aside", 'stash aside "Winter hat" 1',
        "reserve allocate assign hold promise keep earmark",
    ),
    Meant("to free what is set aside", "stash release 3", "free unreserve unassign abandon"),
    Meant("to begin an item", "stash begin 3", "start begun cast-on caston go"),
    Meant(
        "to finish an item", "stash done 3 --weighed 80g",
        "finish finished complete completed end close off",
    ),
    Meant("to take an item apart", "stash unravel 3", "frog rip undo-item unpick undone tink"),
    Meant("to wind part of a skein off", "stash split 12 40g", "wind divide cut rewind"),
    Meant("to compare a skein with the scale", "stash weigh 12 43g", "weight scale measure"),
    Meant("to note yarn used", "stash use 12 20g", "used usage consume spend took"),
    Meant("to see if the yarn lasts", "stash lasts 3", "last enough left remaining remain"),
    Meant(
        "to see how much yarn it takes", 'stash need "Winter hat"',
        "calc calculate estimate yardage amount needs required require how howmuch",
    ),
    Meant(
        "to see a run of sizes", 'stash grade "Winter hat" --sizes "child 5, ladies"',
        "size sizes grading resize",
    ),
    Meant("to take stock of a place", 'stash count "blue box"', "stocktake audit tick recount"),
    Meant(
        "to see what to buy", 'stash short --want "Winter hat=6"', "shop shopping missing"
    ),
    Meant(
        "to see your orders, or add one", "stash order list",
        "orders ordered commission commissions customer customers",
    ),
    Meant("to sell an item", "stash sold 3 --for 28", "sell sale invoice"),
    Meant(
        "to see what an item cost and what to ask", "stash cost 3", "price prices pricing profit"
    ),
    Meant(
        "to see what you sold", "stash sales",
        "income earnings takings turnover revenue selling sold-items",
    ),
    Meant(
        "to get your year as a workbook", "stash year 2026 year.xlsx",
        "tax taxes accounts accounting bookkeeping annual",
    ),
    Meant("to make the sale tag", "stash tag 3", "label labels print tags"),
    Meant("to note that a sold item came back", "stash returned 3", "return refund"),
    Meant("to see what your stock cost", "stash value", "worth valuation assets"),
    Meant("to cancel an entry", "stash undo", "cancel revert back rollback oops reverse"),
    Meant("to see what you did", "stash log", "history stats entries journal record changes"),
    Meant(
        "to see your settings", "stash settings",
        "config options configure prefs preferences prefer",
    ),
    Meant(
        "to write your shelf to a file", "stash export yarn.csv",
        "save csv xlsx json excel spreadsheet dump download report write",
    ),
    Meant("to bring in a file", "stash import yarn.csv", "load upload read in sheet open"),
    Meant("to make a safety copy", "stash backup copy.stash", "copy archive"),
    Meant("to check the file", "stash check", "verify validate doctor test repair"),
    Meant("to see the whole job", "stash demo", "tutorial example examples tour intro"),
    Meant("to see every command", "stash --help", "commands manual man"),
    Meant("to see which version this is", "stash --version", "version ver"),
)  # fmt: skip
#: The same within `stash design`.
OTHER_DESIGN_WORDS: tuple[Meant, ...] = (
    Meant(
        "to keep a design", 'stash design add "Winter hat" --stated A=150m',
        "new create make save keep insert",
    ),
    Meant("to see your designs", "stash design list", "ls all find search"),
    Meant("to see one design", 'stash design show "Winter hat"', "view see info details read"),
    Meant(
        "to change a design", 'stash design change "Winter hat" --thickness DK',
        "edit rename update modify set fix",
    ),
    Meant("to copy a design", 'stash design copy "Winter hat" "Summer hat"', "duplicate clone"),
    Meant(
        "to no longer list a design", 'stash design drop "Winter hat"',
        "delete remove rm del discard archive hide",
    ),
)  # fmt: skip

#: The same within `stash order`.
OTHER_ORDER_WORDS: tuple[Meant, ...] = (
    Meant(
        "to add an order", 'stash order add "blue, for Friday" "Winter hat" --by 2026-12-12',
        "new create make take save keep insert",
    ),
    Meant("to see your orders", "stash order list", "ls all find search show see open late"),
    Meant(
        "to change an order", "stash order change 2 --by 2026-12-19",
        "edit rename update modify set fix move",
    ),
    Meant("to drop an order", "stash order drop 2", "delete remove cancel rm off"),
)  # fmt: skip

#: Options that mean the same in different mouths; the one a command has is offered.
SAME_OPTIONS: tuple[tuple[str, ...], ...] = (
    ("--place", "--where", "--location", "--bin", "--box", "--shelf", "--room", "--at"),
    ("--note", "--notes", "--comment", "--memo", "--remark", "--text"),
    ("--thickness", "--class", "--weight", "--ply", "--yarn-weight"),
    ("--full", "--put-up", "--band-says", "--skein-size", "--ball"),
    ("--on", "--date", "--day", "--when"),
    ("--why", "--reason", "--because"),
    ("--paid", "--cost", "--price", "--spent"),
    ("--for", "--price", "--whom", "--item", "--project", "--paid"),
    ("--as", "--format", "--output", "--json", "--csv", "--text"),
    ("--file", "--db", "--database", "--path"),
    ("--count", "--number", "--quantity", "--qty", "--skeins", "--balls"),
    ("--free", "--min", "--least", "--at-least", "--length"),
    ("--over", "--force", "--overwrite"),
    ("--all", "--everything", "--full-list", "--verbose"),
    ("--top", "--limit", "--newest", "--max"),
    ("--fibre", "--material", "--content", "--without"),
    ("--with", "--use", "--using", "--yarn", "--skein"),
    ("--around", "--circumference", "--girth", "--head"),
    ("--tall", "--height", "--depth"),
    ("--wide", "--width"),
    ("--long", "--length"),
    ("--size", "--sizes"),
    ("--gauge", "--tension"),
    ("--fabric", "--stitch", "--pattern"),
    ("--need", "--stated", "--have", "--yardage"),
    ("--weighed", "--left", "--weight", "--grams"),
    ("--lot", "--dye-lot", "--dyelot", "--batch"),
    ("--colour", "--shade", "--hue", "--colourway", "--role"),
    ("--hours", "--time"),
    ("--maker", "--brand", "--company"),
    ("--owner", "--whose", "--belongs"),
    ("--sort", "--order", "--order-by", "--sort-by"),
    ("--yes", "--confirm"),
    ("--show", "--preview", "--dry-run"),
)
