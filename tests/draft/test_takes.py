"""Takes: what seams remove adds up level by level, runs without kinks, and is refused where it cannot be."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples import BODIES, GAP, HEM, RED, THREE, TOP, garment, made, recipe, side_back, side_front, worked

from fanblock.draft.takes import Take, takes_of
from fanblock.draft.work import Work
from fanblock.problems import GeometryError

WAIST, BUST = np.array([0.0]), np.array([1.0])


def at(take: Take, height: float) -> float:
    """Return what a seam takes at one height."""
    return float(take(np.array([height]))[0])


def half_sum(work: Work, height: float) -> float:
    """Return what all seams of one half take together at a height."""
    return sum(at(take, height) for take in work.takes)


@pytest.mark.parametrize("name", BODIES)
@pytest.mark.parametrize("percent", [-4, 0, 3, 10])
def test_takes_at_the_waist_are_half_the_reduction(name: str, percent: int) -> None:
    """One half takes half of reduction less ease; a negative reduction lets out."""
    work = worked(recipe(GAP, TOP, HEM, side_front(), side_back(), f"waist reduction: {{by: {percent}%}}", THREE), name)
    assert half_sum(work, 0.0) == pytest.approx(percent / 200.0 * work.body.length_mm("waist"), abs=1e-9)


def test_a_reduction_is_shared_as_the_seams_say() -> None:
    """Shares of 2 and 1: the front seam takes two thirds of 10.2 mm, the back one a third."""
    front, back = worked(garment()).takes
    assert (at(front, 0.0), at(back, 0.0)) == pytest.approx((6.8, 3.4))


def test_a_take_of_its_own_comes_off_what_the_others_share() -> None:
    """A seam that says what it takes at the waist keeps that; the rest goes to those with a share."""
    own = seam_with_own_take()
    front, back = worked(garment(seams=(own, side_back()))).takes
    assert (at(front, 0.0), at(back, 0.0)) == pytest.approx((9.0, 1.2))


def seam_with_own_take() -> str:
    """Return the front seam with a take of its own at the waist in place of a share."""
    return side_front(take="{waist: 9 mm}").replace(", share: 2", "")


def test_ease_comes_off_the_reduction_at_both_levels() -> None:
    """3 % of 680 mm less 12 mm of ease is 8.4 mm; at the bust 1 % of 880 less 20 mm lets out 11.2 mm."""
    work = worked(garment("ease: {waist: 12 mm, bust: 20 mm}", "bust reduction: {by: 1%}"))
    assert half_sum(work, 0.0) == pytest.approx(4.2)
    assert half_sum(work, 1.0) == pytest.approx(-5.6)


@pytest.mark.parametrize(
    ("height", "share_of_ruling"), [("top edge", None), ("bust", 1.0), ("50%", 0.5), ("25%", 0.25), ("waist", 0.0)]
)
@pytest.mark.parametrize("mm", [-6.0, 6.0])
def test_a_take_is_met_at_the_height_it_was_named_for(height: str, share_of_ruling: float | None, mm: float) -> None:
    """Whatever its sign, a take named for a height is what the seam takes there."""
    front = side_front(take=f"{{{height}: {mm} mm}}").replace(", share: 2", "")
    work = worked(garment(seams=(front, side_back())))
    take = work.takes[0]
    assert at(take, take.seam.top if share_of_ruling is None else share_of_ruling) == pytest.approx(mm)


def test_a_take_at_the_hem_is_a_spring_of_the_other_sign() -> None:
    """What is taken at the hem is what a spring of minus that adds."""
    taken = side_front(take="{hem: 9 mm}", spring="0 mm")
    sprung = side_front(spring="-9 mm")
    for front in (taken, sprung):
        take = worked(garment(seams=(front, side_back()))).takes[0]
        assert at(take, take.seam.low) == pytest.approx(9.0)


def test_nothing_is_taken_above_the_bust_unless_it_is_said() -> None:
    """Above the bust, or above its own top where that is lower, a seam takes nothing: the bust girth is not eaten."""
    front, back = worked(garment()).takes
    assert at(front, min(1.0, front.seam.top)) == pytest.approx(0.0)
    assert at(back, 1.0) == pytest.approx(0.0)
    assert at(back, back.seam.top) == pytest.approx(0.0)


heights = st.sampled_from(["top edge", "bust", "55%", "28%"])


@settings(max_examples=12, deadline=None, derandomize=True)
@given(st.sampled_from(sorted(BODIES)), heights, st.floats(-8.0, 8.0), st.floats(-15.0, 30.0))
def test_a_take_runs_without_a_kink(name: str, height: str, mm: float, spring: float) -> None:
    """At the waist, and at the top, a take begins level: a ten-thousandth of the height away it has hardly changed.

    A straight profile would have changed by a hundred times as much, and left an angle in each edge.
    """
    front = side_front(take=f"{{{height}: {mm:.2f} mm}}", spring=f"{spring:.2f} mm")
    take = worked(garment(seams=(front, side_back())), name).takes[0]
    step = 1e-4
    below, above = (take(np.array([0.0, side])) for side in (-step, step))
    assert abs(below[1] - below[0]) < 1e-4
    assert abs(above[1] - above[0]) < 1e-4
    top = take(np.array([take.seam.top - step, take.seam.top]))
    assert abs(top[1] - top[0]) < 1e-4


def test_a_reduction_without_a_seam_to_take_it_is_refused() -> None:
    """What shall be taken in must have somewhere to go."""
    seams = tuple(seam.replace(", share: 2", "").replace(", share: 1", "") for seam in (side_front(), side_back()))
    with pytest.raises(GeometryError) as caught:
        made(recipe(TOP, HEM, *seams, RED, THREE))
    assert str(caught.value) == (
        "r.yaml:17:5: step 6 (separate) › waist reduction › 10.2 mm a half shall be taken in or let out at the waist, "
        "and no seam there has a share of it. Give one or more seams a `share`."
    )


def test_a_seam_that_ends_on_another_has_no_part_in_what_is_taken_there() -> None:
    """A seam that starts on another one at the bust takes nothing there, though it carries a share."""
    dart = "seam: {name: dart, through: [[side back, bust], [58%, waist], [60%, hem]], share: 5, below waist: sewn}"
    four = "separate: {panels: [front, side, dart, back]}"
    work = worked(recipe(GAP, TOP, HEM, side_front(), side_back(), dart, "bust reduction: {by: 1%}", RED, four))
    by_name = {take.seam.name: take for take in work.takes}
    assert at(by_name["dart"], 1.0) == pytest.approx(0.0)
    assert at(by_name["dart"], 0.0) == pytest.approx(10.2 * 5.0 / 8.0)
    assert half_sum(work, 1.0) == pytest.approx(4.4)


def test_takes_of_an_undrawn_garment_are_none() -> None:
    """A draft without seams takes nothing, and that is no fault while nothing shall be taken."""
    assert takes_of(worked(recipe(TOP, HEM, "separate: {panels: [whole]}")).draft) == ()
