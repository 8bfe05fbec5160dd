"""Folds of pleats: how much cloth each side of a seam brings, and that it comes back to the seam's line when folded."""

from __future__ import annotations

from itertools import pairwise
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fanblock.sheet.pleatfolds import run_of
from fanblock.skirts.folds import PleatKind, Way, side_folds

WAYS: tuple[Way, ...] = get_args(Way)


def test_a_double_box_brings_four_layers_a_side() -> None:
    """Two box pleats on one another take eight folds, four from each side, and are folded to and fro from the seam."""
    folds = side_folds("box", 2, "back", "both", "front")
    assert folds.layers == 4
    assert [(crease.folds, crease.outward, crease.says) for crease in folds.creases] == [
        (0, True, "fold 1: outward, on the seam line"),
        (1, False, "fold 2: inward, tuck it forward"),
        (2, True, "fold 3: outward, at the seam line"),
        (3, False, "fold 4: inward, tuck it forward, under fold 2"),
    ]
    assert folds == side_folds("inverted", 2, "back", "both", "front")


@pytest.mark.parametrize("kind", get_args(PleatKind))
def test_no_cloth_of_pleats_in_a_seam_lies_outside(kind: PleatKind) -> None:
    """Folded crease by crease, every layer lies at the panel's level or inside of it: the heads are whipped there, and must not show."""
    for toward in WAYS:
        for side in WAYS:
            folds = side_folds(kind, 3, toward, "both", side)
            run = run_of([(40.0 * one.folds, 0, one.outward, "") for one in folds.creases], 40.0 * folds.layers, 50.0)
            levels = [level for _, level in run.corners]
            beyond = [x for x, _ in run.corners if x > 0.0]
            if beyond:  # this side's cloth runs on under the other panel, and comes back above its own end
                assert (run.corners[1][0], folds.creases[0].outward) == (40.0, False)
            else:
                assert max(levels) == 0.0


def test_an_inverted_pleat_opens_at_the_seam() -> None:
    """Its outer crease lies on the seam's line and the other is tucked in behind the panel."""
    folds = side_folds("inverted", 1, "back", "both", "back")
    assert [crease.says for crease in folds.creases] == [
        "fold 1: outward, on the seam line",
        "fold 2: inward, tuck it back",
    ]


def test_knife_pleats_lie_inside_and_their_edges_look_one_way() -> None:
    """Two pleats whose edges look back: cloth of the front lies behind the front itself, cloth of the back runs under the front."""
    folds = side_folds("knife", 2, "back", "front", "front")
    assert [crease.says for crease in folds.creases] == [
        "fold 1: outward, on the seam line",
        "fold 2: inward, tuck it forward",
        "fold 3: outward, at the seam line",
        "fold 4: inward, tuck it forward, under fold 2",
    ]
    assert side_folds("knife", 2, "back", "front", "back").layers == 0
    behind = side_folds("knife", 2, "back", "back", "back")
    assert [crease.says for crease in behind.creases] == [
        "fold 1: inward, tuck it forward",
        "fold 2: outward, at the seam line",
        "fold 3: inward, tuck it forward, on fold 1",
    ]


@pytest.mark.parametrize(("cloth", "layers"), [("front", [6, 0]), ("back", [0, 6]), ("both", [4, 2])])
def test_three_knife_pleats_are_shared_as_asked(cloth: str, layers: list[int]) -> None:
    """A knife pleat takes two folds; shared, the front brings the odd one."""
    assert [side_folds("knife", 3, "back", cloth, side).layers for side in WAYS] == layers


@given(
    kind=st.sampled_from(get_args(PleatKind)),
    number=st.integers(1, 6),
    toward=st.sampled_from(WAYS),
    cloth=st.sampled_from(["front", "back", "both"]),
    side=st.sampled_from(WAYS),
)
def test_folded_cloth_ends_where_it_began(kind: PleatKind, number: int, toward: Way, cloth: str, side: Way) -> None:
    """Walked layer by layer and turned at every crease, the cloth comes back to the seam's line, its creases by turns."""
    folds = side_folds(kind, number, toward, cloth, side)
    turned = {crease.folds for crease in folds.creases}
    place, way, outward = 0, 1, [crease.outward for crease in folds.creases]
    for layer in range(folds.layers):
        way = -way if layer in turned else way
        place += way
    assert place == 0
    assert all(one != other for one, other in pairwise(outward))
    assert sum(side_folds(kind, number, toward, cloth, each).layers for each in WAYS) == (
        2 * number if kind == "knife" else 4 * number
    )
