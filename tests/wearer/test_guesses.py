"""Guesses of what shoulders and armholes need, against the tables they come from."""

from __future__ import annotations

import pytest

from fanblock.units import parse_length
from fanblock.wearer import guesses


@pytest.mark.parametrize(
    ("bust_cm", "back_cm", "front_cm"),
    [
        (76, 41.4, 43.9),
        (84, 41.4, 44.7),
        (88, 41.6, 45.3),
        (92, 41.8, 45.9),
        (100, 42.2, 47.1),
        (110, 42.7, 48.8),
        (122, 43.3, 51.0),
        (134, 43.6, 52.9),
        (146, 43.6, 54.5),
    ],
)
def test_the_front_length_is_the_tables(bust_cm: float, back_cm: float, front_cm: float) -> None:
    """Back and front lengths by bust in G. Hofenbitzer, Grundschnitte und Modellentwicklungen 1, p. 20 (1994 series)."""
    lengths = {"bust": 10.0 * bust_cm, "back length": 10.0 * back_cm}
    mm, words = guesses.front_length(lengths, "cm", "the back length")
    assert mm == pytest.approx(10.0 * front_cm, abs=0.001)
    assert words == f"{front_cm:.1f} cm, from the back length and the bust by a German size table"


def test_between_its_rows_and_beyond_them_a_guess_stays_between() -> None:
    """Half way between two sizes it is half way, and no size beyond the table adds to it (plain interpolation)."""
    found = [guesses.front_length({"bust": bust, "back length": 400.0}, "cm", "")[0] for bust in (700, 900, 1700)]
    assert found == [425.0, pytest.approx(439.0), 509.0]


@pytest.mark.parametrize("name", guesses.UPPER_AT_880_MM)
def test_what_goes_round_the_shoulders_grows_with_the_bust_and_stops_with_the_table(name: str) -> None:
    """A larger bust is given a broader back, and busts outside 76 to 122 cm that of the nearest."""
    guess = guesses.upper(name)
    found = [guess({"bust": bust}, "cm")[0] for bust in (600, 760, 880, 1220, 1600)]
    assert found[0] == found[1] < found[2] < found[3] == found[4]
    assert found[2] == guesses.UPPER_AT_880_MM[name][0]


ASTM = (
    ("31 1/8", "25 3/4", "31 3/4"), ("31 3/4", "26 1/2", "32 1/4"), ("33", "27 1/4", "33 1/4"),
    ("34 1/8", "28", "34 1/8"), ("35 1/4", "29", "35"), ("36 1/4", "30", "35 7/8"), ("37 1/4", "31", "36 3/4"),
    ("38 3/4", "32 1/2", "38"), ("40 3/8", "34", "39 1/4"), ("42 1/8", "35 3/4", "40 5/8"), ("44", "37 5/8", "42 1/4"),
    ("46", "39 5/8", "43 7/8"),
)  # fmt: skip
"""Bust, underbust and upper chest of sizes 00 to 20 in inches: ASTM D5585-11e1, table 1."""


@pytest.mark.parametrize(("bust", "underbust", "chest"), ASTM)
def test_ribs_and_chest_are_the_tables(bust: str, underbust: str, chest: str) -> None:
    """At a bust of the table underbust and upper chest are the table's."""
    lengths = {"bust": parse_length(bust, "in")}
    for name, due in (("underbust", underbust), ("upper chest", chest)):
        mm, words = guesses.girth_beside_bust(name, lengths, "in")
        assert mm == pytest.approx(parse_length(due, "in"), abs=0.001)
        assert words == f"{due} in, from the bust by a size table (ASTM D5585-11e1)"


def test_the_underbust_lies_on_the_ribs_and_below_the_bust() -> None:
    """A quarter of a back of 40 cm is 10 cm; under a bust 12 cm above the waist it is 9 cm, three quarters of that."""
    high = guesses.underbust_height({"back length": 400.0, "bust to waist": 160.0}, "cm", "the back length")
    assert high == (100.0, "10.0 cm, a quarter of the back length (from memory)")
    low = guesses.underbust_height({"back length": 400.0, "bust to waist": 120.0}, "cm", "the back length")
    assert low == (90.0, "9.0 cm, three quarters of bust to waist (from memory)")


def test_a_raised_waist_lies_between_waist_and_ribs() -> None:
    """Half way up from a waist of 70 to ribs of 78 it is 74 cm; higher than the ribs it is that of the ribs."""
    lengths = {"waist": 700.0, "underbust": 780.0, "underbust height": 100.0}
    found = [guesses.raised_waist({**lengths, "raised waist height": mm}, "cm")[0] for mm in (0.0, 50.0, 100.0, 130.0)]
    assert found == [700.0, 740.0, 780.0, 780.0]
