"""What a garment has: only of that is it asked at a fitting.

Everything is read off the pattern, from its pieces, the kinds of their edges, its openings and where its edges run, so
that it holds for a recipe of anybody's.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType

import numpy as np

from fanblock.fitting.effects import BENEATH, IN_FRONT
from fanblock.geometry.curve import Points
from fanblock.pattern.model import (
    ARMHOLE as ARMHOLE_KIND,
)
from fanblock.pattern.model import (
    HEM,
    PLEAT_HEAD,
    SHOULDER,
    SLIT,
    WAIST,
    Edge,
    Panel,
    Pattern,
)
from fanblock.wearer.model import SHIFT

BODY, COLLAR = "body", "collar"
HOLDS, BONES, POINT, TABS, SKIRT, PLEATS = "holds the bust", "bones", "point", "tabs", "skirts", "pleats"
STRAPS, SHOULDERS, ARMHOLE, NO_ARMHOLE = "straps", "shoulder seams", "armhole", "no armhole"
SLEEVES, LONG_SLEEVES, ELBOW_SLEEVES = "sleeves", "long sleeves", "elbow sleeves"
SHOULDER_LINE = "shoulder line"

ABSENT: Mapping[str, str] = MappingProxyType(
    {
        BODY: "it is not cut to a body",
        COLLAR: "it is no collar",
        HOLDS: "it is worn over stays, and they hold the bust",
        BONES: "it has no bones",
        POINT: "it has no point in front",
        TABS: "it has no tabs",
        SKIRT: "it has no skirts sewn together below the waist",
        PLEATS: "it has no pleats",
        STRAPS: "it has no straps",
        SHOULDERS: "it has no shoulder seams",
        ARMHOLE: "it has no armholes",
        NO_ARMHOLE: "it has armholes, and there are sentences about those",
        SLEEVES: "it has no sleeves",
        LONG_SLEEVES: "it has no long sleeves",
        ELBOW_SLEEVES: "it has no elbow sleeves",
        SHOULDER_LINE: "its recipe has no dial for that",
    }
)
"""What is told of a garment that lacks a part."""

STATED: Mapping[str, str] = MappingProxyType(
    {
        COLLAR: "collars",
        HOLDS: "what is worn over the shift",
        POINT: "a point",
        TABS: "tabs",
        SKIRT: "skirts",
        PLEATS: "pleats",
        STRAPS: "straps",
        SHOULDERS: "shoulder seams",
        ARMHOLE: "armholes",
        NO_ARMHOLE: "no armholes",
        SLEEVES: "sleeves",
        LONG_SLEEVES: "long sleeves",
        ELBOW_SLEEVES: "elbow sleeves",
    }
)
"""What a garment has that is asked a sentence; what all have is not told."""

SHORTEST_POINT_MM, OVER_ITS_SIDES_MM = 15.0, 8.0
"""A point runs down in front by so much at least, and so much farther than the edge to either side of it (from memory)."""

AT_TIP, BESIDE_IT = 0.03, (0.15, 0.25)
"""Where the tip of a point lies, with a lacing gap before it, and where the edge beside it, as shares of the half round."""

BELOW_WAIST = -0.1
"""An edge lower than this, as a share of waist to bust, hangs below the waist."""

ON_THE_SIDES = 0.2
"""An armhole cuts in front of the arm and behind it where it has risen by about a fifth of its depth (from memory)."""

COLLARS = frozenset({"collar", "cape"})
"""The bands that lie round a neck."""


def parts_of(pattern: Pattern) -> frozenset[str]:
    """Return the parts a garment has."""
    if pattern.band is not None:
        found = {COLLAR} if pattern.title.makes in COLLARS else set()
        return frozenset(
            found | ({SHOULDER_LINE} if any(name == SHOULDER_LINE for name, *_ in pattern.dials) else set())
        )
    return frozenset({BODY, *(part for part, has in _HAS.items() if has(pattern))})


def cut_panels(pattern: Pattern) -> tuple[Panel, ...]:
    """Return the pieces that are cut from the block."""
    return tuple(panel for panel in pattern.panels if not panel.added)


def armhole_points(pattern: Pattern) -> Points:
    """Return the armhole's stitch line on the block, as arounds and heights, from front to back; empty where there is none."""
    edges = [edge.curve.points for panel in cut_panels(pattern) for edge in panel.edges if _is_armhole(edge)]
    if not edges:
        return np.empty((0, 2))
    around, height = pattern.block.where(np.vstack(edges))
    order = np.argsort(around, kind="stable")
    return np.column_stack((around[order], height[order]))


def armhole_around(pattern: Pattern, place: str) -> float:
    """Return where a place of the armhole lies, as a share of the half round.

    In front of the arm and behind it are where the armhole has risen by :data:`ON_THE_SIDES` of its depth.
    """
    around, height = armhole_points(pattern).T
    low = int(np.argmin(height))
    if place == BENEATH:
        return round(float(around[low]), 3)
    part = slice(None, low + 1) if place == IN_FRONT else slice(low, None)
    due = height[low] + ON_THE_SIDES * (float(height[part].max()) - height[low])
    return round(float(around[part][np.argmin(np.abs(height[part] - due))]), 3)


def sleeve_panels(pattern: Pattern) -> tuple[Panel, ...]:
    """Return the pieces of sleeves: those of their own that are set into an armhole."""
    return tuple(
        panel
        for panel in pattern.panels
        if panel.added and not panel.copy_of and any(edge.name.startswith("cap ") for edge in panel.edges)
    )


def _is_armhole(edge: Edge) -> bool:
    return edge.kind == ARMHOLE_KIND or edge.name.startswith("armhole")


def _lower_edges(pattern: Pattern) -> Iterator[Edge]:
    for panel in cut_panels(pattern):
        yield from (edge for edge in panel.edges if edge.kind in (HEM, WAIST))


def _has_point(pattern: Pattern) -> bool:
    """A lower edge that runs down to the centre front, or a recipe that speaks of its point."""
    edges = [edge.curve.points for edge in _lower_edges(pattern)]
    if not edges or _has_skirts(pattern):
        return False
    around, height = pattern.block.where(np.vstack(edges))
    tip, beside = around < min(float(around.min()), AT_TIP) + AT_TIP, (around > BESIDE_IT[0]) & (around < BESIDE_IT[1])
    if not (tip.any() and beside.any()):
        return False
    depth = -pattern.block.center_front_mm * height
    longest = float(depth[tip].max())
    speaks = any(name == POINT for name, *_ in pattern.dials)
    return longest >= SHORTEST_POINT_MM and (speaks or longest > float(np.median(depth[beside])) + OVER_ITS_SIDES_MM)


def _has_tabs(pattern: Pattern) -> bool:
    panels = cut_panels(pattern)
    return any(not slit.name for panel in panels for slit in panel.slits) or SLIT in _kinds(pattern)


def _has_skirts(pattern: Pattern) -> bool:
    if _has_tabs(pattern):
        return False
    edges = [edge.curve.points for edge in _lower_edges(pattern) if edge.kind == HEM]
    if not edges:
        return False
    around, height = pattern.block.where(np.vstack(edges))
    side = (around > 1.0 / 3.0) & (around < 2.0 / 3.0)
    return bool(side.any() and height[side].max() < BELOW_WAIST)


def _kinds(pattern: Pattern) -> frozenset[str]:
    return frozenset(edge.kind for panel in cut_panels(pattern) for edge in panel.edges)


def _has_straps(pattern: Pattern) -> bool:
    return any(
        "strap" in name for panel in pattern.panels for name in (panel.name, *(edge.name for edge in panel.edges))
    )


def _is_long(pattern: Pattern) -> bool:
    """Tell whether the sleeves run on past the middle of the forearm."""
    reach = max(
        (float(np.ptp(panel.loop()[:, 1])) for panel in sleeve_panels(pattern)),
        default=0.0,
    )
    arm, elbow = pattern.body.length_mm("arm length"), pattern.body.length_mm("shoulder to elbow")
    return reach > 0.5 * (arm + elbow)


_HAS: Mapping[str, Callable[[Pattern], bool]] = MappingProxyType(
    {
        HOLDS: lambda pattern: pattern.body.over == SHIFT,
        BONES: lambda pattern: any(panel.channels for panel in pattern.panels),
        POINT: _has_point,
        TABS: _has_tabs,
        SKIRT: _has_skirts,
        PLEATS: lambda pattern: PLEAT_HEAD in _kinds(pattern),
        STRAPS: _has_straps,
        SHOULDERS: lambda pattern: SHOULDER in _kinds(pattern) and not _has_straps(pattern),
        ARMHOLE: lambda pattern: bool(len(armhole_points(pattern))),
        NO_ARMHOLE: lambda pattern: not len(armhole_points(pattern)),
        SLEEVES: lambda pattern: bool(sleeve_panels(pattern)),
        LONG_SLEEVES: lambda pattern: bool(sleeve_panels(pattern)) and _is_long(pattern),
        ELBOW_SLEEVES: lambda pattern: bool(sleeve_panels(pattern)) and not _is_long(pattern),
    }
)
