"""Guesses of what shoulders and armholes need, against the tables they come from."""

from __future__ import annotations

import pytest

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
