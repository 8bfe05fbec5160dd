"""In which order a sleeve is sewn."""

from __future__ import annotations

from tests.sleeves.sewn import DOUBLET, GOWN, drafted_with

from fanblock.sheet.sewing import joining


def test_a_sleeve_in_one_piece_is_closed_and_then_set_in() -> None:
    """Its own seam is told of once, though it lies in stretches, after the darts and before the armhole."""
    lines = joining(drafted_with(GOWN, "sleeve: {length: long}"))
    closing = [line for line in lines if "Close piece" in line]
    assert closing == [
        "Sew the elbow darts of piece 5, from the edge to the point, and press them down, toward the lower edge. Close piece 5 "
        "(sleeve): E to E above the elbow, F to F at the elbow and G to G below the elbow. Press its allowances open and overcast them."
    ]
    flat = next(line for line in lines if line.startswith("The sleeve is set in from underneath"))
    assert flat.endswith("up to the bars where the tucks begin. Join J to J: piece 5 (sleeve) to piece 1 (front).")
    full = next(line for line in lines if line.startswith("Put the garment on the body"))
    assert full.endswith("piece 5 (sleeve) to piece 4 (strap), 50 mm of the first tucked to fit the second.")
    last = next(line for line in lines if line.startswith("The allowances of the armhole"))
    assert lines.index(closing[0]) < lines.index(flat) < lines.index(full) < lines.index(last)


def test_what_is_flat_is_told_by_one_number() -> None:
    """The length that is told is what the edges sewn without fullness add up to."""
    pattern = drafted_with(GOWN, "sleeve: {length: elbow}")
    flat = sum(
        pattern.by_name[seam.back.panel].edge(seam.back.edge).curve.length_mm
        for seam in pattern.seams
        if seam.front.panel == "sleeve" != seam.back.panel and not seam.fullness_mm
    )
    assert any(f": {flat:.1f} mm in all lie flat" in line for line in joining(pattern))


def test_a_sleeve_of_two_pieces_is_joined_first() -> None:
    """Both its seams come before the armhole."""
    lines = joining(drafted_with(DOUBLET, "sleeve: {pieces: 2, length: long}"))
    own = [number for number, line in enumerate(lines) if "(under sleeve) to piece 3 (top sleeve)" in line]
    hole = [number for number, line in enumerate(lines) if "sleeve) to piece 1 (front)" in line]
    assert own
    assert max(own) < min(hole)
