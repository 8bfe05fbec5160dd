"""Regions of the plane behind one door: union, growth, splitting, overlap. Outlines are closed rings of points in
millimetres whose last point does not repeat the first.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from fanblock.geometry.curve import Points


def grown(outline: Points, by_mm: float) -> Points:
    """Return the outer ring of ``outline`` grown by ``by_mm`` all round, its corners mitred and cut short."""
    shape = _polygon(outline).buffer(by_mm, join_style="mitre", mitre_limit=1.5)
    return _ring(_largest(shape))


def united(outlines: Sequence[Points]) -> Points:
    """Return the outer ring of all ``outlines`` together; parts that lie apart are joined by their nearest points."""
    import shapely

    shape = shapely.union_all([_polygon(outline) for outline in outlines])
    while shape.geom_type == "MultiPolygon":
        first, *others = sorted(shape.geoms, key=lambda part: (-part.area, part.bounds))
        nearest = min(others, key=lambda part: (first.distance(part), part.bounds))
        bridge = shapely.shortest_line(first, nearest).buffer(0.2, cap_style="square")
        shape = shapely.union_all([first, nearest, bridge, *[part for part in others if part is not nearest]])
    return _ring(shape)


def overlaps(outlines: Sequence[Points]) -> list[tuple[int, int, float]]:
    """Return each pair of ``outlines`` that share ground, as (first, second, shared area in mm²)."""
    import shapely

    shapes = [_polygon(outline) for outline in outlines]
    tree = shapely.STRtree(shapes)
    pairs = tree.query(shapes, predicate="intersects").T
    found = []
    for first, second in sorted({(int(a), int(b)) for a, b in pairs if a < b}):
        area = float(shapes[first].intersection(shapes[second]).area)
        if area > 0.0:
            found.append((first, second, area))
    return found


def longest_within(outline: Points, run: Points) -> Points | None:
    """Return the longest part of a run of points that lies within an outline, run the same way; None where none does."""
    import shapely

    found = _polygon(outline).intersection(shapely.LineString(run))
    parts = [part for part in getattr(found, "geoms", [found]) if part.geom_type == "LineString" and part.length]
    if not parts:
        return None
    line = np.asarray(max(parts, key=lambda part: (part.length, part.bounds)).coords, dtype=np.float64)
    steps = np.diff(run, axis=0)
    nearest = np.argmin(
        np.hypot(*(run[:-1, None] + 0.5 * steps[:, None] - line[None, [0, -1]]).transpose(2, 0, 1)), axis=0
    )
    return line[::-1] if nearest[0] > nearest[1] else line


def gap_mm(first: Points, second: Points) -> float:
    """Return the least distance between two outlines; 0 where they touch or overlap."""
    return float(_polygon(first).distance(_polygon(second)))


def area_mm2(outline: Points) -> float:
    """Return the area of a closed ring, negative when it runs clockwise."""
    x, y = np.asarray(outline).T
    return float(0.5 * np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y))


def inner_point(outline: Points) -> Points:
    """Return a point well inside ``outline``, as far from its edges as any."""
    import shapely

    circle = shapely.maximum_inscribed_circle(_polygon(outline), tolerance=0.5)
    return np.asarray(circle.coords[0], dtype=np.float64)


def holds_line(outline: Points, run: Points) -> bool:
    """Tell whether a run of points stays within ``outline``."""
    import shapely

    return bool(_polygon(outline).covers(shapely.LineString(np.asarray(run))))


def thinned(run: Points, off_mm: float) -> Points:
    """Return a run of points without those that the rest can spare: it stays within ``off_mm`` of all of them."""
    import shapely

    line = shapely.LineString(np.asarray(run)).simplify(off_mm, preserve_topology=False)
    return np.asarray(line.coords, dtype=np.float64)


def gap_of_lines_mm(first: Points, second: Points) -> float:
    """Return the least distance between two runs of points."""
    import shapely

    return float(shapely.LineString(np.asarray(first)).distance(shapely.LineString(np.asarray(second))))


def off_lines_mm(points: Points, runs: Sequence[Points]) -> Points:
    """Return the distance of each of some points from the nearest of several runs of points."""
    import shapely

    lines = shapely.multilinestrings([shapely.LineString(np.asarray(run)) for run in runs])
    shapely.prepare(lines)
    return np.asarray(shapely.distance(lines, shapely.points(np.asarray(points))), dtype=np.float64)


def split(outline: Points, cuts: Sequence[Points]) -> list[Points]:
    """Return the parts of ``outline`` after cutting it along each run of points, left to right by their middles."""
    import shapely
    from shapely.ops import polygonize

    shape = _polygon(outline)
    lines = [shapely.LineString(np.asarray(cut)) for cut in cuts]
    noded = shapely.union_all([shape.exterior, *lines])
    parts = [part for part in polygonize(noded) if shape.covers(part.representative_point())]
    return [_ring(part) for part in sorted(parts, key=lambda part: (part.centroid.x, part.centroid.y))]


def _polygon(outline: Points) -> Any:
    import shapely

    shape = shapely.Polygon(np.asarray(outline))
    return shape if shape.is_valid else _largest(shape.buffer(0.0))


def _largest(shape: Any) -> Any:
    if shape.geom_type == "Polygon":
        return shape
    parts = [part for part in shape.geoms if part.geom_type == "Polygon"]
    return max(parts, key=lambda part: (part.area, part.bounds))


def _ring(shape: Any) -> Points:
    points = np.asarray(shape.exterior.coords, dtype=np.float64)[:-1]
    return points if area_mm2(points) > 0 else points[::-1]
