"""What can be asked of a closed ring of points: is it simple, and does it hold together where it is narrow?"""

from __future__ import annotations

from fanblock.geometry.curve import Points
from fanblock.tolerances import SAME_POINT_MM

_FINENESSES = (1, 8)
"""Chords a quarter turn when a ring is worn away: few first, which is fast, and cuts a crumb off where it is tight."""


def is_simple(ring: Points) -> bool:
    """Return whether the closed ring neither touches nor crosses itself."""
    from shapely.geometry import LinearRing

    return bool(LinearRing(ring).is_simple)


def united(ring: Points, inner: Points) -> Points:
    """Return the outer ring, counter-clockwise and open, of everything inside ``ring`` or ``inner``.

    Raises ValueError when that is not one piece, or ``inner`` crosses itself.
    """
    from shapely import GEOSException, get_coordinates, make_valid, union
    from shapely.geometry import Polygon
    from shapely.geometry.polygon import orient

    try:
        # on a grid, because without one a union of rings that run along each other can lose a part of either
        whole = union(make_valid(Polygon(ring)), Polygon(inner), grid_size=SAME_POINT_MM)
    except GEOSException:
        raise ValueError("the stitch line crosses itself") from None
    parts = [piece for piece in getattr(whole, "geoms", [whole]) if piece.geom_type == "Polygon" and piece.area > 1.0]
    if len(parts) != 1:
        raise ValueError("the cut line does not make one ring")
    outer: Points = get_coordinates(orient(Polygon(parts[0].exterior)))[:-1]
    return outer


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
    from shapely import make_valid
    from shapely.geometry import Polygon

    return float(make_valid(Polygon(inner)).difference(Polygon(ring)).area)
