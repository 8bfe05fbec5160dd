"""``lacing gap``: where the garment laces, and how far apart its edges stand when it is laced.

The gap is cut parallel to the centre line, half off each half of the garment; a cut along the rulings would take more
at the bust than at the waist. The cut edge is called ``lacing edge``; ``center back`` stays the body's own line.

```yaml
- lacing gap: {at: center back, width: 50 mm}
```
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Literal

from fanblock.draft.lacing import lacing_line
from fanblock.draft.model import Draft, Gap
from fanblock.draft.places import size_mm
from fanblock.problems import GeometryError, Problem
from fanblock.terms import Amount


@dataclass(frozen=True, slots=True)
class LacingGap:
    """An opening at a centre line."""

    width: Amount = field(metadata={"for": "opening between the two lacing edges when laced"})
    at: Literal["center back", "center front"] = field(
        default="center back", metadata={"for": "the centre line where the garment laces"}
    )


def run(draft: Draft, options: LacingGap) -> Draft:
    """Return the draft with this gap; a second gap at the same centre replaces nothing and is refused on reading.

    GeometryError when the gap is less than nothing or would leave next to no cloth.
    """
    width_mm = size_mm(draft.body, options.width, "waist", "width")
    if width_mm > draft.block.half_waist_mm:
        what = f"a gap of {width_mm:.0f} mm is more than half of the waist."
        raise GeometryError([Problem("gap-wide", "width", what, "Open it less.")])
    gap = Gap(options.at, width_mm, lacing_line(draft.block, options.at, width_mm))
    return replace(draft, gaps=(*draft.gaps, gap))
