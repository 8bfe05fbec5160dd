"""Bones: between which layers, how their channels are marked, and what closes each above (common practice, no source)."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.sheet.real import drafted

from fanblock.pattern.bones import BONE
from fanblock.pattern.model import Panel, Pattern
from fanblock.sheet.channelwords import beyond, closed_words, layering, marked_words, open_above, runs

BOUND_KINDS = {"top", "neckline", "armhole"}


def stays() -> Pattern:
    """Five-panel stays: the side pieces slope down from the armpit, so that some channels run up against a seam."""
    return drafted("ferrywoman", "stays-five-panels")


def cut(*cuts: tuple[str, int]) -> Panel:
    """Return the back of the stays, cut from other layers."""
    return replace(stays().by_name["back"], cuts=cuts)


@pytest.mark.parametrize(
    ("cuts", "between", "face"),
    [
        (
            (("outer", 2), ("strength layer", 4)),
            "between the two strength layers",
            "outer face of the outermost strength",
        ),
        (
            (("outer", 2), ("strength layer", 2)),
            "between the outer cloth and the strength layer",
            "inner face of the strength",
        ),
        (
            (("strength layer", 2), ("lining", 2)),
            "between the strength layer and the lining",
            "outer face of the strength",
        ),
        ((("outer", 2), ("lining", 2)), "between outer cloth and lining", "outer face of the outer cloth"),
        ((("outer", 2),), "under a strip of cloth", "outer face of the cloth"),
    ],
)
def test_bones_go_between_the_layers_that_are_cut(cuts: tuple[tuple[str, int], ...], between: str, face: str) -> None:
    """A pair of each layer is one layer of a piece; a mark must lie on a face that shows when the layers are basted."""
    way = layering(cut(*cuts))
    assert way.between.startswith(between)
    assert face in way.face


def test_a_piece_on_the_fold_is_counted_by_its_layers() -> None:
    """Two strength layers of a piece on the fold are two, not a pair."""
    front = drafted("innkeeper", "bodies-1560s").by_name["front"]
    assert dict(front.cuts)["strength layer"] == 2
    assert layering(front).between == "between the two strength layers"


def test_marks_that_the_outer_cloth_hides_are_made_inside() -> None:
    """The right half is the mirror image; what is stitched through outer cloth as well is marked on the inner face."""
    said = " ".join(marked_words(stays()))
    assert "face up for the left half and turned over for the right" in said
    assert "mark the inner face of the innermost strength layer instead" in said
    bare = replace(stays(), panels=tuple(replace(one, cuts=(("strength layer", 4),)) for one in stays().panels))
    assert "instead" not in " ".join(marked_words(bare))


def test_channels_that_end_beside_a_seam_are_stitched_across() -> None:
    """Which they are is found on the outline: going on upward they meet a seam."""
    pattern = stays()
    assert {panel.number: open_above(panel) for panel in pattern.panels if open_above(panel)} == {
        3: (1, 2, 3),
        4: (1, 2),
    }
    for panel in pattern.panels:
        for channel in panel.channels:
            met = beyond(panel, channel, above=True)[1]
            assert met is not None
            assert channel.kind != BONE or (met.kind in BOUND_KINDS) == (channel.number not in open_above(panel))
    (said,) = closed_words(pattern)
    assert "stitch across the upper end when the bone is in" in said
    assert (
        "piece 3 (side), channels 1 to 3; piece 4 (side back), channels 1 and 2. The others are closed by the binding."
        in said
    )


def test_where_every_bone_ends_at_the_binding_nothing_is_said() -> None:
    """Pieces whose channels all run up to the top edge want no stitches there."""
    pattern = stays()
    only = replace(pattern, panels=tuple(panel for panel in pattern.panels if panel.number in (1, 2, 5)))
    assert not list(closed_words(only))


def test_a_turned_upper_edge_closes_nothing() -> None:
    """An upper edge with an allowance is not bound."""
    panel = stays().by_name["center front"]
    turned = replace(panel, allowances={**panel.allowances, "top edge": 10.0})
    assert open_above(turned) == tuple(channel.number for channel in panel.channels)


def test_runs_are_told_by_their_ends() -> None:
    """Two in a row are named, more are told from first to last."""
    assert runs([2]) == "2"
    assert runs([1, 2]) == "1 and 2"
    assert runs([1, 2, 3, 7]) == "1 to 3 and 7"
