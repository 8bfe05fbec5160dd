"""``grain``: how each panel lies on the cloth.

Along a centre line, or ``at waist``: square to the waist at the middle of the panel, which is also what a panel gets
that is not named here. A piece of its own, such as a strap, brings its grain with it.

```yaml
- grain: {front: center front, side: at waist, back: center back}
```
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Literal

from fanblock.draft.work import Work


@dataclass(frozen=True, slots=True)
class Grain:
    """The line each panel's grain follows."""

    panels: Mapping[str, Literal["center front", "center back", "at waist"]] = field(
        default_factory=dict, metadata={"rest": True, "for": "for each panel, the line its grain follows"}
    )


def named(options: Grain) -> Iterator[tuple[str, str, str]]:
    """Yield every panel this step speaks of."""
    yield from ((name, "", name) for name in options.panels)


def run(work: Work, options: Grain) -> Work:
    """Return the panels with these grains chosen."""
    return replace(work, grains={**work.grains, **options.panels})
