"""``dart``: a wedge stitched out of a panel, with equal legs, a peak that folds onto the edge, and its take in every sum."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon
from tests.samples import SOME, TOP, block, failed, made, recipe, separate

from fanblock.geometry.curve import Points
from fanblock.pattern.model import Mark, Panel, Pattern
from fanblock.problems import FanblockError
from fanblock.recipe.phrase import NAME_REMEDY

WAIST = "hem: {height: waist}"
SEAM = "seam: {name: side seam, through: [[50%, top edge], [50%, waist]], share: 1}"
TWO = separate("front", "back")


def darted(*darts: str, name: str = "ordinary", hem: str = WAIST, red: str = "2%", top: str = TOP) -> Pattern:
    """Return a bodice that ends at the waist, of a front and a back, with these darts."""
    return made(recipe(top, hem, SEAM, *darts, f"waist reduction: {{by: {red}}}", TWO), name)


def dart(through: str = "[20%, waist], [20%, 80%]", name: str = "front dart", **options: str) -> str:
    """Return a dart step; it takes 20 mm unless it is told otherwise."""
    chosen = options or {"take": "20 mm"}
    return (
        f"dart: {{name: {name}, through: [{through}], {', '.join(f'{key}: {value}' for key, value in chosen.items())}}}"
    )


def legs(panel: Panel, name: str = "front dart") -> tuple[Mark, Mark]:
    """Return the two legs of a dart of a panel, each from the mouth to the point."""
    found = [mark for mark in panel.marks if mark.kind == "dart" and mark.name == name]
    assert len(found) == 2
    return found[0], found[1]


def wedge(panel: Panel, name: str = "front dart") -> Polygon:
    """Return what lies between a dart's legs, its mouth closed straight, as another library sees it."""
    one, other = legs(panel, name)
    return Polygon(np.vstack((one.curve.points, other.curve.points[::-1])))


def test_a_plain_dart_by_hand() -> None:
    """Upright at 20 %, 20 mm at the waist, to nothing at 80 %: half way it is 10 mm wide; the waist is 340 - 20 - 0 mm."""
    pattern = darted(dart(), red="40 mm")
    front = pattern.by_name["front"]
    mouth = [leg.curve.start for leg in legs(front)]
    around, height = block().where(np.array(mouth))
    assert height == pytest.approx([0.0, 0.0], abs=2e-4)
    assert block().level_part_mm(0.0, *around.tolist()) == pytest.approx(20.0, abs=0.02)
    width = [np.interp(0.4, *_by_height(leg)) for leg in legs(front)]
    assert block().level_part_mm(0.4, *width) == pytest.approx(10.0, abs=0.01)
    waist = pattern.girths[0]
    assert dict(waist.takes) == pytest.approx({"side seam": 0.0, "front dart": 20.0})
    assert waist.parts_mm == pytest.approx(320.0, abs=0.05)
    assert failed(pattern) == []


def _by_height(leg: Mark) -> tuple[Points, Points]:
    around, height = block().where(leg.curve.points)
    order = np.argsort(height)
    return height[order], around[order]


def test_a_dart_shares_the_reduction_with_seams() -> None:
    """Of 40 mm the half takes 20: a dart of share 3 beside a seam of share 1 takes 15, the seam 5."""
    pattern = darted(dart(share="3"), red="40 mm")
    assert dict(pattern.girths[0].takes) == pytest.approx({"side seam": 5.0, "front dart": 15.0})
    assert failed(pattern) == []


def test_the_panel_is_not_cut() -> None:
    """A dart leaves one panel; its legs are marks, and its edge goes on over the peak between them."""
    pattern = darted(dart())
    assert [panel.name for panel in pattern.panels] == ["front", "back"]
    assert [edge.name for edge in pattern.by_name["front"].edges if edge.kind == "hem"] == [
        "hem 1",
        "hem at front dart 1",
        "hem at front dart 2",
        "hem 2",
    ]
    assert [note.says for note in pattern.notes if note.kind == "sewing first"] == [
        "Piece 1 (front): fold the dart “front dart” line on line, sew it from the edge to the point and off the fold, and "
        "press it towards the centre front."
    ]


def test_levels_stop_at_the_legs() -> None:
    """The waist of the panel is in two parts, which another library finds to be all of it outside the wedge."""
    pattern = darted(dart())
    front = pattern.by_name["front"]
    parts = front.levels["waist"]
    assert len(parts) == 2
    just_above = LineString(block().level(0.002, 0.0, 0.6).points)
    cloth = Polygon(front.loop()).difference(wedge(front))
    assert sum(part.length_mm for part in parts) == pytest.approx(just_above.intersection(cloth).length, abs=0.3)


@settings(max_examples=25)
@given(st.floats(0.12, 0.38), st.floats(-0.03, 0.03), st.floats(0.5, 0.85), st.floats(4.0, 24.0), st.sampled_from(SOME))
def test_what_holds_for_every_dart(at: float, lean: float, point: float, take: float, name: str) -> None:
    """Legs equal, sums right at every level, the edge smooth when it is sewn, and half its box is what the wedge holds."""
    pattern = darted(dart(f"[{at:.1%}, waist], [{at + lean:.1%}, {point:.1%}]", take=f"{take:.2f} mm"), name=name)
    assert failed(pattern) == []
    front = pattern.by_name["front"]
    one, other = legs(front)
    assert one.curve.length_mm == pytest.approx(other.curve.length_mm, abs=1e-6)
    assert one.curve.end == pytest.approx(other.curve.end, abs=1e-6)
    # the take falls from all to nothing by 1 - (3t² - 2t³), whose mean is a half; along the level, so times the ruling
    ruling = block(name).ruling_length_mm(at + lean / 2.0)
    assert wedge(front).area == pytest.approx(0.5 * take * point * ruling, rel=0.03)
    assert Polygon(front.loop()).is_valid


@pytest.mark.parametrize("through", ["[20%, waist], [22%, 70%]", "[14%, top edge], [16%, 60%]"])
def test_the_peak_lies_on_the_edge_when_the_dart_is_folded(through: str) -> None:
    """Pressed to the front: mirrored about its leg, that half of the peak lies on the panel's edge (common practice)."""
    hem = "hem: {through: [[center front, waist - 40 mm], [26%, waist - 4 mm], [70%, waist], [center back, waist]]}"
    name = "hem" if "waist" in through else "top edge"
    through = through.replace("[20%, waist]", "[20%, hem]")
    front = darted(dart(through, take="16 mm"), hem=hem).by_name["front"]
    edges = {edge.name: edge for edge in front.edges}
    half = edges[f"{name} at front dart {'1' if name == 'hem' else '2'}"].curve
    beside = edges[f"{name} 1"].curve
    leg = min(
        legs(front), key=lambda one: float(np.hypot(*(one.curve.start - (half.start if name == "hem" else half.end))))
    )
    along = leg.curve.start_tangent
    off = half.points - leg.curve.start
    folded = leg.curve.start + 2.0 * (off @ along)[:, None] * along - off
    line = LineString(beside.points)
    assert max(line.distance(Point(point)) for point in folded) < 0.25


BAD = {
    "a mouth in the midst of the cloth": (
        dart("[20%, 30%], [20%, 90%]"),
        "step 4 (dart) › dart “front dart” › through › on this body its first point lies 52.5 mm from the hem; "
        "a dart opens at an edge. Begin it there, such as `[20%, hem]`.",
    ),
    "a way up and down": (
        dart("[20%, waist], [20%, 80%], [21%, 50%]"),
        "step 4 (dart) › dart “front dart” › through › on this body its points do not go on in one direction, up or down. "
        "Give them from its mouth to its point.",
    ),
    "a pinch": (
        dart("[20%, waist], [20%, 12%]"),
        "step 4 (dart) › dart “front dart” › through › on this body it is 21.0 mm long; 30.0 mm is the least. "
        "Carry its point further, or leave it out.",
    ),
    "a leaning one": (
        dart("[10%, waist], [40%, 40%]"),
        "step 4 (dart) › dart “front dart” › through › it leans 57° from upright; 45° is the most. "
        "Bring its ends nearer in around.",
    ),
    "a point at the far edge": (
        dart("[20%, waist], [20%, bust + 14 mm]"),
        "step 4 (dart) › dart “front dart” › through › on this body its point lies 3.7 mm from the top edge; it must end "
        "15.0 mm short of it. End it earlier, or cut a seam instead.",
    ),
    "a wide one": (
        dart("[20%, waist], [20%, 40%]", take="40 mm"),
        "step 6 (separate) › dart “front dart” › it takes 40.0 mm in a length of 70.0 mm: its point would pouch. "
        "Let it take less, share it between two, or carry its point further.",
    ),
    "a take of less than nothing": (
        dart(take="-5 mm"),
        "step 4 (dart) › dart “front dart” › take › got -5.0 mm, needs 0 or more. Leave out the minus.",
    ),
    "a share at the top edge": (
        dart("[14%, top edge], [16%, 60%]", share="1"),
        "step 6 (separate) › dart “front dart” › share › it carries a share of what is taken in at the waist, and does not "
        "open there. Give it a `take` of its own, or let it open there.",
    ),
    "a mouth across a seam": (
        dart("[49%, waist], [46%, 60%]"),
        "step 6 (separate) › dart “front dart” › it runs into side seam of panel “front”. "
        "Move it within the panel, or let it take less.",
    ),
}


@pytest.mark.parametrize("slip", BAD)
def test_a_dart_that_cannot_be_sewn_is_refused(slip: str) -> None:
    """What is wrong on this body, and what to do."""
    step, says = BAD[slip]
    with pytest.raises(FanblockError) as caught:
        darted(step)
    assert str(caught.value).partition(": ")[2] == says


def test_a_share_that_would_let_out_is_refused() -> None:
    """Ease instead of a reduction has to be let out, which a dart cannot."""
    with pytest.raises(FanblockError) as caught:
        darted(dart(share="1"), red="-12 mm")
    assert str(caught.value).partition(": ")[2] == (
        "step 6 (separate) › dart “front dart” › share › its share would let out 3.0 mm; a dart can only take in. "
        "Give it a `take` of its own, or less ease to the garment."
    )


def test_darts_that_cross_and_darts_at_corners_are_refused() -> None:
    """Two darts in one place; a mouth half on the armhole and half on the neckline."""
    with pytest.raises(FanblockError) as caught:
        darted(dart(), dart("[28%, waist], [15%, 70%]", name="second"))
    assert str(caught.value).partition(": ")[2] == (
        "step 7 (separate) › dart “second” › it crosses the dart “front dart”. Move one of the two."
    )
    edges = (
        "top edge: {edges: [{name: neckline, kind: neckline, through: [[center front, bust], [25%, bust + 30 mm]]}, "
    )
    edges += "{name: armhole, kind: armhole, through: [[45%, underarm - 20 mm], [center back, bust + 60 mm]]}]}"
    with pytest.raises(FanblockError) as caught:
        darted(dart("[25%, top edge], [25%, 60%]"), top=edges)
    assert str(caught.value).partition(": ")[2] == (
        "step 6 (separate) › dart “front dart” › its mouth lies across the corner between armhole and neckline. "
        "Move it to one side."
    )


def test_a_dart_off_the_cloth_is_refused() -> None:
    """Its middle lies in the lacing gap."""
    with pytest.raises(FanblockError) as caught:
        made(recipe("lacing gap: {width: 80 mm}", TOP, WAIST, SEAM, dart("[97%, waist], [97%, 60%]"), TWO))
    assert str(caught.value).partition(": ")[2] == (
        "step 6 (separate) › dart “front dart” › its middle lies off the cloth. Move it within a panel."
    )


STATIC = {
    "neither take nor share": (
        "dart: {name: front dart, through: [[20%, waist], [20%, 80%]]}",
        "step 4 (dart) › take › needs one of `take` and `share`. Say what it takes, or what part of the reduction.",
    ),
    "both": (
        "dart: {name: front dart, through: [[20%, waist], [20%, 80%]], take: 1 cm, share: 1}",
        "step 4 (dart) › take › needs one of `take` and `share`. Say what it takes, or what part of the reduction.",
    ),
    "no share at all": (
        "dart: {name: front dart, through: [[20%, waist], [20%, 80%]], share: 0}",
        "step 4 (dart) › share › got 0, needs more than 0. Leave the dart out if it takes nothing.",
    ),
    "one point": (
        "dart: {name: front dart, through: [[20%, waist]], take: 1 cm}",
        "step 4 (dart) › through › needs at least two points. Give it from its mouth on an edge to its point.",
    ),
    "the name of a seam": (
        "dart: {name: side seam, through: [[20%, waist], [20%, 80%]], take: 1 cm}",
        "step 4 (dart) › name › “side seam” is the name of a seam or a dart already (step 3). "
        "Give every seam and dart a name of its own.",
    ),
    "the name of a place": (
        "dart: {name: side, through: [[20%, waist], [20%, 80%]], take: 1 cm}",
        "step 4 (dart) › name › “side” is the name of a place on every block. "
        "Name the dart otherwise, such as “side dart”.",
    ),
    "no name": (
        "dart: {name: 12 mm, through: [[20%, waist], [20%, 80%]], take: 1 cm}",
        f"step 4 (dart) › name › “12 mm” cannot be a name. {NAME_REMEDY}",
    ),
}


@pytest.mark.parametrize("slip", STATIC)
def test_words_that_make_no_dart(slip: str) -> None:
    """What is wrong in the recipe is told before anything is drawn."""
    step, says = STATIC[slip]
    with pytest.raises(FanblockError) as caught:
        darted(step)
    assert str(caught.value).partition(": ")[2] == says
