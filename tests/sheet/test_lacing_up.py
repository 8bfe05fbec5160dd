"""How a lace goes, in words and in a picture: true to the holes (common practice, no source)."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from tests.sheet.real import drafted

from fanblock.finish.eyeleting import spiral_lace_mm
from fanblock.pattern.bones import CROSSED, LEFT, Lacing
from fanblock.pattern.model import Pattern
from fanblock.sheet.drawing import Drawing, Stroke, Words
from fanblock.sheet.lacingup import first_row, lace_pictures, lacing_words

RECIPES = ("stays-five-panels", "stays-front-lacing", "kirtle-bodice-side-lacing")


def strokes(drawing: Drawing, name: str) -> list[np.ndarray]:
    """Return first and last points of the lines of a name."""
    items = [item for group in drawing.groups for item in group.items]
    return [np.asarray(one.beziers)[[0, -1], [0, -1]] for one in items if isinstance(one, Stroke) and one.name == name]


@pytest.mark.parametrize("recipe", RECIPES)
def test_a_spiral_is_level_at_both_ends_and_slants_between(recipe: str) -> None:
    """Behind, in front and at the side alike: the lace crosses level through the first and the last pair of holes."""
    pattern = drafted("ferrywoman", recipe)
    for lacing, drawing in lace_pictures(pattern):
        inside, outside = strokes(drawing, "inside"), strokes(drawing, "outside")
        assert (len(inside), len(outside)) == (len(lacing.left_mm), len(lacing.left_mm) - 1)
        falls = [float(np.ptp(run[:, 1])) for run in inside]
        assert falls[0] == pytest.approx(0.0, abs=0.1)
        assert falls[-1] == pytest.approx(0.0, abs=0.1)
        assert min(falls[1:-1]) > 1.0
        lowest = [float(run[:, 1].min()) for run in (*inside, *outside)]
        assert lowest == sorted(lowest[: len(inside)], reverse=True) + sorted(lowest[len(inside) :], reverse=True)


@pytest.mark.parametrize("recipe", RECIPES)
def test_the_way_told_is_as_long_as_the_lace_that_is_bought(recipe: str) -> None:
    """The told way, from hole to hole at the gap, has the length that the list reckons by."""
    lacing = drafted("ferrywoman", recipe).lacings[0]
    rows = lacing.left_mm, lacing.right_mm
    first, second = rows[first_row(lacing)], rows[1 - first_row(lacing)]
    way = [at for pair in zip(first, second, strict=True) for at in pair]
    across = lacing.gap_mm + 2.0 * lacing.from_edge_mm
    told = sum(float(np.hypot(across, b - a)) for a, b in pairwise(way))
    assert told == pytest.approx(
        spiral_lace_mm(len(first), lacing.spacing_mm, lacing.gap_mm, lacing.from_edge_mm), rel=0.02
    )


def test_the_halves_stand_as_they_are_seen() -> None:
    """Seen from behind the wearer's left half is at the left, seen from in front at the right."""

    def left_x(recipe: str) -> tuple[float, float]:
        (_, drawing), *_ = lace_pictures(drafted("ferrywoman", recipe))
        words = [item for group in drawing.groups for item in group.items if isinstance(item, Words)]
        found = {item.text: item.x for item in words}
        return found["LEFT half"], found["RIGHT half"]

    behind, front = left_x("stays-five-panels"), left_x("stays-front-lacing")
    assert behind[0] < behind[1]
    assert front[0] > front[1]


def words_of(pattern: Pattern, lacing: Lacing) -> str:
    """Return how an opening is laced, as one text."""
    return " ".join(lacing_words(pattern, lacing))


def test_the_first_hole_the_knot_and_the_end_are_told() -> None:
    """The row whose second hole is half a space down comes first; the end is kept where the wearer reaches it."""
    pattern = drafted("ferrywoman", "stays-five-panels")
    lacing = pattern.lacings[0]
    assert lacing.left_mm[1] < lacing.right_mm[1]
    said = words_of(pattern, lacing)
    assert (
        f"through hole 1 of the {LEFT} half, so that the knot stays outside, and out through hole 1 of the right half"
        in said
    )
    assert "until the edges stand 2 in apart at the waist" in said
    assert "round the waist to the front" in said
    swapped = replace(lacing, left_mm=lacing.right_mm, right_mm=lacing.left_mm)
    assert "through hole 1 of the right half, so that the knot" in words_of(pattern, swapped)
    assert "round the waist" not in words_of(*front())


def front() -> tuple[Pattern, Lacing]:
    """Stays that lace in front, and their lacing."""
    pattern = drafted("ferrywoman", "stays-front-lacing")
    return pattern, pattern.lacings[0]


def test_a_side_lacing_names_its_edges_and_has_two_laces() -> None:
    """On both sides of the body, each with a lace."""
    pattern = drafted("ferrywoman", "kirtle-bodice-side-lacing")
    said = words_of(pattern, pattern.lacings[0])
    assert "through hole 1 of the front" in said
    assert "Each side has a lace of its own." in said


def test_crossed_lacing_begins_with_both_ends() -> None:
    """Its two ends are tied to each other, and every hole of both rows but the last pair has a crossing."""
    pattern = drafted("ferrywoman", "stays-five-panels")
    lacing = replace(pattern.lacings[0], way=CROSSED, left_mm=pattern.lacings[0].right_mm)
    crossed = replace(pattern, lacings=(lacing,))
    said = words_of(crossed, lacing)
    assert "two ends of the lace out from inside through both first holes" in said
    assert "Tie the two ends in a bow" in said
    assert len(strokes(lace_pictures(crossed)[0][1], "outside")) == 2 * (len(lacing.left_mm) - 1)


def test_skirts_that_lap_are_told() -> None:
    """Where the tabs are wider than the hip the one in front lies on top."""
    pattern = drafted("ferrywoman", "stays-five-panels")
    assert "lay the one in front over the one behind it" in words_of(pattern, pattern.lacings[0])
    spread = replace(pattern, findings=tuple(one for one in pattern.findings if one.code != "hips-open"))
    assert "lap over" not in words_of(spread, pattern.lacings[0])
