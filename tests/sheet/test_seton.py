"""Pieces that are set on, in the view from the side."""

from __future__ import annotations

import numpy as np
from tests.sheet.real import drafted

from fanblock.geometry.bezier import sample
from fanblock.sheet.seton import behind, straps
from fanblock.sheet.silhouette import silhouette
from fanblock.sheet.worn import Worn


def test_a_stomacher_shows_between_the_front_and_the_front_edge() -> None:
    """What is seen of it stands before the front panel, above the waist."""
    worn = Worn(drafted("ferrywoman", "stays-front-lacing"))
    (stroke,) = behind(worn)
    points = sample(stroke.beziers, 2.0)
    assert points[:, 1].min() > -1.0
    front = worn.place(0, worn.panels[0].loop())
    assert points[:, 0].mean() < front[:, 0].mean()


def test_a_strap_goes_over_the_shoulder_from_seat_to_seat() -> None:
    """It begins and ends where front and back are cut for it, and rises between them."""
    worn = Worn(drafted("ferrywoman", "gown-bodice-1770s"))
    (stroke,) = straps(worn)
    points = sample(stroke.beziers, 2.0)
    panels = {panel.name: index for index, panel in enumerate(worn.panels)}
    for panel, seat in (("front", "front strap seat"), ("back", "back strap seat")):
        seen = worn.place(panels[panel], worn.pattern.by_name[panel].edge(seat).curve.points[[0, -1]])
        for point in seen:
            assert np.hypot(*(points - point).T).min() < 2.5
    highest = worn.place(panels["front"], worn.panels[panels["front"]].loop())[:, 1].max()
    assert points[:, 1].max() > highest


def test_the_view_keeps_them_in_the_picture() -> None:
    """Both are drawn with the rest of the garment."""
    names = {
        item.name
        for group in silhouette(drafted("ferrywoman", "gown-bodice-open-front")).groups
        for item in group.items
        if hasattr(item, "name")
    }
    assert {"stomacher", "strap"} <= names
