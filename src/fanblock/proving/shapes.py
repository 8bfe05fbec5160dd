"""Lines and dots of a trial's picture, translucent where they lie over one another; millimetres, y up.

The sheets of a pattern know no translucent pens, so these few shapes are written here.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

import numpy as np

from fanblock.geometry.curve import Points
from fanblock.proving.trial import BROKEN, NOT_SOUND, REFUSED, SOUND

BACKGROUND, CARD, INK, SOFT, FAINT = "#fbf8f2", "#ffffff", "#2b2f33", "#6b6459", "#cfc7b8"
BLUE, RED, OCHRE, MOSS = "#2c6488", "#a4452c", "#c58a1f", "#5d7a4a"
COLORS = {SOUND: BLUE, NOT_SOUND: RED, REFUSED: OCHRE, BROKEN: INK}


@dataclass(frozen=True, slots=True)
class Lines:
    """Lines that look alike, as one named group."""

    name: str
    runs: Sequence[Points]
    color: str
    width_mm: float
    opacity: float = 1.0
    dash: str = ""
    closed: bool = False
    fill: str = "none"

    def svg(self, height_mm: float) -> str:
        """Return the group as SVG on a sheet of this height."""
        end = "Z" if self.closed else ""
        paths = "\n".join(f'<path d="M{_run(run, height_mm)}{end}"/>' for run in self.runs)
        dash = f' stroke-dasharray="{self.dash}"' if self.dash else ""
        look = (
            f'fill="{self.fill}" stroke="{self.color}" stroke-width="{self.width_mm:.2f}" '
            f'stroke-opacity="{self.opacity:.2f}" stroke-linecap="round"{dash}'
        )
        return _group(self.name, look, paths)


@dataclass(frozen=True, slots=True)
class Dots:
    """Dots that look alike, as one named group."""

    name: str
    points: Sequence[tuple[float, float]]
    color: str
    radius_mm: float
    opacity: float = 1.0

    def svg(self, height_mm: float) -> str:
        """Return the group as SVG on a sheet of this height."""
        dots = "\n".join(
            f'<circle cx="{x:.2f}" cy="{height_mm - y:.2f}" r="{self.radius_mm:.2f}"/>' for x, y in self.points
        )
        return _group(self.name, f'fill="{self.color}" fill-opacity="{self.opacity:.2f}"', dots)


Shape = Lines | Dots


def _group(name: str, look: str, inside: str) -> str:
    return f'<g id="{name.replace(" ", "-")}" {look}>\n<title>{escape(name)}</title>\n{inside}\n</g>'


def _run(points: Points, height_mm: float) -> str:
    return " ".join(f"{x:.2f} {height_mm - y:.2f}" for x, y in np.asarray(points).tolist())
