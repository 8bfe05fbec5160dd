"""Skirts on the sheets: pleats shown folded, centre lines told to the waist, seams with where they begin and end."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from tests.samples import RED, THREE, TOP, made, recipe, side_back, side_front

from fanblock.pattern.model import Pattern
from fanblock.sheet.hanging import skirts
from fanblock.sheet.joined import joined
from fanblock.sheet.sewing import joining
from fanblock.sheet.silhouette import silhouette
from fanblock.sheet.tapes import tape_numbers
from fanblock.sheet.worn import Worn

DEEP = "hem: {height: waist - 160 mm}"
SEAMS = (side_front(spring="0 mm"), side_back(spring="0 mm"))
PLEATS = ("pleats: {at: side back, number: 2, depth: 40 mm}", "pleats: {at: center back, depth: 40 mm}")


def jacket(*more: str) -> Pattern:
    """Return a jacket with deep skirts, a seam at the centre back, and more steps."""
    return made(recipe(TOP, DEEP, *SEAMS, RED, THREE, *more))


def test_the_key_shows_pleats_folded() -> None:
    """Laid seam to seam, pleated panels take no more room than plain ones."""
    plain, pleated = (joined(jacket(*more)) for more in ((), PLEATS))
    for name, panel in plain.items():
        low, high = panel.loop().min(axis=0), panel.loop().max(axis=0)
        other = pleated[name].loop()
        assert np.all(other.min(axis=0) > low - 10.0)
        assert np.all(other.max(axis=0) < high + 10.0)


def test_the_center_back_is_measured_along_its_upper_edge() -> None:
    """Below the waist the centre back goes on as the edge of the pleats; told is what stands above the waist."""
    plain, pleated = (tape_numbers(jacket(*more)) for more in ((), PLEATS))
    assert pleated.back_mm == pytest.approx(plain.back_mm)
    assert pleated == plain


def test_seams_say_that_they_stop_at_the_pleats() -> None:
    """Above the heads one seam, below them another, and what is done with the heads."""
    says = joining(jacket(*PLEATS))
    assert "Join B to B: piece 2 (side) to piece 3 (back), from the top down to the pleat heads." in says
    assert "Join C to C: piece 2 (side) to piece 3 (back), from the pleat heads to the lower edge." in says
    assert (
        "Inside, turn in the pleat heads at the centre back and whip them level to one another and to the allowance of the seam "
        "above them. They carry the weight of the skirts; outside nothing of them shows, nor any stitch."
    ) in says
    order = (
        "Where pleats are let in at the side back, clip to the corner at the pleat head. Above it the seam is sewn by itself, "
        "below it along the outer edges of the pleats' cloth.",
        "Join C to C: piece 2 (side) to piece 3 (back), from the pleat heads to the lower edge.",
        "Sew the two centre backs (piece 3, both halves) to each other, from the top down to the pleat heads.",
        "Sew the two centre back skirts (piece 3, both halves) to each other, from the pleat heads to the lower edge.",
        "Fold the pleats at the centre back on their creases, in order from the panel on, all their cloth to the inside. Outside two "
        "folded edges meet on the line of the seam; inside it the boxes lie on one another. Baste them flat, all layers together, "
        "until the garment is done.",
    )
    places = [says.index(line) for line in order]
    assert places == sorted(places)


def test_sewn_skirts_hang_together_in_the_side_view() -> None:
    """Neighbouring panels meet below the waist where their seam is sewn; no body shows between them."""
    drawing = silhouette(jacket("flare: {by: {side front: 60 mm, side back: 60 mm}}"))
    tabs = [item for item in drawing.groups[0].items if getattr(item, "name", "") == "tab"]
    assert len(tabs) == 3
    ends = sorted((float(tab.beziers[..., 0].min()), float(tab.beziers[..., 0].max())) for tab in tabs)
    assert all(after[0] <= before[1] + 0.5 for before, after in pairwise(ends))


def test_a_skirt_of_its_own_hangs_from_its_waist_in_the_side_view() -> None:
    """One stroke for every edge it is sewn to, from that edge down by its depth."""
    level = "hem: {height: waist}"
    seams = tuple(step.replace(", [19%, hem]", "").replace(", [70%, hem]", "") for step in SEAMS)
    pattern = made(
        recipe(
            TOP, level, *seams, RED, THREE, "skirt: {name: skirt, to: [front, side, back], depth: 15 cm, circle: 50%}"
        )
    )
    hung = list(skirts(Worn(pattern)))
    assert [stroke.name for stroke in hung] == ["skirt"] * 3
    for stroke in hung:
        points = stroke.beziers.reshape(-1, 2)
        assert points[:, 1].max() == pytest.approx(0.0, abs=2.0)
        assert points[:, 1].min() == pytest.approx(-150.0, abs=10.0)
    assert not list(skirts(Worn(jacket())))
