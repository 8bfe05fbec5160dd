"""``pleats``: let pleats into a seam, or into a centre line, of skirts that are cut in one with their panels.

The panels on both sides are widened by the cloth of the pleats from a level head at the waist, or below it, down to the hem.
All pleats lie on one another at the seam's own line, and inside: outside the folded edges of a box meet on that line, which
is why it is called inverted too, and those of knife pleats look one way. ``depth`` is the width of one fold, to the nearest
millimetre or sixteenth of an inch; a box pleat takes four of them, a knife pleat two.

```yaml
- pleats: {at: side seam, kind: box, number: 2, depth: 40 mm}
- pleats: {at: center back, kind: inverted, depth: 45 mm, flare: 6 mm}
- pleats: {at: back seam, kind: knife, number: 3, depth: 30 mm, toward: back, cloth: front}
```
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from fanblock.draft.places import size_mm
from fanblock.draft.work import Work
from fanblock.skirts.pleating import Pleats as Plan
from fanblock.skirts.pleating import pleated
from fanblock.terms import Amount, Length
from fanblock.units import marked_mm


@dataclass(frozen=True, slots=True)
class Pleats:
    """What is let into one seam."""

    at: str = field(metadata={"for": "the seam, or `center back`"})
    depth: Amount = field(metadata={"for": "how wide one fold is at the head; taken to the nearest 1 mm, or 1/16 in"})
    kind: Literal["knife", "box", "inverted"] = field(
        default="box", metadata={"for": "how they are folded; `inverted` is another word for `box` here"}
    )
    number: int = field(default=1, metadata={"for": "how many pleats, one on another: two box pleats are a double box"})
    flare: Amount = field(default=Length(0.0), metadata={"for": "how much wider a fold is at the hem"})
    head: Amount = field(default=Length(0.0), metadata={"for": "how far below the waist they begin"})
    toward: Literal["front", "back"] | None = field(
        default=None, metadata={"for": "of knife pleats: which way their folded edges look; left out, `back`"}
    )
    cloth: Literal["front", "back", "both"] | None = field(
        default=None, metadata={"for": "of knife pleats: which panel brings the cloth; left out, `both`"}
    )


MOST = 6
"""More pleats than this on one place are too thick to lie (from memory)."""


def problems(options: Pleats) -> tuple[tuple[str, str, str], ...]:
    """Return what is wrong with these options as (option, what, remedy)."""
    found = []
    if not 1 <= options.number <= MOST:
        found.append(("number", f"got {options.number}, needs a number from 1 to {MOST}.", ""))
    centered = options.at.startswith("center")
    if centered and options.kind == "knife":
        remedy = "Write `box` or `inverted`: both halves are alike there."
        found.append(("kind", "knife pleats cannot lie one way at a centre.", remedy))
    for key, value in (("toward", options.toward), ("cloth", options.cloth)):
        if value is not None and options.kind != "knife":
            found.append((key, f"stands beside `kind: {options.kind}`.", "It is for knife pleats."))
    return tuple(found)


def run(work: Work, options: Pleats) -> Work:
    """Return the panels with these pleats let in."""
    plan = Plan(
        kind=options.kind,
        number=options.number,
        fold_mm=marked_mm(size_mm(work.body, options.depth, "waist", "depth"), work.body.units),
        spread_mm=size_mm(work.body, options.flare, "waist", "flare"),
        below_mm=size_mm(work.body, options.head, "waist", "head"),
        toward=options.toward or "back",
        cloth=options.cloth or "both",
    )
    return pleated(work, options.at, plan)
