"""Measures over stays that nobody took: what they are predicted from, and that they say so."""

from __future__ import annotations

import math

import pytest

from fanblock.make import draft_pattern
from fanblock.problems import WearerError
from fanblock.recipe.library import open_recipe
from fanblock.sheet.cover import provisos
from fanblock.wearer.body import HELD_LIFT_MM, Body, body_of
from fanblock.wearer.fixed import Fixed
from fanblock.wearer.library import open_wearer
from fanblock.wearer.model import Measures, Wearer
from fanblock.wearer.predicted import LACED_BUST, LACED_WAIST, PETTICOATS_THICK_MM, STAYS_THICK_MM

MEASURED = {
    "bust": 920.0, "waist": 740.0, "bust to waist": 160.0, "underarm": 190.0, "back length": 400.0, "front length": 440.0,
    "across back": 350.0, "across front": 340.0, "hip depth": 200.0, "upper arm": 290.0, "elbow": 270.0, "arm length": 570.0,
}  # fmt: skip


def shift_only(**others: float) -> Wearer:
    """Return a wearer who was measured over the shift alone, in millimetres."""
    values = {"bust": 920.0, "waist": 740.0, "bust to waist": 160.0}
    values.update({name.replace("_", " "): mm for name, mm in others.items()})
    return Wearer("pilot", (Measures("shift", "2026-02-14", Fixed(values)),))


def predicted(**others: float) -> Body:
    """Return that wearer's predicted body over stays."""
    return body_of(shift_only(**others), "stays", predict=True)


def test_a_girth_is_laced_and_then_grows_by_the_circle_round_the_stays() -> None:
    """A circle of a radius larger by t is 2πt longer: stays of 3 mm add 18.8 mm, whatever the girth."""
    body = predicted()
    around = 2.0 * math.pi * STAYS_THICK_MM
    assert around == pytest.approx(18.85, abs=0.01)
    assert body.length_mm("waist") == pytest.approx(740.0 * (1.0 - LACED_WAIST) + around)
    assert body.length_mm("bust") == pytest.approx(920.0 * (1.0 - LACED_BUST) + around)


def test_ribs_are_laced_less_than_the_waist_and_the_chest_is_covered_behind() -> None:
    """Underbust and raised waist lose 2 % and grow by the whole circle; the chest loses nothing and grows by half of it."""
    body = predicted(underbust=780.0, raised_waist=760.0, upper_chest=880.0, underbust_height=95.0)
    around = 2.0 * math.pi * STAYS_THICK_MM
    assert body.length_mm("underbust") == pytest.approx(780.0 * 0.98 + around)
    assert body.length_mm("raised waist") == pytest.approx(760.0 * 0.98 + around)
    assert body.length_mm("upper chest") == pytest.approx(880.0 + around / 2.0)
    assert body.predicted["underbust"] == (
        "78.3 cm, that over the shift less 2% for lacing and 1.9 cm more for the stays"
    )
    assert body.guessed["underbust height"] == "taken over from the measures over the shift (9.5 cm)"


def test_the_bust_lies_where_the_stays_hold_it() -> None:
    """Where it was measured raised, there; else as much higher as stays lift it. Side and back go up as much."""
    assert predicted(raised=187.0).length_mm("bust to waist") == 187.0
    body = predicted(bust_to_waist_at_back=150.0, bust_to_waist_at_side=155.0)
    assert body.length_mm("bust to waist") == 160.0 + HELD_LIFT_MM == body.length_mm("held bust to waist")
    assert body.length_mm("bust to waist at back") == 150.0 + HELD_LIFT_MM
    assert body.length_mm("bust to waist at side") == 155.0 + HELD_LIFT_MM


def test_the_side_stays_where_it_was_and_the_rest_is_borrowed() -> None:
    """The front keeps its share of the bust; back and arm are those over the shift."""
    body = predicted(front_arc=506.0, back_length=400.0)
    assert body.side_ratio == pytest.approx(0.55)
    assert body.length_mm("back length") == 400.0
    assert body.guessed["back length"] == "taken over from the measures over the shift (40.0 cm)"


def test_the_hip_is_that_over_petticoats() -> None:
    """Two petticoats are a layer of 1 cm (from memory), so a circle round them is 2π cm longer, 6.3 cm; it says PREDICTED."""
    body = predicted(hip=980.0)
    assert (
        body.length_mm("hip")
        == pytest.approx(980.0 + 2.0 * math.pi * PETTICOATS_THICK_MM)
        == pytest.approx(1042.8, abs=0.1)
    )
    assert body.predicted["hip"] == (
        "104.3 cm, that over the shift and 6.3 cm more for two petticoats (from memory: measure it over yours)"
    )
    assert "hip" not in predicted().lengths


def test_a_set_over_stays_without_a_hip_predicts_it_alone() -> None:
    """The pattern's note says PREDICTED and the cover asks to measure again; the other measures were taken."""
    sets = (
        Measures("shift", "2026-02-14", Fixed({**MEASURED, "hip": 980.0})),
        Measures("stays", "2026-03-14", Fixed({**MEASURED, "bust": 925.0})),
    )
    body = body_of(Wearer("pilot", sets), "stays")
    assert (dict(body.predicted), body.carried, body.is_guess("hip")) == ({}, ("hip",), True)
    pattern = draft_pattern(Wearer("pilot", sets), open_recipe("jacket-pleated-skirts"))
    said = [note.says for note in pattern.notes if note.kind == "guess" and ": hip: " in note.says]
    assert said == [f"PREDICTED, MEASURE AGAIN OVER STAYS: hip: {body.guessed['hip']}"]
    assert provisos(pattern)[0].startswith("PREDICTED from measures over the shift")


def test_a_hip_that_was_measured_over_petticoats_is_used() -> None:
    """The ferrywoman's is 42 in over her petticoats and 39 1/2 in over the shift; stays are cut to the latter."""
    ferrywoman = open_wearer("ferrywoman")
    assert body_of(ferrywoman, "stays").length_mm("hip") == pytest.approx(42.0 * 25.4)
    assert body_of(ferrywoman).length_mm("hip") == pytest.approx(39.5 * 25.4)
    assert "hip" not in body_of(ferrywoman, "stays").guessed


def test_every_predicted_measure_says_how_it_came() -> None:
    """Whoever reads the notes can follow each number."""
    assert dict(predicted(raised=187.0, front_arc=460.0).predicted) == {
        "bust": "93.0 cm, that over the shift less 1% for lacing and 1.9 cm more for the stays",
        "bust to waist": "18.7 cm, where the stays hold the bust",
        "front arc": "46.5 cm, the same share of the bust as over the shift",
        "waist": "73.7 cm, that over the shift less 3% for lacing and 1.9 cm more for the stays",
    }


def test_measures_that_were_taken_are_not_predicted() -> None:
    """The ferrywoman was measured over her stays: nothing is predicted of her."""
    body = body_of(open_wearer("ferrywoman"), "stays", predict=True)
    assert dict(body.predicted) == {}
    assert body.length_mm("waist") == pytest.approx(28.875 * 25.4)


def test_nothing_is_predicted_unasked_or_over_the_shift() -> None:
    """Whoever asks for a set by name gets it or an answer; and stays do not tell what is under them."""
    with pytest.raises(WearerError, match="no measures over stays"):
        body_of(shift_only(), "stays")
    laced = Wearer("pilot", (Measures("stays", "", shift_only().sets[0].values),))
    with pytest.raises(WearerError, match="no measures over shift"):
        body_of(laced, "shift", predict=True)
