"""``flare``: skirts swung outward below the waist, seam by seam or until they go round the hip."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples import GAP, RED, THREE, TOP, failed, made, recipe, separate, side_back, side_front, worked

from fanblock.draft.work import Work
from fanblock.pattern.model import HEM, Panel
from fanblock.problems import GeometryError, RecipeError
from fanblock.recipe.model import Recipe
from fanblock.skirts.falls import falls_at
from fanblock.skirts.levels import body_at_mm, level_at

DEEP = "hem: {height: waist - 160 mm}"
SEAMS = (side_front(spring="0 mm"), side_back(spring="0 mm"))
UPRIGHT = "seam: {name: side seam, through: [[50%, top edge], [50%, waist], [50%, hem]], below waist: sewn}"
TWO = separate("front", "back")


def jacket(*more: str, hem: str = DEEP) -> Recipe:
    """Return a jacket of three panels with deep skirts and more steps."""
    return recipe(GAP, TOP, hem, *SEAMS, RED, THREE, *more)


def panel(work: Work, name: str) -> Panel:
    """Return a panel by its name."""
    return next(panel for panel in work.panels if panel.name == name)


def test_each_side_of_a_seam_swings_out_by_half() -> None:
    """On a body as wide as its waist the panels are upright: 60 mm at a seam turn each side by atan(30 / (160 - 10)).

    The turn begins within 20 mm below the waist, so the straight part leans as if it began 10 mm below; by hand.
    """
    plain, flared = (
        worked(recipe(TOP, DEEP, UPRIGHT, TWO, *more), "bust is waist")
        for more in ((), ("flare: {by: {side seam: 60 mm}}",))
    )
    for name, edge, way in (("front", "side seam", 1.0), ("back", "side seam", -1.0)):
        before, after = (panel(work, name).edge(edge).curve for work in (plain, flared))
        low, old = (one.start if way > 0 else one.end for one in (after, before))
        lean = after.start_tangent if way > 0 else -after.end_tangent
        assert math.degrees(math.atan2(-way * lean[0], lean[1])) == pytest.approx(
            math.degrees(math.atan2(30, 150)), abs=0.05
        )
        assert after.length_mm == pytest.approx(before.length_mm, abs=1e-6)
        assert way * (low - old)[0] == pytest.approx(30.0, abs=0.7)  # a little less: the side keeps its length
        assert 0.0 < (low - old)[1] < 4.0


def test_a_center_line_swings_alone() -> None:
    """At the centre back a flare is shared with the other half: this one swings by half, its hem stays square to it."""
    garment = recipe(TOP, DEEP, UPRIGHT, TWO, "flare: {by: {center back: 50 mm}}")
    pattern = made(garment, "bust is waist")
    center = pattern.by_name["back"].edge("center back").curve
    assert center.start[0] - center.end[0] == pytest.approx(25.0, abs=0.6)
    assert failed(pattern) == []


@settings(max_examples=15, deadline=None)
@given(
    front=st.floats(0.0, 120.0), back=st.floats(0.0, 120.0), name=st.sampled_from(["ordinary", "uneven", "large drop"])
)
def test_flared_panels_still_sew_up(front: float, back: float, name: str) -> None:
    """Whatever the seams add, mates agree, edges run smooth across them and the waist is what it was."""
    pattern = made(jacket(f"flare: {{by: {{side front: {front:.2f} mm, side back: {back:.2f} mm}}}}"), name)
    assert failed(pattern) == []


@pytest.mark.parametrize(
    "name", ["ordinary", "bust under waist", "very small", "short in the back", "measures of the least"]
)
@pytest.mark.parametrize("room", [0.0, 40.0, 100.0])
def test_room_is_what_the_skirts_have_beyond_the_hip(name: str, room: float) -> None:
    """At the depth that is reckoned, all round is the body on the straight line to its hip, and the room, within 1 mm."""
    if name == "measures of the least":
        with pytest.raises(GeometryError, match="stands on the measure “hip”"):
            made(jacket(f"flare: {{room: {room} mm, shares: {{side front: 1}}}}"), name)
        return
    step = f"flare: {{room: {room} mm, shares: {{side front: 2, side back: 2, center back: 1}}}}"
    work = worked(recipe(TOP, DEEP, *SEAMS, RED, THREE, step), name)
    plain = worked(recipe(TOP, DEEP, *SEAMS, RED, THREE), name)
    falls = [
        fall.depth_mm for seam in ("side front", "side back", "center back") for fall in falls_at(plain, seam, 0.0, "")
    ]
    depth = 0.75 * min(falls)
    spare = level_at(work.block, work.panels, depth).whole_mm - body_at_mm(work.body.lengths, depth)
    assert spare == pytest.approx(room, abs=1.0) or (name == "bust under waist" and spare > room)


def test_skirts_that_are_wide_enough_stay_as_they_are() -> None:
    """What has more room than is asked is not taken in."""
    wide = "flare: {by: {side front: 120 mm, side back: 120 mm}}"
    twice = "flare: {room: 0 mm, shares: {side front: 1, side back: 1}}"
    once, again = worked(jacket(wide)), worked(jacket(wide, twice))
    for name in ("front", "side", "back"):
        assert panel(once, name).loop() == pytest.approx(panel(again, name).loop())


def test_a_hem_is_led_to_its_corners() -> None:
    """The middle of a hem stays where it was drawn; only what leads to a corner is bent."""
    plain, flared = worked(jacket()), worked(jacket("flare: {by: {side front: 60 mm, side back: 60 mm}}"))
    for name in ("front", "side", "back"):
        before, after = (
            next(edge.curve for edge in panel(work, name).edges if edge.kind == HEM) for work in (plain, flared)
        )
        middle = before.at(0.5 * before.length_mm)
        assert np.min(np.hypot(*(after.points - middle).T)) < 1.5


REFUSALS = {
    "no such seam": (
        ("flare: {by: {side frnt: 40 mm}}",),
        RecipeError,
        "r.yaml:19:18: step 8 (flare) › by › there is no seam “side frnt”. Did you mean “side front”?",
    ),
    "nothing said": (
        ("flare: {}",),
        RecipeError,
        "r.yaml:19:5: step 8 (flare) › by › needs one of `by` and `room`. "
        "Say what each seam adds, or how much room there shall be in all.",
    ),
    "no shares": (
        ("flare: {room: 4 cm}",),
        RecipeError,
        "r.yaml:19:5: step 8 (flare) › shares › is missing. "
        "Say which seams share the room: `shares: {side seam: 2, center back: 1}`.",
    ),
    "two ways at once": (
        ("flare: {by: {side back: 2 cm}, shares: {side back: 1}}",),
        RecipeError,
        "r.yaml:19:44: step 8 (flare) › shares › stands beside `by`. It shares out what `room` needs.",
    ),
    "no share at all": (
        ("flare: {room: 4 cm, shares: {side back: 0}}",),
        RecipeError,
        "r.yaml:19:33: step 8 (flare) › shares › “side back” has 0, needs more than 0. Leave it out if it shall add nothing.",
    ),
    "too wide": (
        ("flare: {by: {side back: 25 cm}}",),
        GeometryError,
        "r.yaml:19:5: step 8 (flare) › side back › would add 250 mm at the hem, 160 mm below the waist. "
        "Share it with other seams, lower the hem, or let in pleats or a gore.",
    ),
    "a slit skirt": (
        ("tabs: {slits: {back: 1}}", "flare: {by: {side back: 2 cm}}"),
        GeometryError,
        "r.yaml:20:5: step 9 (flare) › side back › “side back” does not go on below the waist to a hem that is sewn all the "
        "way. Draw the hem below the waist, let the seam run down to it, and say `below waist: sewn`.",
    ),
    "no such edge": (
        ("flare: {by: {front edge: 2 cm}}",),
        GeometryError,
        "r.yaml:19:5: step 8 (flare) › front edge › there is no seam and no centre line “front edge”. "
        "Legal here: center front, lacing edge, side back, side front.",
    ),
}


@pytest.mark.parametrize("case", REFUSALS)
def test_what_cannot_be_flared_is_refused_whole(case: str) -> None:
    """Every refusal says what is wrong and what to do."""
    steps, kind, whole = REFUSALS[case]
    with pytest.raises(kind) as caught:
        made(jacket(*steps))
    assert str(caught.value) == whole


def test_a_seam_that_is_open_below_the_waist_is_refused() -> None:
    """Where the panels part as tabs there is no seam to flare."""
    seams = (side_front(below_waist="open"), side_back(spring="0 mm"))
    with pytest.raises(RecipeError) as caught:
        recipe(GAP, TOP, DEEP, *seams, RED, THREE, "flare: {by: {side front: 2 cm}}")
    assert str(caught.value) == (
        "r.yaml:19:18: step 8 (flare) › by › “side front” is not sewn below the waist. "
        "Write `below waist: sewn` in that seam."
    )
