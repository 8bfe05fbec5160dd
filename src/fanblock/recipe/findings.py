"""What a reading gathers on its way: problems with their places, and the terms it met with theirs."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum

from fanblock.problems import Place, Problem
from fanblock.recipe.phrase import Vocabulary
from fanblock.terms import Around, Dial, Extent, Height, Length, Share

Term = Length | Share | Dial | Height | Around | Extent


class Fault(Enum):
    """Stands where a value could not be read; its problem has been noted."""

    FAULT = "fault"


FAULT = Fault.FAULT


@dataclass(frozen=True, slots=True)
class Sighting:
    """One amount, height or around as it was met: where in the sense of the work, and where in the file."""

    term: Term
    where: str
    place: Place


@dataclass(slots=True)
class Findings:
    """One reading's notes; the only thing here that grows."""

    vocabulary: Vocabulary
    problems: list[Problem] = field(default_factory=list)
    sightings: list[Sighting] = field(default_factory=list)

    def wrong(self, code: str, where: str, what: str, remedy: str, place: Place) -> Fault:
        """Note a problem and return the mark that stands for the value."""
        self.problems.append(Problem(code, where, what, remedy, place))
        return FAULT

    def saw(self, term: Term, where: str, place: Place) -> None:
        """Note a term that was read."""
        self.sightings.append(Sighting(term, where, place))

    def scratch(self) -> Findings:
        """Return empty notes with the same vocabulary, to try a reading without keeping what it finds."""
        return Findings(self.vocabulary)

    def keep(self, other: Findings) -> None:
        """Take over what another reading noted."""
        self.problems.extend(other.problems)
        self.sightings.extend(other.sightings)


def under(where: str, inner: str) -> str:
    """Return the trail one step further in.

    >>> under("step 3 (seam)", "spring")
    'step 3 (seam) › spring'
    """
    return f"{where} › {inner}" if where else inner
