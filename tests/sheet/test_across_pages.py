"""Pages that are joined: which hangs from which, lines across the joins, and words that no join cuts."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from tests.sheet.real import drafted

from fanblock.sheet.arranging import arranged, off_joins
from fanblock.sheet.drawing import Drawing, Group, Stroke
from fanblock.sheet.joining import hanging, proving
from fanblock.sheet.layout import pieces_of, tiled_layout
from fanblock.sheet.longline import LINES, crosses
from fanblock.sheet.paper import A4, LETTER, Paper
from fanblock.sheet.squares import both_lengths, line
from fanblock.sheet.tiles import TilePlan, plan_tiles


def runs(plan: TilePlan) -> list[shapely.LineString]:
    """Where pages are joined."""
    found = []
    for joint in plan.joints:
        field, at = joint.over.field, joint.at_mm
        ends = ((at, field.bottom), (at, field.top)) if joint.upright else ((field.left, at), (field.right, at))
        found.append(shapely.LineString(ends))
    return found


PAPERS = pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)


def test_a_gap_in_a_row_is_told() -> None:
    """Ink in the upper three pages and in the outer two below: the lower ones hang each from its own."""
    shape = line([(10.0, 10.0), (10.0, 480.0), (520.0, 480.0), (520.0, 10.0)], "cut")
    plan = plan_tiles(Drawing("u", 540.0, 500.0, (Group("u", (shape,)),)), A4)
    assert [tile.name for tile in plan.tiles] == ["A1", "A2", "A3", "B1", "B3"]
    assert hanging(plan) == (
        "First join side by side: A1 to A3. Then one under another: B1 hangs from A1, B3 hangs from A3.",
    )


@pytest.mark.parametrize(
    ("mm", "says"), [(500.0, "500 mm (19 11/16 in)"), (254.0, "254 mm (10 in)"), (200.0, "200 mm (7 7/8 in)")]
)
def test_lengths_are_told_both_ways(mm: float, says: str) -> None:
    """An inch is 25.4 mm exactly (international yard and pound, 1959); to the nearest thirty-second."""
    assert both_lengths(mm) == says


@PAPERS
def test_every_join_that_cuts_a_piece_of_these_stays_has_a_line(paper: Paper) -> None:
    """As shapely sees the cut lines: a join that runs through one is crossed by a line, and the cover says so."""
    drawing, plan = tiled_layout(drafted("ferrywoman", "stays-five-panels"), paper)
    items = [item for group in drawing.groups for item in group.items if isinstance(item, Stroke)]
    rings = [shapely.LinearRing(item.beziers.reshape(-1, 2)[::4]) for item in items if item.name == "cut line"]
    measured = [
        item
        for group in drawing.groups
        if group.name in LINES
        for item in group.items
        if isinstance(item, Stroke) and item.name.endswith(" mm line")
    ]
    told = " ".join(proving(drawing, plan))
    for joint, run in zip(plan.joints, runs(plan), strict=True):
        if any(run.intersects(ring) for ring in rings) and f"{joint.over.name}-{joint.under.name}" in told:
            assert any(crosses(item.beziers[0, 0], item.beziers[-1, 3], joint) for item in measured)
    for pair in ("A1-B1", "B1-C1"):
        assert pair in told


@PAPERS
def test_lines_are_as_long_as_they_say(paper: Paper) -> None:
    """Every line across pages measures what its name says."""
    drawing, _ = tiled_layout(drafted("ferrywoman", "stays-five-panels"), paper)
    lines = [
        item
        for group in drawing.groups
        if group.name in LINES
        for item in group.items
        if isinstance(item, Stroke) and item.name.endswith(" mm line")
    ]
    assert len(lines) > 1
    for item in lines:
        assert np.hypot(*(item.beziers[-1, 3] - item.beziers[0, 0])) == pytest.approx(float(item.name.split()[0]))


@PAPERS
def test_no_join_cuts_a_word_that_can_move(paper: Paper) -> None:
    """Words on the pieces of these stays stand whole on one page, but for the numbers that belong to an eyelet or a bone."""
    pattern = drafted("ferrywoman", "stays-five-panels")
    pieces = pieces_of(pattern)
    before = arranged(pieces, paper, "stays")
    after = off_joins(before, pattern)
    assert after.shifts == before.shifts
    cut: dict[str, int] = {}
    for name, laid in (("before", before), ("after", after)):
        cut[name] = 0
        for piece, shift in laid.placed:
            for label in piece.labels:
                if label.name.startswith(("eyelet", "channel")):
                    continue
                ground = shapely.Polygon(label.box.corners() + shift)
                cut[name] += any(ground.intersects(run) for run in runs(laid.plan))
    assert cut["before"] > 0
    assert cut["after"] == 0


@pytest.mark.parametrize("wearer", ["ferrywoman", "innkeeper"])
def test_every_bound_edge_says_so(wearer: str) -> None:
    """Each edge without allowance that is bound has its words on its piece."""
    for piece in pieces_of(drafted(wearer, "stays-five-panels")):
        names = {label.name for label in piece.labels}
        for edge in piece.panel.edges:
            if (
                edge.kind in ("top", "hem")
                and not piece.panel.allowances.get(edge.name, 0.0)
                and edge.curve.length_mm > 30.0
            ):
                assert f"allowance {edge.name}" in names
