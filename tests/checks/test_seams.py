"""The seams family: mates that agree, and what truing had to do."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.checks.spoiling import failing, one, sound, with_edge
from tests.samples import BODIES

from fanblock.checks.seams import check
from fanblock.pattern.model import EndShift, Pattern


@pytest.mark.parametrize("name", BODIES)
def test_mates_agree_on_every_body(name: str) -> None:
    """Sewn or open, mates agree within 0.1 mm above and below the waist."""
    for below in ("sewn", "open"):
        assert failing(check(sound(name, below=below))) == []


@pytest.mark.parametrize(("by_mm", "codes"), [(0.05, []), (0.3, ["mates-A"])])
def test_an_edge_that_is_too_long_is_caught(by_mm: float, codes: list[str]) -> None:
    """One side of seam A 0.3 mm longer at its top fails; half of the limit does not."""
    pattern = sound()
    curve = pattern.by_name["front"].edge("side front").curve
    longer = curve.between(0.0, curve.length_mm + by_mm)
    assert failing(check(with_edge(pattern, "front", "side front", curve=longer))) == codes


def test_a_waist_mark_out_of_place_is_caught() -> None:
    """Edges equal as a whole, but not above and below the waist each, fail."""
    pattern = sound()
    at = pattern.by_name["back"].edge("side back").waist_at_mm
    assert at is not None
    assert failing(check(with_edge(pattern, "back", "side back", waist_at_mm=at + 0.2))) == ["mates-B"]


def shifted(shift_mm: float, edge_mm: float) -> Pattern:
    """Return a pattern whose first seam was trued by so much at its top."""
    pattern = sound()
    seam = replace(pattern.seams[0], above=EndShift(shift_mm, edge_mm, 22.0, 30.0))
    return replace(pattern, seams=(seam, *pattern.seams[1:]))


@pytest.mark.parametrize(
    ("shift_mm", "edge_mm", "state"),
    [
        (5.9, 190.0, "holds"),
        (6.1, 190.0, "warns"),
        (28.0, 190.0, "warns"),
        (29.0, 190.0, "fails"),
        (4.0, 20.0, "fails"),
    ],
)
def test_truing_that_goes_far_is_told(shift_mm: float, edge_mm: float, state: str) -> None:
    """Over 6 mm it warns; over 15 % of the edge it is a fault of the recipe."""
    assert one(check(shifted(shift_mm, edge_mm)), "shift-A-above").state == state


def test_the_causes_of_a_shift_are_told() -> None:
    """A shift that warns says how far the seam leans and what it takes."""
    assert one(check(shifted(7.0, 190.0)), "shift-A-above").says == (
        "seam A: truing moved its ends above the waist by 7.0 mm (lean 22°, take 30.0 mm; lean less or take less)"
    )


@pytest.mark.parametrize(("by_mm", "codes"), [(0.0, []), (0.3, ["mates-A"])])
def test_fullness_is_taken_off_first(by_mm: float, codes: list[str]) -> None:
    """An edge longer by what is pleated into it agrees with its mate; one that is longer still does not."""
    pattern = sound()
    curve = pattern.by_name["front"].edge("side front").curve
    fuller = with_edge(pattern, "front", "side front", curve=curve.between(0.0, curve.length_mm + 80.0 + by_mm))
    seam = replace(pattern.seams[0], fullness_mm=80.0, how="pleated", above=None, below=None)
    findings = check(replace(fuller, seams=(seam, *pattern.seams[1:])))
    assert failing(findings) == codes
    assert "of which 80.0 mm are pleated" in one(findings, "mates-A").says
