"""The garment seen from her left side, as it would stand on a plain form."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from fanblock.geometry import region
from fanblock.geometry.bezier import polyline
from fanblock.geometry.curve import Points, frozen
from fanblock.pattern.model import SLIT, Panel, Pattern
from fanblock.shaping.slits import with_closed_slits
from fanblock.sheet.drawing import Drawing, Group, Stroke, Words
from fanblock.sheet.font import fitted
from fanblock.sheet.hanging import skirts
from fanblock.sheet.inlets import inlets
from fanblock.sheet.seton import behind, straps
from fanblock.sheet.upright import moved_group
from fanblock.sheet.worn import CHEST, UPRIGHT_RATIO, Worn

CAPTION = "how it would stand on a plain form; not a portrait"
_FOOT_MM = 8.0
SHOULDER_MM, LEAST_PLATE_MM = 45.0, 90.0
"""How far under the nape the end of the shoulder lies, and least height of the plate that stands for the arm."""


def silhouette(pattern: Pattern, width_mm: float = 90.0, height_mm: float = 120.0) -> Drawing:
    """Return the side view from her left, centre front at the left, as large as fits the given room."""
    worn = Worn(pattern)
    form = _form(worn)
    strokes = [Stroke(_smooth(form), "body", "form", True), _arm_plate(worn), *_garment(worn)]
    points = np.vstack([stroke.beziers.reshape(-1, 2) for stroke in strokes])
    low, size = points.min(axis=0), np.ptp(points, axis=0)
    scale = float(min((width_mm - 8.0) / size[0], (height_mm - _FOOT_MM - 4.0) / size[1]))
    shift = np.array([0.5 * (width_mm - scale * size[0]), _FOOT_MM]) - scale * low
    drawn = moved_group(Group("silhouette", tuple(strokes)), (float(shift[0]), float(shift[1])), scale)
    caption = Words(fitted(CAPTION, 3.0, width_mm), 0.5 * width_mm, 2.0, 3.0, "middle")
    return Drawing("silhouette", width_mm, height_mm, (drawn, Group("silhouette words", (caption,))))


def _garment(worn: Worn) -> Iterator[Stroke]:
    bodies: list[Stroke] = []
    yield from behind(worn)
    yield from skirts(worn)
    yield from _hanging(worn)
    for index in reversed(range(len(worn.panels))):
        panel = worn.panels[index]
        bodies += _standing(worn, index)
        for part, below in _parts(panel):
            dense = _dense(part)
            tab = _tab(worn, index, dense) if below and _hangs_open(panel) else None
            ring = worn.place(index, dense, tab)
            stroke = Stroke(polyline(ring, closed=True), "paper", "tab" if below else panel.name, True)
            if below:
                yield stroke
            else:
                bodies.append(stroke)
    yield from bodies
    yield from inlets(worn)
    yield from straps(worn)
    for index, panel in enumerate(worn.panels):
        for level in panel.levels.get("waist", ()):
            yield Stroke(polyline(worn.place(index, level.points)), "grain", "waist")


def _standing(worn: Worn, index: int) -> Iterator[Stroke]:
    """The panels that stand on one at the waist, over level seams."""
    for name in (name for name, at in worn.over.items() if at == index):
        ring = worn.place(index, _dense(with_closed_slits(worn.pattern.by_name[name]).loop()))
        yield Stroke(polyline(ring, closed=True), "paper", name, True)


def _hanging(worn: Worn) -> Iterator[Stroke]:
    """The panels that hang from those at the waist, from level seams, and the tabs they are cut into."""
    for name, index in reversed(tuple(worn.under.items())):
        panel = worn.pattern.by_name[name]
        cuts = [_longer(np.array([slit.start, slit.end]), 1.0) for slit in panel.slits if not slit.name]
        for part in region.split(with_closed_slits(panel).loop(), cuts) if cuts else [panel.loop()]:
            dense = _dense(part)
            yield Stroke(
                polyline(worn.place(index, dense, _tab(worn, index, dense)), closed=True), "paper", "tab", True
            )


def _hangs_open(panel: Panel) -> bool:
    """Whether a panel's skirts are tabs, which hang each on its own: those that are sewn go round with their neighbours."""
    return bool(panel.slits) or any(edge.kind == SLIT for edge in panel.edges)


def _parts(panel: Panel) -> list[tuple[Points, bool]]:
    """The panel above the waist and its tabs below, each with whether it hangs below."""
    waists = panel.levels.get("waist", ())
    loop = with_closed_slits(panel).loop()
    if not waists:
        return [(loop, False)]
    cuts = [_longer(part.points, 2.0) for part in waists]
    cuts += [_longer(np.array([slit.start, slit.end]), 1.0) for slit in panel.slits if not slit.name]
    line = np.vstack([part.points for part in waists])
    found = []
    for ring in region.split(loop, cuts):
        if abs(region.area_mm2(ring)) < 4.0:
            continue
        middle = ring.mean(axis=0)
        nearest = line[int(np.argmin(np.hypot(*(line - middle).T)))]
        up = np.array([-(line[-1] - line[0])[1], (line[-1] - line[0])[0]])
        up = up if up[1] > 0 else -up
        found.append((ring, bool((middle - nearest) @ up < 0.0)))
    return found


def _longer(run: Points, by_mm: float) -> Points:
    first, last = run[0] - run[1], run[-1] - run[-2]
    return np.vstack((run[0] + by_mm * first / np.hypot(*first), run, run[-1] + by_mm * last / np.hypot(*last)))


def _tab(worn: Worn, index: int, ring: Points) -> tuple[float, float, float, float]:
    """Middle of a tab at the waist and at its foot, the height of the foot, and the middle's place on the waist."""
    around, height = worn.pattern.block.where(ring)
    low = float(height.min())
    top, foot = (_middle(around, height, share * low) for share in (0.02, 0.75))
    down = (0.75 - 0.02) * low
    slope = (foot - top) / down
    at_waist = top - slope * 0.02 * low
    return at_waist, at_waist + slope * low, low, worn.along_waist(index, at_waist)


def _middle(around: Points, height: Points, at: float) -> float:
    """Half way between the outermost crossings of a ring with a level."""
    above = height > at
    cross = np.flatnonzero(above != np.roll(above, -1))
    nexts = (cross + 1) % len(height)
    share = (at - height[cross]) / (height[nexts] - height[cross])
    places = around[cross] + share * (around[nexts] - around[cross])
    return float(0.5 * (places.min() + places.max())) if len(places) else float(around.mean())


def _dense(ring: Points) -> Points:
    closed = np.vstack((ring, ring[:1]))
    steps = np.hypot(*np.diff(closed, axis=0).T)
    run = np.concatenate(([0.0], np.cumsum(steps)))
    at = np.linspace(0.0, run[-1], int(run[-1] / 4.0) + 8)[:-1]
    keep = np.unique(np.concatenate((at, run[:-1])))
    return np.stack((np.interp(keep, run, closed[:, 0]), np.interp(keep, run, closed[:, 1])), axis=1)


def _form(worn: Worn) -> Points:
    """The outline of a dressmaker's form, clockwise from the foot of its back: hips, back, neck, chest, front.

    In front it reaches up to the garment's edge, so that nothing stands off it.
    """
    ruling = worn.ruling_mm
    behind, before = (np.linspace(-250.0 / ruling, top, 60) for top in (CHEST, max(CHEST, worn.front_top)))
    back, front = worn.profile(behind)[1], worn.profile(before)[0]
    nape = _nape(worn)
    blade, chest = float(back[-1]), float(worn.profile(np.array(1.0))[0])
    deep = blade - chest
    top = float(behind[-1]) * ruling * UPRIGHT_RATIO
    prow, edge = float(front[-1]), float(before[-1]) * ruling * UPRIGHT_RATIO
    rise, above = nape - top, nape - edge
    neck = blade - 0.17 * deep
    throat = neck - 0.42 * deep
    spine = [
        (blade + 0.5, top + 0.3 * rise),
        (blade - 0.045 * deep, top + 0.7 * rise),
        (neck + 4.0, nape - 4.0),
    ]
    stump = [
        (neck - 3.0, nape + 30.0),
        (neck - 5.0, nape + 58.0),
        (throat + 6.0, nape + 46.0),
        (throat + 4.0, nape + 12.0),
    ]
    breast = [
        (throat - 6.0, nape - 34.0),
        (0.45 * throat + 0.55 * prow, edge + 0.36 * above),
        (prow + 0.03 * deep, edge + 0.07 * above),
    ]
    return np.vstack(
        (
            np.stack((back - _inset(behind), behind * ruling * UPRIGHT_RATIO), axis=1),
            np.array(spine + stump + breast),
            np.stack((front + _inset(before), before * ruling * UPRIGHT_RATIO), axis=1)[::-1],
        )
    )


def _inset(heights: Points) -> Points:
    """How far the form lies inside the garment's outline: a hair, and nothing below the waist."""
    return np.where(heights > -0.1, 1.5, 0.0)


def _nape(worn: Worn) -> float:
    return float(worn.pattern.body.lengths.get("back length", 400.0))


def _arm_plate(worn: Worn) -> Stroke:
    """The plate that closes a form where the arm would be, from under the arm to the shoulder."""
    front, back = (float(side) for side in worn.profile(np.array(1.0)))
    nape = _nape(worn)
    low = UPRIGHT_RATIO * worn.pattern.body.lengths.get("underarm", 0.5 * nape)
    high = max(nape - SHOULDER_MM, low + LEAST_PLATE_MM)
    half = 0.5 * (high - low)
    middle = np.array([back - 0.45 * (back - front), low + half])
    turn = np.linspace(0.0, 2.0 * np.pi, 73)[:-1]
    ring = middle + np.stack((0.5 * half * np.cos(turn) + 0.12 * half * np.sin(turn), half * np.sin(turn)), axis=1)
    return Stroke(polyline(frozen(ring), closed=True), "body", "arm plate", True)


def _smooth(ring: Points) -> Points:
    """The ring as cubics with Catmull-Rom handles, sharp where it was cut off at the foot."""
    before, after = np.roll(ring, 1, axis=0), np.roll(ring, -1, axis=0)
    slope = 0.5 * (after - before)
    slope[0], slope[-1] = ring[1] - ring[0], ring[-1] - ring[-2]
    reach = np.minimum(np.hypot(*(after - ring).T), np.hypot(*(ring - before).T))
    size = np.maximum(np.hypot(*slope.T), 1.0)
    slope = slope / size[:, None] * np.minimum(size, reach)[:, None]
    runs = np.stack((ring[:-1], ring[:-1] + slope[:-1] / 3.0, ring[1:] - slope[1:] / 3.0, ring[1:]), axis=1)
    return frozen(np.concatenate((runs, polyline(np.array([ring[-1], ring[0]])))))
