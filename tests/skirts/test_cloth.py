"""Cloth taken up along a waist: no more and no less of it than its pleats and gathers take."""

from __future__ import annotations

from typing import get_args

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fanblock.skirts.cloth import Cloth, spread_evenly
from fanblock.skirts.folds import PleatKind, Way

PLEATED = st.builds(
    Cloth,
    length_mm=st.just(400.0),
    kind=st.sampled_from(get_args(PleatKind)),
    fold_mm=st.floats(5.0, 60.0),
    toward=st.sampled_from(get_args(Way)),
    at_mm=st.lists(st.floats(1.0, 399.0), min_size=1, max_size=9, unique=True).map(lambda at: tuple(sorted(at))),
)


def test_three_knife_pleats_take_two_folds_each() -> None:
    """300 mm of waist under three pleats of 20 mm folds: 300 + 3 · 40 = 420 mm of cloth; by hand."""
    cloth = Cloth(300.0, fold_mm=20.0, at_mm=spread_evenly(3, 0.0, 300.0))
    assert cloth.width_mm == 420.0
    assert cloth.over(150.0) == 190.0  # the pleat that stands at 150 lies behind it
    assert [(turn.cloth_mm, turn.place_mm, turn.says) for turn in cloth.turns()[:2]] == [
        (70.0, 70.0, "outward, lay it back"),
        (90.0, 50.0, "inward"),
    ]


def test_a_box_pleat_takes_four_folds_and_an_inverted_one_as_much() -> None:
    """One pleat of 25 mm folds takes 100 mm; the box stands outward on both sides of its place, the other is tucked."""
    box, inverted = (Cloth(200.0, kind=kind, fold_mm=25.0, at_mm=(100.0,)) for kind in ("box", "inverted"))
    assert box.width_mm == inverted.width_mm == 300.0
    assert [turn.says for turn in box.turns()] == [
        "inward",
        "outward, lay it forward",
        "outward, lay it back",
        "inward",
    ]
    assert [turn.says for turn in inverted.turns()] == [
        "outward",
        "inward, tuck it forward",
        "inward, tuck it back",
        "outward",
    ]


def test_gathered_cloth_is_longer_all_along() -> None:
    """One and a half times the waist, at every place of it."""
    cloth = Cloth(300.0, fullness=1.5)
    assert (cloth.width_mm, cloth.over(100.0), cloth.turns()) == (450.0, 150.0, ())


@given(cloth=PLEATED)
def test_cloth_folds_and_does_not_stretch(cloth: Cloth) -> None:
    """Between any two neighbouring points it covers exactly as much of the waist as it is long, one way or the other."""
    across, places = cloth.foot(lambda where: where)
    kept = (places > 0.0) & (places < cloth.length_mm)  # what would lie beyond an end is told as at the end
    moved, went = np.abs(np.diff(places)), np.diff(across)
    flat = kept[:-1] & kept[1:]
    assert np.all(went > 0.0)
    assert moved[flat] == pytest.approx(went[flat], abs=1e-6)


@given(cloth=PLEATED, at=st.floats(0.0, 400.0))
def test_what_lies_before_and_behind_a_place_is_all_of_it(cloth: Cloth, at: float) -> None:
    """Width = waist + what every pleat takes, wherever it is parted."""
    assert all(0.0 <= place < cloth.length_mm for place in cloth.at_mm)
    before = sum(place < at for place in cloth.at_mm)
    assert cloth.over(at) == pytest.approx(at + before * cloth.taken_mm)
    assert cloth.width_mm == pytest.approx(cloth.length_mm + len(cloth.at_mm) * cloth.taken_mm)
