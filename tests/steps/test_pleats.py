"""``pleats``: cloth let into a seam of skirts cut in one with their panels, folded so that all layers cover one another."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples import GAP, RED, THREE, TOP, failed, made, recipe, side_back, side_front

from fanblock.geometry.curve import Points
from fanblock.pattern.model import CENTER, FOLD, HEM, PLEAT_HEAD, Edge, Panel, Pattern
from fanblock.problems import GeometryError, RecipeError
from fanblock.recipe.model import Recipe
from fanblock.skirts.folded import folded

DEEP = "hem: {height: waist - 160 mm}"
SEAMS = (side_front(spring="0 mm"), side_back(spring="0 mm"))
BOX = "pleats: {at: side back, kind: box, number: 2, depth: 40 mm}"


def jacket(*more: str, gap: str = GAP, seams: tuple[str, ...] = SEAMS) -> Recipe:
    """Return a jacket of three panels with deep skirts and more steps."""
    return recipe(*(step for step in (gap, TOP, DEEP, *seams, RED, THREE, *more) if step))


def extension(panel: Panel, place: str) -> tuple[Edge, Edge, Edge]:
    """Return head, skirt edge and hem of the cloth that pleats at a place add to a panel."""
    return panel.edge(f"{place} pleat head"), panel.edge(f"{place} skirt"), panel.edge(f"{place} pleat hem")


def layers(panel: Panel, place: str) -> list[Points]:
    """Return the corners of every layer of the pleats' cloth, from the panel outward: head, head, hem, hem."""
    head, skirt, _ = extension(panel, place)
    lines = [mark.curve.points for mark in panel.marks if mark.name.startswith(f"{place} fold")]
    outer = skirt.curve.points if skirt.curve.start[1] > skirt.curve.end[1] else skirt.curve.points[::-1]
    inner = head.curve.start if np.allclose(head.curve.end, outer[0]) else head.curve.end
    if not np.allclose(lines[0][0], inner):
        raise AssertionError("the first crease begins at the corner of the head")
    lines.append(outer)
    return [np.vstack((a, b)) for a, b in pairwise(lines)]


def mirrored(points: Points, line: Points) -> Points:
    """Return points mirrored in a line through two points, as cloth is when it is folded there."""
    along = (line[1] - line[0]) / np.hypot(*(line[1] - line[0]))
    away = points - line[0]
    return np.asarray(line[0] + 2.0 * np.outer(away @ along, along) - away)


def test_a_double_box_brings_four_folds_from_either_side() -> None:
    """Two boxes of 40 mm folds: 160 mm of cloth on each panel, head and hem alike, sewn at equal edges 160 deep."""
    pattern = made(jacket(BOX))
    assert failed(pattern) == []
    for name in ("side", "back"):
        panel = pattern.by_name[name]
        head, skirt, hem = extension(panel, "side back")
        assert head.kind == PLEAT_HEAD
        assert head.curve.length_mm == pytest.approx(160.0)
        assert hem.curve.length_mm == pytest.approx(160.0)
        assert skirt.curve.length_mm == pytest.approx(161.0, abs=1.5)  # the seam leans from the upright
        assert [mark.says.split(":")[0] for mark in panel.marks] == ["fold 1", "fold 2", "fold 3", "fold 4"]
    assert {seam.name for seam in pattern.seams} == {"side front", "side back", "side back skirt"}


@settings(max_examples=25, deadline=None)
@given(
    kind=st.sampled_from(["box", "inverted"]),
    number=st.integers(1, 3),
    depth=st.floats(10.0, 60.0),
    flare=st.floats(0.0, 12.0),
    head=st.floats(0.0, 50.0),
    name=st.sampled_from(["ordinary", "large drop", "very small", "short in the back"]),
)
def test_folded_layers_cover_one_another(
    kind: str, number: int, depth: float, flare: float, head: float, name: str
) -> None:
    """Mirrored at each crease in turn, every layer comes to lie on the first or the second, head on head and hem on hem."""
    options = f"kind: {kind}, number: {number}, depth: {depth:.3f} mm, flare: {flare:.3f} mm, head: {head:.3f} mm"
    pattern = made(jacket(f"pleats: {{at: side front, {options}}}"), name)
    assert failed(pattern) == []
    for panel in (pattern.by_name["front"], pattern.by_name["side"]):
        found = layers(panel, "side front")
        assert len(found) == 2 * number
        for count in range(1, len(found)):
            lying = found[count]
            for layer in reversed(found[1 : count + 1]):
                lying = mirrored(lying, layer[:2])  # back over the crease at which this layer begins
            assert np.vstack((lying[2:], lying[:2]) if count % 2 else lying) == pytest.approx(found[0], abs=1e-6)


def test_the_hem_is_square_to_the_line_of_the_seam() -> None:
    """So the pleats, whose layers end square to their creases, run on from the hem of the panel when they are folded."""
    pattern = made(jacket("flare: {by: {side front: 60 mm}}", "pleats: {at: side front, depth: 30 mm}"))
    front = pattern.by_name["front"]
    own, pleat = front.edge("hem").curve, front.edge("side front pleat hem").curve
    assert float(own.end_tangent @ pleat.start_tangent) == pytest.approx(1.0, abs=1e-4)
    crease = front.marks[0].curve
    assert abs(float(own.end_tangent @ crease.end_tangent)) < 1e-3


def test_knife_pleats_lie_one_way_and_one_panel_may_bring_all_the_cloth() -> None:
    """Three of 30 mm toward the back, the cloth from the front: 180 mm there, and none on the panel behind."""
    step = "pleats: {at: side back, kind: knife, number: 3, depth: 30 mm, toward: back, cloth: front}"
    pattern = made(jacket(step))
    assert failed(pattern) == []
    assert pattern.by_name["side"].edge("side back pleat head").curve.length_mm == pytest.approx(180.0)
    back = pattern.by_name["back"]
    assert not any(edge.kind == PLEAT_HEAD for edge in back.edges)
    assert back.edge("side back skirt").mate is not None


def test_pleats_at_a_center_back_that_is_sewn() -> None:
    """The cloth runs past the centre; its edge is a centre line, and lies on the fold where the panel does."""
    step = "pleats: {at: center back, kind: inverted, depth: 45 mm}"
    sewn = made(jacket(step, gap="", seams=SEAMS))
    assert failed(sewn) == []
    assert sewn.by_name["back"].edge("center back skirt").kind == CENTER
    assert sewn.by_name["back"].edge("center back pleat hem").curve.length_mm == pytest.approx(90.0)
    on_fold = made(jacket(step, "cut: {outer: 2, on fold: [back]}", gap=""))
    back = on_fold.by_name["back"]
    assert (back.fold, back.edge("center back skirt").kind, back.edge("center back").kind) == (
        "center back skirt",
        FOLD,
        CENTER,
    )


@pytest.mark.parametrize("place", ["side front", "side back"])
def test_folded_away_the_cloth_of_the_pleats_is_gone(place: str) -> None:
    """What is shown as worn ends at the line of the seam, from the head straight down to the hem, and keeps its letter."""
    pattern = made(jacket(f"pleats: {{at: {place}, depth: 40 mm, number: 2}}"))
    for seam in pattern.seams:
        if seam.name == f"{place} skirt":
            for side in (seam.front, seam.back):
                panel = pattern.by_name[side.panel]
                line = folded(panel).edge(side.edge)
                crease = next(mark for mark in panel.marks if mark.name == f"{place} fold 1").curve.points
                ends = line.curve.points if line.curve.start[1] > line.curve.end[1] else line.curve.points[::-1]
                assert ends == pytest.approx(crease)
                assert line.letter == seam.letter
                assert len(folded(panel).edges) == len(panel.edges) - 2
    plain = made(jacket())
    assert folded(plain.by_name["back"]) is plain.by_name["back"]


def test_girths_do_not_count_what_is_folded() -> None:
    """The waist is what it was without pleats; the hem is longer by all of their cloth."""
    plain, pleated = made(jacket()), made(jacket(BOX))
    assert [girth.parts_mm for girth in plain.girths] == [girth.parts_mm for girth in pleated.girths]
    assert _hem(pleated) - _hem(plain) == pytest.approx(320.0, abs=3.0)


def _hem(pattern: Pattern) -> float:
    return sum(edge.curve.length_mm for panel in pattern.panels for edge in panel.edges if edge.kind == HEM)


REFUSALS = {
    "no such seam": (
        ("pleats: {at: sideback, depth: 4 cm}",),
        RecipeError,
        "r.yaml:19:18: step 8 (pleats) › at › there is no seam “sideback”. Did you mean “side back”?",
    ),
    "the same place twice": (
        (BOX, "pleats: {at: side back, depth: 2 cm}"),
        RecipeError,
        "r.yaml:20:18: step 9 (pleats) › at › there are pleats at “side back” already (step 8). "
        "Give their `number` in one step.",
    ),
    "too many": (
        ("pleats: {at: side back, depth: 4 cm, number: 7}",),
        RecipeError,
        "r.yaml:19:50: step 8 (pleats) › number › got 7, needs a number from 1 to 6.",
    ),
    "knife pleats at a centre": (
        ("pleats: {at: center back, kind: knife, depth: 4 cm}",),
        RecipeError,
        "r.yaml:19:37: step 8 (pleats) › kind › knife pleats cannot lie one way at a centre. "
        "Write `box` or `inverted`: both halves are alike there.",
    ),
    "a way for boxes": (
        ("pleats: {at: side back, depth: 4 cm, toward: front, cloth: back}",),
        RecipeError,
        "r.yaml:19:50: step 8 (pleats) › toward › stands beside `kind: box`. It is for knife pleats.\n"
        "r.yaml:19:64: step 8 (pleats) › cloth › stands beside `kind: box`. It is for knife pleats.",
    ),
    "too shallow": (
        ("pleats: {at: side back, depth: 6 mm}",),
        GeometryError,
        "r.yaml:19:5: step 8 (pleats) › depth › got 6.0 mm, needs 8 mm or more. Make fewer and deeper pleats.",
    ),
    "an open centre": (
        ("pleats: {at: center back, depth: 4 cm}",),
        GeometryError,
        "r.yaml:19:5: step 8 (pleats) › at › there is no seam and no centre line “center back”. "
        "Did you mean “center front” or “side back”?",
    ),
    "below the hem": (
        ("pleats: {at: side back, depth: 4 cm, head: 20 cm}",),
        GeometryError,
        "r.yaml:19:5: step 8 (pleats) › at › begins 200 mm below the waist, where “side back” has ended. "
        "Begin higher, or lower the hem.",
    ),
}


@pytest.mark.parametrize("case", REFUSALS)
def test_what_cannot_be_pleated_is_refused_whole(case: str) -> None:
    """Every refusal says what is wrong and what to do."""
    steps, kind, whole = REFUSALS[case]
    with pytest.raises(kind) as caught:
        made(jacket(*steps))
    assert str(caught.value) == whole


def test_where_the_garment_opens_there_is_no_centre_to_let_pleats_into() -> None:
    """A centre front that opens is no seam, and its edge has another name."""
    opening = "opening: {at: center front, closed with: pins}"
    with pytest.raises(GeometryError) as caught:
        made(jacket("pleats: {at: center front, depth: 4 cm}", gap=opening))
    assert str(caught.value) == (
        "r.yaml:19:5: step 8 (pleats) › at › there is no seam and no centre line “center front”. "
        "Did you mean “side front” or “center back”?"
    )
