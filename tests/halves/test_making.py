"""Garments of a wearer whose left and right differ: two halves where they must be, one where they may."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from tests.halves.unevens import alike, swapped, text, uneven

from fanblock.draft.altering import TakeMore
from fanblock.finish.bonelist import bone_rows
from fanblock.geometry.curve import Curve
from fanblock.geometry.region import area_mm2
from fanblock.halves.meeting import halves_findings
from fanblock.make import draft_pattern
from fanblock.pattern.bones import BUSK
from fanblock.pattern.model import Panel, Pattern
from fanblock.problems import GeometryError
from fanblock.recipe.library import open_recipe
from fanblock.sheet.json import pattern_data
from fanblock.shipped import recipe_ids
from fanblock.terms import Height, Length
from fanblock.wearer.model import Wearer
from fanblock.wearer.reading import read_wearer

STAYS, JACKET = "stays-five-panels", "jacket-pleated-skirts"
OVER = {STAYS: "shift", JACKET: "stays"}

FOR_ONE_ARM = {"sleeve-flounce-eccentric"}
"""Bands that are made for one arm: two arms that differ want two of them."""


@cache
def made(recipe: str) -> Pattern:
    """Return the pattern of a recipe for the uneven wearer."""
    return draft_pattern(uneven(OVER.get(recipe, "shift")), open_recipe(recipe), over=OVER.get(recipe))


def of(wearer: Wearer, recipe: str = STAYS) -> Pattern:
    """Return the pattern of a recipe for a wearer."""
    return draft_pattern(wearer, open_recipe(recipe), over=OVER[recipe])


def apart_mm(one: Panel, other: Panel) -> float:
    """Return how far the outlines of two panels are apart, point by point."""
    return float(np.abs(one.loop() - other.loop()).max())


@pytest.mark.parametrize("recipe", [STAYS, JACKET])
def test_every_piece_is_of_one_half_and_cut_singly(recipe: str) -> None:
    """Where one piece served for both there are two, numbered with L and R; each is cut half as often."""
    one = of(alike(0, OVER[recipe]), recipe)
    both = made(recipe)
    assert [panel.label for panel in both.panels] == [f"{panel.number}{side}" for panel in one.panels for side in "LR"]
    assert [panel.side for panel in both.panels] == ["left", "right"] * len(one.panels)
    assert sum(count for panel in both.panels for _, count in panel.cuts) == sum(
        count for panel in one.panels for _, count in panel.cuts
    )
    assert both.sound


@pytest.mark.parametrize("recipe", [STAYS, JACKET])
@pytest.mark.parametrize("side", [0, 1])
def test_each_half_is_that_of_a_body_like_it_on_both_sides(recipe: str, side: int) -> None:
    """The engine is asked for nothing new: a half is drafted as if the other were like it."""
    like, half = of(alike(side, OVER[recipe]), recipe), made(recipe).halves[side]
    assert [panel.name for panel in half.panels] == [panel.name for panel in like.panels]
    assert max(apart_mm(half.by_name[panel.name], panel) for panel in like.panels) == 0.0


@pytest.mark.parametrize("recipe", [STAYS, JACKET])
def test_swapping_left_and_right_gives_the_mirror_image(recipe: str) -> None:
    """The left pieces of one wearer are the right ones of her mirror image, turned over."""
    other = of(swapped(OVER[recipe]), recipe)
    for panel in made(recipe).panels:
        side = {"left": "right", "right": "left"}[panel.side]
        mirror = other.by_name[f"{panel.name.removesuffix(panel.side)}{side}"]
        for edge in panel.edges:
            points = mirror.edge(edge.name).curve.points[::-1] * (-1.0, 1.0)
            assert np.array_equal(edge.curve.points, points)


def test_what_is_written_left_and_right_and_is_the_same_makes_the_old_pattern() -> None:
    """Equal sides are no sides: same code, same panels, no note."""
    sides = {"bust": (450, 450), "waist": (359, 359), "underarm": (186, 186)}
    plain = "wearer: 1\nname: sample\nunits: mm\ntaken: {on: 2026-03-01, over: shift}\nmeasures:\n"
    plain += "  bust: 900\n  waist: 718\n  underarm: 186\n  bust to waist: 160\n"
    apart = of(read_wearer(text(sides, common=False) + "\n  bust to waist: 160\n", "w.yaml"))
    whole = of(read_wearer(plain, "w.yaml"))
    assert pattern_data(apart) == pattern_data(whole)
    assert not apart.halves


@pytest.mark.parametrize("recipe", [STAYS, JACKET])
@pytest.mark.parametrize("level", ["waist", "bust"])
def test_the_two_halves_add_up_to_the_tape_by_the_file_alone(recipe: str, level: str) -> None:
    """Cloth, gap, takes and what is open of both halves make the girth that was measured."""
    data = pattern_data(made(recipe))
    girths = [girth for girth in data["girths"] if girth["level"] == level]
    assert [girth["half"] for girth in girths] == ["left", "right"]
    total = sum(girth["parts"] + girth["gap"] + girth["takes_total"] + girth["open"] for girth in girths)
    assert total == pytest.approx(data["wearer"]["lengths"][level], abs=0.1)
    for girth in girths:
        parts = {
            panel["name"]: sum(
                float(np.hypot(*np.diff(np.array(run), axis=0).T).sum()) for run in panel["levels"][level]
            )
            for panel in data["panels"]
            if panel["half"] == girth["half"] and level in panel["levels"] and not panel["added"]
        }
        assert girth["parts_by_panel"] == pytest.approx(parts, abs=0.01)
        assert sum(parts.values()) == pytest.approx(girth["parts"], abs=0.01)


def test_mates_of_the_joined_pattern_are_of_one_length_by_the_file_alone() -> None:
    """Every seam joins two pieces of one half, and both its edges are as long as ever."""
    data = pattern_data(made(STAYS))
    panels = {panel["name"]: panel for panel in data["panels"]}
    for seam in data["seams"]:
        front, back = (panels[seam[end]["panel"]] for end in ("front", "back"))
        assert front["half"] == back["half"]
        lengths = [
            next(edge["length"] for edge in panel["edges"] if edge["name"] == seam[end]["edge"])
            for end, panel in (("front", front), ("back", back))
        ]
        assert lengths[0] == pytest.approx(lengths[1], abs=0.1)


def test_small_differences_are_averaged_and_told() -> None:
    """Within what the wearer allows there is one half, and a note says what was averaged and by how much."""
    found = of(read_wearer(text({"bust": (452, 450), "waist": (370, 366), "underarm": (190, 187)}), "w.yaml"))
    assert not found.halves
    assert [note.says for note in found.notes if note.says.startswith("averaged")] == [
        "averaged: waist left 370.0 mm, right 366.0 mm, differ by 4 mm",
        "averaged: underarm left 190.0 mm, right 187.0 mm, differ by 3 mm",
        "averaged: bust left 452.0 mm, right 450.0 mm, differ by 2 mm",
    ]


@pytest.mark.parametrize(("allowed", "halves"), [("3 mm", 2), ("4 mm", 0), ("0 mm", 2)])
def test_the_wearer_says_how_much_may_be_averaged(allowed: str, halves: int) -> None:
    """A difference of just so much is averaged, of more is not."""
    sides = {"bust": (452, 450), "waist": (370, 366)}
    found = of(read_wearer(text(sides, more=f"halves may differ: {allowed}\n"), "w.yaml"))
    assert len(found.halves) == halves


def test_what_a_garment_does_not_hang_on_makes_no_second_half() -> None:
    """Arms of unlike length are nothing to stays: one half, and a note."""
    sides = {"bust": (450, 450), "waist": (366, 366), "arm length": (590, 560)}
    found = of(read_wearer(text(sides), "w.yaml"))
    assert not found.halves
    assert (
        "arm length left 590.0 mm, right 560.0 mm, differ by 3 cm: it makes no difference to this garment, and both halves "
        "are cut alike"
    ).replace("3 cm", "30 mm") in [note.says.replace("3 cm", "30 mm") for note in found.notes]


@pytest.mark.parametrize("recipe", recipe_ids())
def test_every_recipe_is_drafted_for_an_uneven_wearer_or_refused_aloud(recipe: str) -> None:
    """Two halves that meet and add up; a piece on the fold is one whole piece; bands go round both halves."""
    if recipe in FOR_ONE_ARM:
        with pytest.raises(GeometryError) as caught:
            draft_pattern(uneven(), open_recipe(recipe))
        assert [problem.code for problem in caught.value.problems] == ["halves-band"]
        return
    found = draft_pattern(uneven(), open_recipe(recipe))
    assert [finding.says for finding in found.findings if finding.state == "fails"] == []
    assert not any(panel.fold for panel in found.panels if found.halves)


def test_a_piece_on_the_fold_becomes_one_whole_piece() -> None:
    """Its left is the left half's and its right the right half's, and at the fold they meet without a step."""
    both = draft_pattern(uneven(), open_recipe("bodies-1560s"))
    front, (left, right) = both.by_name["front"], both.halves
    assert (front.label, front.whole, front.fold, dict(front.cuts)) == ("1", True, "", dict(left.by_name["front"].cuts))
    loop = front.loop()
    assert loop[:, 0].max() == pytest.approx(left.by_name["front"].loop()[:, 0].max())
    assert loop[:, 0].min() == pytest.approx(-right.by_name["front"].loop()[:, 0].max())
    ends = [
        (edge.curve.end, after.curve.start)
        for edge, after in zip(front.edges, (*front.edges[1:], front.edges[0]), strict=True)
    ]
    assert max(float(np.abs(end - start).max()) for end, start in ends) < 1e-6


def test_a_change_of_one_half_alone_is_made_in_that_half() -> None:
    """16 mm taken in at the left side seam narrow the left half by 16 mm and leave the right half as it was."""
    wearer = alike(0)
    more = TakeMore("side seam", Height(landmark="waist"), Length(16.0))
    recipe = open_recipe(STAYS)
    before, after = draft_pattern(wearer, recipe), draft_pattern(wearer, recipe, own=[("left", more)])
    waists = [next(girth for girth in half.girths if girth.name == "waist").parts_mm for half in after.halves]
    was = next(girth for girth in before.girths if girth.name == "waist").parts_mm
    assert waists == pytest.approx([was - 16.0, was], abs=0.05)
    assert after.sound
    assert after.title.code != before.title.code


def test_a_wedge_of_one_half_shortens_its_side_and_no_centre_line() -> None:
    """12 mm at the right side: that ruling is 12 mm shorter than the left one, both centre lines are as long."""
    sides = {"bust": (450, 450), "waist": (366, 366)}
    figure = "figure:\n  - tilt: {at: side, take: 12 mm, side: right}\n"
    left, right = of(read_wearer(text(sides, more=figure), "w.yaml")).halves
    side = left.block.side_ratio
    assert left.block.ruling_length_mm(side) - right.block.ruling_length_mm(side) == pytest.approx(12.0, abs=0.01)
    for line in ("center_front_mm", "center_back_mm"):
        assert getattr(left.block, line) == pytest.approx(getattr(right.block, line), abs=0.01)


def test_halves_that_do_not_meet_are_found() -> None:
    """A centre front seam 4 mm shorter in one half fails the check that the halves meet."""
    both = made(STAYS)
    left, right = both.halves
    front = right.by_name["center front"]
    cut = tuple(
        replace(edge, curve=Curve(edge.curve.points * (1.0, 0.98))) if edge.kind == "center" else edge
        for edge in front.edges
    )
    spoilt = replace(right, panels=(replace(front, edges=cut), *right.panels[1:]))
    failed = [one for one in halves_findings(replace(both, halves=(left, spoilt))) if one.state == "fails"]
    assert [one.code for one in failed] == ["halves-meet-center-front-center-front"]
    assert failed[0].says.startswith("the two halves do not meet along the centre front (center front): left ")


def test_a_band_for_one_arm_is_refused_for_arms_that_differ() -> None:
    """The whole message: what it is, what differs, what to do."""
    sides = {"bust": (450, 450), "waist": (366, 366), "elbow": (270, 250)}
    with pytest.raises(GeometryError) as caught:
        draft_pattern(read_wearer(text(sides), "w.yaml"), open_recipe("sleeve-flounce-eccentric"))
    assert str(caught.value) == (
        "“Sleeve flounce, deepest at the elbow” is one piece for both sides, and what it is drawn from is not: elbow left 270.0 "
        "mm, right 250.0 mm, differ by 20 mm. Write one measure for both sides into a wearer file for it, or one file for each "
        "side and draft it twice."
    )


def test_a_busk_is_one_and_its_pocket_has_two_sides() -> None:
    """On a front that both halves make, either side of the pocket is drawn, and one busk is listed at its own length."""
    both = draft_pattern(uneven(), open_recipe("bodies-1560s"))
    (half,) = (row for row in bone_rows(both.halves[0]) if row.name == "busk")
    (row,) = (row for row in bone_rows(both) if row.name == "busk")
    assert (row.pieces, row.cut_mm) == (1, half.cut_mm)
    assert sum(channel.kind == BUSK for channel in both.by_name["front"].channels) == 2
    assert [mark.says for mark in both.by_name["front"].marks if mark.kind == "place"] == ["center front"]


def test_the_cut_line_of_a_piece_of_both_halves_has_no_crack() -> None:
    """Where the halves were laid together the outline does not run in between them: its area is that of both."""
    both = draft_pattern(uneven(), open_recipe("bodies-1620s"))
    back = both.by_name["back"]
    assert back.cut_line is not None
    areas = [abs(area_mm2(half.by_name["back"].cut_line.points)) for half in both.halves]  # type: ignore[union-attr]
    assert abs(area_mm2(back.cut_line.points)) == pytest.approx(sum(areas), rel=0.001)
    long = float(np.hypot(*np.diff(np.vstack((back.cut_line.points, back.cut_line.points[:1])), axis=0).T).sum())
    fold = next(edge for edge in both.halves[0].by_name["back"].edges if edge.kind == "fold").curve.length_mm
    halves = [
        float(np.hypot(*np.diff(half.by_name["back"].cut_line.points, axis=0).T).sum())  # type: ignore[union-attr]
        for half in both.halves
    ]
    assert long < sum(halves) - fold
