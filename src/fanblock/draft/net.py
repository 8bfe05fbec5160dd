"""What meets what where panels are sewn together, before they are trued: ends of seams, and the parts of one seam."""

from __future__ import annotations

from fanblock.draft.mates import MatePair, Rim, RimPlace, beside, crossing, rim_at
from fanblock.pattern.model import HEM, SLIT, TOP

CROSSING_KINDS = (TOP, HEM, "armhole", "neckline", "waist")


class Net:
    """The rims of all panels and the pairs of them that will be sewn together."""

    def __init__(self, panels: list[list[Rim]], pairs: tuple[MatePair, ...]) -> None:
        """Keep the panels and their pairs; they are not changed."""
        self.panels, self.pairs = panels, pairs
        self.by_front = {pair.front: pair for pair in pairs}
        self.mates = {pair.front: pair.back for pair in pairs} | {pair.back: pair.front for pair in pairs}

    def rim(self, place: RimPlace) -> Rim:
        """Return the rim at a place."""
        return rim_at(self.panels, place)

    def crossing(self, pair: MatePair, *, top: bool) -> tuple[RimPlace, RimPlace]:
        """Return the edges that cross a pair at one end, in the panel before it and in the panel behind it."""
        return crossing(self.panels, pair, top=top)

    def is_free(self, pair: MatePair, *, top: bool) -> bool:
        """Return whether a pair ends on crossing edges there, so that its ends may be moved."""
        return all(self.rim(place).kind in CROSSING_KINDS for place in self.crossing(pair, top=top))

    def is_cut(self, pair: MatePair, *, top: bool) -> bool:
        """Return whether a level seam cuts right through an upright one there, so that four panels meet."""
        over, under = self.crossing(pair, top=top)
        if self.rim(pair.front).level or not (self.rim(over).level and self.rim(under).level):
            return False
        if over not in self.mates or under not in self.mates:
            return False
        return self.mates[over][0] != self.mates[under][0]

    def gives(self, pair: MatePair, *, top: bool) -> bool:
        """Return whether the ends of a pair may be moved there: on a free edge, or where its seam goes on past a level one."""
        return self.is_free(pair, top=top) or (self.above(pair) if top else self.below(pair)) is not None

    def parts_below(self, pair: MatePair) -> bool:
        """Return whether a pair's two panels part as tabs below it."""
        return all(self.rim(place).kind == SLIT for place in self.crossing(pair, top=False))

    def below(self, pair: MatePair) -> MatePair | None:
        """Return the part of the same seam beyond the level seam at a pair's low end, if it is sewn."""
        if not self.is_cut(pair, top=False):
            return None
        over, under = (self.mates[place] for place in self.crossing(pair, top=False))
        found = self.by_front.get(beside(self.panels, over, -1))
        return found if found is not None and found.back == beside(self.panels, under, 1) else None

    def above(self, pair: MatePair) -> MatePair | None:
        """Return the part of the same seam beyond the level seam at a pair's upper end."""
        return next((one for one in self.pairs if one.seam == pair.seam and self.below(one) == pair), None)

    def chains(self) -> list[list[MatePair]]:
        """Return the parts of every seam that level seams cut, each from the top down; an uncut seam is a chain of one."""
        follows = {pair: self.below(pair) for pair in self.pairs}
        later = set(follows.values())
        chains = []
        for pair in self.pairs:
            if pair not in later:
                chain: list[MatePair] = []
                one: MatePair | None = pair
                while one is not None:
                    chain.append(one)
                    one = follows[one]
                chains.append(chain)
        return chains
