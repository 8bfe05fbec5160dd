"""How a garment would stand when worn on a plain form: every place of the flat panels as a place around the body.

Each level of the garment is taken as a ring about an oval that is 1.35 times as wide as it is deep, its length that of
the cloth and the gap on that level. The back of the form stands nearly upright and the front leans out, as stays do.
Above the bust the form grows no wider, below the waist it swells to the hip. This is a picture, not a fitting.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from fanblock.geometry.curve import Points
from fanblock.pattern.model import CENTER, FOLD, LACING, SEAM, SLIT, Panel, Pattern

WIDE_RATIO = 1.35
BACK_RATIO = 0.22
"""Share of what the bust is deeper than the waist that lies behind; the rest makes the front lean out."""
HIP_BACK_RATIO = 0.62
BOUNDS = (SEAM, CENTER, LACING, FOLD, SLIT)
HEIGHTS = np.linspace(-1.4, 2.4, 191)


@dataclass(frozen=True, eq=False)
class Worn:
    """The garment of one pattern on its form. Heights are shares of the way from waist to bust."""

    pattern: Pattern

    @cached_property
    def panels(self) -> tuple[Panel, ...]:
        """The panels that reach the waist, front to back: those that go round the body side by side."""
        ordered = sorted(self.pattern.panels, key=lambda panel: panel.number)
        around = tuple(panel for panel in ordered if panel.levels.get("waist"))
        return around or tuple(ordered)

    @cached_property
    def sides(self) -> tuple[tuple[Points, Points], ...]:
        """For each panel, the around of its front and of its back side at every one of ``HEIGHTS``."""
        return tuple((self._side(panel, -1.0), self._side(panel, 1.0)) for panel in self.panels)

    def _side(self, panel: Panel, way: float) -> Points:
        runs = []
        for edge in panel.edges:
            rise = float(edge.curve.end[1] - edge.curve.start[1])
            if edge.kind in BOUNDS and way * rise > 0.4 * edge.curve.length_mm:
                runs.append(edge.curve.points)
        points = np.vstack(runs) if runs else panel.loop()
        around, height = self.pattern.block.where(points)
        order = np.argsort(height, kind="stable")
        return np.interp(HEIGHTS, height[order], around[order])

    @cached_property
    def lengths(self) -> Points:
        """The block's half level at every height."""
        return np.asarray(self.pattern.block.level_length_mm(np.maximum(HEIGHTS, -1.0)))

    @cached_property
    def fronts(self) -> Points:
        """Where each panel begins, from the centre front along the ring: shape (panels, heights)."""
        widths = np.array([(back - front) * self.lengths for front, back in self.sides])
        start = self.sides[0][0] * self.lengths
        before = np.cumsum(widths, axis=0) - widths
        return np.asarray(start + before)

    @cached_property
    def cloth(self) -> Points:
        """Half the garment's girth at every height, the gap included."""
        front, back = self.sides[-1]
        return np.asarray(self.fronts[-1] + (back - front) * self.lengths + (1.0 - back) * self.lengths)

    @cached_property
    def ring(self) -> Points:
        """Half the form's girth at every height: the cloth's between waist and bust, the body's elsewhere."""
        waist, bust = np.interp([0.0, 1.0], HEIGHTS, self.cloth)
        body = self.pattern.body.lengths
        hip = 0.5 * body.get("hip", 1.36 * 2.0 * waist)
        depth = body.get("hip depth", 190.0) / self.ruling_mm
        down = np.clip(-HEIGHTS / depth, 0.0, 1.0)
        swell = waist + (max(hip, waist) - waist) * np.sin(0.5 * np.pi * down)
        above = np.minimum(self.cloth, bust * (1.0 + 0.02 * np.clip(HEIGHTS - 1.0, 0.0, 1.0)))
        return np.where(HEIGHTS < 0.0, swell, np.where(HEIGHTS > 1.0, above, self.cloth))

    @property
    def ruling_mm(self) -> float:
        """Waist to bust at the centre front."""
        return float(self.pattern.block.center_front_mm)

    def profile(self, height: Points) -> tuple[Points, Points]:
        """Return how far the front and the back of the form lie to the right of its waist's back, at each height."""
        ring = np.interp(height, HEIGHTS, self.ring)
        depth = depth_mm(ring)
        waist, bust = depth_mm(np.interp([0.0, 1.0], HEIGHTS, self.ring))
        rise = np.clip(height, 0.0, 1.0)
        lean = BACK_RATIO * (bust - waist) * rise**1.5 - 10.0 * np.clip(height - 1.1, 0.0, 1.5) ** 1.5
        back = np.where(height < 0.0, HIP_BACK_RATIO * (depth - waist), lean)
        return back - depth, back

    def seen(self, share: Points, height: Points) -> Points:
        """Return where a place of the ring is seen from her left: ``share`` 0 at the centre front, 1 at the back."""
        front, back = self.profile(height)
        angle = np.interp(share, _SHARES, _ANGLES)
        x = 0.5 * (front + back) - 0.5 * (back - front) * np.cos(angle)
        ruling = self.pattern.block.ruling_length_mm(np.clip(share, 0.0, 1.0))
        slope = np.where(height > 0.0, 0.97, 1.0)
        return np.stack((x, height * ruling * slope), axis=-1)

    def place(self, index: int, points: Points, tab: tuple[float, float, float, float] | None = None) -> Points:
        """Return where points of the panel ``index`` are seen.

        ``tab`` gives, for a part below the waist, the arounds of its middle at the waist and at its foot, the height
        of the foot, and its middle's place from the panel's front at the waist: it then hangs from there on its own.
        """
        around, height = self.pattern.block.where(points)
        length = np.interp(height, HEIGHTS, self.lengths)
        if tab is None:
            start = np.interp(height, HEIGHTS, self.fronts[index])
            along = start + (around - np.interp(height, HEIGHTS, self.sides[index][0])) * length
            return self.seen(along / np.interp(height, HEIGHTS, self.cloth), height)
        top, foot, low, along_waist = tab
        waist = float(np.interp(0.0, HEIGHTS, self.cloth))
        middle = top + (foot - top) * np.clip(height / low, 0.0, 1.0)
        along = along_waist / waist * np.interp(height, HEIGHTS, self.ring) + (around - middle) * length
        return self.seen(along / np.interp(height, HEIGHTS, self.ring), height)

    def along_waist(self, index: int, around: float) -> float:
        """Return how far a place of the panel's waist lies from the centre front along the worn waist."""
        front = float(np.interp(0.0, HEIGHTS, self.sides[index][0]))
        start = float(np.interp(0.0, HEIGHTS, self.fronts[index]))
        return start + (around - front) * float(np.interp(0.0, HEIGHTS, self.lengths))


def depth_mm(half_girth: Points) -> Points:
    """Return the depth of an oval with twice this girth, by Ramanujan's first formula for the ellipse (1914)."""
    k = WIDE_RATIO
    return np.asarray(4.0 * half_girth / (np.pi * (3.0 * (1.0 + k) - np.sqrt((3.0 + k) * (1.0 + 3.0 * k)))))


_ANGLES = np.linspace(0.0, np.pi, 721)
_STEPS = np.hypot(np.sin(_ANGLES), WIDE_RATIO * np.cos(_ANGLES))
_RUN = np.concatenate(([0.0], np.cumsum(0.5 * (_STEPS[1:] + _STEPS[:-1]))))
_SHARES = _RUN / _RUN[-1]
