"""The command that drafts, and the layer a garment goes over."""

from __future__ import annotations

import json

from tests.cli.conftest import Run

GOWN = "gown-bodice-1770s"
LOOK = "LOOK  There are no measures over stays, so they are predicted."


def test_a_gown_is_drawn_over_the_stays_without_being_asked(run: Run) -> None:
    """The recipe says what it goes over; whoever has measures over stays hears nothing of it."""
    ran = run("draft", "ferrywoman", GOWN, "--out", "g", "--paper", "a0", "--json")
    assert (ran.code, json.loads(ran.out)["over"]) == (0, "stays")
    assert LOOK not in run("draft", "ferrywoman", GOWN, "--out", "g", "--paper", "a0").out


def test_predicted_measures_are_told_aloud(run: Run) -> None:
    """Who was never measured over stays reads it before anything else, and each number in the notes."""
    out = run("draft", "pilot", GOWN, "--out", "g", "--paper", "a0").out
    assert LOOK in out
    assert out.index(LOOK) < out.index("Checks: ")
    assert "PREDICTED, MEASURE AGAIN OVER STAYS: waist:" in " ".join(out.split())


def test_over_the_shift_a_gown_may_be_had_for_the_asking(run: Run) -> None:
    """What was asked for is done, with a word about it."""
    out = run("draft", "pilot", GOWN, "--out", "g", "--paper", "a0", "--over", "shift").out
    assert "LOOK  A gown bodice goes over stays. Measure again, laced in them" in out
