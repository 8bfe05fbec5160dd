"""``allowances``: how much cloth stands beyond each stitch line, by kind of edge and by named edge.

Bound edges (top, hem, slit) have none unless a recipe asks for it.

```yaml
- allowances: {seam: 15 mm, lacing: 25 mm, center: 15 mm, side back: 20 mm}
```
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from fanblock.draft.places import size_mm
from fanblock.draft.work import DEFAULT_ALLOWANCES, Work
from fanblock.terms import Amount, Length


@dataclass(frozen=True, slots=True)
class Allowances:
    """Width of cloth beyond the stitch line."""

    seam: Amount | None = field(
        default=None, metadata={"for": "beyond seams; 15 mm, if left out, and 13 mm where they are whipped"}
    )
    center: Amount = field(default=Length(15.0), metadata={"for": "beyond a centre line that is a seam"})
    lacing: Amount = field(default=Length(25.0), metadata={"for": "beyond lacing edges, to fold under the eyelets"})
    opening: Amount = field(default=Length(20.0), metadata={"for": "beyond edges that close otherwise than by a lace"})
    top: Amount = field(default=Length(0.0), metadata={"for": "beyond the top edge; bound edges have none"})
    hem: Amount = field(default=Length(0.0), metadata={"for": "beyond the hem; bound edges have none"})
    slit: Amount = field(default=Length(0.0), metadata={"for": "beyond the open sides of tabs"})
    armhole: Amount = field(default=Length(10.0), metadata={"for": "beyond armholes"})
    neckline: Amount = field(default=Length(10.0), metadata={"for": "beyond necklines"})
    shoulder: Amount = field(default=Length(20.0), metadata={"for": "beyond shoulders"})
    waist: Amount = field(default=Length(15.0), metadata={"for": "beyond the waist where a skirt is sewn on"})
    free: Amount = field(
        default=Length(0.0), metadata={"for": "beyond edges that are sewn to nothing, as of a stomacher"}
    )
    pleat_head: Amount = field(default=Length(10.0), metadata={"for": "beyond the heads of pleats let into a seam"})
    named: Mapping[str, Amount] = field(
        default_factory=dict, metadata={"rest": True, "for": "beyond edges of these names"}
    )


def run(work: Work, options: Allowances) -> Work:
    """Return the panels with these widths chosen."""
    kinds = {
        name: size_mm(work.body, given, "waist", name)
        for name in DEFAULT_ALLOWANCES
        if (given := getattr(options, name.replace(" ", "_"))) is not None
    }
    named = {name: size_mm(work.body, width, "waist", name) for name, width in sorted(options.named.items())}
    return replace(
        work,
        allowance_by_kind={**work.allowance_by_kind, **kinds},
        allowance_by_name={**work.allowance_by_name, **named},
    )
