"""The house's drawing board: one palette, one pen box, one way to write a picture as SVG.

A :class:`Board` is measured in points from its upper left corner. What is drawn from the block comes in millimetres, y up,
and goes through a :class:`View`, which fits it into a rectangle of the board.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from html import escape
from typing import Any

import numpy as np

PAPER, CARD, CLOTH, CLOTH_TOO = "#fbf8f2", "#ffffff", "#f0e6d5", "#e4d6bf"
INK, SOFT, FAINT = "#2b2f33", "#6b6459", "#cfc7b8"
BLUE, RED, BLUSH, MOSS, MIST = "#2c6488", "#a4452c", "#eac8bb", "#5d7a4a", "#d7e3ea"

FONTS = "Source Sans 3, Source Sans Pro, Noto Sans, Helvetica, Arial, sans-serif"
SMALL, USUAL, LARGE = 13.0, 15.0, 19.0


@dataclass(frozen=True)
class View:
    """Places on the block, in millimetres, put onto the board: bigger by ``scale``, turned upside down, moved."""

    scale: float
    left: float
    low: float

    @classmethod
    def fitting(cls, points: Any, x: float, y: float, width: float, height: float) -> View:
        """Return the view that shows ``points`` as large as the rectangle allows, in its middle."""
        low, high = np.min(points, axis=0), np.max(points, axis=0)
        size = np.maximum(high - low, 1.0)
        scale = float(min(width / size[0], height / size[1]))
        left = x + 0.5 * (width - scale * size[0]) - scale * low[0]
        foot = y + 0.5 * (height + scale * size[1]) + scale * low[1]
        return cls(scale, float(left), float(foot))

    def __call__(self, points: Any) -> Any:
        """Return points of the block on the board."""
        array = np.asarray(points, dtype=float)
        return np.stack((self.left + self.scale * array[..., 0], self.low - self.scale * array[..., 1]), axis=-1)

    def moved(self, right: float, down: float = 0.0) -> View:
        """Return the same view further right and down."""
        return View(self.scale, self.left + right, self.low + down)


def even(points: Any, count: int = 40) -> Any:
    """Return ``count`` points evenly along a run of points, so that every picture has as many as the last time."""
    array = np.asarray(points, dtype=float)
    run = np.concatenate(([0.0], np.cumsum(np.hypot(*np.diff(array, axis=0).T))))
    at = np.linspace(0.0, run[-1], count)
    return np.stack((np.interp(at, run, array[:, 0]), np.interp(at, run, array[:, 1])), axis=-1)


class Board:
    """A picture being drawn; :meth:`svg` writes it."""

    def __init__(self, width: float, height: float, says: str) -> None:
        """Begin a picture of this size; ``says`` tells what it shows to who cannot see it."""
        self.width, self.height, self.says = width, height, says
        self.parts: list[str] = []

    def card(self, x: float, y: float, width: float, height: float, head: str = "", color: str = SOFT) -> None:
        """Draw a white card with a heading over it."""
        self.parts.append(
            f'<rect x="{_n(x)}" y="{_n(y)}" width="{_n(width)}" height="{_n(height)}" rx="6" fill="{CARD}" '
            f'stroke="{FAINT}" stroke-width="1"/>'
        )
        if head:
            self.words(head, x + 12.0, y + 22.0, USUAL, bold=True, color=color)

    def line(
        self, points: Any, color: str = INK, width: float = 1.2, dash: Sequence[float] = (), fill: str = "none",
        closed: bool = False, faint: float = 1.0,
    ) -> None:  # fmt: skip
        """Draw a run of straight pieces through ``points``; ``fill`` fills it, ``faint`` lets through what is under it."""
        run = " ".join(f"{_n(x)},{_n(y)}" for x, y in np.asarray(points, dtype=float))
        kind = "polygon" if closed else "polyline"
        dashes = f' stroke-dasharray="{" ".join(_n(one) for one in dash)}"' if dash else ""
        clear = f' fill-opacity="{_n(faint)}"' if faint < 1.0 else ""
        self.parts.append(
            f'<{kind} points="{run}" fill="{fill}"{clear} stroke="{color}" stroke-width="{_n(width)}"{dashes}/>'
        )

    def area(self, points: Any, fill: str, faint: float = 1.0) -> None:
        """Fill an area without an outline."""
        self.line(points, "none", 0.0, fill=fill, closed=True, faint=faint)

    def dot(self, point: Any, color: str = RED, size: float = 3.4) -> None:
        """Draw a dot."""
        x, y = point
        self.parts.append(f'<circle cx="{_n(x)}" cy="{_n(y)}" r="{_n(size)}" fill="{color}"/>')

    def ring(self, point: Any, size: float, color: str = INK, fill: str = "none", width: float = 1.2) -> None:
        """Draw a circle."""
        x, y = point
        self.parts.append(
            f'<circle cx="{_n(x)}" cy="{_n(y)}" r="{_n(size)}" fill="{fill}" stroke="{color}" '
            f'stroke-width="{_n(width)}"/>'
        )

    def words(
        self, text: str, x: float, y: float, size: float = SMALL, *, anchor: str = "start", bold: bool = False,
        color: str = INK, angle: float = 0.0, halo: bool = False,
    ) -> None:  # fmt: skip
        """Write one line of words; ``halo`` keeps lines under it from crossing the letters."""
        weight = ' font-weight="bold"' if bold else ""
        turn = f' transform="rotate({_n(angle)} {_n(x)} {_n(y)})"' if angle else ""
        clear = f' stroke="{CARD}" stroke-width="3.5" stroke-linejoin="round" paint-order="stroke"' if halo else ""
        self.parts.append(
            f'<text x="{_n(x)}" y="{_n(y)}" font-size="{_n(size)}" text-anchor="{anchor}" fill="{color}"'
            f"{weight}{clear}{turn}>{escape(text)}</text>"
        )

    def lines(self, texts: Iterable[str], x: float, y: float, size: float = SMALL, **style: Any) -> None:
        """Write lines of words under one another."""
        for number, text in enumerate(texts):
            self.words(text, x, y + 1.3 * size * number, size, **style)

    def arrow(self, start: Any, end: Any, color: str = INK, width: float = 1.4, both: bool = False) -> None:
        """Draw an arrow; ``both`` gives it a head at either end, as a measure has."""
        a, b = np.asarray(start, dtype=float), np.asarray(end, dtype=float)
        along = (b - a) / max(float(np.hypot(*(b - a))), 1.0)
        side = np.array([-along[1], along[0]])
        self.line([a + (6.0 * along if both else 0.0), b - 6.0 * along], color, width)
        for tip, way in ((b, along), (a, -along)) if both else ((b, along),):
            self.area([tip, tip - 9.0 * way + 3.6 * side, tip - 9.0 * way - 3.6 * side], color)

    def svg(self) -> str:
        """Return the picture as SVG."""
        size = f'width="{_n(self.width)}" height="{_n(self.height)}" viewBox="0 0 {_n(self.width)} {_n(self.height)}"'
        head = (
            f'<svg xmlns="http://www.w3.org/2000/svg" {size} role="img" font-family="{FONTS}" '
            'stroke-linejoin="round" stroke-linecap="round">'
        )
        ground = f'<rect width="{_n(self.width)}" height="{_n(self.height)}" rx="8" fill="{PAPER}"/>'
        return "\n".join((head, f"<title>{escape(self.says)}</title>", ground, *self.parts, "</svg>", ""))


def smooth(points: Any, count: int = 12) -> Any:
    """Return a smooth run through ``points`` in order."""
    array = np.asarray(points, dtype=float)
    before, after = (
        np.vstack((2 * array[:1] - array[1:2], array[:-1])),
        np.vstack((array[1:], 2 * array[-1:] - array[-2:-1])),
    )
    slope = 0.5 * (after - before)
    t = np.linspace(0.0, 1.0, count, endpoint=False)[None, :, None]
    a, b, s, e = array[:-1, None], array[1:, None], slope[:-1, None], slope[1:, None]
    run = (2 * t**3 - 3 * t**2 + 1) * a + (t**3 - 2 * t**2 + t) * s + (3 * t**2 - 2 * t**3) * b + (t**3 - t**2) * e
    return np.vstack((run.reshape(-1, 2), array[-1:]))


def _n(number: float) -> str:
    """A number with one decimal at most, and no minus nought."""
    text = f"{number:.1f}".removesuffix(".0")
    return "0" if text == "-0" else text
