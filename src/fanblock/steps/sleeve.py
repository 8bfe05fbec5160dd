"""``sleeve``: a sleeve drawn to the garment's own armhole and set into it.

In one piece, as gowns and jackets of about 1740-90 have it: the under half is sewn flat to the lower armhole, the spare of
the upper cap is tucked over the strap or the shoulder, and it is bent at the elbow by darts or by its seam behind. In two
pieces, for doublets and spencers: a top and an under sleeve, both bent, with a little ease. Straps come before this step.

The lower cap is the lower armhole itself, stretch for stretch, only bent more or less until the under half is half the sleeve
wide; the upper cap is as long as the rest of the armhole and the spare.

```yaml
- sleeve: {length: elbow, spare: 5 cm}
- sleeve: {pieces: 2, length: long, ease: 6 cm}
```
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from fanblock.draft.places import size_mm
from fanblock.draft.work import Work
from fanblock.sleeves.arm import Ease
from fanblock.sleeves.making import BY_DARTS, Cut, with_sleeve
from fanblock.sleeves.onepiece import Darts
from fanblock.terms import Amount, Length
from fanblock.units import marked_mm

SPARE_MM = {1: 50.0, 2: 10.0}
"""Spare of the upper cap where nothing is said: 3 to 8 cm are tucked (common practice), a centimetre is eased (from memory)."""

MOST_DARTS = 4


@dataclass(frozen=True, slots=True)
class Sleeve:
    """How a sleeve is cut, how long, how wide, and how it is set in."""

    pieces: int = field(default=1, metadata={"for": "1, or 2 for a top and an under sleeve"})
    length: Literal["elbow", "long"] | Amount = field(
        default="elbow",
        metadata={
            "for": "where it ends: just below the elbow, at the wrist, or so far from the shoulder over the elbow"
        },
    )
    ease: Amount = field(default=Length(50.0), metadata={"for": "how much wider than the upper arm"})
    elbow_ease: Amount = field(default=Length(25.0), metadata={"for": "how much wider than the bent elbow"})
    hem_ease: Amount = field(default=Length(25.0), metadata={"for": "how much wider than the arm where it ends"})
    spare: Amount | None = field(
        default=None,
        metadata={"for": "how much longer the upper cap is than what it is sewn to; 5 cm, or 1 cm in 2 pieces"},
    )
    bend: Literal["darts", "seam"] | None = field(
        default=None, metadata={"for": "for 1 piece, what bends it: elbow darts, as if left out, or its seam behind"}
    )
    darts: int = field(default=2, metadata={"for": "number of elbow darts"})
    dart_take: Amount = field(default=Length(40.0), metadata={"for": "what the elbow darts take together"})
    seam_ahead: Amount = field(
        default=Length(20.0),
        metadata={"for": "how far before the armhole's lowest point the seam of a darted sleeve stands"},
    )
    forward: Amount = field(default=Length(70.0), metadata={"for": "for 2 pieces, how far the wrist comes forward"})
    over_shoulder: Amount | None = field(
        default=None,
        metadata={"for": "length of a strap that is not on the sheets, where the armhole is open without it"},
    )
    name: str = field(
        default="sleeve", metadata={"for": "what the piece is called; of 2, what follows “top” and “under”"}
    )


def problems(options: Sleeve) -> tuple[tuple[str, str, str], ...]:
    """Return what is wrong with these options as (option, what, remedy)."""
    found = []
    if options.pieces not in SPARE_MM:
        found.append(("pieces", f"got {options.pieces}, needs 1 or 2.", ""))
    if options.pieces == 2 and options.bend is not None:
        found.append(("bend", "stands beside 2 pieces, which are bent by both their seams.", "Take it out."))
    if not 1 <= options.darts <= MOST_DARTS:
        found.append(("darts", f"got {options.darts}, needs 1 to {MOST_DARTS}.", ""))
    return tuple(found)


def adds(options: Sleeve) -> tuple[str, ...]:
    """Return the names of the pieces this step adds."""
    return (options.name,) if options.pieces == 1 else (f"top {options.name}", f"under {options.name}")


def run(work: Work, options: Sleeve) -> Work:
    """Return the work with the sleeve added and set in."""

    def mm(name: str, of: str) -> float:
        return size_mm(work.body, getattr(options, name), of, name.replace("_", " "))

    ease = Ease(mm("ease", "upper arm"), mm("elbow_ease", "elbow"), mm("hem_ease", "wrist"))
    each = marked_mm(mm("dart_take", "elbow") / options.darts, work.body.units)
    darts = Darts(options.darts, options.darts * each)
    cut = Cut(options.pieces, options.bend or BY_DARTS, mm("seam_ahead", "armhole"), darts, mm("forward", "arm length"))
    length = options.length if isinstance(options.length, str) else mm("length", "arm length")
    spare = SPARE_MM[options.pieces] if options.spare is None else mm("spare", "armhole")
    over = None if options.over_shoulder is None else mm("over_shoulder", "armhole")
    return with_sleeve(work, options.name, cut, length, ease, spare, over)
