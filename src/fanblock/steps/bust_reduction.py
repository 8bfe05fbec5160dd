"""``bust reduction``: how much the garment presses in at the bust, whole garment, shared by the seams.

```yaml
- bust reduction: {by: 1%}
```
"""

from __future__ import annotations

from dataclasses import dataclass, field

from fanblock.draft.booking import with_reduction
from fanblock.draft.model import Draft
from fanblock.draft.places import amount_mm
from fanblock.terms import Amount
from fanblock.wearer.girths import BUST


@dataclass(frozen=True, slots=True)
class BustReduction:
    """What the finished bust, gap included, is smaller than body and ease."""

    by: Amount = field(metadata={"for": "taken in at the bust, whole garment; a share is a share of the body's bust"})


def run(draft: Draft, options: BustReduction) -> Draft:
    """Return the draft with this reduction booked against its bust."""
    return with_reduction(draft, BUST, amount_mm(draft.body, options.by, of=BUST))
