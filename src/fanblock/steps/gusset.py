"""``gusset``: a wedge let into a slit, for the bust or the hip; a gore is the same, let into a seam below the waist.

The slit runs from an edge inward: through two places of the block, or at a share of the panel's edge, so deep along the
ruling, or as far as a height. What is turned in along the slit is made good by the piece, so ``width`` is what it truly lets
in. With ``in seam`` there is no slit: the two open sides of that seam below the waist are sewn to the piece.

```yaml
- gusset:
    name: bust gusset
    panel: front
    through: [[18%, top edge], [19%, underbust + 15 mm]]
    width: 25% of bust - 25% of underbust
    wide at: bust
- gusset: {name: hip gore, in seam: side seam, width: 60 mm}
- gusset: {name: back gore, panel: back, edge: hem, at: 40%, to: waist, width: 60 mm}
```
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from fanblock.draft.places import amount_mm, size_mm
from fanblock.draft.work import Work
from fanblock.problems import GeometryError, Problem
from fanblock.shaping.letting import LetIn, with_seam_piece, with_slit_piece
from fanblock.shaping.slits import SlitPlace
from fanblock.terms import Amount, Extent, Height, Length, Position, Share
from fanblock.units import format_length
from fanblock.wearer.body import Body

LEAST_TURNING_MM = 2.0
"""A raw edge that is turned in by less frays out of its stitches (from memory)."""


@dataclass(frozen=True, slots=True)
class Gusset:
    """One piece to let in, and where."""

    name: str = field(metadata={"for": "what the piece is called"})
    width: Extent = field(metadata={"for": "what it lets in, at its outer edge unless `wide at` says otherwise"})
    panel: str | None = field(default=None, metadata={"for": "the panel that is slit; left out with `in seam`"})
    edge: str | None = field(default=None, metadata={"for": "the edge the slit opens at, where it is placed by `at`"})
    at: Share | None = field(default=None, metadata={"for": "where on that edge, as a share from its front end"})
    depth: Amount | None = field(default=None, metadata={"for": "with `at`: how long the slit is, along the ruling"})
    to: Height | None = field(
        default=None, metadata={"for": "with `at`, in place of `depth`: the height the slit runs to, along the ruling"}
    )
    through: tuple[Position, ...] = field(
        default=(),
        metadata={"for": "in place of `edge`, `at` and `depth`: two places, from the edge to the slit's end"},
    )
    in_seam: str | None = field(
        default=None, metadata={"for": "a seam that is open below the waist, in place of a slit"}
    )
    wide_at: Height | None = field(default=None, metadata={"for": "the level at which it is `width` wide"})
    turning: Amount = field(
        default=Length(6.0), metadata={"for": "what is turned in on either side of the slit at the edge"}
    )
    swell: Amount = field(default=Length(0.0), metadata={"for": "how far its sides swell outward, for a round breast"})
    rise: Amount = field(default=Length(0.0), metadata={"for": "how far its outer edge rises in the middle"})


def problems(options: Gusset) -> tuple[tuple[str, str, str], ...]:
    """Return what is wrong with these options as (option, what, remedy)."""
    if options.in_seam:
        given = [
            word
            for word, value in (
                ("panel", options.panel),
                ("edge", options.edge),
                ("at", options.at),
                ("depth", options.depth),
                ("to", options.to),
                ("through", options.through),
                ("wide at", options.wide_at),
            )
            if value not in (None, ())
        ]
        return tuple((word, "stands beside `in seam`, where nothing is slit.", "Take it out.") for word in given)
    found = []
    if not options.panel:
        found.append(("panel", "is missing.", "Say which panel is slit, or `in seam`."))
    if options.through and len(options.through) != 2:
        what = f"got {len(options.through)} places, needs 2."
        found.append(("through", what, "Give the place at the edge and the slit's end."))
    long = [word for word, value in (("depth", options.depth), ("to", options.to)) if value is not None]
    if options.through and (long or options.at is not None or options.edge is not None):
        found.append(("through", "stands beside `edge`, `at`, `depth` or `to`.", "Place the slit in one way."))
    if not options.through and (options.at is None or not long or not options.edge):
        what = "is missing, and `edge`, `at` and `depth` (or `to`) are not all there."
        found.append(("through", what, "Place the slit in one way."))
    if len(long) > 1:
        found.append(("to", "stands beside `depth`.", "Keep one: how long the slit is, or where it ends."))
    return tuple(found)


def adds(options: Gusset) -> tuple[str, ...]:
    """Return the name of the piece this step adds."""
    return (options.name,)


def named(options: Gusset) -> Iterator[tuple[str, str, str]]:
    """Yield the panel this step speaks of."""
    if options.panel:
        yield "panel", " › panel", options.panel


def _width_mm(body: Body, width: Extent) -> float:
    """Return a width in millimetres."""
    mm = amount_mm(body, width.base, "")
    return mm if width.plus is None else mm + width.sign * amount_mm(body, width.plus, "")


def run(work: Work, options: Gusset) -> Work:
    """Return the work with this piece let in; GeometryError when that cannot be done on this body."""
    body = work.body
    spec = LetIn(
        options.name,
        _width_mm(body, options.width),
        options.wide_at,
        size_mm(body, options.swell, "bust", "swell"),
        amount_mm(body, options.rise, "bust"),
    )
    if options.in_seam:
        return with_seam_piece(work, options.in_seam, spec)
    turning = size_mm(body, options.turning, "bust", "turning")
    if turning < LEAST_TURNING_MM:
        least = format_length(LEAST_TURNING_MM, body.units)
        what = f"got {format_length(turning, body.units)}; {least} is the least that holds."
        raise GeometryError([Problem("gusset-turning", "turning", what, "Turn in more.")])
    depth = 0.0 if options.depth is None else size_mm(body, options.depth, "bust to waist", "depth")
    at = None if options.at is None else options.at.ratio
    return with_slit_piece(
        work, SlitPlace(options.panel or "", options.edge or "", at, depth, options.through, options.to), turning, spec
    )
