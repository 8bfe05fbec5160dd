"""A toile: the stitch lines of the pattern, and around them the cloth that a fitting wants."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.samples import RECIPES
from tests.sheet.real import drafted

from fanblock.finish.toile import FITTING_MM, SLIT_SAYS, toile_of
from fanblock.finish.toileedges import FARTHEST_MM, LONGER_MM, MORE_MM, UNDER_ARM_MM, rise_mm
from fanblock.finish.toilestrips import FROM_EDGE_MM, SPACING_MM, STRIP_MM
from fanblock.geometry.meet import foot
from fanblock.geometry.rings import is_simple, left_out_mm2
from fanblock.pattern.bones import BOTH
from fanblock.pattern.model import LACING, TOILE, Panel, Pattern
from fanblock.problems import GeometryError
from fanblock.tolerances import SLIVER_MM2

BANDS = {"cape-collar", "circular-peplum", "falling-collar", "ruffle-strip", "sleeve-flounce-eccentric"}
"""The shipped recipes that are not fitted to a body."""


def stays() -> Pattern:
    """Five-panel stays, laced behind."""
    return drafted("innkeeper", "stays-five-panels")


def above_mm(panel: Panel, share: float) -> float:
    """How far the cut line lies from a place on a panel's top edge."""
    edge = panel.edge("top edge")
    ring = panel.cut_line.points if panel.cut_line is not None else panel.loop()
    return foot(np.vstack((ring, ring[:1])), edge.curve.at(share * edge.curve.length_mm))[0]


@given(st.floats(-0.05, 1.05))
def test_there_is_always_some_cloth_and_never_more_than_can_be_worn(around: float) -> None:
    """5 to 7.5 cm in front and behind, 1 cm from a quarter of the way to 68 % (common practice, no source)."""
    assert UNDER_ARM_MM <= rise_mm(around) <= MORE_MM
    if 0.25 <= around <= 0.68:
        assert rise_mm(around) == pytest.approx(UNDER_ARM_MM)
    assert rise_mm(around) >= rise_mm(around + 0.01) or around > 0.6


def test_the_spare_cloth_stands_where_it_is_said_to() -> None:
    """Six centimetres in front, one under the arm; measured square to a line that leans it is a little less."""
    front, _, side, *_ = toile_of(stays()).panels
    assert above_mm(front, 0.5) == pytest.approx(60.0, abs=2.0)
    assert 7.0 < above_mm(side, 0.5) <= 10.0


@pytest.mark.parametrize("recipe", sorted(set(RECIPES) - BANDS))
def test_every_garment_has_a_toile_that_holds_its_pieces(recipe: str) -> None:
    """Each cut line is one ring around its whole piece, which is cut once and of one cloth."""
    for panel in toile_of(drafted("innkeeper", recipe)).panels:
        assert panel.cut_line is not None
        assert is_simple(panel.cut_line.points)
        assert left_out_mm2(panel.cut_line.points, panel.loop()) < SLIVER_MM2
        assert [layer for layer, _ in panel.cuts] == [TOILE]
        assert not panel.channels


def test_stitch_lines_stay_as_they_are() -> None:
    """The toile is sewn on the garment's own lines, or it would tell nothing of it."""
    own, made = stays(), toile_of(stays())
    assert own.seams == made.seams
    for before, after in zip(own.panels, made.panels, strict=False):
        assert before.edges == after.edges
        assert before.levels == after.levels


def test_seams_have_room_to_let_out() -> None:
    """An inch at every seam, and at a lacing edge, where the recipe has more already, what it has."""
    made = toile_of(stays())
    assert made.by_name["side"].allowances["side front"] == FITTING_MM
    assert made.by_name["back"].allowances["lacing edge"] == stays().by_name["back"].allowances["lacing edge"] > 25.0


def test_tabs_are_drawn_and_not_cut() -> None:
    """A slit is a line to cut on the body; the cut line runs three centimetres below all tabs."""
    own, made = stays().by_name["side"], toile_of(stays()).by_name["side"]
    assert len(own.slits) == 1
    assert made.slits == ()
    assert [mark.says for mark in made.marks] == [SLIT_SAYS]
    low = min(float(edge.curve.points[:, 1].min()) for edge in own.edges if edge.kind == "hem")
    assert made.cut_line is not None
    assert 0.5 * LONGER_MM < low - float(made.cut_line.points[:, 1].min()) < FARTHEST_MM


def test_a_lacing_strip_has_the_garments_own_eyelets() -> None:
    """It is as long as its edge, folds on the lacing line, and its holes stand as far from that as the garment's."""
    back = stays().by_name["back"]
    strip = toile_of(stays()).panels[-1]
    assert strip.name == "lacing strip"
    assert strip.number == 6
    edge = back.edge("lacing edge")
    assert strip.loop()[:, 1].max() == pytest.approx(edge.curve.length_mm)
    assert np.ptp(strip.loop()[:, 0]) == 2.0 * STRIP_MM
    assert [one.at_mm for one in strip.eyelets] == [one.at_mm for one in back.eyelets]
    assert all(one.point[0] == pytest.approx(STRIP_MM - 12.0, abs=0.1) for one in strip.eyelets)


def test_a_strip_has_eyelets_where_none_are_planned() -> None:
    """An inch apart or a little more, the first and the last as far from the ends as from the edge."""
    pattern = stays()
    bare = replace(pattern, panels=tuple(replace(panel, eyelets=()) for panel in pattern.panels))
    strip = toile_of(bare).panels[-1]
    places = [one.at_mm for one in strip.eyelets]
    assert places[0] == FROM_EDGE_MM
    assert {one.half for one in strip.eyelets} == {BOTH}
    assert SPACING_MM <= np.diff(places).min() < SPACING_MM * 1.2
    long = next(edge for edge in bare.by_name["back"].edges if edge.kind == LACING).curve.length_mm
    assert places[-1] == pytest.approx(long - FROM_EDGE_MM)


def test_every_lacing_edge_has_a_strip_of_its_own() -> None:
    """What laces at the sides has one for each edge of a side, named by its panel."""
    made = toile_of(drafted("innkeeper", "kirtle-bodice-side-lacing"))
    assert [panel.name for panel in made.panels if panel.added] == ["lacing strip front", "lacing strip back"]


def test_a_band_has_no_toile() -> None:
    """A collar is not fitted: the whole refusal."""
    with pytest.raises(GeometryError) as refused:
        toile_of(drafted("innkeeper", "cape-collar"))
    assert str(refused.value) == (
        "toile › “Round cape collar” is a band and not fitted to a body, so it has no toile of its own. "
        "Draft it without --toile, and cut a trial piece 2 cm larger all round."
    )
