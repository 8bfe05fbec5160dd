"""Lengths in and out."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fanblock.units import (
    UNITS,
    YARD_MM,
    drawn_length,
    fine_length,
    format_length,
    parse_length,
    parse_share,
    proved_length,
    retold,
    shown,
    sold_length,
    spoken_length,
    typed_length,
)

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


@given(st.floats(2.0, 5_000.0))
def test_a_length_is_out_by_half_a_step_at_most(mm: float) -> None:
    """Read back, an inch length is within half its step: an eighth, a sixteenth or half of that; centimetres half a millimetre."""
    for told, parts in ((format_length, 8), (fine_length, 16), (drawn_length, 32)):
        assert abs(parse_length(told(mm, "in")) - mm) <= 25.4 / parts / 2.0 + 1e-9
        assert abs(parse_length(told(mm, "cm")) - mm) <= 0.5 + 1e-9
    assert abs(parse_length(spoken_length(mm, "in")) - mm) <= 25.4 / 16.0 + 1e-9


@given(st.floats(1.0, 20_000.0))
def test_shops_sell_more_never_less(mm: float) -> None:
    """Rounded up to 10 cm, or to an eighth of a yard of 36 inches (a definition), and by less than one step."""
    metres = float(sold_length(mm, "cm").removesuffix(" m")) * 1000.0
    assert mm - 1e-3 <= metres < mm + 100.0
    yards = parse_length(sold_length(mm, "in").replace("yd", "in")) / 25.4 * YARD_MM
    assert mm - 1e-3 <= yards < mm + YARD_MM / 8.0


@pytest.mark.parametrize(
    ("mm", "inches", "metric"),
    [
        (0.0, "0 in", "0.00 mm"),
        (0.01, "0.0004 in", "0.01 mm"),
        (0.5, "0.02 in", "0.50 mm"),
        (6.0, "1/4 in", "6.00 mm"),
        (45.82, "1 3/4 in", "4.6 cm"),
        (-118.7, "-4 5/8 in", "-11.9 cm"),
    ],
)
def test_what_was_checked_is_told_as_fine_as_it_was_checked(mm: float, inches: str, metric: str) -> None:
    """By hand: 0.01 mm are 0.00039 in, 0.5 mm 0.0197 in; from an eighth of an inch on a tape shows it."""
    assert (proved_length(mm, "in", 2), proved_length(mm, "cm", 2)) == (inches, metric)


@pytest.mark.parametrize(
    ("text", "inches", "centimetres"),
    [
        ("stop 2 to 3 cm above where", "stop 3/4 to 1 1/4 in above where", "stop 2 to 3 cm above where"),
        ("Leave 5 to 7 cm (2 to 3 in) more", "Leave 2 to 3 in more", "Leave 5 to 7 cm more"),
        ("a tape, 8 mm (5/16 in) wide", "a tape, 5/16 in wide", "a tape, 8 mm wide"),
        ("cord, 2 to 3 mm thick", "cord, 3/32 to 1/8 in thick", "cord, 2 to 3 mm thick"),
        ("elbow dart 20 mm", "elbow dart 3/4 in", "elbow dart 2 cm"),
        ("sold in 2.5 to 3 m", "sold in 2 3/4 to 3 1/4 yd", "sold in 2.5 to 3 m"),
        ("bone, 6 × 1.5 mm", "bone, 6 × 1.5 mm", "bone, 6 × 1.5 mm"),
        ("24 in all, 3 more", "24 in all, 3 more", "24 in all, 3 more"),
        ("draft 2 of 12.5 %", "draft 2 of 12.5 %", "draft 2 of 12.5 %"),
    ],
)
def test_a_text_is_retold_in_the_makers_units(text: str, inches: str, centimetres: str) -> None:
    """By hand: 2 cm are 0.787 in, 3 cm 1.181 in, 2 mm 0.079 in, 2.5 m 2.734 yd, 3 m 3.281 yd."""
    assert (retold(text, "in"), retold(text, "cm")) == (inches, centimetres)


@given(st.integers(1, 300), st.sampled_from(["mm", "cm"]))
def test_a_retold_length_is_near_what_was_written(number: int, unit: str) -> None:
    """Within 6 %, or the 1/64 in that no tape shows."""
    written = parse_length(f"{number} {unit}")
    told = parse_length(retold(f"{number} {unit}", "in"))
    assert abs(told - written) <= max(0.06 * written, 25.4 / 64.0) + 1e-9
