"""Measures written left and right: what they come to, what is refused, and the file they are written back to."""

from __future__ import annotations

import pytest

from fanblock.problems import WearerError
from fanblock.wearer.body import body_of
from fanblock.wearer.halved import half_wearer, uneven
from fanblock.wearer.measures import EACH, HALF, MEASURES
from fanblock.wearer.model import MAY_DIFFER_MM, Wearer
from fanblock.wearer.reading import read_wearer
from fanblock.wearer.writing import wearer_text


def read(*lines: str, more: str = "") -> Wearer:
    """Return a wearer whose needed measures are replaced or joined by ``lines``."""
    stated = {line.split(":")[0]: line for line in ("bust: 92", "waist: 74", "bust to waist: 16")}
    stated.update({line.split(":")[0]: line for line in lines})
    body = "\n".join(f"  {line}" for line in stated.values())
    return read_wearer(f"wearer: 1\nname: pilot\nunits: cm\n{more}measures:\n{body}\n", "w.yaml")


def refusal(*lines: str, more: str = "") -> str:
    """Return the whole message of a wearer that must be refused."""
    with pytest.raises(WearerError) as caught:
        read(*lines, more=more)
    return str(caught.value)


def test_halves_of_a_girth_add_up_and_sides_are_averaged() -> None:
    """37 and 36.4 cm make a waist of 73.4; 20 and 19 cm under the arms stand for 19.5."""
    (only,) = read("waist: {left: 37, right: 36.4}", "underarm: {left: 20, right: 19}").sets
    assert only.values["waist"] == pytest.approx(734.0)
    assert only.values["underarm"] == pytest.approx(195.0)
    assert only.sides == {"waist": (370.0, 364.0), "underarm": (200.0, 190.0)}


def test_units_may_be_mixed() -> None:
    """14 1/2 in and 36.4 cm are 368.3 and 364 mm."""
    (only,) = read("waist: {left: 14 1/2 in, right: 36.4 cm}").sets
    assert only.sides["waist"] == pytest.approx((368.3, 364.0))


def test_equal_sides_are_one_measure() -> None:
    """They make the same value to the last digit as the whole written at once."""
    apart, whole = (
        read("waist: {left: 37, right: 37}", "underarm: {left: 20, right: 20}"),
        read("waist: 74", "underarm: 20"),
    )
    assert apart == whole


def test_a_wearer_is_written_and_read_back_the_same() -> None:
    """Left and right, what they may differ by, and a wedge of one half."""
    figure = "figure:\n  - tilt: {at: side, take: 8 mm, side: left}\n"
    wearer = read("waist: {left: 37, right: 36.4}", more=f"halves may differ: 6 mm\n{figure}")
    assert wearer.may_differ_mm == 6.0
    assert read_wearer(wearer_text(wearer), "w.yaml") == wearer
    assert read().may_differ_mm == MAY_DIFFER_MM == 10.0


def test_what_differs_is_told_the_largest_first() -> None:
    """With both lengths and their difference, in the wearer's units."""
    wearer = read("waist: {left: 37, right: 36.6}", "underarm: {left: 19, right: 20.2}")
    assert [one.words("cm") for one in uneven(wearer, "shift")] == [
        "underarm left 19.0 cm, right 20.2 cm, differ by 12 mm",
        "waist left 37.0 cm, right 36.6 cm, differ by 4 mm",
    ]


def test_a_half_is_a_wearer_like_it_on_both_sides() -> None:
    """Its halves of girths doubled; a front arc measured as one keeps its share of the bust."""
    wearer = read("bust: {left: 47, right: 45}", "underarm: {left: 20, right: 19}", "front arc: 46")
    left, right = (half_wearer(wearer, half).sets[0] for half in ("left", "right"))
    assert (left.values["bust"], right.values["bust"]) == (940.0, 900.0)
    assert (left.values["underarm"], right.values["underarm"]) == (200.0, 190.0)
    assert left.values["front arc"] / left.values["bust"] == pytest.approx(0.5)
    assert body_of(half_wearer(wearer, "left")).side_ratio == pytest.approx(0.5)


def test_no_measure_of_a_centre_line_may_differ() -> None:
    """What both halves share is one length; what goes round the trunk has halves; what is at the side has sides."""
    common = {name for name, measure in MEASURES.items() if not measure.sides}
    assert common == {
        "bust to waist", "raised", "bust to waist at back", "underbust height", "back length", "upper chest height",
        "raised waist height", "neck",
    }  # fmt: skip
    assert MEASURES["hip"].sides == HALF
    assert MEASURES["armhole"].sides == EACH


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        (
            "bust to waist: {left: 16, right: 15}",
            "w.yaml:7:18: measures › bust to waist › bust to waist is one for both halves: it has no left and right of its "
            "own. Write one length.",
        ),
        (
            "waist: {left: 37}",
            "w.yaml:6:10: measures › waist › right is missing. Write it as {left: 37 cm, right: 36.4 cm}.",
        ),
        (
            "waist: {left: 37, rihgt: 36}",
            "w.yaml:6:10: measures › waist › right is missing. Write it as {left: 37 cm, right: 36.4 cm}.\n"
            "w.yaml:6:21: measures › waist › rihgt › this is no half. Did you mean “right”?",
        ),
        (
            "waist: {left: 74, right: 37}",
            "w.yaml:6:10: measures › waist › left 74.0 cm and right 37.0 cm are too unlike. Is one of them the whole girth? "
            "Measure both sides again.",
        ),
        (
            "underarm: {left: 20, right: 14}",
            "w.yaml:8:13: measures › underarm › left 20.0 cm and right 14.0 cm are too unlike. Measure both sides again.",
        ),
        (
            "waist: {left: many, right: 37}",
            "w.yaml:6:17: measures › waist › left › “many” is not a length. Write a number and a unit, such as 12 mm, "
            "1.5 cm, 3/4 in or 2 1/4 in.",
        ),
    ],
)
def test_sides_that_cannot_be_are_refused(line: str, expected: str) -> None:
    """Each with its place and what to write."""
    assert refusal(line) == expected


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        (
            "4 cm",
            "w.yaml:4:20: halves may differ › “4 cm” is more than may be averaged (3 cm, 1 1/8 in). "
            "Write less: 1 cm is meant where nothing is written.",
        ),
        ("-1 mm", "w.yaml:4:20: halves may differ › “-1 mm” is not more than nothing. Write the length."),
        ("[1]", "w.yaml:4:20: halves may differ › this is a list, not a length. Write a length, such as 6 mm."),
    ],
)
def test_how_much_may_be_averaged_is_a_short_length(value: str, expected: str) -> None:
    """From nothing to 3 cm."""
    assert refusal(more=f"halves may differ: {value}\n") == expected
