"""The key picture and the side view, and the numbers a tape can check."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from scipy.special import ellipe
from tests.sheet.real import shipped
from tests.sheet.sample import GAP, TOP_MM, sample

from fanblock.geometry.bezier import sample as sample_beziers
from fanblock.pattern.model import Pattern
from fanblock.sheet.drawing import Drawing, Stroke, Words
from fanblock.sheet.ink import ink_points
from fanblock.sheet.joined import joined
from fanblock.sheet.key import key
from fanblock.sheet.silhouette import LEAST_PLATE_MM, SHOULDER_MM, silhouette
from fanblock.sheet.tapes import tape_numbers
from fanblock.sheet.worn import UPRIGHT_RATIO, WIDE_RATIO, Worn, depth_mm

PATTERNS = {"sample": sample(), **shipped()}


def words(drawing: Drawing) -> list[str]:
    """The texts of a drawing."""
    return [item.text for group in drawing.groups for item in group.items if isinstance(item, Words)]


@pytest.mark.parametrize("name", sorted(PATTERNS))
def test_key_shows_each_piece_and_letter(name: str) -> None:
    """Every number, and every seam letter on both of its sides, stand in the key with its caption."""
    pattern = PATTERNS[name]
    said = words(key(pattern))
    for panel in pattern.panels:
        assert any(text.split(" ")[0] == str(panel.number) for text in said)
    for seam in pattern.seams:
        assert said.count(seam.letter) == 2
    assert "the wearer's left half, seen from outside" in said
    assert {"CENTER FRONT", "CENTER BACK"} <= set(said)


@pytest.mark.parametrize("draw", [key, silhouette])
@pytest.mark.parametrize("name", sorted(PATTERNS))
def test_pictures_keep_within_their_room(name: str, draw: object) -> None:
    """Nothing is drawn outside the room that was given."""
    drawing = draw(PATTERNS[name], 120.0, 100.0)  # type: ignore[operator]
    points = ink_points(drawing.groups)
    assert points.min() >= -0.2
    assert points[:, 0].max() <= 120.2
    assert points[:, 1].max() <= 100.2


@pytest.mark.parametrize("name", sorted(PATTERNS))
def test_joined_panels_meet_at_the_waist_and_hardly_overlap(name: str) -> None:
    """Neighbours share the waist point of their seam; above the waist they lap by less than a finger."""
    pattern = PATTERNS[name]
    laid = joined(pattern)
    for seam in pattern.seams:
        ends = []
        for side in (seam.front, seam.back):
            edge = laid[side.panel].edge(side.edge)
            assert edge.waist_at_mm is not None
            ends.append(edge.curve.at(edge.waist_at_mm))
        assert np.hypot(*(ends[1] - ends[0])) < 0.01
        one, other = (shapely.Polygon(laid[side.panel].loop()).buffer(0) for side in (seam.front, seam.back))
        assert one.intersection(other).area < 0.1 * min(one.area, other.area)


def test_center_front_stands_left_in_the_key() -> None:
    """Piece 1 lies left of piece 2, and so on to the back: the half seen from outside."""
    laid = joined(sample())
    middles = [float(laid[name].loop()[:, 0].mean()) for name in ("front", "side", "back")]
    assert middles == sorted(middles)


@pytest.mark.parametrize("half_girth", [250.0, 355.0, 600.0])
def test_depth_of_the_oval_agrees_with_the_exact_ellipse(half_girth: float) -> None:
    """Twice the half girth is the exact perimeter of the oval (complete elliptic integral, scipy) within 0.1 %."""
    shallow = 0.5 * float(depth_mm(np.array(half_girth)))
    wide = WIDE_RATIO * shallow
    exact = 4.0 * wide * float(ellipe(1.0 - (shallow / wide) ** 2))
    assert exact == pytest.approx(2.0 * half_girth, rel=1e-3)


@pytest.mark.parametrize("name", sorted(PATTERNS))
def test_stays_stand_like_stays(name: str) -> None:
    """The front leans out from waist to bust more than twice as far as the back, and the form grows no wider above."""
    worn = Worn(PATTERNS[name])
    front, back = worn.profile(np.array([0.0, 1.0, 2.0]))
    assert front[1] < front[0]
    assert front[0] - front[1] > 2.0 * abs(back[1] - back[0])
    assert back[2] - front[2] < 1.03 * (back[1] - front[1])


@pytest.mark.parametrize("name", sorted(PATTERNS))
def test_a_boned_front_is_straight_up_to_its_edge(name: str) -> None:
    """From the waist to the garment's edge the front is one straight line, without an angle at the bust."""
    worn = Worn(PATTERNS[name])
    heights = np.linspace(0.0, worn.front_top, 30)
    front, _ = worn.profile(heights)
    assert worn.front_top > 1.0
    assert front == pytest.approx(front[0] + (front[-1] - front[0]) * heights / heights[-1], abs=1e-6)


@pytest.mark.parametrize("name", sorted(PATTERNS))
def test_the_form_fills_the_garment_and_its_arm_stands_over_the_edge(name: str) -> None:
    """The form comes within 4 mm of the garment's foremost top, and the plate for the arm ends 1 to 4 cm above the top
    edge under it: recipes cut 1.5 to 6 cm under the armpit (common practice, no source).
    """
    view = silhouette(PATTERNS[name])
    strokes = [item for group in view.groups for item in group.items if isinstance(item, Stroke)]
    form = shapely.Polygon(sample_points(next(one for one in strokes if one.name == "form")))
    bodies = [sample_points(one) for one in strokes if one.pen == "paper" and one.name != "tab"]
    scale = scale_of(view, PATTERNS[name])
    tip = min(np.vstack(bodies).tolist())
    assert form.distance(shapely.Point(tip)) < 4.0 * scale
    plate = sample_points(next(one for one in strokes if one.name == "arm plate"))
    foot = plate[int(np.argmin(plate[:, 1]))]
    cloth = shapely.unary_union([shapely.Polygon(ring).buffer(0.0) for ring in bodies])
    below = cloth.intersection(
        shapely.LineString([foot - np.array([0.0, 400.0]), foot + np.array([0.0, 100.0])])
    ).bounds[3]
    assert 10.0 * scale < foot[1] - below < 40.0 * scale


def sample_points(stroke: Stroke) -> np.ndarray:
    """Points along a closed stroke."""
    return sample_beziers(stroke.beziers, 0.2)


def scale_of(view: Drawing, pattern: Pattern) -> float:
    """How many millimetres of a side view are one of the body: by the plate, which is as high as the body says."""
    strokes = [item for group in view.groups for item in group.items if isinstance(item, Stroke)]
    plate = sample_points(next(one for one in strokes if one.name == "arm plate"))
    lengths = pattern.body.lengths
    nape = lengths.get("back length", 400.0)
    high = max(nape - SHOULDER_MM - UPRIGHT_RATIO * lengths.get("underarm", 0.5 * nape), LEAST_PLATE_MM)
    return float(np.ptp(plate[:, 1])) / high


@pytest.mark.parametrize("name", sorted(PATTERNS))
def test_side_view_stands_on_level_waist_with_front_at_the_left(name: str) -> None:
    """The worn waist is a level line and the centre front is its left end."""
    worn = Worn(PATTERNS[name])
    panel = worn.panels[0]
    seen = worn.place(0, panel.levels["waist"][0].points)
    assert np.ptp(seen[:, 1]) < 0.5
    assert seen[0, 0] < seen[-1, 0]
    strokes = [item for group in silhouette(worn.pattern).groups for item in group.items if isinstance(item, Stroke)]
    tabs = sum(stroke.name == "tab" for stroke in strokes)
    assert tabs == sum(len(panel.slits) + 1 for panel in worn.pattern.panels)


def test_captions_are_honest() -> None:
    """The side view says that it is no portrait."""
    assert "how it would stand on a plain form; not a portrait" in words(silhouette(sample()))


def test_tape_numbers_are_those_of_the_drawing() -> None:
    """Heights are those the sample was drawn with, the waist is body less reduction, the gap is the gap."""
    found = tape_numbers(sample(reduction_mm=24.0))
    assert found.front_mm == pytest.approx(float(TOP_MM(0.0)), abs=0.01)
    assert found.underarm_mm == pytest.approx(float(TOP_MM(np.linspace(0.3, 0.6, 400)).min()), abs=0.1)
    assert found.gap_mm == GAP
    assert found.worn_waist_mm == pytest.approx(710.0 - 24.0, abs=0.01)


def test_a_pattern_without_waist_or_centres_has_no_such_numbers() -> None:
    """What a garment does not have is not made up."""
    bare = sample()
    empty = Pattern(bare.title, bare.body, bare.block, (), (), (), bare.lines)
    found = tape_numbers(empty)
    assert (found.front_mm, found.underarm_mm, found.back_mm, found.worn_waist_mm) == (None, None, None, None)
