"""Words for whom a thing is made, as people say them: who it is, and of which sex."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import IntEnum

from stash.requirements.design.whom import Whom
from stash.trade.bodies import Sex


class Group(IntEnum):
    """Who somebody is, the youngest first."""

    PREEMIE = 0
    NEWBORN = 1
    BABY = 2
    TODDLER = 3
    TEEN = 4
    TWEEN = 5
    CHILD = 6
    GROWN = 7


@dataclass(frozen=True, slots=True)
class Someone:
    """Whom words name: a group and a sex, each None where they do not say."""

    group: Group | None = None
    sex: Sex | None = None

    @property
    def whom(self) -> Whom | None:
        """Whom it is for, as far as cautions go."""
        if self.group is None:
            return None
        if self.group <= Group.BABY:
            return Whom.BABY
        return Whom.ADULT if self.group is Group.GROWN else Whom.CHILD


_WORDS = {
    Someone(Group.PREEMIE): "preemie premie prem preterm premature",
    Someone(Group.NEWBORN): "newborn nb birth",
    Someone(Group.BABY): "baby babies infant bub",
    Someone(Group.TODDLER): "toddler tot",
    Someone(Group.TEEN): "teen teenager teenage adolescent",
    Someone(Group.TWEEN): "tween preteen youth junior",
    Someone(Group.CHILD): "child children kid kiddo preschooler schoolchild schoolchildren",
    Someone(Group.CHILD, Sex.FEMALE): "girl daughter niece granddaughter",
    Someone(Group.CHILD, Sex.MALE): "boy son nephew grandson",
    Someone(Group.GROWN): "adult grownup grown unisex",
    Someone(Group.GROWN, Sex.FEMALE): (
        "woman women lady ladies female mum mom mother wife grandma grandmother aunt"
    ),
    Someone(Group.GROWN, Sex.MALE): (
        "man men gent gentleman gentlemen male guy dad father husband grandpa grandfather uncle"
    ),
}
#: Every word for somebody, without its plural or possessive s.
PEOPLE = {word: who for who, words in _WORDS.items() for word in words.split()}


def someone(word: str) -> Someone | None:
    """Whom one word names: `women`, `women's`, `Ladies`, `kids'`."""
    plain = word.lower().replace("'", "").replace("-", "")
    return PEOPLE.get(plain) or PEOPLE.get(plain.removesuffix("s"))


def together(words: Iterable[str]) -> Someone:
    """Whom several words name together: the youngest they say, and the one sex they say.

    A `baby girl` is a baby, an `adult woman` grown up, `women or men` are of either sex.
    """
    known = [who for word in words if (who := someone(word))]
    sexes = {who.sex for who in known if who.sex is not None}
    return Someone(min(groups(known), default=None), sexes.pop() if len(sexes) == 1 else None)


def groups(known: Iterable[Someone]) -> list[Group]:
    """Whom they are, the youngest first: a word that has a sex only says so beside one of none."""
    each = [who for who in known if who.group is not None]
    named = {who.group for who in each if who.sex is None} or {who.group for who in each}
    if named & {Group.PREEMIE, Group.NEWBORN}:
        named -= {Group.BABY}
    return sorted(group for group in named if group is not None)
