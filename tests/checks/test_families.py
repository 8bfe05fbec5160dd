"""All checks together: every family speaks, every code once, and one failure makes a pattern unsound."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.checks.spoiling import sound, with_edge
from tests.samples import (
    BODIES,
    FOUR,
    GAP,
    HEM,
    RECIPES,
    STAYS,
    TOP,
    drafted,
    drawn,
    made,
    recipe,
    seam,
    side_back,
    side_front,
)

from fanblock.checks.finding import FAMILIES, told, within
from fanblock.checks.table import findings
from fanblock.pattern.model import Pattern


def test_every_family_speaks_of_stays() -> None:
    """Stays for the ordinary body are looked at by every family but that of sleeves; paper is looked at later."""
    families = {finding.family for finding in drafted("ordinary", "stays-five-panels").findings}
    assert families == set(FAMILIES) - {"halves", "paper", "sleeve"}


def crossing() -> Pattern:
    """Return a garment with a seam that ends on another."""
    dart = seam("dart", "side front, 55%", "30%, waist", "32%, hem", share="1")
    return made(recipe(GAP, TOP, HEM, side_front(), side_back(), dart, FOUR))


def test_every_code_stands_once() -> None:
    """A code names one finding, also where a seam lies in pieces."""
    for pattern in (*(drafted("ordinary", recipe_id) for recipe_id in RECIPES), crossing()):
        codes = [finding.code for finding in pattern.findings]
        assert len(codes) == len(set(codes))


@pytest.mark.parametrize("recipe_id", STAYS)
def test_stays_are_sound_on_every_body(recipe_id: str) -> None:
    """The stays in three and five panels are sound on every body of the catalogue."""
    assert [name for name in BODIES if not drafted(name, recipe_id).sound] == []


@pytest.mark.parametrize("recipe_id", RECIPES)
def test_a_shipped_recipe_is_sound_or_refused(recipe_id: str) -> None:
    """On any of a few bodies a shipped recipe gives a sound pattern or says why not; on the ordinary one it is sound."""
    patterns = drawn(recipe_id)
    assert [name for name, pattern in patterns.items() if not pattern.sound] == []
    assert "ordinary" in patterns


def test_one_failure_makes_a_pattern_unsound() -> None:
    """A single edge out of length is enough; warnings are not."""
    pattern = sound()
    curve = pattern.by_name["front"].edge("side front").curve
    spoilt = with_edge(pattern, "front", "side front", curve=curve.between(0.0, curve.length_mm + 0.3))
    assert not replace(spoilt, findings=findings(spoilt)).sound
    warned = sound("bust is waist")
    assert any(finding.state == "warns" for finding in warned.findings)
    assert warned.sound


def test_checks_look_and_never_repair() -> None:
    """Checked twice a pattern says the same."""
    pattern = drafted("short in the back", "stays-five-panels")
    assert findings(pattern) == pattern.findings


def test_a_number_at_its_limit_holds() -> None:
    """What is at most the limit holds; past it, the finding is what it was told to be."""
    assert within("x", "girth", 0.5, 0.5, "mm", "").state == "holds"
    assert within("x", "girth", 0.51, 0.5, "mm", "").state == "fails"
    assert within("x", "girth", 0.51, 0.5, "mm", "", otherwise="warns").state == "warns"
    assert told("x", "girth", "holds", 3.0, "mm", "").limit == float("inf")
