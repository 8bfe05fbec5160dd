"""Lengths in and out."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fanblock.units import UNITS, format_length, parse_length, parse_share, shown, typed_length

LENGTHS_MM = st.floats(-20_000, 20_000)


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("12 mm", 12.0),
        ("1.5 cm", 15.0),
        (".5cm", 5.0),
        ("3/4 in", 19.05),
        ("2 1/4 in", 57.15),
        ("2-1/4 inches", 57.15),
        ("34½ in", 876.3),
        ('34 1/2"', 876.3),
        ("1 in", 25.4),
        ("-3 mm", -3.0),
        ("−3 mm", -3.0),
        ("  7  CM ", 70.0),
        ("9/8 in", 28.575),
    ],
)
def test_lengths_are_read_exactly(text: str, mm: float) -> None:
    """An inch is 25.4 mm (international yard and pound agreement, 1959); usual spellings are understood."""
    assert parse_length(text) == mm


def test_bare_number_takes_the_stated_unit() -> None:
    """A bare number is a length only where somebody said what it counts."""
    assert [parse_length("36 1/4", unit) for unit in ("mm", "cm", "in")] == [36.25, 362.5, 920.75]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "“” is not a length. Write a number and a unit, such as 12 mm, 1.5 cm, 3/4 in or 2 1/4 in."),
        (
            "36",
            "“36” has no unit. Write 36 in or 36 cm, or say once at the top what bare numbers mean: "
            "units: in (or cm, or mm).",
        ),
        ("1,5 cm", "“1,5 cm” has a comma. Write a point: 1.5 cm."),
        ("3 ells", "“ells” is not a unit of length. Use mm, cm or in."),
        ("1/0 in", "“1/0 in” divides by nothing. Write a fraction such as 3/8."),
        (
            "2 9/8 in",
            "“2 9/8 in” has a fraction of one or more. Write a fraction below one, such as 2 1/8 in.",
        ),
        (
            "1e5 mm",
            "“1e5 mm” is not a length. Write a number and a unit, such as 12 mm, 1.5 cm, 3/4 in or 2 1/4 in.",
        ),
        ("999999999 mm", "“999999999 mm” is longer than 100 metres. Look at the number and its unit."),
        (
            "٣ cm",
            "“٣ cm” is not a length. Write a number and a unit, such as 12 mm, 1.5 cm, 3/4 in or 2 1/4 in.",
        ),
        (
            "9" * 50,
            f"“{'9' * 39}…” is not a length. Write a number and a unit, such as 12 mm, 1.5 cm, 3/4 in or 2 1/4 in.",
        ),
    ],
)
def test_what_is_no_length_is_told_in_words(text: str, message: str) -> None:
    """A refused length says what was typed and what to type instead."""
    with pytest.raises(ValueError, match=f"^{re.escape(message)}$"):
        parse_length(text)


@pytest.mark.parametrize(
    ("mm", "units", "text"),
    [
        (910, "cm", "91.0 cm"),
        (876.3, "in", "34 1/2 in"),
        (19.05, "in", "3/4 in"),
        (0, "in", "0 in"),
        (-31.75, "in", "-1 1/4 in"),
        (-0.04, "mm", "0.0 mm"),
        (-1, "in", "0 in"),
        (12.345, "mm", "12.3 mm"),
        (25.4 * 0.99, "in", "1 in"),
    ],
)
def test_lengths_are_written_one_way(mm: float, units: str, text: str) -> None:
    """Inches to the nearest eighth, the others to one decimal, and zero never has a minus."""
    assert format_length(mm, units) == text


@given(LENGTHS_MM, st.sampled_from(sorted(UNITS)))
def test_a_written_length_reads_back(mm: float, units: str) -> None:
    """What is written for people reads back within half of the last place that was written."""
    half = {"mm": 0.05, "cm": 0.5, "in": 25.4 / 16}[units]
    assert parse_length(format_length(mm, units)) == pytest.approx(mm, abs=half * 1.000001)


@given(LENGTHS_MM, st.sampled_from(sorted(UNITS)))
def test_writing_settles(mm: float, units: str) -> None:
    """Reading what was written and writing it again changes nothing."""
    text = format_length(mm, units)
    assert format_length(parse_length(text), units) == text


@given(st.integers(0, 5000))
def test_units_of_one_length_agree(sixteenths: int) -> None:
    """A length typed in sixteenths of an inch and the same in decimals of a centimetre are one number."""
    mm_text = f"{sixteenths * 254 // 160}.{sixteenths * 254 % 160 * 10_000 // 160:04d}"
    assert parse_length(f"{sixteenths}/16 in") == parse_length(f"{mm_text} mm")


def test_typed_length_keeps_what_was_typed() -> None:
    """The number and the unit stay as they were typed, so that a slip of the unit can be named."""
    assert str(typed_length("34½ inches")) == "34 1/2 in"


def test_shares_are_read_in_per_cent() -> None:
    """A share is a number with a per cent sign, either sign, with or without a blank."""
    assert [parse_share(text) for text in ("50%", "12.5 %", "-3%", "-0%")] == [0.5, 0.125, -0.03, 0.0]


def test_a_bare_number_is_no_share() -> None:
    """0.5 may be meant as a half or as half a per cent: it is refused."""
    message = "“0.5” is not a share. Write it in per cent, such as 50%."
    with pytest.raises(ValueError, match=f"^{re.escape(message)}$"):
        parse_share("0.5")


def test_long_texts_are_cut_in_messages() -> None:
    """A message stays on one line however long the text in the file is."""
    assert shown("a\n b" * 40) == "“" + "a ba ba ba ba ba ba ba ba ba ba ba ba ba ba"[:39] + "…”"
