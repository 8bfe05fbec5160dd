"""The smallest explanation: one cause that made all of what was noted is found, with its amount and nothing left over."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from types import MappingProxyType

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples import BODIES

from fanblock.fitting.explaining import Explanation, explanations, noted
from fanblock.fitting.notes import Notes, Pinch, Said, WaistLine
from fanblock.fitting.numbers import top_height
from fanblock.fitting.sentences import BY_WORDS, LEVELS
from fanblock.make import draft_pattern
from fanblock.pattern.model import Pattern
from fanblock.recipe.library import open_recipe


@cache
def worn() -> Pattern:
    """Return the toile that was worn."""
    return draft_pattern(BODIES["ordinary"], open_recipe("stays-three-panels"))


def gaps(off: dict[str, float]) -> Notes:
    """Return notes of gaps that are wider than wanted by so much at each level."""
    return replace(Notes(1), gap_mm=MappingProxyType({level: worn().gap_mm + mm for level, mm in off.items()}))


def best(notes: Notes) -> Explanation:
    """Return the first explanation."""
    return explanations(notes, worn())[0]


@settings(max_examples=30, deadline=None, derandomize=True)
@given(st.floats(4.0, 40.0), st.sampled_from([-1.0, 1.0]), st.sampled_from(["waist", "bust"]))
def test_a_wrong_girth_is_found(mm: float, sign: float, girth: str) -> None:
    """A cone that is wrong at one end is wrong half as much half way, by plain proportion."""
    at = {"waist": 0.0, "middle": 0.5, "bust": 1.0, "top": top_height(worn())}
    share = {level: height if girth == "bust" else 1.0 - height for level, height in at.items()}
    found = best(gaps({level: sign * mm * share[level] for level in LEVELS}))
    assert len(found.says) == 1
    assert found.says[0].startswith(f"the {girth} is ")
    assert found.says[0].endswith(f"{'larger' if sign > 0 else 'smaller'} than the tape said")
    assert found.share == pytest.approx(1.0)
    assert found.left_over == ()


def test_ribs_are_found_and_told_with_what_is_left() -> None:
    """Two centimetres wanting half way and little else: the ribs, with the rest told."""
    found = best(gaps({"waist": 0.0, "middle": 20.0, "bust": 3.0}))
    assert found.says == ("the body half way up wants 20.0 mm more than the cone gives",)
    assert found.left_over == ("3 mm too small at the bust",)


def test_a_body_longer_all_round_is_found() -> None:
    """The drawn waist above the string before and behind is one length, not two tilts."""
    lines = (WaistLine("center back", 9.0), WaistLine("center front", 9.0))
    found = best(replace(Notes(1), lines=lines))
    assert found.says == ("from waist to bust the body is 9 mm longer than was measured",)


def test_two_causes_come_first_only_when_they_explain_much_more() -> None:
    """A waist and a back length, neither of which explains the other."""
    notes = replace(gaps({"waist": 30.0, "middle": 15.0, "bust": 0.0}), lines=(WaistLine("center back", -25.0),))
    assert len(best(notes).says) == 2
    assert best(notes).left_over == ()


def test_sentences_and_pinches_are_counted_as_numbers() -> None:
    """A pinch is cloth too many; so is a gape at the centre front, by what was pinched."""
    said = (Said(BY_WORDS["gapes at the centre front"], 12.0), Said(BY_WORDS["cannot breathe at the ribs"], 5.0))
    seen = noted(replace(Notes(1), said=said, pinches=(Pinch("side", "middle", 10.0),)), worn())
    assert seen == pytest.approx({"middle": 0.0, "top": -12.0})


def test_one_number_explains_nothing() -> None:
    """Where only one place was measured there is nothing to put together."""
    assert explanations(gaps({"waist": 20.0}), worn()) == ()
    assert np.isfinite(top_height(worn()))
