"""What can be asked of a closed ring of points: is it simple, and does it hold together where it is narrow?"""

from __future__ import annotations

from typing import Any

from fanblock.geometry.curve import Points
from fanblock.tolerances import SAME_POINT_MM, SLIVER_MM2

_FINENESSES = (1, 8)
"""Chords a quarter turn when a ring is worn away: few first, which is fast, and cuts a crumb off where it is tight."""


def is_simple(ring: Points) -> bool:
    """Return whether the closed ring neither touches nor crosses itself."""
    from shapely.geometry import LinearRing

    return bool(LinearRing(ring).is_simple)


def united(ring: Points, inner: Points) -> Points:
    """Return the outer ring, counter-clockwise and open, of everything inside ``ring`` or ``inner``.

    Raises ValueError when that is not one piece.
    """
    from shapely import get_coordinates, union
    from shapely.geometry import Polygon
    from shapely.geometry.polygon import orient

    one, other = _cloth(ring), _cloth(inner)
    whole = union(one, other)
    if whole.area < max(one.area, other.area) - SLIVER_MM2:  # rings that run along each other may lose a part of either
        whole = union(one, other, grid_size=SAME_POINT_MM)
    parts = [piece for piece in getattr(whole, "geoms", [whole]) if piece.area > 1.0]
    if len(parts) != 1:
        raise ValueError("the cut line does not make one ring")
    outer: Points = get_coordinates(orient(Polygon(parts[0].exterior)))[:-1]
    return outer


def _cloth(ring: Points) -> Any:
    """Return what a ring encloses, without the lines and points that are left where it touches or crosses itself."""
    from shapely import make_valid
    from shapely.geometry import MultiPolygon, Polygon

    shape = make_valid(Polygon(ring))
    if shape.geom_type == "Polygon":
        return shape
    parts = [part for piece in getattr(shape, "geoms", ()) for part in getattr(piece, "geoms", (piece,))]
    return MultiPolygon([part for part in parts if part.geom_type == "Polygon"])


def holds_together(ring: Points, width_mm: float) -> bool:
    """Return whether the ring, worn away by half of ``width_mm`` all round, is still one piece: nowhere narrower."""
    from shapely.geometry import Polygon

    for fineness in _FINENESSES:
        worn = Polygon(ring).buffer(-width_mm / 2.0, quad_segs=fineness)
        if worn.geom_type == "Polygon" and not worn.is_empty:
            return True
    return False


def left_out_mm2(ring: Points, inner: Points) -> float:
    """Return how much of the polygon ``inner`` lies outside ``ring``."""
    return float(_cloth(inner).difference(_cloth(ring)).area)
