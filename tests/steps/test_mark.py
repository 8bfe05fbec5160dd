"""``mark``: a line of one's own on a piece, at the same share of every body, within the stitch lines."""

from __future__ import annotations

import numpy as np
import pytest
from tests.samples import GAP, HEM, SOME, TOP, block, failed, made, recipe, separate, side_back, side_front

from fanblock.geometry.curve import Points
from fanblock.pattern.model import Mark, Pattern
from fanblock.problems import FanblockError

THREE = separate("front", "side", "back")


def marked(*marks: str, name: str = "ordinary") -> Pattern:
    """Return stays of three pieces a half with these marks."""
    return made(recipe(GAP, TOP, HEM, side_front(), side_back(), THREE, *marks, makes="stays"), name)


def mark_of(pattern: Pattern, panel: str = "front", name: str = "pocket") -> Mark:
    """Return a mark of a piece."""
    return next(mark for mark in pattern.by_name[panel].marks if mark.name == name)


def mark(through: str = "[5%, 20%], [9%, 60%]", **options: str) -> str:
    """Return a mark step on the front."""
    more = "".join(f", {key}: {value}" for key, value in options.items())
    return f"mark: {{name: pocket, panel: front, through: [{through}]{more}}}"


def test_a_plain_mark_by_hand() -> None:
    """Two places give the straight line between them, dotted as a place, called by its name; nothing fails of it."""
    pattern = marked(mark())
    drawn = mark_of(pattern)
    assert (drawn.kind, drawn.says) == ("place", "pocket")
    ends = block().at(np.array([0.05, 0.09]), np.array([0.2, 0.6]))
    assert np.array([drawn.curve.start, drawn.curve.end]) == pytest.approx(ends)
    assert drawn.curve.length_mm == pytest.approx(float(np.hypot(*(ends[1] - ends[0]))))
    assert failed(pattern) == []


@pytest.mark.parametrize("name", SOME)
def test_it_lies_at_the_same_share_of_every_body(name: str) -> None:
    """Through three places, smooth, on bodies as unlike as can be."""
    drawn = mark_of(marked(mark("[3%, 20%], [6%, 50%], [4%, 80%]"), name=name))
    for around, height in ((0.03, 0.2), (0.06, 0.5), (0.04, 0.8)):
        place = block(name).at(np.array([around]), np.array([height]))[0]
        assert _nearest(drawn.curve.points, place) < 0.3


def _nearest(points: Points, place: Points) -> float:
    legs = np.diff(points, axis=0)
    share = np.clip(np.sum((place - points[:-1]) * legs, axis=1) / np.sum(legs * legs, axis=1), 0.0, 1.0)
    return float(np.hypot(*(points[:-1] + share[:, None] * legs - place).T).min())


def test_straight_from_place_to_place_has_corners() -> None:
    """Asked for, the line is three straight stretches; left out, it is rounder and longer."""
    places = "[3%, 20%], [8%, 20%], [8%, 60%], [3%, 60%]"
    cornered, smooth = (mark_of(marked(mark(places, **more))) for more in ({"straight": "yes"}, {}))
    assert len(cornered.curve.points) == 4
    assert smooth.curve.length_mm > cornered.curve.length_mm


def test_words_of_its_own_stand_beside_it_and_what_lies_beyond_the_piece_is_left_out() -> None:
    """A line that runs on over the centre front ends there."""
    drawn = mark_of(marked(mark("[center front - 20 mm, 40%], [6%, 40%]", says="lace lies here")))
    assert drawn.says == "lace lies here"
    assert float(drawn.curve.points[:, 0].min()) == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize(
    ("steps", "told"),
    [
        (
            (mark("[70%, 20%], [75%, 60%]"),),
            "r.yaml:18:5: step 7 (mark) › mark “pocket” › on this body it lies off the piece “front”. Move it onto that piece, "
            "or name another one.",
        ),
        (
            (mark(), mark()),
            "r.yaml:19:5: step 8 (mark) › mark “pocket” › the piece “front” has a line of that name already. Give it another "
            "name.",
        ),
        (
            (mark("[5%, 20%], [5%, 20%]"),),
            "r.yaml:18:5: step 7 (mark) › mark “pocket” › through › two of its points lie on one another. Leave one of them "
            "out.",
        ),
        (
            (mark("[5%, 20%]"),),
            "r.yaml:18:49: step 7 (mark) › through › needs at least two points. Give it from one end to the other.",
        ),
        (
            (mark(says="x" * 61),),
            "r.yaml:18:79: step 7 (mark) › says › has 61 letters; 60 are the most that can be printed along a line. Say it in "
            "fewer words.",
        ),
        (
            ("mark: {name: 7th, panel: front, through: [[5%, 20%], [6%, 40%]]}",),
            "r.yaml:18:18: step 7 (mark) › name › “7th” cannot be a name. Begin with a letter; use letters, digits, blanks and "
            "hyphens, at most 40.",
        ),
    ],
)
def test_what_cannot_be_drawn_is_told(steps: tuple[str, ...], told: str) -> None:
    """Each with its place and what to do."""
    with pytest.raises(FanblockError) as caught:
        marked(*steps)
    assert [str(problem) for problem in caught.value.problems] == [told]
