"""An invented pattern, drawn by hand from a plain fan: three panels of back-lacing stays for the ferrywoman."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from types import MappingProxyType

import numpy as np
import shapely
from scipy.interpolate import PchipInterpolator

from fanblock.block.fan import fan
from fanblock.block.ruled import Block
from fanblock.geometry import region
from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.pattern.model import (
    CENTER,
    HEM,
    LACING,
    SEAM,
    SLIT,
    TOP,
    Edge,
    EdgeName,
    EndShift,
    Finding,
    Girth,
    Notch,
    Note,
    Panel,
    Pattern,
    Seam,
    Slit,
    Title,
)
from fanblock.wearer.body import Body

Line = Callable[[Points], Points]

GAP = 50.0
TOP_MM = PchipInterpolator([0.0, 0.1, 0.22, 0.36, 0.56, 0.68, 0.8, 1.0], [212, 210, 196, 160, 164, 205, 238, 262])
HEM_MM = PchipInterpolator([0.0, 0.05, 0.16, 1.0], [-118, -112, -82, -82])
SEAMS = (  # name, letter, top / waist / hem arounds, take, spring
    ("side front", "A", (0.24, 0.14, 0.17), 6.0, 20.0),
    ("side back", "B", (0.70, 0.68, 0.70), 6.0, 24.0),
)
PANELS = ("front", "side", "back")


def sample(reduction_mm: float = 24.0, sound: bool = True, hostile: str = "") -> Pattern:
    """Return the invented pattern; ``hostile`` puts such a name on the wearer and the garment."""
    block = fan(355.0, 460.0, 180.0)
    takes = reduction_mm / 4.0
    heights = np.linspace(-0.9, 1.7, 521)
    sides: list[tuple[str, str, str, float, Points, Points]] = []
    for name, letter, at, _, spring in SEAMS:
        middle = PchipInterpolator([-0.9, -0.46, 0.0, 1.1, 1.7], [at[2], at[2], at[1], at[0], at[0]])(heights)
        take = _take(heights, takes, spring)
        half = 0.5 * take / block.level_length_mm(heights)
        sides.append((name, letter, SEAM, takes, middle - half, middle + half))
    lacing = 1.0 - 0.5 * GAP / np.array([block.level_length_mm(float(v)) for v in heights])
    zero = np.zeros_like(heights)
    lefts = [("center front", "", CENTER, zero), *[(s[0], s[1], s[2], s[5]) for s in sides]]
    rights = [*[(s[0], s[1], s[2], s[4]) for s in sides], ("lacing edge", "", LACING, lacing)]
    panels = tuple(
        _panel(block, number, name, heights, left, right)
        for number, (name, left, right) in enumerate(zip(PANELS, lefts, rights, strict=True), start=1)
    )
    girths = tuple(_girth(block, panels, v, lacing, heights, takes) for v in np.linspace(0.0, 1.0, 11))
    seams = tuple(
        Seam(
            name,
            letter,
            EdgeName(PANELS[i], name),
            EdgeName(PANELS[i + 1], name),
            EndShift(0.4, 205.0, 3.0, 6.0),
        )
        for i, (name, letter, *_) in enumerate(SEAMS)
    )
    findings = (
        Finding("girth-waist", "girth", "holds", 0.02, 0.5, "mm", "The waist adds up to 686 mm, 50 mm of it gap."),
        Finding("mates", "seams", "holds", 0.03, 0.1, "mm", "Mated edges agree above the waist."),
        Finding("hip-spread", "hips", "warns", 16.0, 15.0, "mm", "The widest tab must open 16 mm over the hip."),
    )
    if not sound:
        findings += (Finding("mates-B", "seams", "fails", 1.3, 0.1, "mm", "Seam B: its edges differ by 1.3 mm."),)
    return Pattern(
        title=Title(
            garment=hostile or "Trial stays, three panels a side",
            wearer=hostile or "ferrywoman",
            recipe="trial-stays",
            makes="stays",
            period="1770-1785",
            draft=2,
            code="7F3A",
        ),
        body=_body(hostile),
        block=block,
        panels=panels,
        seams=seams,
        girths=girths,
        lines=MappingProxyType({"waist": block.level(0.0), "bust": block.level(1.0)}),
        dials=(("gap", "50.0 mm", 50.0), ("reduction", "3 %", 0.03), ("tab depth", "82.0 mm", 82.0)),
        gap_mm=GAP,
        notes=(
            Note("guess", "Underarm was not measured: 190 mm is half the back length."),
            Note("body", "At your underbust the cone is 31 mm looser than you."),
            Note("toile", "Look whether the top edge gapes at the centre front."),
        ),
        findings=findings,
    )


def _body(hostile: str) -> Body:
    return Body(
        name=hostile or "ferrywoman",
        over="shift",
        lengths={
            "bust": 920.0,
            "waist": 710.0,
            "bust to waist": 155.0,
            "held bust to waist": 180.0,
            "underarm": 190.0,
            "back length": 395.0,
            "hip": 990.0,
            "hip depth": 190.0,
        },
        guessed={"underarm": "half the back length"},
        figure=(),
        side_ratio=0.5,
        units="cm",
        taken_on="2026-04-12",
    )


def _take(v: Points, take: float, spring: float) -> Points:
    smooth = np.clip(1.0 - v / 1.0, 0.0, 1.0)
    above = take * smooth**2 * (3.0 - 2.0 * smooth)
    down = np.clip(-v / 0.46, 0.0, 2.0)
    eased = np.where(down < 1 / 3, 1.5 * down**2 * 1.2, 0.2 + 1.2 * (down - 1 / 3))
    return np.where(v >= 0.0, above, take - (take + spring) * eased)


def _panel(
    block: Block,
    number: int,
    name: str,
    heights: Points,
    left: tuple[str, str, str, Points],
    right: tuple[str, str, str, Points],
) -> Panel:
    def meet(side: Points, edge: Callable[[Points], Points]) -> float:
        wanted = edge(side) / block.ruling_length_mm(side)
        sign = np.flatnonzero(np.diff(np.sign(heights - wanted)))[0]
        return float(np.interp(0.0, (heights - wanted)[sign : sign + 2], heights[sign : sign + 2]))

    def upright(side: Points, low: float, high: float) -> Curve:
        v = np.linspace(low, high, 60)
        return Curve(frozen(block.at(np.interp(v, heights, side), v)))

    def across(u0: float, u1: float, edge: Callable[[Points], Points], v0: float, v1: float) -> Curve:
        u = np.linspace(u0, u1, 60)
        v = edge(u) / block.ruling_length_mm(u)
        v[0], v[-1] = v0, v1
        return Curve(frozen(block.at(u, v)))

    def around(side: Points, v: float) -> float:
        return float(np.interp(v, heights, side))

    low_l, low_r = meet(left[3], HEM_MM), meet(right[3], HEM_MM)
    top_l, top_r = meet(left[3], TOP_MM), meet(right[3], TOP_MM)
    edges: list[Edge] = [
        Edge("hem", HEM, across(around(left[3], low_l), around(right[3], low_r), HEM_MM, low_l, low_r))
    ]
    index = PANELS.index(name)
    if right[2] == SEAM:
        edges.append(Edge(f"{right[0]} below", SLIT, upright(right[3], low_r, 0.0)))
        mate = EdgeName(PANELS[index + 1], right[0])
        edges.append(Edge(right[0], SEAM, upright(right[3], 0.0, top_r), mate, right[1], True, 0.0))
    else:
        edges.append(Edge(right[0], right[2], upright(right[3], low_r, top_r)))
    edges.append(Edge("top edge", TOP, across(around(right[3], top_r), around(left[3], top_l), TOP_MM, top_r, top_l)))
    if left[2] == SEAM:
        curve = upright(left[3], 0.0, top_l).reversed()
        mate = EdgeName(PANELS[index - 1], left[0])
        edges.append(Edge(left[0], SEAM, curve, mate, left[1], True, curve.length_mm))
        edges.append(Edge(f"{left[0]} below", SLIT, upright(left[3], low_l, 0.0).reversed()))
    else:
        edges.append(Edge(left[0], left[2], upright(left[3], low_l, top_l).reversed()))

    shares = {"front": (), "side": (0.2, 0.4, 0.6, 0.8), "back": (0.5,)}[name]
    slits = []
    for share in shares:
        u = around(left[3], 0.0) * (1 - share) + around(right[3], 0.0) * share
        end = edges[0].curve.at(edges[0].curve.length_mm * share)
        slits.append(Slit(frozen(block.at(u, 0.0)), frozen(end)))
    notches = [notch for edge in edges if edge.kind == SEAM for notch in _notches(edge)]
    middle = 0.5 * (around(left[3], 0.0) + around(right[3], 0.0))
    foot = block.at(middle, 0.0)
    direction = block.ruling_direction(middle) if name == "side" else block.ruling_direction(0.0 if index == 0 else 1.0)
    panel = Panel(
        name=name,
        number=number,
        edges=tuple(edges),
        slits=tuple(slits),
        notches=tuple(notches),
        grain=(frozen(foot - 45.0 * direction), frozen(foot + 120.0 * direction)),
        allowances=MappingProxyType({edge.name: 15.0 if edge.kind == SEAM else 0.0 for edge in edges}),
        cuts=(("outer", 2), ("strength", 4), ("lining", 2)),
    )
    loop = panel.loop()
    levels = {word: _parts(block, loop, v) for word, v in (("waist", 0.0), ("bust", 1.0))}
    return replace(panel, levels=MappingProxyType(levels), cut_line=Curve(frozen(_cut_line(panel))))


def _notches(edge: Edge) -> list[Notch]:
    count = ord(edge.letter) - ord("A") + 1
    up = edge.curve.length_mm * 0.4
    at = up if edge.waist_at_mm == 0.0 else edge.curve.length_mm - up
    found = []
    for where, ticks, kind in ((edge.waist_at_mm or 0.0, 1, "waist"), (at, count, "seam")):
        tangent = edge.curve.tangent_at(where)
        inward = frozen([-tangent[1], tangent[0]])
        found.append(Notch(edge.name, where, ticks, kind, frozen(edge.curve.at(where)), inward))
    return found


def _parts(block: Block, loop: Points, height: float) -> tuple[Curve, ...]:
    line = shapely.LineString(block.level(height, -0.02, 1.02).points)
    cut = line.intersection(shapely.Polygon(loop))
    parts = [cut] if cut.geom_type == "LineString" else list(cut.geoms)
    return tuple(Curve(frozen(np.asarray(part.coords))) for part in parts if part.length > 0.01)


def _cut_line(panel: Panel) -> Points:
    strips = [panel.loop()]
    for edge in panel.edges:
        width = panel.allowances[edge.name]
        if width:
            side = shapely.LineString(edge.curve.points).buffer(width, cap_style="flat")
            strips.append(np.asarray(side.exterior.coords)[:-1])
    return region.united(strips)


def _girth(block: Block, panels: tuple[Panel, ...], v: float, lacing: Points, heights: Points, takes: float) -> Girth:
    whole = float(block.level_length_mm(float(v)))
    parts = sum(curve.length_mm for panel in panels for curve in _parts(block, panel.loop(), float(v)))
    gap = (1.0 - float(np.interp(v, heights, lacing))) * whole
    taken = float(_take(np.array([v]), takes, 0.0)[0])
    each = tuple((name, taken) for name, *_ in SEAMS)
    name = {0: "waist", 100: "bust"}.get(round(v * 100), f"{v:.0%}".replace("%", " %"))
    open_mm = whole - 2 * taken - gap - parts
    waist = name == "waist"
    return Girth(
        name,
        float(v),
        whole,
        2 * taken,
        each,
        gap,
        parts,
        open_mm,
        710.0 if waist else None,
        0.0,
        24.0 if waist else 0.0,
        base_mm=710.0 if waist else None,
    )
