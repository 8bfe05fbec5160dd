"""Every row of three published size tables: the sheet, rolled up, measures what the table says.

Bust to waist is the German table's own (front length less bust depth); elsewhere 16 cm is assumed.
"""

from __future__ import annotations

from itertools import pairwise

import pytest

from fanblock.block.fan import fan
from fanblock.block.guide import guide_of
from fanblock.tolerances import BLOCK_MM
from fanblock.units import parse_length

ASSUMED_LENGTH_CM = 16.0

EUROPEAN = [(76.0 + 4.0 * n, 60.0 + 4.0 * n) for n in range(8)] + [(110.0 + 6.0 * n, 94.0 + 6.0 * n) for n in range(3)]
"""Bust and waist in cm: W. Aldrich, Metric Pattern Cutting for Women's Wear, size table said there to
comply with BS EN 13402-3 (seen as transcriptions).
"""

BUST_BOUNDARIES = [*range(74, 103, 4), *range(107, 132, 6)]
"""Boundaries of bust classes in cm: EN 13402-3:2005 as held by the R package Anthropometry,
bustSizesStandard.
"""

AMERICAN = {
    "00": ("31 1/8", "23 7/8", "25 3/8"),
    "0": ("31 3/4", "24 5/8", "26 1/8"),
    "2": ("33", "25 3/8", "26 7/8"),
    "4": ("34 1/8", "26 1/8", "27 5/8"),
    "6": ("35 1/4", "27", "28 1/2"),
    "8": ("36 1/4", "28", "29 1/2"),
    "10": ("37 1/4", "29", "30 1/2"),
    "12": ("38 3/4", "30 3/4", "32 1/4"),
    "14": ("40 3/8", "32 1/2", "34"),
    "16": ("42 1/8", "34 1/2", "36"),
    "18": ("44", "36 3/4", "38 1/4"),
    "20": ("46", "39", "40 1/2"),
}
"""Bust, waist of the curvy and waist of the straight figure in inches: ASTM D5585-11e1, table 1."""

GERMAN = {
    "32": (76.0, 62.0, 43.9, 25.7),
    "36": (84.0, 68.0, 44.7, 27.3),
    "38": (88.0, 72.0, 45.3, 28.1),
    "40": (92.0, 76.0, 45.9, 28.9),
    "44": (100.0, 84.0, 47.1, 30.5),
    "48": (110.0, 94.5, 48.8, 32.5),
    "52": (122.0, 107.5, 51.0, 34.9),
    "56": (134.0, 120.5, 52.9, 37.3),
    "60": (146.0, 133.5, 54.5, 39.7),
}
"""Bust, waist, front length and bust depth in cm, series measurements of 1994: G. Hofenbitzer,
Grundschnitte und Modellentwicklungen 1 (3rd ed. 2024), p. 20 (seen as a transcription).
"""

ROWS = [
    *(pytest.param(b * 10.0, w * 10.0, ASSUMED_LENGTH_CM * 10.0, id=f"european-{b:.0f}") for b, w in EUROPEAN),
    *(
        pytest.param(
            parse_length(b, "in"),
            parse_length(w, "in"),
            ASSUMED_LENGTH_CM * 10.0,
            id=f"american-{n}-{figure}",
        )
        for n, (b, curvy, straight) in AMERICAN.items()
        for figure, w in (("curvy", curvy), ("straight", straight))
    ),
    *(
        pytest.param(b * 10.0, w * 10.0, (front - depth) * 10.0, id=f"german-{n}")
        for n, (b, w, front, depth) in GERMAN.items()
    ),
]


@pytest.mark.parametrize(("bust", "waist", "length"), ROWS)
def test_rolled_up_it_measures_what_the_table_says(bust, waist, length, roll_up, arc_length) -> None:
    """Bust, waist and bust to waist within 0.01 mm, by quadrature of the flat arcs and round the rolled
    body.
    """
    block = fan(waist / 2.0, bust / 2.0, length)
    body = roll_up(block)
    assert body.closes_mm < BLOCK_MM
    assert (body.bust_mm, body.waist_mm, body.upright_mm) == pytest.approx((bust, waist, length), abs=BLOCK_MM)
    assert 2.0 * arc_length(block, 1.0) == pytest.approx(bust, abs=BLOCK_MM)
    assert 2.0 * arc_length(block, 0.0) == pytest.approx(waist, abs=BLOCK_MM)


def test_the_european_busts_are_the_middles_of_their_classes() -> None:
    """The two European tables agree: each bust lies half way between two boundaries of EN 13402-3."""
    middles = [(low + high) / 2.0 for low, high in pairwise(BUST_BOUNDARIES)]
    assert [round(b) for b, _ in EUROPEAN] == [round(m) for m in (76, 80, 84, 88, 92, 96, 100, 104, 110, 116, 122)]
    assert all(min(abs(b - m) for m in middles) <= 0.5 for b, _ in EUROPEAN)


def test_one_drop_all_through_turns_every_european_size_alike() -> None:
    """The European table's drop is 16 cm in every size, so every block turns by the same angle and R
    grows with b.
    """
    turns = {round(fan(w * 5.0, b * 5.0, 160.0).turn_rad, 12) for b, w in EUROPEAN}
    assert turns == {0.5}
    strings = [guide_of(fan(w * 5.0, b * 5.0, 160.0)).arcs[1].string_mm for b, w in EUROPEAN]
    assert strings == pytest.approx([b * 10.0 for b, _ in EUROPEAN], rel=1e-12)
