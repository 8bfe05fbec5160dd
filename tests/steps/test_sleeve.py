"""``sleeve``: what it adds and joins, and what it says where no sleeve can be drawn."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples import GAP, HEM, ONE, TOP, failed, recipe, tilted
from tests.sleeves.sewn import DOUBLET, GOWN, drafted_with, with_step

from fanblock.make import draft_pattern
from fanblock.problems import GeometryError, RecipeError
from fanblock.sheet.piece import TICK_STEP_MM
from fanblock.units import fine_length, parse_length, retold
from fanblock.wearer.model import Wearer

ELBOW = "sleeve: {length: elbow}"


def refused(step: str, who: Wearer, name: str = DOUBLET) -> str:
    """Return what is said of a sleeve that cannot be drawn, without its place."""
    with pytest.raises(GeometryError) as caught:
        draft_pattern(who, with_step(name, step))
    return "\n".join(f"{problem.where} › {problem.what} {problem.remedy}" for problem in caught.value.problems)


def test_a_gown_gets_a_sleeve() -> None:
    """One piece, a pair of it, whose cap is sewn to the front twice, to both backs and to the strap, where it is tucked."""
    pattern = drafted_with(GOWN, ELBOW)
    sleeve = pattern.by_name["sleeve"]
    assert (sleeve.number, sleeve.added, sleeve.cuts) == (5, True, (("outer", 2),))
    mates = [edge.mate.panel for edge in sleeve.edges if edge.mate and edge.name.startswith("cap")]
    assert mates == ["front", "side back", "back", "strap", "front"]
    assert [(seam.back.panel, seam.how) for seam in pattern.seams if seam.fullness_mm] == [
        ("sleeve", "darted"),
        ("strap", "tucked"),
    ]
    own = {seam.letter: seam.line for seam in pattern.seams if seam.front.panel == seam.back.panel}
    assert list(own.values()) == ["sleeve seam above the elbow", "sleeve seam at the elbow"]


@pytest.mark.parametrize("spare", ["30 mm", "42 mm", "50 mm", "77 mm"])
@pytest.mark.parametrize("units", ["cm", "in"])
def test_tucks_and_darts_add_up_as_printed(spare: str, units: str) -> None:
    """What the tape shows of one tuck, times their number, is what it shows of all; so with elbow darts (by hand)."""
    who = replace(tilted(), units=units)
    pattern = draft_pattern(who, with_step(GOWN, f"sleeve: {{length: elbow, spare: {spare}}}"))
    seam = next(seam for seam in pattern.seams if seam.how == "tucked")
    says = next(mark.says for mark in pattern.by_name["sleeve"].marks if mark.kind == "tuck" and mark.says)
    count, _, each = retold(says, units).partition(" tucks of ")
    assert int(count) * parse_length(each) == pytest.approx(seam.fullness_mm, abs=0.01)
    assert parse_length(fine_length(seam.fullness_mm, units)) == pytest.approx(seam.fullness_mm, abs=0.01)
    dart = next(mark.says for mark in pattern.by_name["sleeve"].marks if mark.kind == "dart" and mark.says)
    longer = next(seam.fullness_mm for seam in pattern.seams if seam.how == "darted")
    assert 2.0 * parse_length(retold(dart, units).removeprefix("elbow dart ")) == pytest.approx(longer, abs=0.1)


def test_ticks_stand_between_tucks_and_meet_when_these_are_laid() -> None:
    """Cut out what the tucks before them take, and the ticks of the cap lie where those of the strap do (by hand)."""
    pattern = drafted_with(GOWN, ELBOW)
    seam = next(seam for seam in pattern.seams if seam.how == "tucked")
    sleeve, strap = pattern.by_name["sleeve"], pattern.by_name[seam.back.panel]
    cap, edge = sleeve.edge(seam.front.edge).curve, strap.edge(seam.back.edge).curve
    ticks = next(notch for notch in sleeve.notches if notch.edge == seam.front.edge)
    mate = next(notch for notch in strap.notches if notch.edge == seam.back.edge)
    lines = [
        sorted(float(cap.along[int(np.argmin(np.hypot(*(cap.points - point).T)))]) for point in mark.curve.points[1:3])
        for mark in sleeve.marks
        if mark.kind == "tuck"
    ]
    half = 0.5 * ticks.count * TICK_STEP_MM
    assert all(not (low - half < ticks.at_mm < high + half) for low, high in lines)
    take = seam.fullness_mm / len(lines)
    laid = ticks.at_mm - take * sum(high < ticks.at_mm for _, high in lines)
    assert laid == pytest.approx(edge.length_mm - mate.at_mm, abs=0.5)


def test_bars_show_where_the_flat_part_of_a_cap_ends() -> None:
    """On the cap wherever two of its seams meet, on the garment where no seam of it ends there."""
    pattern = drafted_with(GOWN, ELBOW)
    bars = {
        panel.name: [mark.says for mark in panel.marks if " bar " in mark.name]
        for panel in pattern.panels
        if any(" bar " in mark.name for mark in panel.marks)
    }
    assert bars == {
        "front": ["sleeve seam here"],
        "sleeve": ["seam here", "seam here", "tucks from here", "tucks from here"],
    }


def test_a_doublet_gets_two_pieces() -> None:
    """A top and an under sleeve, joined by two seams, the top one eased by a centimetre."""
    pattern = drafted_with(DOUBLET, "sleeve: {pieces: 2, length: long, name: arm}")
    assert [panel.name for panel in pattern.panels if panel.added] == ["top arm", "under arm"]
    assert {seam.name for seam in pattern.seams} >= {"arm fore-arm seam", "arm hind-arm seam"}
    eased = [seam for seam in pattern.seams if seam.how == "eased"]
    assert sum(seam.fullness_mm for seam in eased) == pytest.approx(10.0, abs=1e-9)


@settings(max_examples=25)
@given(
    st.floats(240.0, 420.0),
    st.floats(0.86, 1.02),
    st.floats(0.50, 0.62),
    st.floats(470.0, 640.0),
    st.sampled_from((ELBOW, "sleeve: {length: long, bend: seam}", "sleeve: {pieces: 2, length: long}")),
)
def test_any_arm_gets_a_sound_sleeve_or_hears_why_not(
    arm: float, elbow: float, wrist: float, long: float, step: str
) -> None:
    """Arms thick and thin, long and short: sound, or refused for a cause that names arm or armhole."""
    who = tilted(upper_arm=arm, elbow=elbow * arm, wrist=wrist * arm, arm_length=long)
    try:
        causes = failed(draft_pattern(who, with_step(DOUBLET, step)))
    except GeometryError as error:
        causes = [problem.code for problem in error.problems]
    assert set(causes) <= {"armhole-small", "cap-high", "armhole-shape"}


def test_an_arm_nobody_measured_is_guessed_and_the_sleeve_provisional() -> None:
    """The bodice is drawn; all that was guessed is told once, and a check asks for a look before sleeves are cut."""
    bare = tilted(upper_arm=290.0)
    values = {name: mm for name, mm in bare.sets[0].values.items() if name not in ("elbow", "wrist", "arm length")}
    who = type(bare)(bare.name, (type(bare.sets[0])("shift", "2026-01-01", values),), (), (), "mm")
    pattern = draft_pattern(who, with_step(DOUBLET, "sleeve: {length: long}"))
    assert failed(pattern) == []
    told = [note.says.split(": ")[1] for note in pattern.notes if note.says.startswith("GUESSED: ")]
    assert sorted(told) == sorted(set(told))
    assert set(told) >= {"arm length", "elbow", "wrist", "shoulder to elbow"}
    asked = next(finding for finding in pattern.findings if finding.code == "sleeve-guessed")
    assert (asked.state, asked.says) == (
        "warns",
        "PROVISIONAL: the arm was not measured (elbow, arm length guessed): measure it and draft again before you cut sleeves",
    )


def test_an_elbow_sleeve_does_without_a_wrist() -> None:
    """The wrist matters where a sleeve goes further than the elbow: here it is not even told that it was guessed."""
    bare = tilted()
    values = {name: mm for name, mm in bare.sets[0].values.items() if name != "wrist"}
    who = type(bare)(bare.name, (type(bare.sets[0])("shift", "2026-01-01", values),), (), (), "mm")
    pattern = draft_pattern(who, with_step(GOWN, ELBOW))
    assert failed(pattern) == []
    assert not any(note.says.startswith("GUESSED: wrist") for note in pattern.notes)


@pytest.mark.parametrize(
    ("step", "says"),
    [
        (
            "sleeve: {length: 20 cm}",
            "length › it ends above the elbow, or hardly below it. Make it 139.3 mm longer at least.",
        ),
        ("sleeve: {length: 80 cm}", "length › it runs 230.0 mm past the wrist. Shorten it, or measure the arm again."),
        (
            "sleeve: {spare: 20 cm}",
            "spare › 20.0 cm cannot be tucked into an armhole; 13 cm is the most. Give less.",
        ),
        (
            "sleeve: {pieces: 2, spare: 5 cm}",
            "spare › 5.0 cm cannot be eased into an armhole; 4 cm is the most. Give less.",
        ),
        (
            "sleeve: {seam ahead: 20 cm}",
            "the sleeve's seam would leave the underarm. Let it stand nearer to the underarm.",
        ),
        (
            "sleeve: {pieces: 2, length: long, forward: 25 cm}",
            "forward › the wrist would come 25.0 cm forward on a forearm of 25.1 cm. Give less: 5 to 10 cm is usual.",
        ),
        (
            "sleeve: {over shoulder: 10 cm}",
            "over shoulder › the armhole is closed over the shoulder already. Take it out.",
        ),
        (
            "sleeve: {ease: 20 cm}",
            "needs 48.9 cm at least. Lower the armhole under the arm, or give the sleeve less `ease`.",
        ),
    ],
)
def test_what_cannot_be_drawn_is_told(step: str, says: str) -> None:
    """Each refusal says what is wrong and what to do."""
    assert refused(step, tilted()).endswith(says)


def test_a_large_armhole_on_a_short_arm_is_told() -> None:
    """Where the cap would reach down to the elbow the armhole has to be taken up first."""
    says = refused("sleeve: {spare: 8 cm}", tilted(arm_length=390.0), GOWN)
    assert says.endswith(
        "The armhole is too large for this arm: raise it under the arm, or shorten what goes over the shoulder."
    )


@pytest.mark.parametrize(
    ("step", "says"),
    [
        ("sleeve: {pieces: 3}", "r.yaml:16:22: step 5 (sleeve) › pieces › got 3, needs 1 or 2."),
        (
            "sleeve: {pieces: 2, bend: darts}",
            "r.yaml:16:31: step 5 (sleeve) › bend › stands beside 2 pieces, which are bent by both their seams. Take it out.",
        ),
        ("sleeve: {darts: 0}", "r.yaml:16:21: step 5 (sleeve) › darts › got 0, needs 1 to 4."),
        (
            "sleeve: {length: short}",
            "r.yaml:16:22: step 5 (sleeve) › length › got “short”, needs `elbow` or `long` or an amount such as `12 mm`, "
            "`3/4 in`, `3% of waist` or the name of a dial.",
        ),
    ],
)
def test_options_that_make_no_sense(step: str, says: str) -> None:
    """Wrong options are told with their place in the file."""
    with pytest.raises(RecipeError) as caught:
        recipe(GAP, TOP, HEM, ONE, step)
    assert str(caught.value) == says


def test_a_garment_has_one_pair_of_sleeves() -> None:
    """A second sleeve has no armhole left."""
    with pytest.raises(RecipeError) as caught:
        recipe(GAP, TOP, HEM, ONE, ELBOW, ELBOW)
    assert "stands a second time" in str(caught.value)


def test_what_is_told_of_it() -> None:
    """How it is sewn, what was guessed, and that an armhole far larger than measured wants taking up first."""
    pattern = drafted_with(DOUBLET, ELBOW, "large drop")
    says = {
        kind: " ".join(note.says for note in pattern.notes if note.kind == kind)
        for kind in ("sewing last", "toile", "guess")
    }
    assert "lie flat on the armhole, without any ease, up to the bars where the tucks begin." in says["sewing last"]
    assert (
        "draw the head of the sleeve up over the shoulder and lay its spare, 50 mm in all, into tucks"
        in says["sewing last"]
    )
    tight = draft_pattern(tilted(armhole=330.0), with_step(DOUBLET, ELBOW))
    told = " ".join(note.says for note in tight.notes if note.kind == "toile")
    assert "mm more than you measured. Before the sleeve, pin the armhole smaller" in told
    assert "GUESSED: shoulder to elbow: 322.1 mm, 56% of the arm length (Drillis and Contini, 1966)" in says["guess"]
