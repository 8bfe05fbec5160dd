"""``waist reduction``: how much the lacing takes in at the waist, whole garment, shared by the seams.

```yaml
- waist reduction: {by: 3%}
```
"""

from __future__ import annotations

from dataclasses import dataclass, field

from fanblock.draft.booking import waist_of, with_reduction
from fanblock.draft.model import Draft
from fanblock.draft.places import amount_mm
from fanblock.terms import Amount


@dataclass(frozen=True, slots=True)
class WaistReduction:
    """What the finished waist, gap included, is smaller than body and ease."""

    by: Amount = field(metadata={"for": "taken in at the waist, whole garment; a share is a share of the body's waist"})


def run(draft: Draft, options: WaistReduction) -> Draft:
    """Return the draft with this reduction booked against its waist, the raised waist where the block stands on that."""
    waist = waist_of(draft)
    return with_reduction(draft, waist, amount_mm(draft.body, options.by, of=waist))
