"""Top edge and hem: through their points, square to a fold or a seamed centre, free at a lacing edge."""

from __future__ import annotations

import math

import numpy as np
import pytest
from tests.samples import BODIES, FILE, GAP, HEM, THREE, TOP, block, body, garment, recipe_text, worked

from fanblock.draft.model import Draft
from fanblock.draft.separate import outline
from fanblock.geometry.curve import Curve
from fanblock.recipe.model import Recipe
from fanblock.recipe.reading import read_recipe
from fanblock.steps.table import BY_NAME


def drawn(name: str, *steps: str) -> Draft:
    """Return the draft of a body after some steps, before it is separated."""
    read: Recipe = read_recipe(recipe_text(*steps, THREE), FILE)
    draft = Draft(body(name), block(name))
    for step in read.steps[:-1]:
        draft = BY_NAME[step.kind].run(draft, step.options)
    return draft


def off_square_deg(line: Curve, center: Curve, at_start: bool) -> float:
    """Return how far from square two lines of a draft meet, in degrees."""
    along = line.start_tangent if at_start else line.end_tangent
    up = center.end - center.start
    return abs(90.0 - math.degrees(math.acos(float(along @ up) / float(np.hypot(*up)))))


@pytest.mark.parametrize("name", BODIES)
def test_edges_pass_through_their_points(name: str) -> None:
    """On every body the top edge stands where its points were put, within the rounding of its drawing.

    A hem at one height is turned square to the centres over its outer tenths, which moves it by less than 0.4 mm.
    """
    draft = drawn(name, TOP, HEM)
    sheet, underarm = draft.block, draft.body.length_mm("underarm")
    for around, mm in ((0.36, underarm - 30.0), (0.56, underarm - 25.0)):
        assert draft.height_of("top edge", around) * sheet.ruling_length_mm(around) == pytest.approx(mm, abs=0.01)
    for around, off_mm in ((0.0, 0.02), (0.1, 0.02), (0.5, 0.02), (1.0, 0.02), (0.05, 0.4), (0.95, 0.4)):
        assert draft.height_of("hem", around) * sheet.ruling_length_mm(around) == pytest.approx(-80.0, abs=off_mm)


@pytest.mark.parametrize("name", BODIES)
def test_edges_stand_square_to_a_centre_that_is_sewn_or_folded(name: str) -> None:
    """At a closed centre front and centre back hem and top edge meet the centre line at 90 degrees, within 2."""
    lines = worked(garment(gap=""), name).lines
    for edge in ("hem", "top edge"):
        # the top edge runs from back to front in the outline
        front_first = edge == "hem"
        assert off_square_deg(lines[edge], lines["center front"], front_first) < 2.0
        assert off_square_deg(lines[edge], lines["center back"], not front_first) < 2.0


def test_an_edge_is_free_at_a_lacing_edge() -> None:
    """Where the garment laces the top edge goes on as it came: it is not turned square to the centre line."""
    laced, closed = worked(garment()).lines, worked(garment(gap="")).lines
    assert off_square_deg(laced["top edge"], laced["lacing edge"], True) > 10.0
    assert off_square_deg(closed["top edge"], closed["center back"], True) < 2.0


def test_the_outline_is_one_closed_loop_of_named_edges() -> None:
    """Hem, back, top, front, counter-clockwise, each beginning where the last one ended."""
    loop = outline(drawn("ordinary", GAP, TOP, HEM))
    assert [side.name for side in loop] == ["hem", "lacing edge", "top edge", "center front"]
    for side, following in zip(loop, (*loop[1:], loop[0]), strict=True):
        assert side.points[-1] == pytest.approx(following.points[0], abs=1e-9)
