"""Paper: sizes as the standards give them, names as people say them."""

from __future__ import annotations

import pytest

from fanblock.problems import ExportError
from fanblock.sheet.paper import PAPERS, paper, roll


@pytest.mark.parametrize(
    ("name", "width_mm", "height_mm"),
    [
        ("a4", 210.0, 297.0),  # ISO 216
        ("a3", 297.0, 420.0),  # ISO 216
        ("a0", 841.0, 1189.0),  # ISO 216
        ("letter", 215.9, 279.4),  # ANSI/ASME Y14.1, size A: 8 1/2 × 11 in
    ],
)
def test_sheets_have_the_sizes_of_the_standards(name: str, width_mm: float, height_mm: float) -> None:
    """ISO 216 for the A sizes, ANSI Y14.1 size A for Letter."""
    found = PAPERS[name]
    assert (found.width_mm, found.height_mm) == pytest.approx((width_mm, height_mm), abs=0.000001)
    assert not found.is_roll


def test_names_are_taken_as_people_write_them() -> None:
    """Capitals and spaces do not matter; US Letter is Letter; a roll names its width."""
    assert paper("A4") is PAPERS["a4"]
    assert paper(" US  Letter ") is PAPERS["letter"]
    assert paper("roll 914") == roll(914.0)
    assert paper("Roll 841.5 mm").width_mm == 841.5
    assert paper("roll 914").is_roll


def test_an_unknown_paper_names_the_nearest() -> None:
    """A slip of the pen is answered with what was probably meant, anything else with all there is."""
    with pytest.raises(ExportError) as caught:
        paper("leter")
    assert str(caught.value) == "paper › There is no paper called “leter”. Did you mean “letter”?"
    with pytest.raises(ExportError) as caught:
        paper("foolscap")
    assert str(caught.value) == (
        "paper › There is no paper called “foolscap”. Legal here: a0, a3, a4, letter, projector, roll 914."
    )


@pytest.mark.parametrize("width", [10.0, 9000.0])
def test_a_roll_has_a_sensible_width(width: float) -> None:
    """Rolls of 200 to 5000 mm are taken, others refused."""
    with pytest.raises(ExportError) as caught:
        roll(width)
    assert str(caught.value) == (f"paper › A roll {width:g} mm wide cannot be used. Give a width from 200 to 5000 mm.")
