"""The marks family: no piece can be mixed up."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.checks.spoiling import failing, one, sound, with_edge, with_panel
from tests.samples import RECIPES, drawn

from fanblock.checks.marks import check


@pytest.mark.parametrize("recipe", RECIPES)
def test_every_panel_of_the_catalogue_carries_its_marks(recipe: str) -> None:
    """Grain, number, letters, notches and cut counts are on every panel for every body."""
    for pattern in drawn(recipe).values():
        assert failing(check(pattern)) == []


def test_a_notch_that_is_missing_is_caught() -> None:
    """One tick less on one side."""
    pattern = sound()
    notches = pattern.by_name["side"].notches[1:]
    spoilt = check(with_panel(pattern, "side", notches=notches))
    assert one(spoilt, "notches-A").state == "fails"
    assert one(spoilt, "notches-A").says == "the notches of seam A are not the same on both sides"


@pytest.mark.parametrize(("by_mm", "state"), [(0.05, "holds"), (0.3, "fails")])
def test_a_notch_out_of_place_is_caught(by_mm: float, state: str) -> None:
    """A tick 0.3 mm from where its mate has it fails."""
    pattern = sound()
    moved = tuple(
        replace(notch, at_mm=notch.at_mm + by_mm) if notch.kind == "seam" else notch
        for notch in pattern.by_name["front"].notches
    )
    assert one(check(with_panel(pattern, "front", notches=moved)), "notches-A").state == state


@pytest.mark.parametrize(
    ("changes", "lacks"),
    [({"grain": None}, "a grain line"), ({"cuts": ()}, "a cut count"), ({"cut_line": None}, "a cut line")],
)
def test_a_panel_without_a_mark_is_caught(changes: dict[str, object], lacks: str) -> None:
    """What a panel lacks is named."""
    spoilt = check(with_panel(sound(), "front", **changes))
    assert failing(spoilt) == ["marks-front"]
    assert one(spoilt, "marks-front").says == f"panel 1 (front) lacks {lacks}"


def test_a_seam_without_a_letter_is_caught() -> None:
    """A sewn edge has its letter."""
    assert "marks-front" in failing(check(with_edge(sound(), "front", "side front", letter="")))


def test_ticks_alike_on_both_seams_of_a_panel_are_caught() -> None:
    """A panel whose two seams carry the same number of ticks could be turned about."""
    pattern = sound()
    alike = tuple(replace(notch, count=1) for notch in pattern.by_name["side"].notches)
    assert (
        "lacks unlike ticks on its seams" in one(check(with_panel(pattern, "side", notches=alike)), "marks-side").says
    )
