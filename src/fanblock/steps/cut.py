"""``cut``: how many pieces to cut of each layer, and which panels lie on the fold.

Counts are for the whole garment: 2 is one pair, one of each half. A panel on the fold is one piece where others are two.
Of a band that is drawn whole, 1 is one. With ``panels`` the counts are for those pieces alone: a strap or a stomacher,
which is not cut from the block, is otherwise cut from the outer cloth only.

```yaml
- cut: {outer: 2, strength layer: 4, lining: 2, on fold: [front]}
- cut: {panels: [stomacher], outer: 1, lining: 1}
```
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace

from fanblock.draft.work import Work
from fanblock.problems import GeometryError, Problem


@dataclass(frozen=True, slots=True)
class Cut:
    """Counts by layer, and panels on the fold."""

    on_fold: tuple[str, ...] = field(
        default=(), metadata={"for": "panels whose centre line lies on a fold of the cloth"}
    )
    panels: tuple[str, ...] = field(default=(), metadata={"for": "pieces these counts are for; left out, all others"})
    layers: Mapping[str, int] = field(
        default_factory=dict, metadata={"rest": True, "for": "pieces of each layer, whole garment"}
    )


def problems(options: Cut) -> tuple[tuple[str, str, str], ...]:
    """Return what is wrong with these options as (option, what, remedy)."""
    if options.panels and options.on_fold:
        return (("on fold", "stands beside `panels`.", "Say it in the `cut` that is for all other pieces."),)
    return ()


def named(options: Cut) -> Iterator[tuple[str, str, str]]:
    """Yield every panel this step speaks of."""
    yield from (("on fold", " › on fold", name) for name in options.on_fold)
    yield from (("panels", " › panels", name) for name in options.panels)


def run(work: Work, options: Cut) -> Work:
    """Return the panels with these counts; GeometryError when a piece that is one of a pair is given an odd count."""
    layers = tuple(options.layers.items())
    if not options.panels:
        return replace(work, layers=layers, on_fold=options.on_fold)
    paired = {panel.name for panel in work.panels if not panel.whole}
    problems = [
        Problem("cut-odd", layer, f"got {count} for “{name}”, which is one of a pair.", "Give an even number.")
        for name in options.panels
        for layer, count in layers
        if name in paired and count % 2
    ]
    if problems:
        raise GeometryError(problems)
    return replace(work, layers_by_panel={**work.layers_by_panel, **dict.fromkeys(options.panels, layers)})
