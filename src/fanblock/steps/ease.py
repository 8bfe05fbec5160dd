"""``ease``: how much larger than the body the garment shall be, before any reduction.

On a block that stands on other girths than waist and bust, ease is given at those.

```yaml
- ease: {waist: 15 mm, bust: 20 mm}
```
"""

from __future__ import annotations

from dataclasses import dataclass, field, fields

from fanblock.draft.booking import with_ease
from fanblock.draft.model import Draft
from fanblock.draft.places import amount_mm
from fanblock.terms import Amount, Length


@dataclass(frozen=True, slots=True)
class Ease:
    """Room over the whole garment, of either sign."""

    waist: Amount = field(default=Length(0.0), metadata={"for": "room at the waist, whole garment"})
    bust: Amount = field(default=Length(0.0), metadata={"for": "room at the bust, whole garment"})
    raised_waist: Amount = field(default=Length(0.0), metadata={"for": "room at the raised waist, on a block of it"})
    underbust: Amount = field(default=Length(0.0), metadata={"for": "room at the underbust, on a block of it"})
    upper_chest: Amount = field(default=Length(0.0), metadata={"for": "room at the upper chest, on a block of it"})


def given(options: Ease) -> dict[str, Amount]:
    """Return the ease that is asked for, by girth."""
    amounts = {each.name.replace("_", " "): getattr(options, each.name) for each in fields(options)}
    return {name: amount for name, amount in amounts.items() if amount != Length(0.0)}


def run(draft: Draft, options: Ease) -> Draft:
    """Return the draft with this ease added to what its girths shall come to."""
    for name, amount in given(options).items():
        draft = with_ease(draft, name, amount_mm(draft.body, amount, of=name))
    return draft
