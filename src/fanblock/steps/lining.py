"""``lining``: a layer that is cut from outlines of its own, since it lies inside or outside the cloth that was drafted.

A layer that lies *t* further in is 2π*t* smaller all round, one further out as much larger; the panels' copies have their
part of that at their seams. It may end at a line of its own, such as the waist, and be cut short of the edges.

```yaml
- lining: {layer: lining, panels: [front, side, back], inside: 4 mm, down to: waist}
```
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from fanblock.draft.adding import panel_of
from fanblock.draft.places import size_mm
from fanblock.draft.plans import LayerPlan
from fanblock.draft.work import Work
from fanblock.shaping.layers import copy_name
from fanblock.terms import Amount, Height, Length


@dataclass(frozen=True, slots=True)
class Lining:
    """One layer with outlines of its own."""

    layer: str = field(metadata={"for": "the layer, such as `lining`; its pieces are named for panel and layer"})
    panels: tuple[str, ...] = field(metadata={"for": "the panels, and the gussets let into them, that it has"})
    inside: Amount = field(default=Length(0.0), metadata={"for": "how far it lies inside the cloth that was drafted"})
    outside: Amount = field(default=Length(0.0), metadata={"for": "or how far outside it"})
    down_to: Height | None = field(default=None, metadata={"for": "where it ends below; left out, where the panels do"})
    short_of_edges: Amount = field(default=Length(0.0), metadata={"for": "how far it ends short of the free edges"})
    longer: Amount = field(default=Length(0.0), metadata={"for": "how much longer it is at its lower edge"})
    count: int = field(default=2, metadata={"for": "pieces of each, whole garment"})


def problems(options: Lining) -> tuple[tuple[str, str, str], ...]:
    """Return what is wrong with these options as (option, what, remedy)."""
    found = []
    if options.inside != Length(0.0) and options.outside != Length(0.0):
        found.append(("outside", "stands beside `inside`.", "A layer lies on one side of the cloth that was drafted."))
    if not options.panels:
        found.append(("panels", "names none.", "Name the panels that have this layer."))
    if not options.count or options.count % 2:
        what = f"got {options.count}, needs an even number from 2."
        found.append(("count", what, "Panels are cut in pairs, one for each half."))
    found += [
        ("panels", f"“{name}” stands twice.", "Name every panel once.")
        for name in sorted({name for name in options.panels if options.panels.count(name) > 1})
    ]
    return tuple(found)


def adds(options: Lining) -> tuple[str, ...]:
    """Return the names of the pieces this step adds."""
    return tuple(copy_name(name, options.layer) for name in dict.fromkeys(options.panels))


def named(options: Lining) -> Iterator[tuple[str, str, str]]:
    """Yield every panel this step speaks of."""
    yield from (("panels", " › panels", name) for name in options.panels)


def run(work: Work, options: Lining) -> Work:
    """Return the work with this layer planned; its pieces are made when all else about the panels is known."""
    body = work.body
    for name in options.panels:
        panel_of(work, name, "panels")
    inside = size_mm(body, options.inside, "waist", "inside") - size_mm(body, options.outside, "waist", "outside")
    plan = LayerPlan(
        options.layer,
        options.panels,
        inside,
        options.count,
        options.down_to,
        size_mm(body, options.short_of_edges, "waist", "short of edges"),
        size_mm(body, options.longer, "waist", "longer"),
    )
    return replace(work, layer_plans=(*work.layer_plans, plan))
