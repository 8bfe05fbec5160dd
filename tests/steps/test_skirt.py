"""``skirt``: a skirt of its own whose upper edge fits the bodice, flared by published tables, pleated or gathered."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples import TOP, failed, recipe, separate, wearer, worked

from fanblock.draft.adding import panel_of
from fanblock.draft.work import Work
from fanblock.geometry.curve import Points
from fanblock.make import draft_pattern
from fanblock.pattern.model import CENTER, FOLD, FREE, HEM, WAIST, Panel, Pattern
from fanblock.problems import GeometryError, RecipeError
from fanblock.recipe.model import Recipe
from fanblock.wearer.model import Wearer

INCH = 25.4
OPEN = "lacing gap: {at: center front, width: 0 mm}"
POINTED = """hem:
      edges:
        - name: waist
          kind: waist
          pointed: yes
          through: [[center front, waist - 40 mm], [30%, waist - 8 mm], [60%, waist], [center back, waist - 50 mm]]"""
LEVEL = "hem: {height: waist}"
SEAMS = (
    "seam: {name: side seam, through: [[45%, top edge], [48%, waist]], share: 1}",
    "seam: {name: back seam, through: [[75%, top edge], [80%, waist]], share: 1}",
)
THREE = separate("front", "side", "back")
ALL = "to: [front, side, back]"


def bodice(*more: str, hem: str = POINTED) -> Recipe:
    """Return a bodice of three panels that ends at the waist, and more steps."""
    return recipe(OPEN, TOP, hem, *SEAMS, THREE, *more)


def drafted(read: Recipe, of: Wearer | None = None) -> Pattern:
    """Return the pattern of a recipe for a body of bust 880, waist 680 and hip 960, or for another."""
    return draft_pattern(
        of or wearer(880.0, 680.0, 160.0, raised=175.0, underarm=200.0, back_length=400.0, hip=960.0), read
    )


def skirt_pieces(pattern: Pattern) -> list[Panel]:
    """Return the pieces of the skirt, from the front."""
    return [panel for panel in pattern.panels if panel.added]


def hem_mm(pattern: Pattern) -> float:
    """Return the length of the skirt's hem all round."""
    edges = (edge for panel in skirt_pieces(pattern) for edge in panel.edges if edge.kind == HEM)
    return 2.0 * sum(edge.curve.length_mm for edge in edges)


def waists(work: Work) -> dict[str, float]:
    """Return the length of every panel's waist."""
    return {
        panel.name: sum(edge.curve.length_mm for edge in panel.edges if edge.kind in (WAIST, HEM))
        for panel in work.panels
        if not panel.added
    }


def radius_mm(points: Points) -> float:
    """Return the radius of the circle through the first, the middle and the last point."""
    a, b, c = points[0], points[len(points) // 2], points[-1]
    sides = [math.dist(a, b), math.dist(b, c), math.dist(c, a)]
    area = 0.5 * abs((b - a)[0] * (c - a)[1] - (b - a)[1] * (c - a)[0])
    return math.prod(sides) / (4.0 * area)


@pytest.mark.parametrize(
    ("circle", "inches"), [("100%", 4.138), ("50%", 8.276), ("33.3333333%", 12.414), ("25%", 16.552)]
)
def test_a_flared_skirt_has_the_radius_of_a_circle_skirt(circle: str, inches: float) -> None:
    """A waist of 26 in lies on 26 / 2π = 4.138 in for a full circle, and so on; published, cut off, as 4.13, 8.2, 12.4, 16.56."""
    tube = wearer(26.0 * INCH, 26.0 * INCH, 160.0, raised=175.0, underarm=200.0, back_length=400.0)
    pattern = drafted(
        bodice(f"skirt: {{name: skirt, {ALL}, depth: 20 cm, circle: {circle}, fold: no}}", hem=LEVEL), tube
    )
    (piece,) = skirt_pieces(pattern)
    uppers = [edge for edge in piece.edges if edge.kind == WAIST]
    assert 2.0 * sum(edge.curve.length_mm for edge in uppers) == pytest.approx(26.0 * INCH, abs=0.05)
    for edge in uppers:
        assert radius_mm(edge.curve.points) == pytest.approx(inches * INCH, abs=0.001 * INCH)
    assert failed(pattern) == []


def test_a_hem_over_a_full_circle_is_cut_in_pieces() -> None:
    """Waist 74 cm, hem 272 cm: with a skirt of 24 cm (272 - 74) / 24 = 8.25 rad, 473 degrees (Glasgow Museums 1932.51.o).

    Waist and hem are published, the depth is assumed. No single piece can lie flat.
    """
    tube = wearer(740.0, 740.0, 160.0, raised=175.0, underarm=200.0, back_length=400.0)
    pattern = drafted(bodice(f"skirt: {{name: skirt, {ALL}, depth: 24 cm, hem: 272 cm}}", hem=LEVEL), tube)
    pieces = skirt_pieces(pattern)
    assert hem_mm(pattern) == pytest.approx(2720.0, abs=0.5)
    assert len(pieces) > 1
    turns = [math.atan2(*_turn(piece)) for piece in pieces]
    assert math.degrees(2.0 * sum(turns)) == pytest.approx(math.degrees(1980.0 / 240.0), abs=0.1)
    assert pieces[-1].fold == "center back"
    assert failed(pattern) == []


def _turn(piece: Panel) -> tuple[float, float]:
    """Return sine and cosine of the angle between a piece's two ends."""
    at = next(number for number, edge in enumerate(piece.edges) if edge.kind == HEM)
    back, front = piece.edges[(at + 1) % len(piece.edges)].curve, piece.edges[at - 1].curve
    down, along = front.end_tangent, -back.end_tangent
    return float(down[0] * along[1] - down[1] * along[0]), float(down @ along)


@pytest.mark.parametrize(
    "how",
    [
        "circle: 60%",
        "circle: 0%",
        "hem: 150 cm",
        "by panel: yes, circle: 80%",
        "kind: gathered, fullness: 1.6",
        "kind: gathered, fullness: 2, cloth: 30 cm",
        "kind: pleated, pleats: {number: 6, depth: 25 mm}",
        "kind: pleated, pleats: {number: 4, depth: 20 mm, kind: box, between: [40%, 100%]}",
        "kind: pleated, pleats: {number: 5, depth: 30 mm, toward: front, between: [0%, 70%]}, pieces: 3",
    ],
)
def test_every_upper_edge_fits_the_edge_it_is_sewn_to(how: str) -> None:
    """Each edge of the bodice has its own edge of the skirt, as long as it when pleats and gathers are taken up."""
    plain = worked(bodice())
    pattern = drafted(
        bodice(f"skirt: {{name: skirt, {ALL}, depth: {{front: 12 cm, side: 14 cm, back: 18 cm}}, {how}}}")
    )
    assert failed(pattern) == []
    sewn = dict.fromkeys(waists(plain), 0.0)
    for seam in pattern.seams:
        front, back = pattern.by_name[seam.front.panel], pattern.by_name[seam.back.panel]
        if front.added and not back.added:
            upper, lower = front.edge(seam.front.edge).curve, back.edge(seam.back.edge).curve
            assert upper.length_mm - seam.fullness_mm == pytest.approx(lower.length_mm, abs=0.05)
            sewn[back.name] += lower.length_mm
    assert sewn == pytest.approx(waists(plain), abs=1e-6)


def test_six_knife_pleats_take_two_folds_each() -> None:
    """Six of 25 mm take 6 · 50 = 300 mm of cloth a half; by hand. The straight strip is as long as the waist and that."""
    pattern = drafted(
        bodice(f"skirt: {{name: skirt, {ALL}, depth: 16 cm, kind: pleated, pleats: {{number: 6, depth: 25 mm}}}}")
    )
    (piece,) = skirt_pieces(pattern)
    taken = sum(seam.fullness_mm for seam in pattern.seams)
    assert taken == pytest.approx(300.0, abs=1e-6)
    uppers = sum(edge.curve.length_mm for edge in piece.edges if edge.kind == WAIST)
    assert uppers == pytest.approx(sum(waists(worked(bodice())).values()) + 300.0, abs=1e-6)
    assert len([mark for mark in piece.marks if mark.kind == "crease"]) == 12
    assert {seam.how for seam in pattern.seams if seam.fullness_mm} == {"pleated"}


def test_gathers_are_shared_evenly() -> None:
    """One and a half times as wide: every edge of the skirt is 1.5 times as long as its mate, and marked to be gathered."""
    pattern = drafted(bodice(f"skirt: {{name: skirt, {ALL}, depth: 16 cm, kind: gathered, fullness: 1.5}}"))
    for seam in pattern.seams:
        if seam.how == "gathered":
            upper, lower = (
                pattern.by_name[side.panel].edge(side.edge).curve.length_mm for side in (seam.front, seam.back)
            )
            assert upper / lower == pytest.approx(1.5)
    assert [mark.kind for mark in skirt_pieces(pattern)[0].marks] == ["gather"]


def test_the_lower_edge_is_as_deep_as_asked_at_front_side_and_back() -> None:
    """Measured down the two ends, and straight down from where the side of the body lies on the waist."""
    step = f"skirt: {{name: skirt, {ALL}, depth: {{front: 12 cm, side: 15 cm, back: 20 cm}}, circle: 40%}}"
    (piece,) = skirt_pieces(drafted(bodice(step)))
    assert piece.edge("front edge").curve.length_mm == pytest.approx(120.0)
    assert piece.edge("center back").curve.length_mm == pytest.approx(200.0)
    assert (piece.edge("front edge").kind, piece.edge("center back").kind, piece.fold) == (FREE, FOLD, "center back")
    side = piece.edge("side waist").curve  # the side of this body lies in the panel of that name
    foot = [
        math.dist(side.at(share * side.length_mm), _below(piece, side.at(share * side.length_mm)))
        for share in (0.0, 1.0)
    ]
    assert foot[0] > 150.0
    assert foot[1] < 165.0


def _below(piece: Panel, point: Points) -> Points:
    """Return the nearest place of the hem: straight down, as lines across a ring are square to those down."""
    hem = piece.edge("hem").curve.points
    return min(hem, key=lambda one: math.dist(one, point))


def test_a_skirt_may_begin_behind_the_point_and_have_a_seam_at_the_center_back() -> None:
    """The waist of the front is parted there; what lies before is left free, and the two halves are sewn to each other."""
    pattern = drafted(bodice(f"skirt: {{name: skirt, {ALL}, depth: 16 cm, circle: 50%, begins: 6 cm, fold: no}}"))
    front = pattern.by_name["front"]
    assert front.edge("waist 1").curve.length_mm == pytest.approx(60.0)
    assert front.edge("waist 1").mate is None
    assert front.edge("waist 2").mate is not None
    assert skirt_pieces(pattern)[0].edge("center back").kind == CENTER
    assert failed(pattern) == []


@settings(max_examples=12, deadline=None)
@given(circle=st.floats(0.0, 250.0), cloth=st.floats(400.0, 1500.0), pieces=st.integers(1, 4))
def test_no_piece_is_wider_than_the_cloth(circle: float, cloth: float, pieces: int) -> None:
    """However wide the skirt, no piece's hem, unfolded, is longer than the cloth is wide; and there are as many as asked."""
    options = f"circle: {circle:.2f}%, cloth: {cloth:.1f} mm, pieces: {pieces}"
    pattern = drafted(bodice(f"skirt: {{name: skirt, {ALL}, depth: 15 cm, {options}}}"))
    found = skirt_pieces(pattern)
    assert len(found) >= pieces
    for piece in found:
        assert (2.0 if piece.fold else 1.0) * piece.edge("hem").curve.length_mm <= cloth + 0.01
    assert failed(pattern) == []


def test_the_bodice_stays_as_it_was() -> None:
    """Sewing a skirt on changes no panel's outline and no girth."""
    plain, skirted = (
        drafted(bodice(*more)) for more in ((), (f"skirt: {{name: skirt, {ALL}, depth: 15 cm, circle: 50%}}",))
    )
    for panel in plain.panels:
        assert skirted.by_name[panel.name].loop() == pytest.approx(panel.loop())
    assert [girth.parts_mm for girth in plain.girths] == [girth.parts_mm for girth in skirted.girths]


FLARED = "depth: 14 cm, circle: 50%"
REFUSALS = {
    "no such panel": (
        (f"skirt: {{name: skirt, to: [front, sides], {FLARED}}}",),
        RecipeError,
        "r.yaml:23:38: step 7 (skirt) › to › there is no panel “sides” in `separate` (step 6). Did you mean “side”?",
    ),
    "a name that is taken": (
        (f"skirt: {{name: side, to: [front, side], {FLARED}}}",),
        RecipeError,
        "r.yaml:23:5: step 7 (skirt) › there is a panel “side” already. Give every piece a name of its own.",
    ),
    "nothing to flare it": (
        ("skirt: {name: skirt, to: [front], depth: 14 cm}",),
        RecipeError,
        "r.yaml:23:5: step 7 (skirt) › circle › a flared skirt needs `circle` or `hem`, once.",
    ),
    "another kind's options": (
        (f"skirt: {{name: skirt, to: [front], {FLARED}, fullness: 1.5}}",),
        RecipeError,
        "r.yaml:23:76: step 7 (skirt) › fullness › stands beside `kind: flared`. It is for `kind: gathered`.",
    ),
    "hardly gathered": (
        ("skirt: {name: skirt, to: [front], depth: 14 cm, kind: gathered, fullness: 1}",),
        RecipeError,
        "r.yaml:23:79: step 7 (skirt) › fullness › got 1, needs a number from 1.05 to 4. 1.5 is half as wide again.",
    ),
    "pleats the wrong way round": (
        (
            "skirt: {name: skirt, to: [front], depth: 14 cm, kind: pleated, pleats: {number: 0, depth: 2 cm, between: [80%, 20%]}}",
        ),
        RecipeError,
        "r.yaml:23:76: step 7 (skirt) › pleats › `between` needs two rising shares of the upper edge. "
        "Write `between: [40%, 100%]`.\n"
        "r.yaml:23:76: step 7 (skirt) › pleats › `number` is 0, needs a number from 1 to 60.",
    ),
    "panels apart": (
        (f"skirt: {{name: skirt, to: [front, back], {FLARED}}}",),
        GeometryError,
        "r.yaml:23:5: step 7 (skirt) › to › no seam runs down between “front” and “back”. "
        "Name panels that lie side by side, or sew on two skirts.",
    ),
    "twice to one waist": (
        (f"skirt: {{name: skirt, to: [front], {FLARED}}}", f"skirt: {{name: tail, to: [front], {FLARED}}}"),
        GeometryError,
        "r.yaml:24:5: step 8 (skirt) › to › panel “front” is sewn to something at its foot already. "
        "Leave it out, or sew the skirt elsewhere.",
    ),
    "a hem shorter than the waist": (
        (f"skirt: {{name: skirt, {ALL}, depth: 14 cm, hem: 40 cm}}",),
        GeometryError,
        "r.yaml:23:5: step 7 (skirt) › hem › comes to 400 mm all round; a straight strip has 693 mm. Give it more.",
    ),
    "more than three circles": (
        (f"skirt: {{name: skirt, {ALL}, depth: 14 cm, circle: 400%}}",),
        GeometryError,
        "r.yaml:23:5: step 7 (skirt) › circle › comes to more than 3 whole circles. Gather it, or lay it in pleats.",
    ),
    "hardly a skirt": (
        (f"skirt: {{name: skirt, {ALL}, depth: 1 cm, circle: 50%}}",),
        GeometryError,
        "r.yaml:23:5: step 7 (skirt) › depth › comes to 10 mm, needs 20 mm or more.",
    ),
    "beginning behind its end": (
        (f"skirt: {{name: skirt, to: [front], {FLARED}, begins: 50 cm}}",),
        GeometryError,
        "r.yaml:23:5: step 7 (skirt) › begins › begins 500 mm behind the front, where the waist has ended. "
        "Let it begin nearer to the front.",
    ),
    "cloth like a ribbon": (
        (f"skirt: {{name: skirt, {ALL}, {FLARED}, cloth: 2 cm}}",),
        GeometryError,
        "r.yaml:23:5: step 7 (skirt) › cloth › more than 24 pieces would be needed. Take wider cloth.",
    ),
}


@pytest.mark.parametrize("case", REFUSALS)
def test_what_cannot_be_hung_is_refused_whole(case: str) -> None:
    """Every refusal says what is wrong and what to do."""
    steps, kind, whole = REFUSALS[case]
    with pytest.raises(kind) as caught:
        drafted(bodice(*steps))
    assert str(caught.value) == whole


def test_a_skirt_may_be_sewn_to_some_panels_only() -> None:
    """A tail at the back leaves the front as it was."""
    work = worked(bodice(f"skirt: {{name: tail, to: [side, back], {FLARED}}}"))
    assert panel_of(work, "tail").edge("side waist").mate is not None
    assert panel_of(work, "front").edge("waist").mate is None
