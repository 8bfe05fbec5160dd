"""The channels family: bones lie where they can be stitched, rows close level, edges can be bound."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from tests.checks.spoiling import failing, one, with_panel
from tests.samples import BODIES, GAP, HEM, RED, STAYS, THREE, TOP, drafted, made, recipe, side_back, side_front

from fanblock.checks.channels import check
from fanblock.geometry.curve import Curve, frozen
from fanblock.pattern.bones import Channel
from fanblock.pattern.model import Pattern


def boned() -> Pattern:
    """Return stays with channels, eyelets, tabs and a binding."""
    seams = (side_front(below_waist="open"), side_back(below_waist="open"))
    steps = (
        "tabs: {slits: {side: 2, back: 1}}",
        "eyelets: {from edge: 12 mm}",
        "channels: {panel: side, parallel: grain, count: 3}",
        "channels: {panel: back, bone: 5 mm, beside: lacing edge}",
        "binding: {}",
    )
    return made(recipe(GAP, TOP, HEM, *seams, RED, THREE, *steps, makes="stays"))


def spoilt(panel: str, number: int, change: Any) -> Pattern:
    """Return the pattern with one channel changed."""
    pattern = boned()
    channels = tuple(change(each) if each.number == number else each for each in pattern.by_name[panel].channels)
    return with_panel(pattern, panel, channels=channels)


def moved(channel: Channel, x: float, y: float) -> Channel:
    """Return a channel shifted."""
    by = np.array([x, y])
    rows = tuple(Curve(frozen(row.points + by)) for row in channel.rows)
    return replace(channel, line=Curve(frozen(channel.line.points + by)), rows=rows)


@pytest.mark.parametrize("recipe_id", STAYS)
def test_bones_of_the_catalogue_can_be_stitched(recipe_id: str) -> None:
    """On every body of the catalogue nothing of the family fails."""
    assert {name: failing(check(drafted(name, recipe_id))) for name in BODIES} == {name: [] for name in BODIES}


def test_what_holds_is_told() -> None:
    """Panel by panel, then the shortest bone, straightness, the rows of eyelets, the binding."""
    found = check(boned())
    assert failing(found) == []
    assert [each.code for each in found] == [
        "channels-side",
        "bone-ends-side",
        "channels-back",
        "bone-ends-back",
        "channels-length",
        "channels-straight",
        "eyelets-level-lacing-edge",
        "binding-curves",
    ]
    assert (
        one(found, "channels-side").says == "the channels of panel 2 (side) lie inside it, clear of slits and eyelets"
    )


def test_a_garment_without_bones_is_asked_nothing() -> None:
    """No channels, no eyelets, no binding: no findings."""
    assert check(made(recipe(GAP, TOP, HEM, side_front(), side_back(), RED, THREE))) == ()


def test_a_channel_off_the_cloth_is_caught() -> None:
    """Moved up past the top edge it crosses the outline."""
    found = check(spoilt("side", 2, lambda channel: moved(channel, 0.0, 30.0)))
    assert "channels-side" in failing(found)
    assert one(found, "channels-side").says == "of the channels of panel 2 (side) lie 2 outside it"


def test_a_channel_over_a_slit_is_caught() -> None:
    """Slid sideways until it stands on the nearest slit."""
    pattern = boned()
    side = pattern.by_name["side"]
    channel = side.channels[1]
    low = channel.line.end
    slit = min(side.slits, key=lambda each: abs(float(each.end[0] - low[0])))
    found = check(spoilt("side", 2, lambda each: moved(each, float(slit.end[0] - low[0]), 0.0)))
    assert "channels-side" in failing(found)
    assert "in the way of a slit or an eyelet" in one(found, "channels-side").says


def test_a_channel_over_the_eyelets_is_caught() -> None:
    """The inner bone beside the lacing edge, moved 8 mm outward."""
    pattern = boned()
    first = pattern.by_name["back"].channels[0]
    hole = pattern.by_name["back"].eyelets[3].point
    across = float(hole[0] - np.interp(hole[1], *first.line.points[::-1].T[::-1]))
    found = check(spoilt("back", 1, lambda channel: moved(channel, across, 0.0)))
    assert "channels-back" in failing(found)


def test_a_bone_too_near_the_edge_is_caught() -> None:
    """Moved 5 mm up along itself it ends 5 mm nearer to the top than was asked."""

    def up(channel: Channel) -> Channel:
        way = channel.line.start - channel.line.end
        x, y = 5.0 * way / np.hypot(*way)
        return moved(channel, float(x), float(y))

    found = check(spoilt("side", 2, up))
    assert failing(found) == ["bone-ends-side"]
    assert one(found, "bone-ends-side").number == pytest.approx(5.0, abs=0.2)


def test_a_bent_channel_is_caught() -> None:
    """A middle that stands half a millimetre off the straight line: bones do not bend edgewise."""

    def bent(channel: Channel) -> Channel:
        top, foot = channel.line.points
        return replace(channel, line=Curve(frozen([top, 0.5 * (top + foot) + np.array([0.5, 0.0]), foot])))

    assert failing(check(spoilt("side", 2, bent))) == ["channels-straight"]


def test_a_short_bone_is_caught() -> None:
    """Under 4 cm it stiffens nothing (from memory)."""

    def short(channel: Channel) -> Channel:
        top, foot = channel.line.points
        line = Curve(frozen([top, top + 35.0 * (foot - top) / np.hypot(*(foot - top))]))
        return replace(channel, line=line)

    found = check(spoilt("side", 2, short))
    assert failing(found) == ["channels-length"]
    assert one(found, "channels-length").number == pytest.approx(35.0)


def test_rows_that_do_not_close_level_are_caught() -> None:
    """One row a millimetre lower at its end."""
    pattern = boned()
    lacing = pattern.lacings[0]
    shifted = replace(lacing, left_mm=(*lacing.left_mm[:-1], lacing.left_mm[-1] + 1.0))
    found = check(replace(pattern, lacings=(shifted,)))
    assert failing(found) == ["eyelets-level-lacing-edge"]
    assert one(found, "eyelets-level-lacing-edge").number == pytest.approx(1.0)


def test_curves_too_tight_to_be_bound_want_a_look() -> None:
    """A hem that turns on 4 mm is told with its place; it is no fault."""
    pattern = boned()
    front = pattern.by_name["front"]
    angles = np.linspace(0.0, 2.5, 60)
    tight = Curve(frozen(4.0 * np.column_stack((np.sin(angles), 1.0 - np.cos(angles)))))
    edges = tuple(replace(edge, curve=tight) if edge.name == "hem" else edge for edge in front.edges)
    found = one(check(with_panel(pattern, "front", edges=edges)), "binding-curves")
    assert found.state == "warns"
    assert found.says.startswith(
        "curves too tight to be bound neatly: piece 1 (front), the back corner of the lower edge ("
    )
    assert "(turns outward on 4.0 mm). Outward: ease the binding round it." in found.says
    assert (found.number, found.limit) == (pytest.approx(4.0, abs=0.1), 8.0)
