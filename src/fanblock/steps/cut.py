"""``cut``: how many pieces to cut of each layer, and which panels lie on the fold.

Counts are for the whole garment: 2 is one pair, one of each half. A panel on the fold is one piece where others are two.
Of a band that is drawn whole, 1 is one.

```yaml
- cut: {outer: 2, strength layer: 4, lining: 2, on fold: [front]}
```
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from fanblock.draft.work import Work


@dataclass(frozen=True, slots=True)
class Cut:
    """Counts by layer, and panels on the fold."""

    on_fold: tuple[str, ...] = field(
        default=(), metadata={"for": "panels whose centre line lies on a fold of the cloth"}
    )
    layers: Mapping[str, int] = field(
        default_factory=dict, metadata={"rest": True, "for": "pieces of each layer, whole garment"}
    )


def run(work: Work, options: Cut) -> Work:
    """Return the panels with these counts."""
    return replace(work, layers=tuple(options.layers.items()), on_fold=options.on_fold)
