"""Slicing: a loop cut along seams that take nothing, laid back together, is the loop again."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from tests.samples import BODIES, GAP, block, body, recipe, seam
from tests.samples import HEM as HEM_STEP
from tests.samples import TOP as TOP_STEP

from fanblock.draft.cutting import sliced_loops
from fanblock.draft.model import AROUND, HEIGHT, Draft
from fanblock.draft.separate import outline
from fanblock.draft.slicing import Loop, Side, closed_loop, holding, inside_at, sliced, split_at_height
from fanblock.draft.takes import takes_of
from fanblock.geometry.curve import Points
from fanblock.pattern.model import CENTER, HEM, SEAM, TOP
from fanblock.problems import FanblockError, GeometryError
from fanblock.steps.table import BY_NAME

SAME = 1e-6


def ring(loop: Loop) -> Points:
    """Return a loop's points, the first not repeated."""
    return np.vstack([side.points[:-1] for side in loop])


def box() -> Loop:
    """Return the plainest outline: around 0 to 1, height -1 to 2."""
    corners = np.array([[0.0, -1.0], [1.0, -1.0], [1.0, 2.0], [0.0, 2.0], [0.0, -1.0]])
    names = (("hem", HEM), ("center back", CENTER), ("top edge", TOP), ("center front", CENTER))
    return tuple(Side(name, kind, corners[number : number + 2]) for number, (name, kind) in enumerate(names))


def upright(around: float, face: str, low: float = -2.0, high: float = 3.0, name: str = "s") -> Side:
    """Return a seam's edge straight up the block."""
    heights = np.linspace(low, high, 21)
    return Side(name, SEAM, np.column_stack((np.full(21, around), heights)), name, face)


def test_a_box_cut_in_two_keeps_every_name() -> None:
    """The loop before the seam has the front's edges, the one behind it the back's, and each its side of the seam."""
    before, behind = sliced(box(), upright(0.3, "front"), upright(0.3, "back"), 0.5)
    assert [side.name for side in before] == ["top edge", "center front", "hem", "s"]
    assert [side.name for side in behind] == ["hem", "center back", "top edge", "s"]
    assert (before[-1].face, behind[-1].face) == ("front", "back")
    assert np.array_equal(before[-1].points, behind[-1].points[::-1])
    assert shapely.Polygon(ring(before)).area == pytest.approx(0.9)
    assert shapely.Polygon(ring(behind)).area == pytest.approx(2.1)


def test_what_a_seam_takes_is_missing_afterwards() -> None:
    """Edges a tenth of the way round apart leave a tenth of the cloth out; lapped edges count it twice."""
    for front, back, area in ((0.3, 0.4, 2.7), (0.4, 0.3, 3.3)):
        loops = sliced(box(), upright(front, "front"), upright(back, "back"), 0.5)
        assert sum(shapely.Polygon(ring(loop)).area for loop in loops) == pytest.approx(area)


def test_a_seam_that_stops_in_the_cloth_is_refused() -> None:
    """A seam has to run from edge to edge."""
    with pytest.raises(GeometryError) as caught:
        sliced(box(), upright(0.3, "front", low=0.0), upright(0.3, "back", low=0.0), 0.5)
    assert str(caught.value) == (
        "seam “s” › it does not run right across the cloth from edge to edge. Let its ends reach an edge or a seam."
    )


def test_a_seam_that_meets_another_first_is_refused() -> None:
    """A slanting seam that runs into an earlier one, on which it was not meant to end, is refused, with the height."""
    before, _ = sliced(box(), upright(0.5, "front"), upright(0.5, "back"), 0.5)
    slanting = np.column_stack((np.linspace(0.1, 0.7, 21), np.linspace(-2.0, 3.0, 21)))
    front, back = (Side("t", SEAM, slanting, "t", face) for face in ("front", "back"))
    with pytest.raises(GeometryError) as caught:
        sliced(before, front, back, 0.0)
    assert str(caught.value) == (
        "seam “t” › it runs into the seam “s” at 133% of the way from waist to bust. "
        "Move one of the two, or let them take or spring less."
    )
    assert len(sliced(before, front, back, 0.0, ("s", ""))) == 2


def overlong() -> list[Side]:
    """Return the box's four sides, each carried on beyond both its corners."""
    stretched = []
    for side in box():
        start, end = side.points
        stretched.append(Side(side.name, side.kind, np.array([start - 0.1 * (end - start), end + 0.1 * (end - start)])))
    return stretched


def test_overlong_lines_are_cut_where_they_meet() -> None:
    """Four lines that cross at the corners make the box."""
    loop = closed_loop(tuple((side,) for side in overlong()))
    assert np.vstack([side.points for side in loop]) == pytest.approx(np.vstack([side.points for side in box()]))


def test_lines_that_do_not_meet_make_no_loop() -> None:
    """A top edge that stops short of the back leaves the outline open."""
    hem, back, top, front = overlong()
    short = Side(top.name, top.kind, top.points * np.array([0.5, 1.0]))
    with pytest.raises(GeometryError) as caught:
        closed_loop(((hem,), (back,), (short,), (front,)))
    assert str(caught.value) == (
        "outline › center back and top edge do not meet on this body. Carry them on to the same centre line."
    )


def test_an_edge_is_split_where_it_passes_a_height() -> None:
    """Parted at the waist an upright edge has one piece below and one above; one that stays above it stays whole."""
    low, high = split_at_height(upright(0.3, "front"), 0.0)
    assert low.points[:, HEIGHT].max() == pytest.approx(0.0)
    assert high.points[:, HEIGHT].min() == pytest.approx(0.0)
    assert split_at_height(upright(0.3, "front", low=0.5), 0.0)[0].points[0, HEIGHT] == 0.5


def test_a_level_is_found_inside_a_loop() -> None:
    """At half height the box is cloth from front to back; above it nowhere."""
    assert inside_at(box(), 0.5) == [(0.0, 1.0)]
    assert inside_at(box(), 2.5) == []
    assert holding((box(),), np.array([0.5, 0.5])) == 0
    assert holding((box(),), np.array([1.5, 0.5])) is None


percents = st.integers(4, 92)
leans = st.integers(-7, 7)


@settings(max_examples=25, deadline=None, derandomize=True)
@given(
    st.sampled_from(sorted(BODIES)),
    st.lists(st.tuples(percents, leans, leans), min_size=1, max_size=4, unique_by=lambda course: course[0] // 9),
    st.booleans(),
)
def test_cut_and_laid_back_a_draft_is_its_outline(name: str, courses: list[tuple[int, int, int]], laced: bool) -> None:
    """Cut along seams that take nothing, the pieces share every cut point for point, and their other edges, in order,
    run along the outline within a millionth.
    """
    seams = [
        seam(f"s{number}", f"{top}%, top edge", f"{max(top + lean, 1)}%, waist", f"{max(top + low, 1)}%, hem")
        for number, (top, lean, low) in enumerate(courses)
    ]
    try:
        whole, loops, draft = cut(name, [*([GAP] if laced else []), TOP_STEP, HEM_STEP, *seams])
    except FanblockError:
        assume(False)  # seams that cross, or run over the edge
        return
    assert len(loops) == len(seams) + 1
    edges = [side for loop in loops for side in loop if side.kind == SEAM]
    assert Counter(side.seam for side in edges) == {line.name: 2 for line in draft.seams}
    for line in draft.seams:
        front, back = (next(s for s in edges if s.seam == line.name and s.face == face) for face in ("front", "back"))
        assert np.abs(front.points - back.points[::-1]).max() < SAME
    for side in whole:
        pieces = [piece.points for loop in loops for piece in loop if piece.name == side.name]
        falls = side.points[0, AROUND] > side.points[-1, AROUND]
        pieces.sort(key=lambda points: float(points[0, AROUND]), reverse=bool(falls))
        for one, following in pairwise(pieces):
            assert np.abs(one[-1] - following[0]).max() < SAME
        laid = shapely.LineString(np.vstack(pieces))
        assert laid.length == pytest.approx(shapely.LineString(side.points).length, abs=SAME)
        assert shapely.hausdorff_distance(laid, shapely.LineString(side.points)) < SAME
    area = sum(shapely.Polygon(ring(loop)).area for loop in loops)
    assert area == pytest.approx(shapely.Polygon(ring(whole)).area, abs=SAME)


def cut(name: str, steps: list[str]) -> tuple[Loop, tuple[Loop, ...], Draft]:
    """Return the outline of a draft, the loops its seams make of it, and the draft."""
    read = recipe(*steps, f"separate: {{panels: [{', '.join(f'p{number}' for number in range(9))}]}}")
    draft = Draft(body(name), block(name))
    for step in read.steps[:-1]:
        draft = BY_NAME[step.kind].run(draft, step.options)
    whole = outline(draft)
    return whole, sliced_loops(draft, whole, takes_of(draft)), draft
