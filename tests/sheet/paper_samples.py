"""Drawings the paper tests share: curves across several pages, words, and every way a line may look."""

from __future__ import annotations

import numpy as np

from fanblock.geometry.bezier import fit, polyline
from fanblock.geometry.curve import Curve
from fanblock.sheet.drawing import Drawing, Group, Stroke, Words
from fanblock.sheet.squares import long_line

WORDS = ("front-laced stays", "ferrywoman", "draft 2", "code 7F3A")


def piece(name: str, x: float, y: float, width: float, height: float) -> Group:
    """A piece with curved sides: cut line, stitch line, grain, words."""
    up = np.linspace(0.0, 1.0, 40)
    left = np.stack((x + 0.1 * width * np.sin(np.pi * up), y + height * up), axis=1)
    right = left[::-1] * (-1.0, 1.0) + (2.0 * x + width, 0.0)
    inner = np.vstack((left, right)) * 0.9 + 0.1 * np.array((x + width / 2.0, y + height / 2.0))
    return Group(
        name,
        (
            Stroke(fit(Curve.through(np.vstack((left, right, left[:1])))), "cut", "cut line"),
            Stroke(fit(Curve.through(np.vstack((inner, inner[:1])))), "stitch", "stitch line"),
            Stroke(
                polyline([(x + width / 2.0, y + 30.0), (x + width / 2.0, y + height - 30.0)]),
                "grain",
                "grain",
            ),
            Words(name, x + width / 2.0, y + height * 0.6, 9.0, "middle", bold=True),
            Words("cut 1 pair · strength", x + width / 2.0, y + height * 0.6 - 7.0, 3.2, "middle"),
            Words("toward CF", x + 0.2 * width, y + height / 2.0, 3.5, angle_deg=90.0),
        ),
    )


def sheet() -> Drawing:
    """Three pieces and the long line on 620 × 480 mm: several pages of any home printer, with a corner
    empty."""
    groups = (
        piece("1 · front", 20, 60, 160, 380),
        piece("2 · side", 230, 60, 120, 150),
        long_line(60.0, 30.0),
    )
    return Drawing("Stays for the ferrywoman", 620.0, 480.0, (*groups, piece("3 · back", 450, 60, 150, 150)))
