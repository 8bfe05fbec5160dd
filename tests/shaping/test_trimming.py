"""Layers cut off along a line, or drawn in from their edges, beside another library's clipping and buffering."""

from __future__ import annotations

import numpy as np
import pytest
from shapely import LineString, Polygon, box

from fanblock.geometry.curve import Curve, Points
from fanblock.pattern.model import HEM, SEAM, TOP, Edge
from fanblock.shaping.equal import joined_ends
from fanblock.shaping.trimming import Placed, cut_off, drawn_in


def square(size: float = 100.0, kinds: tuple[str, ...] = (HEM, SEAM, TOP, SEAM)) -> list[Edge]:
    """Return a square, counter-clockwise from its lower left corner: hem, right, top, left."""
    corners = np.array([[0.0, 0.0], [size, 0.0], [size, size], [0.0, size], [0.0, 0.0]])
    names = ("hem", "right", "top edge", "left")
    share = np.linspace(0.0, 1.0, 21)[:, None]
    return [
        Edge(name, kind, Curve.through(start + share * (end - start)))
        for name, kind, start, end in zip(names, kinds, corners, corners[1:], strict=False)
    ]


def stepped(*corners: list[float]) -> Curve:
    """Return straight runs from corner to corner in steps of 1 mm or less."""
    return Curve.through(LineString(corners).segmentize(1.0).coords)


def loop(edges: list[Edge]) -> Polygon:
    """Return what edges enclose."""
    return Polygon(np.vstack([edge.curve.points[:-1] for edge in joined_ends(edges)]))


def placed(edges: list[Edge]) -> list[Placed]:
    """Return edges whose places on the block are their points, a hundredth as large."""
    return [Placed(edge, edge.curve.points / 100.0) for edge in edges]


def level(height: float) -> object:
    """Return a height that is the same for every around."""
    return lambda around: np.full(np.shape(around), height)


def shown(sides: list[Placed]) -> Polygon:
    """Return what placed edges enclose on the block."""
    return Polygon(np.vstack([side.places[:-1] for side in sides]))


def test_cut_off_is_what_another_library_clips() -> None:
    """A square without its lower 40 %."""
    cut = cut_off(placed(square()), level(0.4), "hem", HEM)  # type: ignore[arg-type]
    assert cut is not None
    assert shown(cut).symmetric_difference(shown(placed(square())).intersection(box(-1, 0.4, 2, 2))).area < 1e-9
    assert [side.edge.name for side in cut] == ["right", "top edge", "left", "hem"]
    assert cut[0].edge.curve.length_mm == pytest.approx(60.0)


def test_a_slanting_line_and_marks_of_the_waist() -> None:
    """The line may slant; a mark on what is left of an edge keeps its place."""
    edges = square()
    edges[1] = Edge("right", SEAM, edges[1].curve, waist_at_mm=70.0)
    edges[3] = Edge("left", SEAM, edges[3].curve, waist_at_mm=30.0)
    cut = cut_off(placed(edges), lambda around: 0.2 + 0.2 * np.asarray(around), "hem", HEM)
    assert cut is not None
    held = {side.edge.name: side.edge.waist_at_mm for side in cut}
    assert held["right"] == pytest.approx(30.0)
    assert held["left"] == pytest.approx(30.0)
    assert shown(cut).area == pytest.approx(1.0 - 0.3)


def test_nothing_to_cut_and_nothing_left() -> None:
    """Above the line all of it stays as it is; below it nothing is left."""
    sides = placed(square())
    assert cut_off(sides, level(-0.1), "hem", HEM) is sides  # type: ignore[arg-type]
    assert cut_off(sides, level(1.1), "hem", HEM) is None  # type: ignore[arg-type]


def test_a_stub_is_left_out() -> None:
    """What is left of an edge below 3 mm goes: the new edge runs to the next one."""
    cut = cut_off(placed(square()), level(0.98), "hem", HEM)  # type: ignore[arg-type]
    assert cut is not None
    assert [side.edge.name for side in cut] == ["top edge", "hem"]


def test_drawn_in_at_two_edges() -> None:
    """6 mm off the top and 4 mm more below: a square 100 wide and 98 high; its sides follow."""
    edges = drawn_in(square(), {"top edge": 6.0, "hem": -4.0})
    assert loop(edges).symmetric_difference(box(0.0, -4.0, 100.0, 94.0)).area < 1e-6


def test_drawn_in_all_round_is_a_mitred_buffer() -> None:
    """Every edge by 7 mm: what shapely's inward buffer with mitred corners leaves."""
    edges = drawn_in(square(), dict.fromkeys(("top edge", "hem", "left", "right"), 7.0))
    assert loop(edges).symmetric_difference(box(0, 0, 100, 100).buffer(-7.0, join_style="mitre")).area < 1e-6


def test_edges_that_run_on_stay_joined() -> None:
    """Two halves of one smooth edge end side by side when both are drawn in."""
    turn = np.linspace(0.0, np.pi, 61)
    arc: Points = 100.0 * np.column_stack((np.cos(turn), np.sin(turn)))
    edges = [
        Edge("hem", HEM, Curve.through([[-100.0, 0.0], [100.0, 0.0]])),
        Edge("top 1", TOP, Curve.through(arc[:31])),
        Edge("top 2", TOP, Curve.through(arc[30:])),
    ]
    drawn = drawn_in(edges, {"top 1": 10.0, "top 2": 10.0})
    assert np.hypot(*drawn[1].curve.end) == pytest.approx(90.0, abs=0.01)
    assert drawn[1].curve.end == pytest.approx(drawn[2].curve.start, abs=0.01)
    half = Polygon(90.0 * np.column_stack((np.cos(turn), np.sin(turn))))
    assert loop(drawn).symmetric_difference(half).area < 5.0


def test_a_rounded_corner_tighter_than_the_width_makes_no_loop() -> None:
    """A corner rounded by 3 mm, 8 mm drawn in, at the end of the two straight runs: their moved lines meet, no more."""
    turn = np.linspace(-np.pi / 2.0, 0.0, 12)
    corner: Points = np.array([97.0, 3.0]) + 3.0 * np.column_stack((np.cos(turn), np.sin(turn)))
    run = np.linspace(0.0, 97.0, 60)[:-1]
    hem = np.vstack((np.column_stack((run, 0.0 * run)), corner, [[100.0, 60.0]]))
    edges = [
        Edge("hem", HEM, Curve.through(hem)),
        Edge("top edge", TOP, Curve.through([[100.0, 60.0], [0.0, 60.0]])),
        Edge("left", SEAM, Curve.through([[0.0, 60.0], [0.0, 0.0]])),
    ]
    drawn = loop(drawn_in(edges, {"hem": 8.0}))
    assert drawn.is_valid
    assert drawn.symmetric_difference(box(0.0, 8.0, 92.0, 60.0)).area < 1.0


def test_a_spike_ends_where_its_sides_then_meet() -> None:
    """A point of 10° between a hem and a side: 2 mm off the hem takes 2 mm / tan 10° off the side's foot."""
    tip = np.array([100.0, 0.0])
    away = 100.0 * np.array([-np.cos(np.radians(10.0)), np.sin(np.radians(10.0))])
    edges = [
        Edge("hem", HEM, Curve.through([[0.0, 0.0], tip])),
        Edge("side", SEAM, Curve.through([tip, tip + away])),
        Edge("left", SEAM, Curve.through([tip + away, [0.0, 0.0]])),
    ]
    side = drawn_in(edges, {"hem": 2.0})[1].curve
    assert side.start == pytest.approx([100.0 - 2.0 / np.tan(np.radians(10.0)), 2.0], abs=1e-6)


def test_tabs_part_at_their_slit_and_a_smooth_corner_ends_in_a_step() -> None:
    """Two tabs side by side, each 5 mm drawn in; the hem that runs on smoothly in a side steps over to it."""
    edges = [
        Edge("hem 1", HEM, stepped([0.0, 0.0], [50.0, 0.0], [50.0, 40.0])),
        Edge("hem 2", HEM, stepped([50.0, 40.0], [50.0, 0.0], [100.0, 0.0], [100.0, 20.0])),
        Edge("right", SEAM, Curve.through([[100.0, 20.0], [100.0, 80.0]])),
        Edge("top edge", TOP, Curve.through([[100.0, 80.0], [0.0, 80.0]])),
        Edge("left", SEAM, Curve.through([[0.0, 80.0], [0.0, 0.0]])),
    ]
    drawn = drawn_in(edges, {"hem 1": 5.0, "hem 2": 5.0})
    for edge, after in zip(drawn, (*drawn[1:], drawn[0]), strict=True):
        assert after.curve.start == pytest.approx(edge.curve.end, abs=1e-9)
    assert drawn[2].curve.start.tolist() == [100.0, 20.0]
    assert loop(drawn).area == pytest.approx(80.0 * 100.0 - 5.0 * 100.0 - 10.0 * 35.0 - 5.0 * 15.0, abs=8.0)
