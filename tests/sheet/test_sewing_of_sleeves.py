"""In which order a sleeve is sewn."""

from __future__ import annotations

from tests.sleeves.sewn import DOUBLET, GOWN, drafted_with

from fanblock.sheet.sewing import joining


def test_a_sleeve_in_one_piece_is_closed_and_then_set_in() -> None:
    """Its own seam is told of once, though it lies in stretches, after the darts and before the armhole."""
    lines = joining(drafted_with(GOWN, "sleeve: {length: long}"))
    closing = [line for line in lines if line.startswith("Close piece")]
    assert closing == ["Close piece 5 (sleeve): E to E, when its darts have been sewn."]
    strap = lines.index(
        "Join K to K: piece 5 (sleeve) to piece 4 (strap), 50.0 mm of the first tucked to fit the second."
    )
    assert lines.index(closing[0]) < lines.index("Join F to F: piece 5 (sleeve) to piece 1 (front).") < strap
    under = next(number for number, line in enumerate(lines) if line.startswith("Set the sleeve in from underneath"))
    upper = next(number for number, line in enumerate(lines) if line.startswith("Put the garment on the body"))
    assert (
        lines.index(closing[0])
        < under
        < lines.index("Join F to F: piece 5 (sleeve) to piece 1 (front).")
        < upper
        < strap
    )


def test_a_sleeve_of_two_pieces_is_joined_first() -> None:
    """Both its seams come before the armhole."""
    lines = joining(drafted_with(DOUBLET, "sleeve: {pieces: 2, length: long}"))
    own = [number for number, line in enumerate(lines) if "(under sleeve) to piece 3 (top sleeve)" in line]
    hole = [number for number, line in enumerate(lines) if "sleeve) to piece 1 (front)" in line]
    assert own
    assert max(own) < min(hole)
