"""Measures over stays that nobody took: what they are predicted from, and that they say so."""

from __future__ import annotations

import math

import pytest

from fanblock.problems import WearerError
from fanblock.wearer.body import HELD_LIFT_MM, Body, body_of
from fanblock.wearer.fixed import Fixed
from fanblock.wearer.library import open_wearer
from fanblock.wearer.model import Measures, Wearer
from fanblock.wearer.predicted import LACED_BUST, LACED_WAIST, STAYS_THICK_MM


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
    """The front keeps its share of the bust; back, arm and hip are those over the shift."""
    body = predicted(front_arc=506.0, back_length=400.0, hip=980.0)
    assert body.side_ratio == pytest.approx(0.55)
    assert (body.length_mm("back length"), body.length_mm("hip")) == (400.0, 980.0)
    assert body.guessed["back length"] == "taken over from the measures over the shift (40.0 cm)"


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
