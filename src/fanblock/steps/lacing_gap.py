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
from fanblock.draft.places import amount_mm
from fanblock.terms import Amount


@dataclass(frozen=True, slots=True)
class LacingGap:
    """An opening at a centre line."""

    width: Amount = field(metadata={"for": "opening between the two lacing edges when laced"})
    at: Literal["center back", "center front"] = field(
        default="center back", metadata={"for": "the centre line where the garment laces"}
    )


def run(draft: Draft, options: LacingGap) -> Draft:
    """Return the draft with this gap; a second gap at the same centre replaces nothing and is refused on reading."""
    width_mm = amount_mm(draft.body, options.width, of="waist")
    gap = Gap(options.at, width_mm, lacing_line(draft.block, options.at, width_mm))
    return replace(draft, gaps=(*draft.gaps, gap))
