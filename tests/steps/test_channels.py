"""``channels``: what may be said in it, and every refusal in its words."""

from __future__ import annotations

import pytest
from tests.samples import GAP, HEM, RED, THREE, TOP, made, recipe, side_back, side_front

from fanblock.problems import GeometryError, RecipeError
from fanblock.terms import Length

STEPS = (GAP, TOP, HEM, side_front(below_waist="open"), side_back(below_waist="open"), RED, THREE)


def test_bones_are_6_by_1_5_mm_with_2_mm_of_play_unless_it_is_said() -> None:
    """Channel is bone + 2 mm (common practice); bones end 10 mm below the top in front, 12 under the arm, 6 behind (from
    memory) and half an inch above the lower edge (common practice)."""
    options = recipe(*STEPS, "channels: {panel: side, parallel: grain, count: 3}").steps[-1].options
    assert (options.bone, options.thickness, options.play) == (Length(6.0), Length(1.5), Length(2.0))  # type: ignore[attr-defined]
    clear = (options.top_front, options.under_arm, options.back, options.hem)  # type: ignore[attr-defined]
    assert clear == (Length(10.0), Length(12.0), Length(6.0), Length(12.7))


def test_one_step_a_panel_or_several() -> None:
    """Channels of several steps stand on one panel, numbered together, none on another."""
    pattern = made(
        recipe(
            *STEPS,
            "channels: {panel: side, parallel: grain, count: 2, within: [0%, 40%]}",
            "channels: {panel: side, slant: [70%, 60%], count: 1, within: [50%, 100%]}",
        )
    )
    assert [channel.number for channel in pattern.by_name["side"].channels] == [1, 2, 3]
    assert pattern.by_name["front"].channels == ()


@pytest.mark.parametrize(
    "options",
    ["parallel: side front, fully: yes", "parallel: center front, spacing: 20 mm", "slant: [80%, 40%], count: 2",
     "fan: [side front, side back], count: 4", "beside: side front", "fully: yes", "parallel: center back, count: 3, group: 2"],
)  # fmt: skip
def test_every_way_of_running_draws(options: str) -> None:
    """Each of the ways lays bones on the side panel, and the pattern stays sound."""
    pattern = made(recipe(*STEPS, f"channels: {{panel: side, {options}}}"))
    assert pattern.by_name["side"].channels
    assert pattern.sound


UNSAID = {
    "panel: side, count: 2":
        "step 8 (channels) › panel › does not say how the channels run. Give `parallel`, `slant`, `fan` or `beside`.",
    "panel: side, parallel: grain":
        "step 8 (channels) › panel › does not say how many channels there are. Give one of `fully`, `count` and `spacing`.",
    "panel: side, parallel: grain, beside: side front":
        "step 8 (channels) › beside › stands beside `parallel`, and they can run one way only. Keep one of them.",
    "panel: side, parallel: grain, count: 2, fully: yes":
        "step 8 (channels) › count › stands beside `fully`. Give one of `fully`, `count` and `spacing`.",
    "panel: side, beside: side front, count: 2":
        "step 8 (channels) › count › does not go with `beside`, which is one bone, or two beside eyelets. Leave it out.",
    "panel: side, fan: [side front], fully: yes":
        "step 8 (channels) › fan › needs two different edges. Write `fan: [center front, side front]`.",
    "panel: side, slant: [20%], count: 2":
        "step 8 (channels) › slant › needs two shares. Write `slant: [80%, 20%]`: of the top edge, then of the waist.",
    "panel: side, parallel: grain, count: 2, within: [50%, 20%]":
        "step 8 (channels) › within › needs two shares, the smaller first. Write `within: [0%, 40%]`.",
    "panel: side, parallel: grain, count: 0":
        "step 8 (channels) › count › got 0, needs 1 or more. Leave the step out.",
    "panel: side, parallel: grain, count: 2, group: 20":
        "step 8 (channels) › group › got 20, needs a number from 1 to 12.",
    "panel: side, parallel: grain, fully: yes, group: 2":
        "step 8 (channels) › group › goes with `count` or `spacing` only. Leave it out.",
    "panel: sid, parallel: grain, count: 2":
        "step 8 (channels) › panel › there is no panel “sid” in `separate` (step 7). Did you mean “side”?",
    "panel: side, parallel: grain, count: 2, material: iron":
        "step 8 (channels) › material › got “iron”, needs `cane`, `flat steel`, `reed`, `spiral steel`, `synthetic whalebone` or `wood`.",
}  # fmt: skip


@pytest.mark.parametrize("options", UNSAID)
def test_what_does_not_hang_together_is_told(options: str) -> None:
    """Every contradiction is told with its option, what is wrong and what to do."""
    with pytest.raises(RecipeError) as caught:
        recipe(*STEPS, f"channels: {{{options}}}")
    assert str(caught.value).split(": ", 1)[0].startswith("r.yaml:")
    assert str(caught.value).endswith(UNSAID[options])


UNDRAWN = {
    "panel: side, parallel: side frnt, count: 2":
        "step 8 (channels) › parallel › panel “side” has no edge “side frnt”. Did you mean “side front”?",
    "panel: side, fan: [side front, center back], count: 2":
        "step 8 (channels) › fan › panel “side” has no edge “center back”. Did you mean “side back”?",
    "panel: side, parallel: grain, count: 2, bone: 1 mm":
        "step 8 (channels) › bone › got 1.0 mm, needs 2 mm or more. Choose a wider bone.",
    "panel: side, parallel: grain, count: 2, thickness: 9 mm":
        "step 8 (channels) › thickness › got 9.0 mm for a bone 6.0 mm wide. A bone is thinner than it is wide.",
    "panel: side, parallel: grain, spacing: 12 mm, group: 2":
        "step 8 (channels) › spacing › got 12 mm for 2 channels of 8 mm: they would lap. Set them further apart, or fill it `fully`.",
}  # fmt: skip


@pytest.mark.parametrize("options", UNDRAWN)
def test_what_cannot_be_drawn_is_told_at_its_step(options: str) -> None:
    """Edges that the panel does not have, and bones that there are not."""
    with pytest.raises(GeometryError) as caught:
        made(recipe(*STEPS, f"channels: {{{options}}}"))
    assert UNDRAWN[options] in str(caught.value)
    assert str(caught.value).startswith("r.yaml:19:5: ")


def test_what_finds_no_place_is_said() -> None:
    """A note tells how many bones were left out of which piece, and why."""
    pattern = made(recipe(*STEPS, "channels: {panel: front, parallel: center front, count: 30}"))
    laid = len(pattern.by_name["front"].channels)
    assert [note.says for note in pattern.notes if note.kind == "bones"] == [
        f"On piece 1 (front) {30 - laid} of 30 bones are left out: there is no room beside the others."
    ]
    assert pattern.sound


def test_channels_stand_after_separate() -> None:
    """There are no panels before it."""
    with pytest.raises(RecipeError, match=r"works on panels, but stands before `separate`"):
        recipe(GAP, TOP, HEM, "channels: {panel: whole, parallel: grain, fully: yes}", "separate: {panels: [whole]}")
