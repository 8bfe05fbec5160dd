"""The body a block works with: what was measured, and what is guessed by which published rule."""

import pickle

import pytest

from fanblock.problems import WearerError
from fanblock.wearer.body import body_of
from fanblock.wearer.fixed import Fixed
from fanblock.wearer.model import Measures, Tilt, Wearer


def wearer(*sets: Measures, units: str = "cm") -> Wearer:
    """Return a wearer with these sets of measures."""
    return Wearer("pilot", sets, units=units)


def over_shift(**centimetres: float) -> Measures:
    """Return a dated set over the shift; measure names with underscores, values in cm."""
    values = {"bust": 920.0, "waist": 740.0, "bust to waist": 160.0}
    values.update({name.replace("_", " "): 10.0 * value for name, value in centimetres.items()})
    return Measures("shift", "2026-02-14", Fixed(values))


def over_stays(**centimetres: float) -> Measures:
    """Return a dated set over the stays."""
    return Measures("stays", "2026-03-01", over_shift(**centimetres).values)


@pytest.mark.parametrize(
    ("bust_cm", "nape_to_waist_cm", "within_cm"),
    [
        (80, 40.2, 0.0),
        (84, 40.6, 0.0),
        (88, 41.0, 0.0),
        (92, 41.4, 0.0),
        (96, 41.8, 0.0),
        (100, 42.2, 0.0),
        (104, 42.6, 0.0),
        (110, 43.0, 0.4),
        (116, 43.4, 0.4),
        (122, 43.8, 0.4),
    ],
)
def test_back_length_is_guessed_as_the_size_table_says(
    bust_cm: float, nape_to_waist_cm: float, within_cm: float
) -> None:
    """Nape to waist by bust in W. Aldrich, Metric Pattern Cutting for Women's Wear; near above 104 cm."""
    body = body_of(wearer(over_shift(bust=bust_cm)))
    assert body.length_mm("back length") == pytest.approx(10 * nape_to_waist_cm, abs=10 * within_cm + 0.001)


def test_guesses_stay_within_the_table() -> None:
    """Beyond the table's ends a back is neither shorter than 40.2 cm nor longer than 44 cm."""
    assert [body_of(wearer(over_shift(bust=bust))).length_mm("back length") for bust in (70, 150)] == [
        402,
        440,
    ]


def test_underarm_is_half_the_back() -> None:
    """16 in of back go with 8 in under the arm: Artistic Ladies' Tailor System, Vienna and New York, 1902."""
    body = body_of(wearer(over_shift(back_length=16 * 2.54), units="in"))
    assert body.length_mm("underarm") == pytest.approx(8 * 25.4)
    assert body.guessed["underarm"] == "8 in, half of the back length (a tailors' rule of 1902)"
    assert body.guessed["held bust to waist"] == (
        "7 1/4 in, bust to waist and 1 in more, since stays lift the bust (from memory: measure raised)"
    )


def test_every_guess_says_how_it_came() -> None:
    """With the three needed measures alone all that a garment may hang on is guessed, each in words."""
    assert dict(body_of(wearer(over_shift())).guessed) == {
        "across back": "35.4 cm, from the bust (from memory of a size table)",
        "across front": "33.6 cm, from the bust (from memory of a size table)",
        "arm length": "59.0 cm, from the bust (from memory of a size table)",
        "back length": "41.4 cm, from the bust by a women's size table",
        "elbow": "26.0 cm, 88% of the upper arm (from memory)",
        "front length": "45.5 cm, from the guessed back length and the bust by a German size table",
        "neck": "38.0 cm, from the bust (from memory of a size table)",
        "raised waist": "76.1 cm, between waist and underbust by its height (from memory)",
        "raised waist height": "10.3 cm, as high as the underbust (from memory)",
        "shoulder": "12.4 cm, from the bust (from memory of a size table)",
        "shoulder to elbow": "33.1 cm, 56% of the arm length (Drillis and Contini, 1966)",
        "underarm": "20.7 cm, half of the guessed back length (a tailors' rule of 1902)",
        "underbust": "76.1 cm, from the bust by a size table (ASTM D5585-11e1)",
        "underbust height": "10.3 cm, a quarter of the guessed back length (from memory)",
        "upper arm": "29.6 cm, from the bust (from memory of a size table)",
        "upper chest": "91.1 cm, from the bust by a size table (ASTM D5585-11e1)",
        "upper chest height": "20.7 cm, as high as the underarm (from memory)",
        "wrist": "16.4 cm, from the bust (from memory of a size table)",
        "held bust to waist": "18.5 cm, bust to waist and 2.5 cm more, since stays lift the bust "
        "(from memory: measure raised)",
    }


def test_what_is_measured_is_not_guessed() -> None:
    """A measure always stands before a guess; the raised bust is the held one."""
    upper = {"front_length": 44, "across_back": 36, "across_front": 34, "neck": 38, "shoulder": 12}
    upper |= {"underbust": 78, "underbust_height": 9, "upper_chest": 88, "upper_chest_height": 20}
    upper |= {"raised_waist": 77, "raised_waist_height": 8}
    upper |= {"upper_arm": 29, "elbow": 26, "wrist": 16, "arm_length": 58, "shoulder_to_elbow": 32}
    body = body_of(wearer(over_shift(raised=17.8, underarm=19, back_length=39, **upper)))
    assert dict(body.guessed) == {}
    assert body.length_mm("across front") == 340.0
    assert body.length_mm("held bust to waist") == 178.0
    assert body.length_mm("underarm") == 190.0


def test_over_stays_the_bust_is_held_already() -> None:
    """A bust measured over stays is where it will be worn: nothing is added and nothing guessed."""
    body = body_of(wearer(over_stays(back_length=41)), "stays")
    assert body.length_mm("held bust to waist") == 160.0
    assert "held bust to waist" not in body.guessed


def test_over_stays_what_lacing_leaves_alone_is_borrowed() -> None:
    """Back and arm are the same over either layer; ribs, chest and hip are laced or covered, and say so."""
    shift = over_shift(back_length=38, underarm=18, hip=96, underbust=78, upper_chest=88)
    body = body_of(wearer(shift, over_stays(bust=91)), "stays")
    assert (body.length_mm("back length"), body.length_mm("underarm")) == (380, 180)
    assert body.guessed["hip"] == (
        "102.3 cm, that over the shift and 6.3 cm more for two petticoats (from memory: measure it over yours)"
    )
    assert body.carried == ("underbust", "upper chest", "hip")
    assert body.guessed["underbust"] == (
        "78.3 cm, that over the shift less 2% for lacing and 1.9 cm more for the stays"
    )
    assert body.guessed["upper chest"] == "88.9 cm, that over the shift and 0.9 cm more for the stays behind"
    assert (body.length_mm("bust"), body.taken_on) == (910, "2026-03-01")


def test_an_unknown_length_is_a_key_error() -> None:
    """What is neither measured nor guessed is not made up."""
    with pytest.raises(KeyError):
        body_of(wearer(over_shift())).length_mm("hip")


def test_the_side_follows_the_front_arc() -> None:
    """The side lies where the front arc ends, as a share of the bust; half way where nobody measured."""
    assert body_of(wearer(over_shift())).side_ratio == 0.5
    assert body_of(wearer(over_shift(front_arc=46 * 1.1))).side_ratio == pytest.approx(0.55)


def test_a_missing_layer_is_told_with_those_there_are() -> None:
    """A gown asks for measures over stays; without them the answer names what there is."""
    with pytest.raises(WearerError) as caught:
        body_of(wearer(over_shift()), "stays")
    assert str(caught.value) == (
        "pilot › there are no measures over stays, only over shift. "
        "Measure again over stays and add the set to the file, or choose a garment worn over shift."
    )


def test_figure_units_and_notes_go_along() -> None:
    """A body carries its corrections and its notes to every garment."""
    tilt = Tilt("center back", 12.0)
    body = body_of(Wearer("pilot", (over_shift(),), (tilt,), ("round shoulders",), "in"))
    assert (body.figure, body.notes, body.units, body.name, body.over) == (
        (tilt,),
        ("round shoulders",),
        "in",
        "pilot",
        "shift",
    )


def test_undated_measures_and_tight_lacing_are_cautioned() -> None:
    """No date is a caution; so is a waist laced in by more than a tenth, the most advised by Gau (1998)."""
    undated = Measures("shift", "", over_shift().values)
    assert body_of(wearer(undated)).cautions == (
        "The measures over the shift carry no date. Bodies change: write one.",
    )
    assert body_of(wearer(over_shift(), over_stays(waist=65)), "stays").cautions == (
        "The waist over stays is 12% under the waist over the shift. "
        "More than 10% is not to be laced away: loosen the lace and measure again.",
    )


def test_a_body_can_be_sent_to_another_process() -> None:
    """Bodies are plain values: they pickle, compare and hash."""
    body = body_of(wearer(over_shift(raised=18)))
    again = pickle.loads(pickle.dumps(body))
    assert again == body
    assert hash(again) == hash(body)
    with pytest.raises(AttributeError):
        again.lengths.values = {}
