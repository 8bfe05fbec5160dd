"""Curves in the plane. All use of shapely and scipy lives in this package."""
