"""Level seams among other seams: those that they cut, those that end on them, and those that they end on."""

from __future__ import annotations

import numpy as np
import pytest
from tests.samples import (
    BODIES,
    FOUR,
    GAP,
    RED,
    TOP,
    failed,
    made,
    recipe,
    seam,
    separate,
    side_back,
    side_front,
    worked,
)

from fanblock.geometry.rings import is_simple
from fanblock.make import draft_pattern
from fanblock.pattern.model import Pattern
from fanblock.recipe.library import open_recipe
from fanblock.recipe.reading import read_recipe
from fanblock.wearer.library import open_wearer

LONG = "hem: {height: waist - 160 mm}"
SEAMS = (side_front(), side_back())
OPEN = (side_front(below_waist="open"), side_back(below_waist="open"))
SIX, NINE = separate(*"abcdef"), separate(*"abcdefghi")


def level(options: str, name: str = "waist seam") -> str:
    """Return a level seam with these options."""
    return f"level seam: {{name: {name}, {options}}}"


WAIST, LOW = level("height: waist"), level("height: waist - 25 mm")
YOKE = level("height: 60%", "yoke seam")
DOWN = ("70%, top edge", "68%, waist seam")
WAYS = {
    "along the waist": (*SEAMS, WAIST, RED, SIX),
    "below the waist": (*SEAMS, LOW, RED, SIX),
    "above the waist": (*SEAMS, level("height: waist + 40 mm"), RED, SIX),
    "drawn before the seams it cuts": (LOW, *SEAMS, RED, SIX),
    "skirts that part": (*OPEN, WAIST, RED, SIX),
    "skirts that part below it": (*OPEN, LOW, RED, SIX),
    "skirts that part under a high one": (*OPEN, level("height: waist + 25 mm"), RED, SIX),
    "two, one above the other": (*SEAMS, WAIST, YOKE, RED, NINE),
    "two, the upper one first": (*SEAMS, YOKE, LOW, RED, NINE),
    "from the front to a seam": (*SEAMS, level("to: side front, height: waist - 20 mm"), RED, FOUR),
    "from seam to seam": (*SEAMS, level("from: side front, to: side back, height: waist - 20 mm"), RED, FOUR),
    "from a seam to the back": (*SEAMS, level("from: side back, height: waist"), RED, FOUR),
    "seams of their own above and below": (
        side_front(), WAIST, seam("s", *DOWN), seam("t", "50%, waist seam", "52%, hem", spring="20 mm"), RED, SIX,
    ),
    "seams that end on a low one": (
        side_front(), LOW, seam("s", *DOWN), seam("t", "50%, waist seam", "52%, hem", spring="20 mm"), RED, SIX,
    ),
}  # fmt: skip


def cut(name: str, body: str = "ordinary") -> Pattern:
    """Return a garment with a level seam among other seams, as named."""
    return made(recipe(GAP, TOP, LONG, *WAYS[name]), body)


@pytest.mark.parametrize("name", WAYS)
def test_every_way_of_running_makes_a_sound_garment(name: str) -> None:
    """Panels are simple, mates name each other, have one letter and are equal, and no check fails."""
    pattern = cut(name)
    assert failed(pattern) == []
    assert all(is_simple(panel.loop()) for panel in pattern.panels)
    for panel in pattern.panels:
        for edge in panel.edges:
            if edge.mate is not None:
                mate = pattern.by_name[edge.mate.panel].edge(edge.mate.edge)
                assert mate.mate is not None
                assert (mate.mate.panel, mate.mate.edge) == (panel.name, edge.name)
                assert mate.letter == edge.letter != ""
                assert mate.curve.length_mm == pytest.approx(edge.curve.length_mm, abs=0.01)
                assert edge.reversed


@pytest.mark.parametrize("body", BODIES)
@pytest.mark.parametrize("name", ["below the waist", "two, one above the other", "seams of their own above and below"])
def test_they_serve_every_body(name: str, body: str) -> None:
    """No check fails on any body of the catalogue."""
    assert failed(cut(name, body)) == []


def test_a_seam_that_is_cut_in_two_is_two_seams() -> None:
    """Each part has its own mates, name, letter and ticks; the level seam lies in one piece a column, all of one letter."""
    pattern = cut("along the waist")
    assert [(one.name, one.letter, one.front.panel, one.back.panel) for one in pattern.seams] == [
        ("side front", "A", "a", "c"),
        ("side back", "B", "c", "e"),
        ("waist seam 1", "C", "a", "b"),
        ("waist seam 2", "C", "c", "d"),
        ("waist seam 3", "C", "e", "f"),
        ("side front below waist seam", "D", "b", "d"),
        ("side back below waist seam", "E", "d", "f"),
    ]
    assert [one.line for one in pattern.seams].count("waist seam") == 3
    ticks = {notch.edge: notch.count for notch in pattern.by_name["d"].notches if notch.kind == "seam"}
    assert ticks == {"side front below waist seam": 4, "side back below waist seam": 5, "waist seam 2": 3}


def test_parts_are_called_after_the_level_seam_above_them() -> None:
    """Of two level seams each names the part right below it, whichever was drawn first."""
    for name in ("two, one above the other", "two, the upper one first"):
        lines = [one.name for one in cut(name).seams if one.line == "side front"]
        assert lines == ["side front", "side front below yoke seam", "side front below waist seam"]


def test_before_or_after_the_seams_it_cuts_is_all_one() -> None:
    """Where they cross, the order in the recipe changes nothing: the same panels, point for point."""
    first, last = cut("drawn before the seams it cuts"), cut("below the waist")
    for one, other in zip(first.panels, last.panels, strict=True):
        assert sorted(edge.name for edge in one.edges) == sorted(edge.name for edge in other.edges)
        for edge in one.edges:
            same = other.edge(edge.name)
            assert edge.curve.length_mm == pytest.approx(same.curve.length_mm, abs=1e-3)
            assert np.abs(edge.curve.start - same.curve.start).max() < 1e-3
            assert np.abs(edge.curve.end - same.curve.end).max() < 1e-3


def test_trued_across_a_level_seam_the_whole_seam_is_held_at_the_waist() -> None:
    """The ends move as they do where nothing cuts the seam; the corner on the level seam gives on the way."""
    whole = made(recipe(GAP, TOP, LONG, *SEAMS, RED, separate(*"abc")))
    parts = cut("below the waist")
    one = next(seam_ for seam_ in whole.seams if seam_.name == "side front")
    upper, lower = (seam_ for seam_ in parts.seams if seam_.line == "side front")
    assert one.above is not None
    assert upper.above is not None
    assert lower.below is not None
    assert upper.above.shift_mm == pytest.approx(one.above.shift_mm, abs=0.02)
    assert lower.below.shift_mm == pytest.approx(one.below.shift_mm, abs=0.02)  # type: ignore[union-attr]


def test_four_corners_that_meet_stay_one_point() -> None:
    """Where a level seam crosses an upright one, truing moves the corners above and below alike, on either side."""
    pattern = cut("below the waist")
    for over, under, edge in (("a", "b", "waist seam 1"), ("c", "d", "waist seam 2")):
        above, below = pattern.by_name[over].edge(edge).curve, pattern.by_name[under].edge(edge).curve
        assert np.abs(above.end - below.start).max() < 0.005
        assert np.abs(above.start - below.end).max() < 0.005


def test_a_level_seam_that_ends_on_a_seam_parts_it() -> None:
    """It makes a T: the host lies in two pieces on both sides, and its letter comes in lower case with a number."""
    pattern = cut("from the front to a seam")
    assert [(one.name, one.letter) for one in pattern.seams] == [
        ("side front 1", "A"),
        ("side front 2", "A"),
        ("side back", "B"),
        ("waist seam", "a1"),
    ]
    assert [edge.name for edge in pattern.by_name["three"].edges if edge.name.startswith("side front")] == [
        "side front 2",
        "side front 1",
    ]


def test_seams_that_end_on_it_have_its_letter() -> None:
    """One from above and one from below part it in three pieces more; the later letters come in lower case."""
    pattern = cut("seams of their own above and below")
    assert {one.line: one.letter for one in pattern.seams if one.line in {"s", "t"}} == {"s": "b1", "t": "b2"}
    assert [one.name for one in pattern.seams if one.line == "waist seam"] == [f"waist seam {n}" for n in (1, 2, 3, 4)]


@pytest.mark.parametrize("name", WAYS)
def test_panels_stand_from_front_to_back_and_from_the_top_down(name: str) -> None:
    """Of two panels on a level seam the upper one has the lower number; of two side by side on it the one in front."""
    work = worked(recipe(GAP, TOP, LONG, *WAYS[name]))
    numbers = {panel.name: panel.number for panel in work.panels}
    for record in (record for record in work.seams if record.line in {"waist seam", "yoke seam"}):
        assert numbers[record.front[0]] < numbers[record.back[0]]
    for record in (record for record in work.seams if record.line in {"side front", "side back"}):
        assert numbers[record.front[0]] < numbers[record.back[0]]


def test_it_comes_after_the_seams_it_cuts() -> None:
    """What ends on a seam, or is cut by it, is sewn before it; so much the pattern tells."""
    onto = {one.name: one.onto for one in cut("along the waist").seams}
    assert onto["side front"] == onto["side back below waist seam"] == ("waist seam",)
    assert onto["waist seam 2"] == ()
    onto = {one.name: one.onto for one in cut("from the front to a seam").seams}
    assert onto["waist seam"] == ("side front",)
    assert onto["side front 1"] == ()


KIRTLE = """recipe: 1
based on: kirtle-bodice-front-lacing
name: Kirtle bodice with a yoke
changes:
  - before: waist reduction
    put: {level seam: {name: yoke seam, height: %s}}
  - in: separate
    set: {panels: [front yoke, front, back yoke, back]}
  - in: cut
    set: {on fold: [back yoke, back]}
"""


@pytest.mark.parametrize("wearer", ["ferrywoman", "innkeeper", "pilot"])
@pytest.mark.parametrize("height", ["underarm + 30 mm", "underarm + 20 mm"])
def test_a_yoke_runs_from_edge_to_edge_across_the_armholes(wearer: str, height: str) -> None:
    """It leaves the cloth at one side of the armhole and enters it again at the other: a yoke before and one behind, and
    the armhole lies in four pieces. Every level still comes to the block's.
    """
    pattern = draft_pattern(open_wearer(wearer), read_recipe(KIRTLE % height, "yoke.yaml"))
    assert failed(pattern) == []
    assert [
        (one.name, one.letter, one.front.panel, one.back.panel) for one in pattern.seams if one.line == "yoke seam"
    ] == [
        ("yoke seam 1", "A", "front yoke", "front"),
        ("yoke seam 2", "A", "back yoke", "back"),
    ]
    holes = [panel.name for panel in pattern.panels for edge in panel.edges if edge.kind == "armhole"]
    assert holes == ["front yoke", "front", "back yoke", "back"]
    codes = {finding.code for finding in pattern.findings}
    assert {"join-A1-top", "join-A2-low"} <= codes


def test_what_is_open_beside_a_yoke_is_counted_once() -> None:
    """Where a yoke begins below the bust, the levels across it come to what they did: what lies in the armhole is open, once."""
    deep = {"arm room": "45 mm"}
    text = KIRTLE % "bust - 10 mm"
    cut = draft_pattern(open_wearer("innkeeper"), read_recipe(text, "yoke.yaml"), deep)
    whole = draft_pattern(open_wearer("innkeeper"), open_recipe("kirtle-bodice-front-lacing"), deep)
    assert failed(cut) == []
    assert whole.girths[-1].open_mm > 100.0
    for one, other in zip(cut.girths, whole.girths, strict=True):
        assert one.open_mm == pytest.approx(other.open_mm, abs=1.0)
        assert one.parts_mm + one.open_mm == pytest.approx(other.parts_mm + other.open_mm, abs=0.01)
