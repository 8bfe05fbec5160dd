"""What is asked of a sleeve: it passes as drawn, and each thing spoilt on purpose is caught."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.checks.spoiling import failing, states, with_edge, with_lengths, with_panel
from tests.samples import drafted
from tests.sleeves.sewn import DOUBLET, GOWN, drafted_with

from fanblock.checks.sleeve import check
from fanblock.geometry.curve import Curve
from fanblock.pattern.model import Pattern
from fanblock.wearer.fixed import Fixed

ELBOW, TWO = "sleeve: {length: elbow}", "sleeve: {pieces: 2, length: long}"


def one() -> Pattern:
    """Return a doublet bodice with a sleeve in one piece, bent by darts, tucked at the shoulder."""
    return drafted_with(DOUBLET, ELBOW)


def test_without_a_sleeve_nothing_is_said() -> None:
    """Stays have no armhole to speak of."""
    assert check(drafted("ordinary", "stays-five-panels")) == ()


@pytest.mark.parametrize("step", [ELBOW, TWO])
def test_a_sleeve_as_it_was_drawn_holds(step: str) -> None:
    """Every check holds, and all of them speak."""
    found = states(check(drafted_with(DOUBLET, step)))
    assert set(found.values()) == {"holds"}
    darts = {"sleeve-darts", "sleeve-legs"} if step == ELBOW else set()
    assert set(found) == darts | {
        "sleeve-flat", "sleeve-spare", "sleeve-armhole", "sleeve-cap", "sleeve-upper-arm", "sleeve-elbow"
    }  # fmt: skip


def test_a_lower_cap_that_is_longer_than_its_armhole_is_caught() -> None:
    """Nothing is eased in under the arm: a millimetre too much fails."""
    pattern = one()
    seam = next(
        seam for seam in pattern.seams if seam.front.panel == "sleeve" and seam.back.panel == "back" and not seam.how
    )
    curve = pattern.by_name["back"].edge(seam.back.edge).curve
    shorter = with_edge(pattern, "back", seam.back.edge, curve=curve.between(1.0, curve.length_mm))
    assert failing(check(shorter)) == ["sleeve-flat"]


@pytest.mark.parametrize(("spare", "state"), [(20.0, "warns"), (30.0, "holds"), (80.0, "holds"), (100.0, "warns")])
def test_tucked_spare_outside_the_usual_is_told(spare: float, state: str) -> None:
    """3 to 8 cm are tucked (common practice)."""
    found = states(check(drafted_with(DOUBLET, f"sleeve: {{length: elbow, spare: {spare:.0f} mm}}")))
    assert found["sleeve-spare"] == state


@pytest.mark.parametrize(("spare", "state"), [(0.0, None), (10.0, "holds"), (20.0, "warns")])
def test_eased_spare_is_a_twentieth_at_most(spare: float, state: str | None) -> None:
    """Of an upper cap of some 25 cm no more than 12 mm go in unseen (from memory); none is nothing to tell of."""
    found = states(check(drafted_with(DOUBLET, f"sleeve: {{pieces: 2, length: long, spare: {spare:.0f} mm}}")))
    assert found.get("sleeve-spare") == state


@pytest.mark.parametrize(
    ("measures", "code", "state"),
    [
        ({"upper_arm": 320.0}, "sleeve-upper-arm", "warns"),
        ({"upper_arm": 345.0}, "sleeve-upper-arm", "fails"),
        ({"elbow": 295.0}, "sleeve-elbow", "warns"),
        ({"elbow": 310.0}, "sleeve-elbow", "fails"),
        ({"armhole": 490.0}, "sleeve-armhole", "warns"),
        ({"armhole": 380.0}, "sleeve-armhole", "warns"),
    ],
)
def test_the_arm_is_compared(measures: dict[str, float], code: str, state: str) -> None:
    """Less ease than a close sleeve needs wants a look, an arm that does not go through fails; so does no armhole."""
    found = states(check(with_lengths(one(), **measures)))
    assert found[code] == state
    assert set(found.values()) == {"holds", state}


def test_an_armhole_that_was_not_measured_is_asked_for() -> None:
    """Without the measure nobody knows whether it is too large."""
    pattern = one()
    lengths = {name: mm for name, mm in pattern.body.lengths.items() if name != "armhole"}
    found = check(replace(pattern, body=replace(pattern.body, lengths=Fixed(lengths))))
    told = next(finding for finding in found if finding.code == "sleeve-armhole")
    assert told.state == "warns"
    assert told.says == "the armhole is 446.1 mm round; measure yours as `armhole`, and draft again"


def test_a_strap_that_is_not_there_is_not_reckoned() -> None:
    """Half an armhole is not compared with a whole one."""
    pattern = drafted_with(GOWN, "sleeve: {length: elbow, over shoulder: 11 cm}", straps=False)
    assert "sleeve-armhole" not in states(check(pattern))


def test_a_high_cap_wants_a_look() -> None:
    """Over two fifths of its armhole a cap is higher than any book has it."""
    pattern = one()
    sleeve = pattern.by_name["sleeve"]
    taller = tuple(
        replace(edge, curve=Curve.through(edge.curve.points * (1.0, 1.9))) if edge.kind == "armhole" else edge
        for edge in sleeve.edges
    )
    found = {finding.code: finding for finding in check(with_panel(pattern, "sleeve", edges=taller))}
    assert found["sleeve-cap"].state == "warns"
    assert found["sleeve-cap"].says.endswith("the armhole is large for this arm; look whether it can be taken up")


def test_darts_that_do_not_fit_their_seam_are_caught() -> None:
    """A dart drawn wider than what the seam is longer, or with one leg longer than the other, fails."""
    pattern = one()
    sleeve = pattern.by_name["sleeve"]
    dart = next(mark for mark in sleeve.marks if mark.kind == "dart")
    upper, point, lower = dart.curve.points
    spoilt = replace(dart, curve=Curve.through([upper, point, lower + 3.0 * (lower - upper) / 20.0]))
    marks = tuple(spoilt if mark is dart else mark for mark in sleeve.marks)
    assert failing(check(with_panel(pattern, "sleeve", marks=marks))) == ["sleeve-darts", "sleeve-legs"]
