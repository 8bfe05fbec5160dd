"""``seam``: open or sewn below the waist, with takes at any height, of either sign."""

from __future__ import annotations

import pytest
from tests.samples import GAP, HEM, RED, SOME, THREE, TOP, failed, made, recipe, side_back, side_front

from fanblock.pattern.model import SEAM, SLIT, Pattern


def sewn(below: str, name: str = "ordinary", **front: str) -> Pattern:
    """Return the sample garment with its seams made up so below the waist."""
    return made(
        recipe(GAP, TOP, HEM, side_front(below_waist=below, **front), side_back(below_waist=below), RED, THREE), name
    )


def test_open_below_the_waist_its_sides_are_slits() -> None:
    """A seam that is open below the waist is sewn above it only: its lower sides are slit edges without mates."""
    front = sewn("open").by_name["front"]
    upper, lower = front.edge("side front"), front.edge("side front below waist")
    assert (upper.kind, upper.waist_at_mm) == (SEAM, pytest.approx(0.0, abs=1e-9))
    assert (lower.kind, lower.mate, lower.letter) == (SLIT, None, "")


def test_sewn_below_the_waist_it_is_one_seam_to_the_hem() -> None:
    """A jacket cut in one is sewn to its hem, the waist a mark on the way."""
    front = sewn("sewn").by_name["front"]
    edge = front.edge("side front")
    assert edge.mate is not None
    assert edge.waist_at_mm is not None
    assert edge.waist_at_mm > 70.0
    assert not any(each.kind == SLIT for each in front.edges)


@pytest.mark.parametrize("below", ["open", "sewn"])
@pytest.mark.parametrize("name", SOME)
def test_either_way_is_sound_with_spring(name: str, below: str) -> None:
    """With springs of 20 and 25 mm no check fails on any body, sewn or open."""
    assert failed(sewn(below, name)) == []


@pytest.mark.parametrize("mm", [-8, 8])
@pytest.mark.parametrize("height", ["top edge", "bust", "50%", "waist", "hem"])
def test_takes_at_every_height_and_of_either_sign_are_sound(height: str, mm: int) -> None:
    """Taking in or letting out at the top, the bust, the middle, the waist or the hem leaves the garment sound."""
    spring = "0 mm" if height == "hem" else "20 mm"
    share = {} if height == "waist" else {"share": "2"}
    front = side_front(take=f"{{{height}: {mm} mm}}", spring=spring)
    if not share:
        front = front.replace(", share: 2", "")
    for below in ("open", "sewn"):
        step = front.replace("below waist: sewn", f"below waist: {below}")
        assert failed(made(recipe(GAP, TOP, HEM, step, side_back(), RED, THREE))) == []


def test_spring_widens_the_skirt() -> None:
    """A spring of 30 mm makes the hem about 30 mm a half wider than none, as far as the hem is level."""

    def hem_mm(pattern: Pattern) -> float:
        return sum(edge.curve.length_mm for panel in pattern.panels for edge in panel.edges if edge.kind == "hem")

    assert hem_mm(sewn("sewn", spring="30 mm")) - hem_mm(sewn("sewn", spring="0 mm")) == pytest.approx(30.0, abs=2.0)
