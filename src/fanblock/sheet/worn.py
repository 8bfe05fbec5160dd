"""How a garment would stand when worn on a plain form: every place of the flat panels as a place around the body.

Each level of the garment is taken as a ring about an oval that is 1.35 times as wide as it is deep, its length that of
the cloth and the gap on that level. The back of the form stands nearly upright and the front leans out, as stays do.
Above the bust the form grows no wider, below the waist it swells to the hip. This is a picture, not a fitting.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from fanblock.geometry.curve import Points
from fanblock.pattern.model import ARMHOLE, CENTER, FOLD, OPEN_KINDS, SEAM, SHOULDER, SLIT, Panel, Pattern
from fanblock.sheet.storeys import is_at_waist, storeys
from fanblock.skirts.folded import folded

WIDE_RATIO = 1.35
BACK_RATIO = 0.22
"""Share of what the bust is deeper than the waist that lies behind; the rest makes the front lean out."""
HIP_BACK_RATIO = 0.62
PROW_MM, FADE = 60.0, 0.25
"""How far above the bust the front may go on straight; and over which share of the ruling it falls back from there."""
BOUNDS = (SEAM, CENTER, *sorted(OPEN_KINDS), FOLD, SLIT)
CHEST, UPRIGHT_RATIO = 1.12, 0.97
"""Height above which a garment with armholes leans in to the shoulders; and how much of a length stands upright."""
NECK = 0.12
"""Share of the half round, from either centre, over which a neckline leaves the shoulder for throat or nape."""
HEIGHTS = np.linspace(-1.4, 2.4, 191)


@dataclass(frozen=True, eq=False)
class Worn:
    """The garment of one pattern on its form. Heights are shares of the way from waist to bust."""

    pattern: Pattern

    @cached_property
    def panels(self) -> tuple[Panel, ...]:
        """The panels that reach the waist, front to back: those that go round the body side by side."""
        cut = [folded(panel) for panel in self.pattern.panels if not panel.added]
        ordered = sorted(cut or self.pattern.panels, key=lambda panel: panel.number)
        around = tuple(panel for panel in ordered if is_at_waist(panel))
        return around or tuple(ordered)

    @cached_property
    def over(self) -> Mapping[str, int]:
        """The panels that stand on these over level seams, by name, with the number of the one they stand on."""
        return storeys(self.pattern, self.panels)[0]

    @cached_property
    def under(self) -> Mapping[str, int]:
        """The panels that hang from these from level seams, by name, with the number of the one they hang from."""
        return storeys(self.pattern, self.panels)[1]

    def _column(self, index: int) -> list[Panel]:
        """The panel of a number and all that stand on it."""
        return [self.panels[index], *(self.pattern.by_name[name] for name, at in self.over.items() if at == index)]

    @cached_property
    def sides(self) -> tuple[tuple[Points, Points], ...]:
        """For each panel, the around of its front and of its back side at every one of ``HEIGHTS``."""
        columns = [self._column(index) for index in range(len(self.panels))]
        return tuple((self._side(column, -1.0), self._side(column, 1.0)) for column in columns)

    def _side(self, column: list[Panel], way: float) -> Points:
        runs = []
        for edge in (edge for panel in column for edge in panel.edges if not edge.across):
            rise = float(edge.curve.end[1] - edge.curve.start[1])
            if edge.kind in BOUNDS and way * rise > 0.4 * edge.curve.length_mm:
                runs.append(edge.curve.points)
        points = np.vstack(runs) if runs else column[0].loop()
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
        gaps = [self._gap_behind(panel) for panel in self.panels]
        widths = np.array(
            [(back - front) * self.lengths + gap for (front, back), gap in zip(self.sides, gaps, strict=True)]
        )
        start = self.sides[0][0] * self.lengths
        before = np.cumsum(widths, axis=0) - widths
        return np.asarray(start + before)

    def _gap_behind(self, panel: Panel) -> float:
        """How wide the opening stands that a panel's back edge is laced across, if it is."""
        rising = {edge.opens_at for edge in panel.edges if edge.curve.end[1] > edge.curve.start[1]} - {""}
        return sum(opening.width_mm for opening in self.pattern.openings if opening.at in rising)

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
        straight = -waist - (1.0 - BACK_RATIO) * (bust - waist) * np.minimum(height, self.front_top)
        fallen = np.clip((height - self.front_top) / FADE, 0.0, 1.0)
        front = np.where(height < 0.0, back - depth, straight + fallen * (back - depth - straight))
        return front, back

    @cached_property
    def front_top(self) -> float:
        """How high the front goes on straight: to the garment's edge at the centre front, never far above the bust."""
        if self.has_armholes:
            return 1.0
        around, height = self.pattern.block.where(np.vstack([panel.loop() for panel in self._column(0)]))
        edge = float(np.max(height, where=around < around.min() + 0.05, initial=1.0))
        return min(edge, 1.0 + PROW_MM / self.ruling_mm)

    def seen(self, share: Points, height: Points) -> Points:
        """Return where a place of the ring is seen from her left: ``share`` 0 at the centre front, 1 at the back."""
        front, back = self.profile(height)
        angle = np.interp(share, _SHARES, _ANGLES)
        x = 0.5 * (front + back) - 0.5 * (back - front) * np.cos(angle)
        ruling = self.pattern.block.ruling_length_mm(np.clip(share, 0.0, 1.0))
        slope = np.where(height > 0.0, UPRIGHT_RATIO, 1.0)
        seen = np.stack((x, height * ruling * slope), axis=-1)
        return self._over_shoulder(seen, np.asarray(share)) if self.has_armholes else seen

    @cached_property
    def has_armholes(self) -> bool:
        """Whether the garment goes up round the arms, and so over the shoulders."""
        return any(edge.kind == ARMHOLE for panel in self.pattern.panels for edge in panel.edges)

    @cached_property
    def tops(self) -> tuple[float, float]:
        """How high front and back stand at the shoulder: their shoulders' upper ends, where they have some."""
        lengths = self.pattern.body.lengths
        nape = lengths.get("back length", 400.0)
        tops = [UPRIGHT_RATIO * lengths.get("front length", nape + 40.0), nape]
        ends = [
            edge.curve.points
            for index in range(len(self.panels))
            for panel in self._column(index)
            for edge in panel.edges
            if edge.kind == SHOULDER and edge.mate and not self.pattern.by_name[edge.mate.panel].added
        ]
        if ends:
            around, height = self.pattern.block.where(np.vstack(ends))
            up = height * self.pattern.block.ruling_length_mm(around) * UPRIGHT_RATIO
            sides = [up[around < 0.5], up[around >= 0.5]]
            tops = [float(side.max()) if len(side) else top for side, top in zip(sides, tops, strict=True)]
        return tops[0], tops[1]

    def _over_shoulder(self, seen: Points, around: Points) -> Points:
        """Return places above the chest drawn in to the shoulder, and at the centres to throat and nape.

        Front and back reach them at lengths of their own.
        """
        chest, blade = (float(side) for side in self.profile(np.array(CHEST)))
        low = CHEST * self.ruling_mm * UPRIGHT_RATIO
        nape = self.pattern.body.lengths.get("back length", 400.0)
        in_front = around < 0.5
        top = np.where(in_front, *self.tops)
        share = np.clip((seen[..., 1] - low) / (top - low), 0.0, 1.0)
        to_center = np.clip(1.0 - np.minimum(around, 1.0 - around) / NECK, 0.0, 1.0)
        neck = blade - (0.38 + np.where(in_front, 0.21, -0.21) * to_center) * (blade - chest)
        x = seen[..., 0] + (neck - seen[..., 0]) * share ** np.where(in_front, 1.3, 1.3 + 1.7 * to_center)
        y = np.where(share > 0.0, low + (nape + 6.0 - low) * share, seen[..., 1])
        return np.stack((x, y), axis=-1)

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
