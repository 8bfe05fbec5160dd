"""``pieces``: a band cut into equal pieces, joined end to end, as few as its turn and the cloth allow.

Only a recipe whose ``block`` is a band has this step; it stands in the place of ``separate``. One piece bears the name
alone, several are numbered from the front.

```yaml
- pieces: {name: collar}
- pieces: {name: strip, cloth: 140 cm}
- pieces: {name: flounce, ends: sewn}
```
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Literal

from fanblock.draft.model import Draft
from fanblock.draft.pieces import BACK, FRONT, Division, divided
from fanblock.draft.places import amount_mm
from fanblock.draft.work import Work
from fanblock.problems import GeometryError, Problem
from fanblock.terms import Amount

SHORTEST_MM = 100.0
"""Cloth narrower than this is a ribbon (from memory)."""


@dataclass(frozen=True, slots=True)
class Pieces:
    """The name of the pieces, how many there are at least, and what the ends of the band are."""

    name: str = field(metadata={"for": "what a piece is called; several are numbered"})
    least: int = field(default=1, metadata={"for": "pieces of what is drawn, at least"})
    cloth: Amount | None = field(default=None, metadata={"for": "no piece is longer than this, unfolded"})
    fold: Literal["center back", "center front", "none"] | None = field(
        default=None, metadata={"for": "of a half: the centre that lies on a fold; left out, `center back`"}
    )
    ends: Literal["open", "sewn"] | None = field(
        default=None, metadata={"for": "of a whole: whether its ends are sewn to each other; left out, `open`"}
    )


LONGEST_NAME = 30
"""Most letters of a piece's name, so that its number still fits behind it."""


def problems(options: Pieces) -> tuple[tuple[str, str, str], ...]:
    """Return what is wrong with these options as (option, what, remedy)."""
    found = []
    if not options.name[0].isalpha() or len(options.name) > LONGEST_NAME:
        what = f"“{options.name}” cannot be a name."
        found.append(("name", what, f"Begin with a letter; use at most {LONGEST_NAME} letters."))
    if options.least < 1:
        found.append(("least", f"got {options.least}, needs 1 or more.", ""))
    return tuple(found)


def run(draft: Draft, options: Pieces) -> Work:
    """Return the pieces of the draft's band, ready to be finished."""
    halved = draft.band is not None and draft.band.halved
    if halved and options.ends is not None:
        raise _refused("ends", "the band is drawn as a half, from center front to center back.", "Say `fold` instead.")
    if not halved and options.fold is not None:
        raise _refused("fold", "the band is drawn whole, so there is no fold.", "Say `drawn: half` in `block`.")
    longest = math.inf
    if options.cloth is not None:
        longest = amount_mm(draft.body, options.cloth, "bust")
        if longest < SHORTEST_MM:
            raise _refused("cloth", f"got {longest:.0f} mm, needs {SHORTEST_MM:.0f} mm or more.", "")
    fold = (options.fold or BACK) if halved else ""
    return divided(
        draft,
        Division(options.name, options.least, longest, fold if fold in (BACK, FRONT) else "", options.ends == "sewn"),
    )


def _refused(key: str, what: str, remedy: str) -> GeometryError:
    return GeometryError([Problem("step-options", key, what, remedy)])
