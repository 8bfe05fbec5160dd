"""What is said and drawn on a toile's own sheets."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from tests.halves.unevens import uneven
from tests.samples import RECIPES
from tests.sheet.real import drafted

from fanblock.finish.toile import toile_of
from fanblock.geometry.bezier import sample
from fanblock.make import draft_pattern
from fanblock.pattern.model import LACING, Pattern
from fanblock.recipe.library import open_recipe
from fanblock.sheet.drawing import Stroke
from fanblock.sheet.grid import GRID_IN_MM, GRID_MM, gridded
from fanblock.sheet.layout import pieces_of
from fanblock.sheet.sewing import toile
from fanblock.sheet.toilewords import worn_bones
from fanblock.wearer.model import STAYS


def made(recipe: str = "stays-five-panels") -> Pattern:
    """The toile of a shipped recipe."""
    return toile_of(drafted("innkeeper", recipe))


def test_a_laced_toile_has_a_few_bones() -> None:
    """Twelve: the centre front, three of four seams, beside the eyelets; the seam next to the centre front has none (common
    practice, no source)."""
    bones = worn_bones(made())
    assert [bone.where for bone in bones] == [
        "on each side of the centre front",
        "on seam B",
        "on seam C",
        "on seam D",
        "beside the eyelets of each lacing strip, one on either side",
    ]
    assert sum(bone.count for bone in bones) == 2 + 3 * 2 + 4 == 12
    long = made().by_name["center front"].edge("center front").curve.length_mm
    assert bones[0].cut_mm == math.floor((long - 20.0) / 5.0) * 5.0


@pytest.mark.parametrize("wearer", ["apprentice", "ferrywoman", "innkeeper", "pilot"])
@pytest.mark.parametrize("recipe", RECIPES)
def test_every_toile_of_stays_has_eight_to_twelve_bones(recipe: str, wearer: str) -> None:
    """In the whole toile, whatever the stays are and whoever wears them (common practice, no source); 4 of them stand beside
    the eyelets of each edge. What is laced over stays has only those."""
    pattern = drafted(wearer, recipe)
    laced = [edge for panel in pattern.panels if not panel.layer for edge in panel.edges if edge.kind == LACING]
    if pattern.band is not None or not laced:
        return
    bones = worn_bones(toile_of(pattern))
    eyelets = [bone for bone in bones if "eyelets" in bone.where]
    assert [bone.count for bone in eyelets] == [4] * len(laced)
    if pattern.body.over == STAYS:
        assert bones == tuple(eyelets)
    else:
        assert 8 <= sum(bone.count for bone in bones) <= 12
        assert len({bone.where for bone in bones} - {eyelets[0].where}) == len(bones) - len(eyelets)
    assert all(bone.cut_mm > 0.0 for bone in bones)


def test_halves_that_differ_have_as_many_bones() -> None:
    """They are told once and cut to the shorter half."""
    pattern = draft_pattern(uneven(), open_recipe("stays-five-panels"))
    bones = worn_bones(toile_of(pattern))
    sides = [worn_bones(toile_of(half)) for half in pattern.halves]
    assert [(bone.where, bone.count) for bone in bones] == [(bone.where, bone.count) for bone in sides[0]]
    assert [bone.cut_mm for bone in bones] == [
        min(pair) for pair in zip(*([b.cut_mm for b in s] for s in sides), strict=True)
    ]
    assert sum(bone.count for bone in bones) == 12


def test_a_seam_without_a_bone_is_told_with_the_reason() -> None:
    """Nobody should wonder whether one was forgotten."""
    assert any(
        line
        == "There are none on seam A: more than 12 in all would hide what wants pinching, and there the next ones stand nearest."
        for line in toile(made())
    )
    assert not any("There are none on seam" in line for line in toile(made("stays-three-panels")))


def test_what_is_not_laced_needs_no_bones() -> None:
    """A gown bodice goes over stays: pins close its toile."""
    assert worn_bones(made("gown-bodice-1770s")) == ()
    assert not any("lacing strip" in line for line in toile(made("gown-bodice-1770s")))


def test_the_steps_say_what_the_lines_are() -> None:
    """What is spare where, how the seams are sewn, how it laces."""
    said = toile(made())
    assert (
        "Above the finished top edge 6 cm are left in front and behind, to draw a higher edge on, and 10 mm under the arm, "
        "where more could not be worn. Seams go on in their own line to the raw edge."
    ) in said
    assert "The lower edge is cut 3 cm longer than it will be finished." in said
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
