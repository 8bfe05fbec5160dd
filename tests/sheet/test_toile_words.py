"""What is said and drawn on a toile's own sheets."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from tests.sheet.real import drafted

from fanblock.finish.toile import toile_of
from fanblock.geometry.bezier import sample
from fanblock.pattern.model import Pattern
from fanblock.sheet.drawing import Stroke
from fanblock.sheet.grid import GRID_IN_MM, GRID_MM, gridded
from fanblock.sheet.layout import pieces_of
from fanblock.sheet.sewing import toile
from fanblock.sheet.toilewords import worn_bones


def made(recipe: str = "stays-five-panels") -> Pattern:
    """The toile of a shipped recipe."""
    return toile_of(drafted("innkeeper", recipe))


def test_a_laced_toile_has_a_few_bones() -> None:
    """Eight to some more: the centre front, each seam, beside the eyelets (common practice, no source)."""
    bones = worn_bones(made())
    assert [bone.where for bone in bones] == [
        "on each side of the centre front",
        "on seam A",
        "on seam B",
        "on seam C",
        "on seam D",
        "beside the eyelets of each lacing strip, one on either side",
    ]
    assert sum(bone.count for bone in bones) == 2 + 4 * 2 + 4
    long = made().by_name["center front"].edge("center front").curve.length_mm
    assert bones[0].cut_mm == math.floor((long - 20.0) / 5.0) * 5.0


def test_what_is_not_laced_needs_no_bones() -> None:
    """A gown bodice goes over stays: pins close its toile."""
    assert worn_bones(made("gown-bodice-1770s")) == ()
    assert not any("lacing strip" in line for line in toile(made("gown-bodice-1770s")))


def test_the_steps_say_what_the_lines_are() -> None:
    """What is spare where, how the seams are sewn, how it laces."""
    said = toile(made())
    assert (
        "Above the finished top edge 60 mm are left in front and behind, to draw a higher edge on, and 10 mm under the arm, "
        "where more could not be worn. Seams go on in their own line to the raw edge."
    ) in said
    assert "The lower edge is cut 30 mm longer than it will be finished." in said
    assert any(line.startswith("Tabs are not cut apart") for line in said)
    assert any("Lace it with 5.0 cm between the edges" in line for line in said)


@pytest.mark.parametrize(("units", "step"), [("cm", GRID_MM), ("in", GRID_IN_MM)])
def test_the_grid_is_true_and_stays_on_its_piece(units: str, step: float) -> None:
    """Its lines stand a step apart and end at the cut line."""
    for piece in gridded(pieces_of(made())[:2], units):
        lines = [one for one in piece.group.items if isinstance(one, Stroke) and one.name == "grid upright"]
        places = sorted({round(float(line.beziers[0, 0, 0]), 6) for line in lines})
        steps = [(second - first) / step for first, second in pairwise(places)]
        assert steps == pytest.approx([1.0] * len(steps))
        low, high = piece.ground.min(axis=0), piece.ground.max(axis=0)
        for line in lines:
            points = sample(line.beziers, 5.0)
            assert (points >= low - 0.01).all()
            assert (points <= high + 0.01).all()
