"""What a block stands on: the two girths of the body that it is fitted to, each at its own height.

An ordinary block stands on waist and bust. Short stays with gussets stand on underbust and upper chest, since the gussets
add the bust; a high-waisted bodice stands on its raised waist. Whatever it stands on, a block is drawn between the natural
waist (height 0) and the bust (height 1): the girth of a cone grows evenly with height, so what it comes to there follows
from the two girths it is fitted to.
"""

from __future__ import annotations

from dataclasses import dataclass

from fanblock.block.ruled import Block
from fanblock.wearer.body import Body
from fanblock.wearer.girths import BUST, WAIST, girth_height_mm


@dataclass(frozen=True, slots=True)
class Level:
    """A girth of the body on a block: the measure's name, and the height of its level (0 waist, 1 bust)."""

    name: str
    height: float


@dataclass(frozen=True, slots=True)
class Stand:
    """The two girths a block stands on, the lower first: what is eased and reduced is booked on them."""

    lower: Level
    upper: Level

    @property
    def levels(self) -> tuple[Level, Level]:
        """Both, the lower first."""
        return self.lower, self.upper

    @property
    def names(self) -> tuple[str, str]:
        """The names of both measures, the lower first."""
        return self.lower.name, self.upper.name

    @property
    def is_usual(self) -> bool:
        """Whether these are waist and bust."""
        return self.names == (WAIST, BUST)


ON_WAIST_AND_BUST = Stand(Level(WAIST, 0.0), Level(BUST, 1.0))
"""What a block stands on when nobody says otherwise."""


def level_of(block: Block, body: Body, name: str) -> Level:
    """Return the level of a girth on a block, its height counted along the centre front, where it was measured."""
    if name in ON_WAIST_AND_BUST.names:
        return ON_WAIST_AND_BUST.levels[ON_WAIST_AND_BUST.names.index(name)]
    return Level(name, float(girth_height_mm(body, name) / block.center_front_mm))


def stand_on(block: Block, body: Body, lower: str, upper: str) -> Stand:
    """Return the two levels of a block that these girths lie on."""
    return Stand(level_of(block, body, lower), level_of(block, body, upper))
