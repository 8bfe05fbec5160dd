"""``ease``: how much larger than the body the garment shall be, before any reduction.

```yaml
- ease: {waist: 15 mm, bust: 20 mm}
```
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from fanblock.draft.model import Draft
from fanblock.draft.places import amount_mm
from fanblock.terms import Amount, Length


@dataclass(frozen=True, slots=True)
class Ease:
    """Room over the whole garment, of either sign."""

    waist: Amount = field(default=Length(0.0), metadata={"for": "room at the waist, whole garment"})
    bust: Amount = field(default=Length(0.0), metadata={"for": "room at the bust, whole garment"})


def run(draft: Draft, options: Ease) -> Draft:
    """Return the draft with this ease added to what its girths shall come to."""
    waist = amount_mm(draft.body, options.waist, of="waist")
    bust = amount_mm(draft.body, options.bust, of="bust")
    return replace(draft, waist_ease_mm=draft.waist_ease_mm + waist, bust_ease_mm=draft.bust_ease_mm + bust)
