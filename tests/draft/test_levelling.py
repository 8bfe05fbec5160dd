"""Slicing along level seams: a loop cut into an upper and a lower one, as often as the seam runs through it."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from fanblock.draft.levelling import levelled
from fanblock.draft.model import LevelSeam
from fanblock.draft.slicing import Loop, Side, inside_at, laid_on, sliced
from fanblock.geometry.curve import Points
from fanblock.pattern.model import CENTER, HEM, SEAM, TOP
from fanblock.problems import GeometryError

STATIONS = np.linspace(-0.1, 1.1, 121)


def loop_of(*sides: tuple[str, str, Points]) -> Loop:
    """Return a loop of straight sides, each given by its name, its kind and its points."""
    return tuple(Side(name, kind, np.array(points, dtype=float)) for name, kind, points in sides)


def box() -> Loop:
    """Return the plainest outline: around 0 to 1, height -1 to 2."""
    return loop_of(
        ("hem", HEM, [[0, -1], [1, -1]]),
        ("center back", CENTER, [[1, -1], [1, 2]]),
        ("top edge", TOP, [[1, 2], [0, 2]]),
        ("center front", CENTER, [[0, 2], [0, -1]]),
    )  # type: ignore[arg-type]


def notched() -> Loop:
    """Return the box with a notch in its top edge from 0.3 to 0.7 around, down to a height of 0.5."""
    return loop_of(
        ("hem", HEM, [[0, -1], [1, -1]]),
        ("center back", CENTER, [[1, -1], [1, 2]]),
        ("top edge", TOP, [[1, 2], [0.7, 2], [0.7, 0.5], [0.3, 0.5], [0.3, 2], [0, 2]]),
        ("center front", CENTER, [[0, 2], [0, -1]]),
    )  # type: ignore[arg-type]


def level(
    height: float, start: float = 0.0, end: float = 1.0, on: tuple[str, str] = ("center front", "center back")
) -> LevelSeam:
    """Return a seam that runs at one height."""
    return LevelSeam("w", lambda arounds: np.full(np.shape(arounds), height), start, end, *on, after=0)


def upright(face: str, around: float = 0.4) -> Side:
    """Return an edge of a seam straight up the block."""
    heights = np.linspace(-2.0, 3.0, 21)
    return Side("s", SEAM, np.column_stack((np.full(21, around), heights)), "s", face)


def areas(loops: tuple[Loop, ...]) -> list[float]:
    """Return how large each loop is."""
    return [shapely.Polygon(np.vstack([side.points[:-1] for side in loop])).area for loop in loops]


def test_a_box_is_cut_into_an_upper_and_a_lower_one() -> None:
    """At the height 0.5 the box, 3 high, leaves 1.5 above and 1.5 below; the front side of the seam is the upper loop's."""
    upper, lower = levelled((box(),), level(0.5), STATIONS)
    assert [side.name for side in upper] == ["center back", "top edge", "center front", "w"]
    assert [side.name for side in lower] == ["center front", "hem", "center back", "w"]
    assert (upper[-1].face, lower[-1].face, upper[-1].level) == ("front", "back", True)
    assert np.array_equal(upper[-1].points, lower[-1].points[::-1])
    assert areas((upper, lower)) == pytest.approx([1.5, 1.5])


def test_it_leaves_the_cloth_and_enters_it_again() -> None:
    """Across the notch it runs in the open: two upper loops, each 0.3 by 1, and one below them with the notch's floor."""
    loops = levelled((notched(),), level(1.0), STATIONS)
    assert sorted(areas(loops)) == pytest.approx([0.3, 0.3, 3.0 - 0.4 * 1.5 - 0.6])
    assert [sum(side.level for side in loop) for loop in loops] == [1, 1, 2]


def test_it_runs_along_a_curve_as_drawn() -> None:
    """A seam that sinks in the middle by a half of 1 - (2u - 1) squared leaves a third more below it: the area is 2/3 of it."""
    bow = LevelSeam("w", lambda u: 0.5 - 0.3 * (1.0 - (2.0 * u - 1.0) ** 2), 0.0, 1.0, "center front", "center back", 0)
    upper, lower = levelled((box(),), bow, np.linspace(-0.1, 1.1, 1201))
    assert areas((upper, lower)) == pytest.approx([1.5 + 0.2, 1.5 - 0.2], abs=1e-5)


def test_an_upright_seam_that_it_cuts_lies_in_two_parts() -> None:
    """Below it both sides of the seam are a part of their own, called after both."""
    loops = levelled(sliced(box(), upright("front"), upright("back"), 0.5), level(0.5), STATIONS)
    found = {(side.name, side.part, side.face) for loop in loops for side in loop if side.seam == "s"}
    assert found == {
        ("s", "", "front"),
        ("s", "", "back"),
        ("s below w", "below w", "front"),
        ("s below w", "below w", "back"),
    }
    assert len(loops) == 4


def test_on_a_seam_that_it_ends_on_it_makes_a_t() -> None:
    """Only the loop before the seam is cut; both pieces of the seam's side there keep its name."""
    loops = levelled(
        sliced(box(), upright("front"), upright("back"), 0.5), level(0.5, end=0.4, on=("center front", "s")), STATIONS
    )
    assert len(loops) == 3
    assert [side.name for loop in loops for side in loop if side.seam == "s"] == ["s", "s", "s"]


def test_what_ends_in_the_cloth_is_refused() -> None:
    """It has to run from edge to edge."""
    with pytest.raises(GeometryError) as caught:
        levelled((box(),), level(0.5, end=0.6, on=("center front", "")), STATIONS)
    assert str(caught.value) == (
        "seam “w” › it ends in the midst of the cloth, before it meets center back at 100% around. "
        "Let its ends reach an edge or a seam."
    )


def test_a_level_along_the_seam_belongs_to_the_loop_above() -> None:
    """Read on the seam's own height, the upper loop has all of it and the lower none; a seam beside the level is left alone."""
    upper, lower = levelled((box(),), level(0.5), STATIONS)
    assert inside_at(laid_on(upper, 0.5, 0.02, seams=True), 0.5) == [(0.0, 1.0)]
    assert inside_at(laid_on(lower, 0.5, 0.02, seams=True), 0.5) == []
    assert inside_at(laid_on(upper, 0.49, 0.02, seams=True), 0.49) == []
    assert inside_at(laid_on(lower, 0.49, 0.02, seams=True), 0.49) == [(0.0, 1.0)]
