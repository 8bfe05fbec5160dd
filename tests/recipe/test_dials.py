"""Dials turned."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fanblock.problems import RecipeError
from fanblock.recipe.dials import dial_values, with_dials
from fanblock.recipe.model import Recipe
from fanblock.recipe.reading import read_recipe
from fanblock.steps.hem import Hem
from fanblock.steps.lacing_gap import LacingGap
from fanblock.steps.waist_reduction import WaistReduction
from fanblock.terms import Amount, Height, Length, Share


def test_a_recipe_left_alone_has_its_defaults(trial: Recipe) -> None:
    """Every dial gives way to its default, in amounts and in heights."""
    steps = with_dials(trial).steps
    assert steps[0].options == LacingGap(width=Length(50.0))
    assert steps[2].options == Hem(height=Height("waist", plus=Length(80.0), sign=-1))
    assert steps[5].options == WaistReduction(by=Share(0.03, "waist"))


def test_a_turned_dial_goes_everywhere_and_stays_in_the_recipe(trial: Recipe) -> None:
    """A setting replaces the dial in the steps and becomes its default; settings may be texts or amounts."""
    turned = with_dials(trial, {"gap": "3 in", "reduction": Share(0.05)})
    assert turned.steps[0].options == LacingGap(width=Length(76.2))
    assert turned.steps[5].options == WaistReduction(by=Share(0.05, "waist"))
    assert [spec.default for spec in turned.dials] == [Length(76.2), Share(0.05, "waist"), Length(80.0)]
    assert with_dials(turned) == turned


def test_the_recipe_itself_is_not_changed(trial: Recipe, trial_text: str) -> None:
    """Turning a dial gives a new recipe."""
    with_dials(trial, {"gap": "60 mm"})
    assert trial == read_recipe(trial_text, "trial-stays.yaml")


def test_dials_are_told_in_words_and_numbers(trial: Recipe) -> None:
    """Words keep the unit that was typed; numbers are millimetres, or ratios."""
    assert dial_values(trial, {"gap": "6 cm"}) == (
        ("gap", "6 cm", 60.0),
        ("reduction", "3% of waist", 0.03),
        ("tab depth", "80 mm", 80.0),
    )


def test_a_dial_set_below_nothing_turns_the_sign_round(trial_text: str) -> None:
    """A height never adds a negative length: `waist - tab depth` at -20 mm is `waist + 20 mm`."""
    text = trial_text.replace("default: 80 mm, least: 40 mm", "default: 80 mm, least: -40 mm")
    hem = with_dials(read_recipe(text, "r.yaml"), {"tab depth": "-20 mm"}).steps[2].options
    assert hem == Hem(height=Height("waist", plus=Length(20.0), sign=1))


def test_two_takes_that_fall_on_one_height_are_refused(trial_text: str) -> None:
    """Entries that the dials bring to one height would silently replace one another."""
    text = trial_text.replace("take: {top edge: 6 mm}", "take: {waist + 50 mm: 6 mm, waist + gap: 3 mm}")
    with pytest.raises(RecipeError) as caught:
        with_dials(read_recipe(text, "r.yaml"))
    assert str(caught.value) == (
        "r.yaml:23:5: step 5 (seam) › as the dials are set, two of its entries stand at one height. "
        "Turn one of the dials."
    )


BAD: list[tuple[Mapping[str, Amount | str], str]] = [
    ({"gap": "12 cm"}, "dial “gap”: 12 cm is more than its most, 9 cm. Set it from 0 cm to 9 cm."),
    ({"gap": "4 in"}, "dial “gap”: 4 in is more than its most, 3.54 in. Set it from 0 in to 3.54 in."),
    (
        {"tab depth": Length(10.0)},
        "dial “tab depth”: 10 mm is less than its least, 40 mm. Set it from 40 mm to 120 mm.",
    ),
    ({"reduction": "11%"}, "dial “reduction”: 11% is more than its most, 10%. Set it from 0% to 10%."),
    ({"reduction": "-1%"}, "dial “reduction”: -1% is less than its least, 0%. Set it from 0% to 10%."),
    ({"gip": "1 cm"}, "there is no dial “gip”. Did you mean “gap”?"),
    ({"gap": "4%"}, "dial “gap”: got “4%”, needs a length such as `50 mm`."),
    ({"gap": Share(0.04)}, "dial “gap”: got “4%”, needs a length such as `50 mm`."),
    ({"reduction": "40 mm"}, "dial “reduction”: got “40 mm”, needs a percentage such as `3%`."),
    ({"reduction": Share(0.04, "bust")}, "dial “reduction”: got “4% of bust”, but it is a share of waist."),
    ({"gap": "wide"}, "dial “gap”: got “wide”, needs a length such as `50 mm` or a percentage such as `3%`."),
    (
        {"gap": "40"},
        "dial “gap”: “40” has no unit. "
        "Write 40 in or 40 cm, or say once at the top what bare numbers mean: units: in (or cm, or mm).",
    ),
    (
        {"wide": "1 cm", "gap": "4%"},
        "dial “gap”: got “4%”, needs a length such as `50 mm`.\n"
        "there is no dial “wide”. Legal here: gap, reduction, tab depth.",
    ),
]


@pytest.mark.parametrize(("settings_", "says"), BAD)
def test_a_setting_that_cannot_be_used_is_told(trial: Recipe, settings_: Mapping[str, Amount | str], says: str) -> None:
    """Unknown dials, wrong kinds and settings outside the limits are refused, all together."""
    for use in (with_dials, dial_values):
        with pytest.raises(RecipeError) as caught:
            use(trial, settings_)
        assert str(caught.value) == says


def test_a_recipe_without_dials_says_so(trial: Recipe) -> None:
    """There is nothing near to name where there are no dials."""
    with pytest.raises(RecipeError) as caught:
        with_dials(replace(trial, steps=(), dials=()), {"gap": "1 cm"})
    assert str(caught.value) == "there is no dial “gap”. This recipe has no dials."


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.integers(0, 90_000))
def test_every_setting_within_the_limits_is_taken_exactly(trial: Recipe, micrometres: int) -> None:
    """What is set is what the step gets."""
    gap = with_dials(trial, {"gap": f"{micrometres / 1000} mm"}).steps[0].options
    assert gap == LacingGap(width=Length(micrometres / 1000))
