"""Folds of pleats: how much cloth each side of a seam brings, and that it comes back to the seam's line when folded."""

from __future__ import annotations

from itertools import pairwise
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fanblock.skirts.folds import PleatKind, Way, side_folds

WAYS: tuple[Way, ...] = get_args(Way)


def test_a_double_box_brings_four_layers_a_side() -> None:
    """Two box pleats on one another take eight folds, four from each side, and are folded to and fro from the seam."""
    folds = side_folds("box", 2, "back", "both", "front")
    assert folds.layers == 4
    assert [(crease.folds, crease.outward, crease.says) for crease in folds.creases] == [
        (0, False, "fold 1: inward, on the seam line"),
        (1, True, "fold 2: outward, lay it forward"),
        (2, False, "fold 3: inward, at the seam line"),
        (3, True, "fold 4: outward, lay it forward, on fold 2"),
    ]


def test_an_inverted_pleat_opens_at_the_seam() -> None:
    """Its outer crease lies on the seam's line and the other is tucked in behind the panel."""
    folds = side_folds("inverted", 1, "back", "both", "back")
    assert [crease.says for crease in folds.creases] == [
        "fold 1: outward, on the seam line",
        "fold 2: inward, tuck it back",
    ]


def test_knife_pleats_pass_the_seam_and_lie_over_the_next_panel() -> None:
    """Two pleats toward the back, all of the cloth from the front: no crease on its own line, the second under the first."""
    folds = side_folds("knife", 2, "back", "front", "front")
    assert [crease.says for crease in folds.creases] == [
        "fold 1: outward, lay it back",
        "fold 2: inward, at the seam line",
        "fold 3: outward, lay it back, under fold 1",
    ]
    assert side_folds("knife", 2, "back", "front", "back").layers == 0


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
