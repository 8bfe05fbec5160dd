"""What cannot be drawn: every refusal of draft and separation, told whole, with the place of its step in the recipe."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from tests.samples import FOUR, GAP, HEM, ONE, THREE, TOP, made, recipe, seam, side_back, side_front

from fanblock.problems import FanblockError, GeometryError, RecipeError
from fanblock.recipe.model import Recipe

FIVE = "separate: {panels: [one, two, three, four, five]}"
LONE = ("40%, top edge", "40%, waist", "40%, hem")


def fourth(*places: str, **options: str) -> Callable[[], Recipe]:
    """Return a recipe with a fourth panel, made by a seam “extra” in line 17 and cut apart in line 18."""
    return lambda: recipe(GAP, TOP, HEM, side_front(), side_back(), seam("extra", *places, **options), FOUR)


def plain(*steps: str) -> Callable[[], Recipe]:
    """Return a recipe of these steps."""
    return lambda: recipe(*steps)


RIGHT_ACROSS = "Let its ends reach an edge or a seam."
MOVE = "Move one of the two, or let them take or spring less."
AWAY = "Move the seam that ends there away from the corner."

CASES: dict[str, tuple[Callable[[], Recipe], str]] = {
    "too few names": (
        plain(GAP, TOP, HEM, side_front(), side_back(), "separate: {panels: [front, back]}"),
        "r.yaml:17:5: step 6 (separate) › panels › 2 names are given, and the seams make 3 panels. "
        "Give one name for each, from front to back.",
    ),
    "too many names": (
        plain(GAP, TOP, HEM, side_front(), side_back(), FOUR),
        "r.yaml:17:5: step 6 (separate) › panels › 4 names are given, and the seams make 3 panels. "
        "Give one name for each, from front to back.",
    ),
    "a seam drawn upwards": (
        fourth("40%, waist", "40%, top edge"),
        "r.yaml:17:5: step 6 (seam) › seam “extra” › through › on this body point 2 does not lie below point 1. "
        "Give the points from the top down.",
    ),
    "a hook": (
        fourth("40%, top edge", "38%, 12%", "40%, waist", "40%, hem"),
        "r.yaml:17:5: step 6 (seam) › seam “extra” › through › on this body points 2 and 3 lie only 12% of bust to "
        "waist apart. Leave one of them out, or move them 20 % apart.",
    ),
    "a seam too steep": (
        fourth("62%, bust", "15%, waist", "15%, hem"),
        "r.yaml:17:5: step 6 (seam) › seam “extra” › through › between points 1 and 2 it leans 46° from upright; "
        "45° is the most. Bring the two points nearer in around.",
    ),
    "a seam across another": (
        fourth("40%, top edge", "20%, 10%", "10%, hem"),
        "r.yaml:18:5: step 7 (separate) › seam “extra” › it runs into the seam “side front” at -21% of the way from "
        f"waist to bust. {MOVE}",
    ),
    "a seam across another near its end": (
        fourth("22%, top edge", "19%, waist", "14%, hem"),
        "r.yaml:18:5: step 7 (separate) › seam “extra” › it runs into the seam “side front” at 98% of the way from "
        f"waist to bust. {MOVE}",
    ),
    "a seam whose spring passes the centre front": (
        fourth("2%, top edge", "2%, waist", "1%, hem", spring="40 mm"),
        "r.yaml:18:5: step 7 (separate) › seam “extra” › it runs into the center front at -18% of the way from waist "
        f"to bust. {MOVE}",
    ),
    "a seam beyond the lacing edge": (
        fourth("90%, top edge", "97%, waist", "97%, hem"),
        "r.yaml:18:5: step 7 (separate) › seam “extra” › its middle lies off the cloth or on another seam's take. "
        "Move it within a panel.",
    ),
    "a seam above the cloth": (
        fourth("40%, 180%", "40%, 130%"),
        "r.yaml:18:5: step 7 (separate) › seam “extra” › its middle lies off the cloth or on another seam's take. "
        "Move it within a panel.",
    ),
    "a seam that stops short": (
        fourth("40%, 60%", "40%, waist"),
        "r.yaml:18:5: step 7 (separate) › seam “extra” › it does not run right across the cloth from edge to edge. "
        f"{RIGHT_ACROSS}",
    ),
    "a seam from a corner": (
        fourth("center front, top edge", "8%, waist", "9%, hem"),
        f"r.yaml:18:5: step 7 (separate) › panel “two” › only 0.0 mm of center front would be left of it. {AWAY}",
    ),
    "a seam from beside a corner": (
        fourth("center front, top edge - 0.5 mm", "8%, waist", "9%, hem"),
        f"r.yaml:18:5: step 7 (separate) › panel “two” › only 0.5 mm of center front would be left of it. {AWAY}",
    ),
    "two seams that end on a third all but at one place": (
        plain(
            GAP, TOP, HEM, side_front(), side_back(),
            seam("a", "side front, 55%", "30%, waist", "32%, hem"),
            seam("b", "side front, 55.2%", "8%, waist", "8%, hem"), FIVE,
        ),
        f"r.yaml:19:5: step 8 (separate) › panel “four” › only 0.4 mm of side front 2 would be left of it. {AWAY}\n"
        f"r.yaml:19:5: step 8 (separate) › panel “two” › only 0.4 mm of side front 2 would be left of it. {AWAY}",
    ),
    "a take in the skirt": (
        fourth(*LONE, take="{-25%: 4 mm}"),
        "r.yaml:17:5: step 6 (seam) › seam “extra” › take › a take stands 25% of bust to waist below the waist; there "
        "a seam takes only at the hem. Name takes at the waist or above it, or at the hem.",
    ),
    "a take off the seam": (
        fourth(*LONE, take="{150%: 4 mm}"),
        "r.yaml:17:5: step 6 (seam) › seam “extra” › take › a take stands at 150% of the way from waist to bust, where "
        "on this body there is no seam. Name a height between the seam's two ends.",
    ),
    "two takes at one height": (
        fourth(*LONE, take="{50%: 4 mm, 52%: 5 mm}"),
        "r.yaml:17:5: step 6 (seam) › seam “extra” › take › on this body two takes stand at 52% of the way from waist "
        "to bust, nearly at one height. Leave one of them out.",
    ),
    "a take that changes too fast": (
        fourth(*LONE, take="{50%: 25 mm, 60%: -5 mm}"),
        "r.yaml:18:5: step 7 (separate) › seam “extra” › take › near 52% of the way from waist to bust its take changes "
        "too fast for its edges to follow. Let it take or spring less, or name takes further apart in height.",
    ),
    "a spring too wide for its depth": (
        fourth(*LONE, spring="190 mm"),
        "r.yaml:18:5: step 7 (separate) › seam “extra” › take › near -46% of the way from waist to bust its take "
        "changes too fast for its edges to follow. Let it take or spring less, or name takes further apart in height.",
    ),
    "points of an edge out of order": (
        plain(GAP, TOP.replace("[56%", "[30%"), HEM, ONE),
        "r.yaml:6:5: step 2 (top edge) › top edge › through › point 4 stands at 30% around, not behind point 3, at "
        "36%. Give the points from center front to center back.",
    ),
    "an edge that stops short": (
        plain(GAP, TOP.replace("\n        - [center back, bust + 90 mm]", ""), HEM, ONE),
        "r.yaml:14:5: step 4 (separate) › outline › lacing edge and top edge do not meet on this body. "
        "Carry them on to the same centre line.",
    ),
    "a hem above the top edge": (
        plain(
            GAP, TOP,
            "hem: {through: [[center front, waist - 80 mm], [50%, bust + 10 mm], [center back, waist - 80 mm]]}", ONE,
        ),
        "r.yaml:15:5: step 4 (separate) › outline › at 45% around the top edge comes down to the hem on this body. "
        "Raise the one or lower the other.",
    ),
    "a gap of less than nothing": (
        plain("lacing gap: {width: -5 mm}", TOP, HEM, ONE),
        "r.yaml:5:5: step 1 (lacing gap) › width › got -5.0 mm, needs 0 or more. Leave out the minus.",
    ),
    "a gap wider than half the body": (
        plain("lacing gap: {width: 400 mm}", TOP, HEM, ONE),
        "r.yaml:5:5: step 1 (lacing gap) › width › a gap of 400 mm is more than half of the waist. Open it less.",
    ),
    "a reduction with nowhere to go": (
        plain(GAP, TOP, HEM, "waist reduction: {by: 3%}", ONE),
        "r.yaml:16:5: step 5 (separate) › waist reduction › 10.2 mm a half shall be taken in or let out at the waist, "
        "and no seam there has a share of it. Give one or more seams a `share`.",
    ),
    "a measure that was not taken": (
        plain(GAP, TOP.replace("bust + 30 mm", "60% of belly"), HEM, ONE),
        "r.yaml:6:5: step 2 (top edge) › wearer sample › this recipe stands on the measure “belly”, which was not "
        "taken. Add `belly:` to the measures and draft again.",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", CASES)
def test_what_cannot_be_drawn_is_refused_whole(name: str) -> None:
    """Place, step, seam, what is wrong on this body, and what to do."""
    build, says = CASES[name]
    with pytest.raises(GeometryError) as caught:
        made(build())
    assert str(caught.value) == says


READING: dict[str, tuple[Callable[[], Recipe], str]] = {
    "a panel's name twice": (
        plain(GAP, TOP, HEM, side_front(), side_back(), "separate: {panels: [front, side, side]}"),
        "r.yaml:17:24: step 6 (separate) › panels › “side” stands twice. Give every panel a name of its own.",
    ),
    "a seam's name twice": (
        plain(GAP, TOP, HEM, side_front(), side_front(), THREE),
        "r.yaml:16:18: step 5 (seam) › name › there is a seam “side front” already. Give every seam a name of its own.",
    ),
    "a second gap at one centre": (
        plain(GAP, GAP, TOP, HEM, ONE),
        "r.yaml:6:5: step 2 (lacing gap) › there is a lacing gap at center back already. Keep one of them.",
    ),
    "a lacing edge without a gap": (
        plain(TOP, HEM, seam("extra", "lacing edge, 50%", "60%, hem"), "separate: {panels: [one, two]}"),
        "r.yaml:14:36: step 3 (seam) › through › point 1 › around › the lacing edge has not been drawn before this "
        "step. Put a `lacing gap` before this step.",
    ),
    "a spring beside a take at the hem": (
        fourth(*LONE, take="{hem: 4 mm}", spring="10 mm"),
        "r.yaml:17:125: step 6 (seam) › spring › stands beside a take at the hem. "
        "Keep one: what it adds at the hem or what it takes there.",
    ),
    "a share beside a take at the waist": (
        fourth(*LONE, take="{waist: 4 mm}", share="1"),
        "r.yaml:17:126: step 6 (seam) › share › stands beside a take at the waist. "
        "Keep one: a share of the reduction or a take of its own.",
    ),
}


@pytest.mark.parametrize("name", READING)
def test_what_no_body_could_wear_is_refused_on_reading(name: str) -> None:
    """What is wrong whoever wears it is told before any body is asked, at its own line and column."""
    build, says = READING[name]
    with pytest.raises(RecipeError) as caught:
        build()
    assert str(caught.value) == says


def test_all_problems_of_one_seam_are_told_together() -> None:
    """A seam with two faults in its course tells both."""
    with pytest.raises(FanblockError) as caught:
        made(fourth("40%, top edge", "40%, 15%", "40%, waist", "40%, waist")())
    assert [problem.code for problem in caught.value.problems] == ["seam-order", "seam-hook"]
