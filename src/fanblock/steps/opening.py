"""``opening``: a garment that opens at a centre line and closes otherwise than by a lace.

The edges meet, stand a little apart, or run past the centre and lie over each other. The cut edge is called ``front edge``,
or ``back edge`` behind; ``center front`` stays the body's own line. Under an overlap that line is marked on the piece.

```yaml
- opening: {at: center front, closed with: buttons, overlap: 15 mm, number: 12, down to: hem}
```
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Literal

from fanblock.draft.lacing import lacing_line
from fanblock.draft.model import PINNED, Closing, Draft, Gap
from fanblock.draft.opening import MOST_OVERLAP_MM
from fanblock.draft.places import size_mm
from fanblock.problems import GeometryError, Problem
from fanblock.terms import Amount, Length


@dataclass(frozen=True, slots=True)
class Opening:
    """An opening at a centre line that does not lace."""

    closed_with: Literal["pins", "buttons", "hooks", "ties"] = field(metadata={"for": "what holds it closed"})
    at: Literal["center back", "center front"] = field(
        default="center front", metadata={"for": "the centre line where the garment opens"}
    )
    width: Amount = field(default=Length(0.0), metadata={"for": "how far apart the edges stand when it is closed"})
    overlap: Amount = field(default=Length(0.0), metadata={"for": "how far each half runs past the centre line"})
    number: int | None = field(default=None, metadata={"for": "how many buttons, hooks or ties"})
    spacing: Amount | None = field(default=None, metadata={"for": "about how far apart they sit, in place of a number"})
    down_to: Literal["waist", "hem"] = field(default="waist", metadata={"for": "how far down they go"})


def problems(options: Opening) -> tuple[tuple[str, str, str], ...]:
    """Return what is wrong with these options as (option, what, remedy)."""
    found = []
    if options.width != Length(0.0) and options.overlap != Length(0.0):
        found.append(("overlap", "stands beside a `width`.", "The edges stand apart or run past the centre: keep one."))
    found += fastening_problems(options.closed_with, options.number, options.spacing is not None)
    return tuple(found)


def fastening_problems(closed_with: str, number: int | None, spaced: bool) -> list[tuple[str, str, str]]:
    """Return what is wrong with a count of fastenings as (option, what, remedy)."""
    found = []
    if number is not None and spaced:
        found.append(("spacing", "stands beside a `number`.", "Keep one: how many, or how far apart."))
    if number == 0:
        found.append(
            ("number", "got 0, needs 1 or more.", "To close it with nothing but pins write `closed with: pins`.")
        )
    if closed_with == PINNED and (number is not None or spaced):
        key = "spacing" if number is None else "number"
        found.append((key, "is of no use with pins.", "Pins go where they are wanted: leave it out."))
    return found


def run(draft: Draft, options: Opening) -> Draft:
    """Return the draft with this opening.

    GeometryError when its edges stand or overlap too far for any garment.
    """
    body = draft.body
    width_mm = size_mm(body, options.width, "waist", "width")
    over_mm = size_mm(body, options.overlap, "waist", "overlap")
    if width_mm > draft.block.half_waist_mm:
        what = f"an opening of {width_mm:.0f} mm is more than half of the waist."
        raise GeometryError([Problem("gap-wide", "width", what, "Open it less, or draw an `open front`.")])
    if over_mm > MOST_OVERLAP_MM:
        what = f"got {over_mm:.0f} mm; each half may run at most {MOST_OVERLAP_MM:.0f} mm past the centre line."
        raise GeometryError([Problem("overlap-wide", "overlap", what, "Let them lie over each other less.")])
    line = lacing_line(draft.block, options.at, width_mm - 2.0 * over_mm)
    closing = Closing(
        by=options.closed_with,
        overlap_mm=over_mm,
        count=options.number,
        spacing_mm=spacing_mm(draft, options.spacing),
        to_hem=options.down_to == "hem",
    )
    gap = Gap(options.at, width_mm - 2.0 * over_mm, line, closing)
    return replace(draft, gaps=(*draft.gaps, gap))


def spacing_mm(draft: Draft, spacing: Amount | None) -> float | None:
    """Return how far apart fastenings shall sit; GeometryError when that is nothing."""
    if spacing is None:
        return None
    apart_mm = size_mm(draft.body, spacing, "waist", "spacing")
    if not apart_mm:
        what = "got nothing between one and the next."
        raise GeometryError([Problem("fastenings-close", "spacing", what, "Give a length, such as 3 cm.")])
    return apart_mm
