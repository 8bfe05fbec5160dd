"""The little picture that shows how a curve is drawn by offsets from its chord."""

from __future__ import annotations

import math

import numpy as np

from fanblock.geometry.bezier import fit
from fanblock.geometry.curve import Curve
from fanblock.sheet.drawing import Drawing, Group, Stroke, Words
from fanblock.sheet.handguide_marks import DOT_MM, SMALL_MM, dot
from fanblock.sheet.squares import line


def chord_picture(wide_mm: float) -> Drawing:
    """Return the little picture that shows how a curve is drawn by offsets from its chord."""
    high, left, right, base = 34.0, 12.0, wide_mm - 12.0, 9.0
    at = np.linspace(0.0, 1.0, 33)
    curve = np.stack((left + (right - left) * at, base + 14.0 * np.sin(math.pi * at) * (1.0 - 0.25 * at)), axis=1)
    items: list[Stroke | Words] = [
        line([(left, base), (right, base)], "guide", "chord"),
        Stroke(fit(Curve.through(curve)), "cut", "curve"),
    ]
    for share, name in ((0.25, "1"), (0.5, "2"), (0.75, "3")):
        x, y = left + share * (right - left), base + 14.0 * math.sin(math.pi * share) * (1.0 - 0.25 * share)
        items += [line([(x, base), (x, y)], "mark"), dot(np.array([x, y]), DOT_MM)]
        items += [line([(x, base + 1.6), (x + 1.6, base + 1.6), (x + 1.6, base)], "guide", "square")]
        side, anchor = (-1.2, "end") if name == "3" else (1.2, "start")
        rise = 7.0 if name == "2" else 3.2  # above the words of the third, which stand at its left under the curve
        items.append(Words(f"so far off, {name}", x + side, base + rise, SMALL_MM, anchor))
        items.append(Words(f"so far along, {name}", x, base - 3.2, SMALL_MM, "middle"))
    for (x, y), text, shift in (((left, base), "first point", -6.0), ((right, base), "last point", -6.0)):
        items += [dot(np.array([x, y]), DOT_MM), Words(text, x, y + shift, SMALL_MM, "middle", bold=True)]
    items.append(Words("along a lath held at the points", 0.5 * (left + right), high - 5.0, SMALL_MM, "middle"))
    return Drawing("chord", wide_mm, high, (Group("chord", tuple(items)),))
