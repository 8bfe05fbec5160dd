"""The panels family: pieces that can be cut, and that hang together."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.checks.spoiling import failing, one, sound, with_edge, with_panel
from tests.samples import HEM, RECIPES, TOP, drawn, made, recipe, separate, side_back

from fanblock.checks.panels import check
from fanblock.geometry.curve import Curve
from fanblock.pattern.model import EdgeName


@pytest.mark.parametrize("recipe", RECIPES)
def test_every_panel_of_the_catalogue_can_be_cut(recipe: str) -> None:
    """Plain outlines, wide enough, inside their cut lines, one whole: on every body."""
    for pattern in drawn(recipe).values():
        assert failing(check(pattern)) == []


def test_an_outline_that_crosses_itself_is_caught() -> None:
    """The hem run backwards ties the panel into a knot."""
    pattern = sound()
    curve = pattern.by_name["side"].edge("hem").curve
    tied = with_edge(pattern, "side", "hem", curve=curve.reversed())
    assert "simple-side" in failing(check(tied))
    assert one(check(tied), "simple-side").says == "the outline of panel side crosses itself"


def test_a_panel_run_the_wrong_way_round_is_caught() -> None:
    """A clockwise panel would have its allowances inside."""
    pattern = sound()
    edges = tuple(replace(edge, curve=edge.curve.reversed()) for edge in reversed(pattern.by_name["back"].edges))
    assert "simple-back" in failing(check(with_panel(pattern, "back", edges=edges)))


def test_a_neck_in_a_panel_is_caught() -> None:
    """The back's lacing edge drawn in to 10 mm of the seam opposite leaves no room for a bone."""
    pattern = sound()
    edge = pattern.by_name["back"].edge("lacing edge").curve
    mate = pattern.by_name["back"].edge("side back").curve
    middle = mate.at(mate.length_mm * 0.5) + np.array([10.0, 0.0])
    necked = with_edge(pattern, "back", "lacing edge", curve=Curve.through([edge.start, middle, edge.end]))
    assert "width-back" in failing(check(necked))


def test_a_cut_line_that_eats_the_panel_is_caught() -> None:
    """A cut line a millimetre too small all round cuts into the stitch line."""
    pattern = sound()
    cut = pattern.by_name["front"].cut_line
    assert cut is not None
    middle = cut.points.mean(axis=0)
    small = Curve.through(middle + 0.5 * (cut.points - middle))
    spoilt = check(with_panel(pattern, "front", cut_line=small))
    assert one(spoilt, "cut-line-front").says == "the cut line of panel front cuts into the stitch line"
    assert failing(spoilt) == ["cut-line-front"]


def test_a_lost_allowance_is_caught() -> None:
    """A cut line that runs along the stitch line leaves every edge without its allowance."""
    pattern = sound()
    front = pattern.by_name["front"]
    spoilt = check(with_panel(pattern, "front", cut_line=Curve.through(front.loop())))
    assert one(spoilt, "cut-line-front").says == (
        "the cut line of panel front leaves less than its allowance beside center front, side front"
    )


def test_a_garment_in_two_parts_is_caught() -> None:
    """Without seam A the front hangs on nothing."""
    pattern = sound()
    parted = replace(pattern, seams=pattern.seams[1:])
    assert one(check(parted), "one-whole").says == "the seams leave separate parts: front; side, back"
    assert failing(check(parted)) == ["one-whole"]


def test_panels_that_a_lace_holds_together_are_one_whole() -> None:
    """Two panels laced along a seam hang together without it; with the lace cut they are two parts."""
    gap = "lacing gap: {at: side back, width: 20 mm}"
    pattern = made(recipe(TOP, HEM, side_back(), gap, separate("front", "back")))
    assert one(check(pattern), "one-whole").state == "holds"
    unlaced = with_edge(pattern, "back", "lacing edge", opens_at="")
    assert one(check(unlaced), "one-whole").says == "the seams leave separate parts: front; back"
    assert "one-whole" in failing(check(unlaced))


def test_a_mate_that_names_another_is_caught() -> None:
    """The side's front edge mated to the back is not mated in return."""
    spoilt = with_edge(sound(), "side", "side front", mate=EdgeName("back", "side back"))
    assert one(check(spoilt), "mates-mutual").says == "edges without their mate: front: side front, side: side front"


def test_a_mate_that_there_is_not_is_caught() -> None:
    """A mate in a panel that does not exist is no mate."""
    spoilt = with_edge(sound(), "side", "side front", mate=EdgeName("sleeve", "head"))
    assert "mates-mutual" in failing(check(spoilt))
