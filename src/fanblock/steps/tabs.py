"""``tabs``: cut the panels' skirts into tabs, so that they can spread over the hip.

A slit runs from the waist, where it is reinforced, to the same share of the panel's hem. Slits have no width: they stay
out of the panel's loop, and only the rounded corners of the tabs stand in the hem.

```yaml
- tabs: {slits: {front: [50%], side: [33%, 67%], back: 1}, corner: 12 mm}
```
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Literal

from fanblock.draft.places import size_mm
from fanblock.draft.work import Work
from fanblock.finish.tabs import with_tabs
from fanblock.terms import Amount, Length, Share


@dataclass(frozen=True, slots=True)
class Tabs:
    """Where the slits are and how the corners are cut."""

    slits: Mapping[str, int | tuple[Share, ...]] = field(
        default_factory=dict,
        metadata={"for": "for each panel, a number of even slits or their places as shares of the panel's waist"},
    )
    corner: Amount = field(default=Length(12.0), metadata={"for": "radius of the tabs' corners"})
    shape: Literal["rounded", "square"] = field(default="rounded", metadata={"for": "whether corners are rounded"})


def named(options: Tabs) -> Iterator[tuple[str, str, str]]:
    """Yield every panel this step speaks of."""
    yield from (("slits", " › slits", name) for name in options.slits)


def run(work: Work, options: Tabs) -> Work:
    """Return the panels with their skirts cut into tabs."""
    radius = size_mm(work.body, options.corner, "waist", "corner") if options.shape == "rounded" else 0.0
    shares = {panel: _shares(places) for panel, places in sorted(options.slits.items())}
    return with_tabs(work, shares, radius)


def _shares(places: int | tuple[Share, ...]) -> tuple[float, ...]:
    if isinstance(places, int):
        return tuple((number + 1) / (places + 1) for number in range(places))
    return tuple(sorted(share.ratio for share in places))
