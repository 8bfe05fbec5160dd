"""One piece as it is printed: upright by its grain, with every line and word that keeps it from being mixed
up.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from fanblock.geometry import region
from fanblock.geometry.bezier import polyline
from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.geometry.meet import crossings, points_at
from fanblock.pattern.model import FOLD, Notch, Panel, Pattern, Slit
from fanblock.sheet import boning
from fanblock.sheet.clothlayers import on_cloth
from fanblock.sheet.drawing import Group, Stroke, Words
from fanblock.sheet.ink import ink_points
from fanblock.sheet.labels import wishes
from fanblock.sheet.overbones import OverBones, among_channels, rows_drawn
from fanblock.sheet.placing import Placed, flag, place_all, place_along
from fanblock.sheet.space import Box, Space
from fanblock.sheet.strokes import Drawn, strokes
from fanblock.sheet.upright import slit_points, upright

BAR_IN_MM, BAR_OUT_MM = 9.0, 6.0
"""How far a waist bar runs inside the stitch line, and at least outside."""
TICK_STEP_MM = 2.6
MARK_CLEAR_MM = 1.5
"""Ticks nearer than this to a line drawn on a piece are taken for part of it."""
SLIT_BAR_MM = 7.0
GRAIN_CLEAR_MM = 8.0
"""How far a grain arrow keeps from outline and slits, where it can."""
GRAIN_SHIFTS_MM = (0.0, 6.0, -6.0, 12.0, -12.0, 18.0, -18.0, 26.0, -26.0, 36.0, -36.0)
"""How far sideways a grain arrow may be slid, in order of liking."""
AMONG_CHANNELS_MM = tuple(sorted((float(by) for by in range(-40, 41)), key=abs))
"""The same among channels, of which the best ``MOST_PLACES`` are looked at."""
MOST_PLACES = 8
AMONG_CHANNELS_CLEAR_MM = 4.0
"""How far an arrow among channels keeps from outline and slits."""
GRAIN_SHARES = (1.0, 0.85, 0.7, 0.55, 0.4)
"""To which share of its length it may be shortened."""


@dataclass(frozen=True, eq=False)
class Piece:
    """A printed piece in its own frame, lower left corner at the origin.

    ``group`` is what is drawn; ``outline`` the ring around all of it, flag included; ``ground`` the ring of
    the cut line; ``labels`` what is written, each with its box; ``space`` what is still free inside the stitch line, ``strip``
    what is free in the allowances, ``over`` where words may stand over channels, on a piece that has some.
    """

    panel: Panel
    group: Group
    outline: Points
    ground: Points
    labels: tuple[Placed, ...]
    space: Space
    strip: Space
    over: OverBones | None

    @cached_property
    def ink(self) -> Points:
        """Where the piece puts ink (see :func:`fanblock.sheet.ink.ink_points`)."""
        return ink_points((self.group,))


def piece(panel: Panel, pattern: Pattern) -> Piece:
    """Return the piece of ``panel``, turned by its grain, with all lines, marks and words."""
    return printed((panel,), pattern)[0]


def printed(panels: Sequence[Panel], pattern: Pattern, kept_free: Sequence[Sequence[Points]] = ()) -> tuple[Piece, ...]:
    """Return the piece of each of ``panels``; the curves of all are fitted together, which is faster.

    ``kept_free`` are, for each of them, lines that its words keep off besides its own, as joins of pages are.
    """
    turned = [clear_grain(upright(panel)) for panel in panels]
    drawn = strokes([_curves(panel) for panel in turned])
    kept = kept_free or [()] * len(turned)
    return tuple(_piece(*one, pattern) for one in zip(turned, drawn, kept, strict=True))


def _piece(panel: Panel, curves: Sequence[Stroke], kept: Sequence[Points], pattern: Pattern) -> Piece:
    ground = _ground(panel)
    lines = [*curves, *_slits(panel), *_notches(panel), *_grain(panel), *boning.eyelets(panel)]
    runs = [_dense(stroke) for stroke in lines]
    space = Space.within(panel.loop(), [*runs, *kept])
    beside_holes = Space.within(ground, runs)
    strip = beside_holes.less(beside_holes.stamped(kept)) if kept else beside_holes
    wanted = wishes(panel, pattern)
    over = None
    if panel.channels:
        labels, unplaced, over, strip = among_channels(panel, wanted, space, (strip, beside_holes), pattern.body.units)
        space = over.clear()
        lines += rows_drawn(panel, [label.box for label in labels])
    else:
        labels, unplaced, space = place_all(wanted, space)
        allowances, space = place_along(panel, space, strip, pattern.body.units)
        for label in allowances:
            strip, beside_holes = strip.without(label.box), beside_holes.without(label.box)
        laced, _ = boning.eyelet_numbers(panel, beside_holes)
        for label in laced:
            strip = strip.without(label.box)
        strip = strip.outside(panel.loop())
        labels += [*allowances, *laced]
    outline = ground
    beside = flag(unplaced, panel, ground)
    if beside is not None:
        labels.append(beside)
        outline = region.united([ground, *_flag_ground(beside, panel)])
    marked = {item for label in labels if _is_marked(label, panel) for item in label.items if isinstance(item, Words)}
    every = (*lines, *(item for label in labels for item in label.items))
    items = on_cloth(every, panel, pattern, marked)
    name = f"{panel.label} {panel.name}"
    return Piece(panel, Group(name, items), frozen(outline), frozen(ground), tuple(labels), space, strip, over)


def _is_marked(label: Placed, panel: Panel) -> bool:
    """Whether a label belongs to a channel or to an eyelet."""
    return label.name.startswith("eyelet ") or label.name in {boning.called(channel) for channel in panel.channels}


def _ground(panel: Panel) -> Points:
    return panel.cut_line.points if panel.cut_line is not None else panel.loop()


def _flag_ground(beside: Placed, panel: Panel) -> list[Points]:
    box = beside.box
    left = float(panel.loop()[:, 0].mean())
    lead = Box(0.5 * (left + box.x), box.y, box.x - left, 1.0)
    return [box.corners(), lead.corners()]


def _curves(panel: Panel) -> list[Drawn]:
    """The outlines, levels and marks."""
    found = []
    if panel.cut_line is not None:
        ring = np.vstack((panel.cut_line.points, panel.cut_line.points[:1]))
        found.append(Drawn(Curve(frozen(ring)), "cut", "cut line", True))
    for edge in panel.edges:
        on_fold = edge.kind == FOLD or (panel.fold and panel.fold == edge.name)
        found.append(Drawn(edge.curve, "fold" if on_fold else "stitch", edge.name))
    for name in panel.levels:
        found += [Drawn(part, "level", f"{name} level") for part in panel.levels.get(name, ())]
    found += [Drawn(mark.curve, mark.kind, mark.name) for mark in panel.marks]
    return found


def _slits(panel: Panel) -> list[Stroke]:
    """Each slit and, across its upper end, the bar that says: reinforce here."""
    found = []
    for number, slit in enumerate(panel.slits, start=1):
        found.append(Stroke(polyline(frozen([slit.start, slit.end])), "slit", f"slit {number}"))
        found.append(Stroke(polyline(_slit_bar(slit)), "mark", f"slit {number} reinforcement"))
    return found


def _slit_bar(slit: Slit) -> Points:
    x, y = (slit.end - slit.start) / np.hypot(*(slit.end - slit.start))
    across = 0.5 * SLIT_BAR_MM * np.array([-y, x])
    return frozen([slit.start - across, slit.start + across])


def _notches(panel: Panel) -> list[Stroke]:
    """The waist as a long bar across the stitch line, seam notches as ticks inward, or outward where tucks begin."""
    found = []
    for notch in panel.notches:
        edge = panel.edge(notch.edge)
        if notch.kind == "waist":
            out = max(panel.allowances.get(notch.edge, 0.0), 0.0) or (BAR_OUT_MM if edge.mate is None else 0.0)
            run = [notch.point - out * notch.inward, notch.point + BAR_IN_MM * notch.inward]
            found.append(Stroke(polyline(frozen(run)), "mark", f"waist notch {notch.edge}"))
            continue
        way = -1.0 if on_marks(panel, notch) else 1.0
        for tick, at in enumerate(ticks_of(notch), start=1):
            foot, (x, y) = edge.curve.at(at), edge.curve.tangent_at(at)
            run = [foot, foot + way * notch.tick_mm * np.array([-y, x])]
            found.append(Stroke(polyline(frozen(run)), "mark", f"notch {notch.edge} {tick}"))
    return found


def on_marks(panel: Panel, notch: Notch) -> bool:
    """Whether ticks drawn inward would be taken for lines drawn on the piece, as tucks are, and have room in the allowance."""
    if panel.allowances.get(notch.edge, 0.0) < notch.tick_mm:
        return False
    curve = panel.edge(notch.edge).curve
    for at in ticks_of(notch):
        foot, (x, y) = curve.at(at), curve.tangent_at(at)
        run = frozen([foot, foot + notch.tick_mm * np.array([-y, x])])
        if any(region.gap_of_lines_mm(run, mark.curve.points) < MARK_CLEAR_MM for mark in panel.marks):
            return True
    return False


def ticks_of(notch: Notch) -> list[float]:
    """Return how far along its edge each tick of a notch stands."""
    return [notch.at_mm + (tick - 0.5 * (notch.count - 1)) * TICK_STEP_MM for tick in range(notch.count)]


def _grain(panel: Panel) -> list[Stroke]:
    if panel.grain is None:
        return []
    start, end = panel.grain
    found = [Stroke(polyline(frozen([start, end])), "grain", "grain")]
    up = (end - start) / np.hypot(*(end - start))
    for tip, way in ((end, up), (start, -up)):
        side = np.array([-way[1], way[0]])
        head = frozen([tip, tip - 5.0 * way + 1.6 * side, tip - 5.0 * way - 1.6 * side])
        found.append(Stroke(polyline(head, closed=True), "ink", "grain arrow", True))
    return found


def clear_grain(panel: Panel) -> Panel:
    """Return the panel with its grain arrow slid sideways, and shortened if need be, to where it lies clear.

    A grain is a direction, not a place; an arrow along a seam or a slit would be taken for part of it.
    """
    if panel.grain is None:
        return panel
    start, end = panel.grain
    best = _slid(panel, _grain_places(panel, 0.5 * (start + end)))
    if panel.channels and not _off_rows(panel, best):
        every = [(share, by) for share in GRAIN_SHARES[1:] for by in AMONG_CHANNELS_MM]
        best = _slid(panel, every, off_rows=True) or best
    return panel if best is None else replace(panel, grain=(frozen(best[0]), frozen(best[1])))


Arrow = tuple[Points, Points]


def _slid(panel: Panel, places: Sequence[tuple[float, float]], off_rows: bool = False) -> Arrow | None:
    """The first of some places for a grain arrow that is clear of outline and slits, or without one the clearest.

    ``off_rows`` keeps it from lying along channels too.
    """
    if panel.grain is None:
        return None
    start, end = panel.grain
    middle = 0.5 * (start + end)
    loop = panel.loop()
    lines = [np.vstack((loop, loop[:1])), *(slit_points(slit) for slit in panel.slits)]
    best: tuple[float, Arrow] | None = None
    for share, by in places:
        for lift in (0.0, 0.3, -0.3):
            shift = np.array([by, 0.0]) + lift * (1.0 - share) * (end - start)
            run = (middle + shift + share * (start - middle), middle + shift + share * (end - middle))
            if not _stands_inside(loop, run) or (off_rows and not _off_rows(panel, run)):
                continue
            near = min(region.gap_of_lines_mm(frozen(run), line) for line in lines)
            if best is None or near > best[0] + 0.5:
                best = (near, run)
            if near >= (AMONG_CHANNELS_CLEAR_MM if panel.channels else GRAIN_CLEAR_MM):
                return run
    return None if best is None else best[1]


def _off_rows(panel: Panel, run: Arrow | None) -> bool:
    """Whether an arrow lies along no row of stitching."""
    if run is None:
        return False
    x, y = (0.5 * (run[0] + run[1])).tolist()
    return boning.room_mm(panel, x, y) >= boning.apart_mm(panel)


def _stands_inside(loop: Points, run: tuple[Points, Points]) -> bool:
    """Whether an upright line lies inside a closed loop: no side of the loop between its ends, and its foot inside."""
    (x, low), (_, high) = run
    ring = np.vstack((loop, loop[:1]))
    heights = np.sort(points_at(ring, crossings(ring, 0, float(x)))[:, 1])
    below, within = int(np.count_nonzero(heights < low)), np.count_nonzero((heights >= low) & (heights <= high))
    return bool(below % 2 and not within)


def _grain_places(panel: Panel, middle: Points) -> list[tuple[float, float]]:
    """How long an arrow may be, as a share, and how far to the side it may stand, best first; off channels if it can."""
    if not panel.channels:
        return [(share, by) for share in GRAIN_SHARES for by in GRAIN_SHIFTS_MM]
    x, y = middle.tolist()
    best = sorted(AMONG_CHANNELS_MM, key=lambda by: -boning.room_mm(panel, x + by, y))[:MOST_PLACES]
    return [(share, by) for share in GRAIN_SHARES[1:] for by in best]  # shorter: numbers stand at the channels' ends


def _dense(stroke: Stroke) -> Points:
    """The stroke as points, near enough for keeping words off it."""
    t = np.linspace(0.0, 1.0, 9)[None, :, None]
    p = stroke.beziers[:, :, None, :]
    curve = (1 - t) ** 3 * p[:, 0] + 3 * t * (1 - t) ** 2 * p[:, 1] + 3 * t**2 * (1 - t) * p[:, 2] + t**3 * p[:, 3]
    return np.asarray(curve.reshape(-1, 2))
