"""A first recipe from a half block with lines drawn on it by hand: a top edge, a hem, and whatever else has a name as seams.

The block itself is read as any traced block is (:mod:`fanblock.block.from_drawing`). What else is drawn is brought into its
frame, put as around and height, and told through the fewest points by which it is drawn where it was.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from types import MappingProxyType

import numpy as np

from fanblock.adopting.feet import feet, followed, sorted_unique
from fanblock.adopting.outlines import Said, crossing_points
from fanblock.adopting.placing import Motion, rigid, sampled
from fanblock.adopting.seams import AT_WAIST, seam_points
from fanblock.adopting.sorting import main_line
from fanblock.adopting.targets import Target
from fanblock.adopting.wording import new_position
from fanblock.block.from_drawing import BUST, LINES, WAIST, Tracing, read_tracing
from fanblock.draft.model import HEM_EDGE, TOP_EDGE, Draft, Line, SeamLine
from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.geometry.splines import monotone
from fanblock.make import run_steps
from fanblock.pattern.model import HEM, TOP
from fanblock.problems import GeometryError, Place, Problem
from fanblock.recipe.bases import Base, shipped_base
from fanblock.recipe.explain import quoted
from fanblock.recipe.model import FORMATS
from fanblock.recipe.phrase import NAME_REMEDY, is_name
from fanblock.recipe.reading import read_source
from fanblock.recipe.words import position_text
from fanblock.steps.table import BY_NAME
from fanblock.terms import LANDMARK_AROUNDS, LANDMARK_HEIGHTS, Around, Height, Position
from fanblock.tracing.bare import plain_name, read_elements
from fanblock.tracing.lines import SHAPES
from fanblock.tracing.named import NamedLine, is_automatic, named_lines
from fanblock.units import shown
from fanblock.wearer.body import Body

OF_THE_SHEET = ("block-", "test-square-", "long-line-")
"""How the ids begin of what `fanblock block` draws itself, on which somebody may have drawn on."""

REACH = 0.03
"""A top edge or hem that ends nearer than this, in around, to a centre line reaches it."""

STANDS_MM = 8.0
"""A seam that ends short of the top edge or the hem by less than this ends on it, as does one that runs past it."""

BESIDE_WAIST = 0.25
"""A seam gets a point at the waist when its ends lie further from it: points of a seam want a fifth of bust to waist between
them on any body."""

QUARTERS = (0.25, 0.5, 0.75)
"""The arounds at which an edge is told at least."""

EVERY = 0.01
"""Steps in height in which a drawn seam is followed."""


@dataclass(frozen=True, slots=True, eq=False)
class FirstDraft:
    """The text of a first recipe, and what is to be told of its drawing."""

    text: str
    notes: tuple[str, ...]


Names = Mapping[str, Place]
"""What lines are called, and where they stand in the file."""


def first_recipe(data: bytes, file: str, drawing: str, name: str) -> FirstDraft:
    """Return the recipe of the lines in the SVG drawing ``data``.

    ``file`` is its name in messages, ``drawing`` what the recipe calls it. Raises GeometryError with all problems of the
    first stage that has any.
    """
    tracing = read_tracing(data, file, drawing, GeometryError)
    names = _others(data, file)
    _check_names(names)
    lines = named_lines(data, file, (*LINES, TOP_EDGE, HEM_EDGE, *names), GeometryError).by_name
    motion = _motion(tracing, lines)
    block = tracing.block(0.5)
    lengths = {
        "bust": 2.0 * block.half_bust_mm,
        "waist": 2.0 * block.half_waist_mm,
        "bust to waist": block.center_front_mm,
    }
    start = Draft(Body("the block", "shift", MappingProxyType(lengths)), block)
    draft, edges = start, dict[str, tuple[Position, ...]]()
    for chain, kind in ((TOP_EDGE, TOP), (HEM_EDGE, HEM)):
        edges[chain] = _edge(draft, chain, kind, motion.put(lines[chain].curve), lines[chain])
        draft = BY_NAME[chain].run(draft, BY_NAME[chain].options(through=edges[chain]))
    drawn = sorted(
        ((seam, _run(draft, motion.put(lines[seam].curve), lines[seam])) for seam in names),
        key=lambda one: float(np.mean(one[1][1])),
    )
    told = []
    for seam, run in drawn:
        points, below = _seam(draft, seam, *run)
        told.append((seam, points, below))
        draft = BY_NAME["seam"].run(
            draft, BY_NAME["seam"].options(name=seam, through=points, below_waist=below or None)
        )
    text = _text(name, drawing, edges, told)
    read = read_source(Base(text, "the new recipe", "", shipped_base, lambda _: (file, data)), "new")
    run_steps(start, read)
    return FirstDraft(text, tracing.notes)


def _others(data: bytes, file: str) -> Names:
    """Return the names of the lines that are neither the block's nor an outline edge, with their places: they are seams."""
    found = dict[str, Place]()
    for element in read_elements(data, file, GeometryError).all():
        if element.tag in SHAPES and not element.attributes.get("id", "").startswith(OF_THE_SHEET):
            names = [plain_name(one) for one in element.names if not is_automatic(one)]
            if names and not {*names} & {*LINES, TOP_EDGE, HEM_EDGE}:
                found.setdefault(names[0], element.place(file))
    return found


def _check_names(names: Names) -> None:
    """Refuse lines that cannot be seams under the names they have."""
    problems = []
    for name, place in names.items():
        if name in LANDMARK_AROUNDS or name in LANDMARK_HEIGHTS:
            what = f"a line is called {shown(name)}, and so is a place on every block, so no seam can have that name."
            remedy = f"Give the line another name, such as “{name} seam”, or none if it is no seam."
            problems.append(Problem("name-taken", "", what, remedy, place))
        elif not is_name(name):
            what = f"a line is called {shown(name)}, and no seam can have such a name."
            problems.append(Problem("not-a-name", "", what, NAME_REMEDY, place))
    if problems:
        raise GeometryError(problems)


def _motion(tracing: Tracing, lines: Mapping[str, NamedLine]) -> Motion:
    """Return how the drawing is brought into the block's frame; a right half is turned over by it."""
    old = np.vstack((sampled(tracing.waist), sampled(tracing.bust)))
    best: tuple[float, Motion] | None = None
    for turned, *ways in product((1.0, -1.0), repeat=3):
        flip = np.diag([turned, 1.0])
        there = np.vstack(
            [sampled(lines[line].curve)[:: int(way)] for line, way in zip((WAIST, BUST), ways, strict=True)]
        )
        motion = rigid(there @ flip, old)
        motion = Motion(motion.matrix @ flip, motion.shift)
        off = float(np.hypot(*(there @ motion.matrix.T + motion.shift - old).T).max())
        if best is None or off < best[0]:
            best = (off, motion)
    if best is None:
        raise ValueError("a block has two lines")
    return best[1]


def _edge(draft: Draft, chain: str, kind: str, curve: Curve, line: NamedLine) -> tuple[Position, ...]:
    """Return the points of the top edge or the hem; GeometryError when it does not run from front to back."""
    at, heights = draft.block.where(followed(curve))
    if at[0] > at[-1]:
        at, heights = at[::-1], heights[::-1]
    if at[0] > REACH or at[-1] < 1.0 - REACH:
        what = f"the {chain} does not reach from the center front to the center back."
        raise GeometryError(
            [Problem("drawing-short", "", what, "Draw it from one centre line to the other.", line.place)]
        )
    if np.any(np.diff(at) <= 0.0):
        what = f"the {chain} turns back on itself, from front to back."
        remedy = "Draw it so that every upright line meets it once; corners can be put into the recipe afterwards."
        raise GeometryError([Problem("drawing-doubles", "", what, remedy, line.place)])
    whole = Line(chain, kind, frozen(np.column_stack((at, heights))), chain)
    plane = Curve.through(draft.block.at(at, heights))
    target = Target(plane, feet(plane.points, plane).along, np.zeros_like(plane.points), plane.points)
    like = Height(landmark="waist" if chain == HEM_EDGE else "bust")
    said = []
    for around in (0.0, *QUARTERS, 1.0):
        position = new_position(draft, like, around, float(np.interp(around, at, heights)))
        landmark = {0.0: Around(landmark="center front"), 1.0: Around(landmark="center back")}.get(around)
        position = position if landmark is None else Position(landmark, position.height)
        said.append(Said(position, position))
    step = BY_NAME[chain]
    points = crossing_points(
        draft, said, target, whole, lambda through: main_line(step.run(draft, step.options(through=through)), chain)
    )
    return tuple(one.words for one in points)


def _run(draft: Draft, curve: Curve, line: NamedLine) -> tuple[Points, Points]:
    """Return heights, rising, and arounds of a drawn seam; GeometryError when it does not run from top to bottom."""
    around, height = draft.block.where(followed(curve))
    if height[0] > height[-1]:
        around, height = around[::-1], height[::-1]
    if np.any(np.diff(height) <= 0.0):
        what = f"the line {shown(line.name)} does not run from top to bottom, so it is no seam."
        remedy = "Draw it so that every level meets it once, or take its name away."
        raise GeometryError([Problem("drawing-seam", "", what, remedy, line.place)])
    return sorted_unique(height, around)


def _seam(draft: Draft, name: str, heights: Points, arounds: Points) -> tuple[tuple[Position, ...], str]:
    """Return the points of a seam from the top down, and what it is below the waist."""
    steps = np.append(np.arange(heights[0], heights[-1], EVERY), heights[-1])
    old = SeamLine(
        name, monotone(steps, np.interp(steps, heights, arounds)), float(steps[-1]), float(steps[0]), 1.0, (), 0.0, ""
    )
    ends = [
        _end(draft, chain, float(arounds[index]), float(heights[index]))
        for chain, index in ((TOP_EDGE, -1), (HEM_EDGE, 0))
    ]
    places = [ends[0], ends[1]]
    if old.low < -BESIDE_WAIST and old.top > BESIDE_WAIST:
        places.insert(1, Height(landmark="waist"))
    said = [
        Said(position, position)
        for position in (Position(Around(ratio=round(float(arounds[-1]), 4)), height) for height in places)
    ]
    below = "sewn" if old.low < -AT_WAIST else ""
    step = BY_NAME["seam"]
    points = seam_points(
        draft,
        said,
        None,
        old,
        lambda through: step.run(draft, step.options(name=name, through=through, below_waist=below or None)),
    )
    return tuple(one.words for one in points), below


def _end(draft: Draft, chain: str, around: float, height: float) -> Height:
    inward = (draft.height_of(chain, around) - height) * draft.block.ruling_length_mm(around)
    if (inward if chain == TOP_EDGE else -inward) < STANDS_MM:
        return Height(landmark=chain)
    return new_position(draft, Height(landmark="bust"), around, height).height


def _text(
    name: str,
    drawing: str,
    edges: dict[str, tuple[Position, ...]],
    seams: Sequence[tuple[str, tuple[Position, ...], str]],
) -> str:
    lines = [
        f"# Made from the lines of {' '.join(drawing.split())}. Change what it makes, and name its pieces, from front to back.",
        f"recipe: {FORMATS[-1]}",
        f"name: {quoted(name)}",
        "makes: bodice",
        f"block: {{from: {quoted(drawing)}}}",
        "steps:",
    ]
    for chain, points in edges.items():
        lines += [f"  - {chain}:", "      through:", *(f"        - {position_text(point)}" for point in points)]
    for seam, points, below in seams:
        lines += ["  - seam:", f"      name: {quoted(seam)}", "      through:"]
        lines += [f"        - {position_text(point)}" for point in points]
        lines += ["      share: 1", *([f"      below waist: {below}"] if below else [])]
    panels = ", ".join(f"piece {number}" for number in range(1, len(seams) + 2))
    lines += [f"  - separate: {{panels: [{panels}]}}", "  - cut: {outer: 2}", "sources:"]
    lines.append('  - "from memory: lines drawn by hand on a block"')
    return "\n".join(lines) + "\n"
