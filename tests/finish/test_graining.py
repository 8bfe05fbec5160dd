"""Grain: along a centre line or square to the waist, upward, inside the panel."""

from __future__ import annotations

import math

import numpy as np
import pytest
from tests.samples import BODIES, GAP, HEM, RED, THREE, TOP, drafted, made, recipe, side_back, side_front

from fanblock.geometry.curve import Points
from fanblock.geometry.meet import contains


def grained(choice: str) -> dict[str, tuple[Points, Points]]:
    """Return the grain lines of the sample garment with a grain step."""
    steps = (GAP, TOP, HEM, side_front(), side_back(), RED, THREE, f"grain: {choice}")
    return {panel.name: panel.grain for panel in made(recipe(*steps), "short in the back").panels if panel.grain}


def angle_deg(line: tuple[Points, Points], along: Points) -> float:
    """Return the angle between a grain line and a direction."""
    up = (line[1] - line[0]) / np.hypot(*(line[1] - line[0]))
    return math.degrees(math.acos(min(1.0, float(up @ along) / float(np.hypot(*along)))))


def test_grain_follows_the_line_it_was_given() -> None:
    """Along centre front and centre back, and square to the waist at the middle of the side."""
    lines = grained("{front: center front, side: at waist, back: center back}")
    pattern = made(recipe(GAP, TOP, HEM, side_front(), side_back(), RED, THREE), "short in the back")
    block = pattern.block
    assert angle_deg(lines["front"], block.ruling_direction(0.0)) == pytest.approx(0.0, abs=1e-5)
    assert angle_deg(lines["back"], block.ruling_direction(1.0)) == pytest.approx(0.0, abs=1e-5)
    waist = pattern.by_name["side"].levels["waist"][0]
    assert angle_deg(lines["side"], waist.tangent_at(waist.length_mm / 2.0)) == pytest.approx(90.0, abs=0.01)


def test_what_is_not_chosen_lies_square_to_the_waist() -> None:
    """A panel that no grain was chosen for has it at its waist."""
    assert np.allclose(grained("{front: center front}")["side"], grained("{side: at waist}")["side"])


@pytest.mark.parametrize("name", BODIES)
def test_grain_runs_up_inside_every_panel(name: str) -> None:
    """Every panel's grain line points up, is at least half as long as the panel is high, and lies within it."""
    for panel in drafted(name, "stays-five-panels").panels:
        assert panel.grain is not None
        foot, head = panel.grain
        assert head[1] > foot[1]
        assert all(contains(panel.loop(), foot + share * (head - foot)) for share in np.linspace(0.0, 1.0, 9).tolist())
        up = (head - foot) / np.hypot(*(head - foot))
        along = panel.loop() @ up
        assert np.hypot(*(head - foot)) > 0.5 * (along.max() - along.min())
