"""The top edge and the hem, moved: new points for them, the fewest by which the line is drawn where the maker drew it."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from fanblock.adopting.feet import feet, sorted_unique
from fanblock.adopting.placing import KEPT_MM
from fanblock.adopting.targets import Target
from fanblock.adopting.wording import around_words, height_words, new_position
from fanblock.block.ruled import Block
from fanblock.draft.corners import EdgeSpec
from fanblock.draft.model import AROUND, HEIGHT, Draft, Line
from fanblock.draft.places import place_of
from fanblock.geometry.curve import Curve, Points
from fanblock.geometry.meet import crossings, meetings, point_at, points_at
from fanblock.terms import Around, Height, Position, Share

FIT_MM = 0.3
"""A line drawn anew that keeps this near to where the maker drew it is that line: a pencil line."""

MOST_ADDED = 12
"""Most points that are added to a line: with more of them a recipe is a tracing, and good for one body alone."""

APART = 0.03
"""Points of an edge that crosses the draft are added no nearer than this in around."""

APART_MM = 12.0
"""Points of a named edge are added no nearer than this."""

OPEN_CORNER_MM = 0.5
"""Two edges whose ends lie nearer than this meet in a corner."""

MEET_MM = 50.0
"""Two edges that were drawn apart are carried on to meet in a corner no further than this from their ends."""

RULED_MM = 0.5
"""A straight edge whose drawing bends by less stays straight: a ruler laid by hand is no truer."""

LEANS = 0.7
"""A line whose direction has more than this of the ruling's runs up rather than along: it leans 45° and more."""


@dataclass(frozen=True, slots=True)
class Said:
    """What a recipe says of a place, with its dials and with them set."""

    words: Position
    set: Position


def line_of(block: Block, line: Line) -> Curve:
    """Return a line of a draft in the plane."""
    return Curve.through(block.at(line.points[:, AROUND], line.points[:, HEIGHT]))


def crossing_points(
    before: Draft,
    said: Sequence[Said],
    target: Target,
    old: Line,
    draw: Callable[[tuple[Position, ...]], Line],
) -> tuple[Said, ...]:
    """Return the points of a line that is one smooth curve over around; ``draw`` draws it through points.

    A point that was not moved keeps its words. Where the curve would stand off the line that was drawn, points are added.
    """
    block = before.block
    at, heights = sorted_unique(*block.where(target.points))
    shift = heights - np.interp(at, old.points[:, AROUND], old.points[:, HEIGHT])

    def wanted(around: Points) -> Points:
        return np.asarray(
            np.interp(around, old.points[:, AROUND], old.points[:, HEIGHT]) + np.interp(around, at, shift)
        )

    points: list[tuple[float, Said]] = []
    for one in said:
        around, height = place_of(before, one.set)
        new = float(wanted(np.array([around]))[0])
        if abs(new - height) * block.ruling_length_mm(around) > KEPT_MM:
            words = replace(one.words, height=height_words(before, one.set.height, around, new))
            one = Said(words, replace(words, around=one.set.around))
        points.append((around, one))
    for _ in range(MOST_ADDED):
        drawn = draw(tuple(one.set for _, one in points))
        inside = drawn.points[(drawn.points[:, AROUND] >= at[0]) & (drawn.points[:, AROUND] <= at[-1])]
        off = np.abs(inside[:, HEIGHT] - wanted(inside[:, AROUND])) * block.ruling_length_mm(inside[:, AROUND])
        near = np.abs(inside[:, AROUND, None] - np.array([around for around, _ in points])).min(axis=1)
        off = np.where(near < APART, 0.0, off)
        worst = int(np.argmax(off))
        if off[worst] < FIT_MM:
            break
        around = round(float(inside[worst, AROUND]), 3)
        like = min(points, key=lambda one: abs(one[0] - around))[1].set.height
        position = new_position(before, like, around, float(wanted(np.array([around]))[0]))
        points = sorted([*points, (around, Said(position, position))], key=lambda one: one[0])
    return tuple(one for _, one in points)


@dataclass(frozen=True, slots=True)
class SaidEdge:
    """A named edge as a recipe says it, with its dials and with them set."""

    words: EdgeSpec
    set: EdgeSpec


def chain_edges(
    before: Draft,
    chain: str,
    said: Sequence[SaidEdge],
    targets: Mapping[str, Target],
    draw: Callable[[tuple[EdgeSpec, ...]], Draft],
) -> tuple[tuple[SaidEdge, ...], tuple[str, ...]]:
    """Return the named edges of an outline with new points, and what is to be told of corners that no longer meet."""
    notes: list[str] = []
    edges: list[SaidEdge] = []
    for number, one in enumerate(said):
        after = said[number + 1].words.name if number + 1 < len(said) else ""
        end = _corner(targets, one.words.name, after, notes)
        edges.append(_with_points(before, one, targets[one.words.name], end, outer=(number == 0, not after)))
    for _ in range(MOST_ADDED):
        drawn = draw(tuple(edge.set for edge in edges))
        more = [_refined(before, edge, targets[edge.words.name], drawn, chain) for edge in edges]
        if all(new is edge for new, edge in zip(more, edges, strict=True)):
            break
        edges = more
    return tuple(edges), tuple(notes)


def _corner(targets: Mapping[str, Target], name: str, after: str, notes: list[str]) -> Points:
    """Return where an edge ends: where it meets the next one, either of which may be drawn too long or too short."""
    end = np.asarray(targets[name].points[-1])
    if not after:
        return end
    start = targets[after].points[0]
    apart = float(np.hypot(*(start - end)))
    if apart <= OPEN_CORNER_MM:
        return end
    first, second = targets[name].curve.points, targets[after].curve.points
    met = [point_at(first, place) for place, _ in meetings(first, second)]
    near = [point for point in met if max(np.hypot(*(point - end)), np.hypot(*(point - start))) < MEET_MM]
    if near:
        return min(near, key=lambda point: float(np.hypot(*(point - end)) + np.hypot(*(point - start))))
    notes.append(
        f"{name} and {after} no longer meet: their ends are {apart:.1f} mm apart. The corner was taken where {name} ends"
    )
    return end


def _with_points(before: Draft, one: SaidEdge, target: Target, end: Points, *, outer: tuple[bool, bool]) -> SaidEdge:
    """Return an edge with every point of it that was moved told anew; ``outer`` ends stand on a centre line."""
    words, set_ = list(one.words.through), list(one.set.through)
    last = len(words) - 1
    for number in range(len(words)):
        around, height = place_of(before, set_[number])
        was = before.block.at(around, height)
        if number == last and not outer[1]:
            place = end
        else:
            place = was + target.moved_at(was)
            at_center = (number == 0 and outer[0]) or number == last
            if np.hypot(*(place - was)) > KEPT_MM:
                place = _slid(before.block, target, (around, height), place, along=at_center)
        if np.hypot(*(place - was)) > KEPT_MM:
            u, v = (float(value) for value in before.block.where(place))
            words[number], set_[number] = _said(before, words[number], set_[number], (around, height), (u, v))
    return SaidEdge(replace(one.words, through=tuple(words)), replace(one.set, through=tuple(set_)))


def _said(
    before: Draft, words: Position, set_: Position, was: tuple[float, float], place: tuple[float, float]
) -> tuple[Position, Position]:
    """Return a place in the words that stood there: what of them was not moved stays, the rest is told anew."""
    u, v = place
    aside = abs(before.block.level_part_mm(v, was[0], u)) > KEPT_MM
    around, around_set = words.around, set_.around
    if aside:
        around = around_set = around_words(before, set_.around, u, v)
    u = place_of(before, Position(around_set, Height(share=Share(v))))[0]
    if abs(v - was[1]) * before.block.ruling_length_mm(u) > KEPT_MM:
        height = height_words(before, set_.height, u, v)
        return Position(around, height), Position(around_set, height)
    return Position(around, words.height), Position(around_set, set_.height)


def _slid(block: Block, target: Target, was: tuple[float, float], place: Points, *, along: bool) -> Points:
    """Return the point of the target near ``place`` that keeps the old around, or where the line runs up, the old height.

    On a centre line, ``along``, the around is always kept.
    """
    points = target.curve.points
    run = np.column_stack(block.where(points))
    near = int(np.argmin(np.hypot(*(points - place).T)))
    leg = points[min(near + 2, len(run) - 1)] - points[max(near - 2, 0)]
    up = abs(float(leg @ block.ruling_direction(was[0]))) / max(float(np.hypot(*leg)), KEPT_MM)
    column = HEIGHT if up > LEANS and not along else AROUND
    met = points_at(run, crossings(run, column, was[column]))
    if along and not len(met):
        return np.asarray(block.at(was[0], float(block.where(place)[1])))
    if not len(met):
        return place
    there = block.at(met[:, AROUND], met[:, HEIGHT])
    off = np.hypot(*(there - place).T)
    best = int(np.argmin(off))
    far = 2.0 * float(np.hypot(*(place - block.at(*was)))) + APART_MM
    return np.asarray(there[best]) if off[best] < far else place


def _refined(before: Draft, edge: SaidEdge, target: Target, drawn: Draft, chain: str) -> SaidEdge:
    """Return an edge with one more point where it stands furthest off the line that was drawn, or itself where it fits."""
    line = next(line for line in drawn.chain(chain) if line.name == edge.words.name)
    run = on_cloth(before.block, line)
    foot, held = target.held(run)
    places = [place_of(before, position) for position in edge.set.through]
    there = before.block.at(np.array([u for u, _ in places]), np.array([v for _, v in places]))
    corners = np.vstack((there, run[:1], run[-1:]))
    near = np.hypot(*np.moveaxis(run[:, None] - corners[None], 2, 0)).min(axis=1)
    off = np.where(near < APART_MM, 0.0, held)
    worst = int(np.argmax(off))
    if off[worst] < (RULED_MM if edge.set.straight else FIT_MM):
        return edge
    if edge.set.straight:
        return SaidEdge(replace(edge.words, straight=False), replace(edge.set, straight=False))
    u, v = (float(value) for value in before.block.where(foot[worst]))
    along = feet(np.vstack((there, foot[worst][None])), target.curve).along
    index = int(np.searchsorted(along[:-1], along[-1]))
    like = edge.set.through[min(index, len(edge.set.through) - 1)].height
    position = new_position(before, like, u, v)
    words, set_ = ((*through[:index], position, *through[index:]) for through in (edge.words.through, edge.set.through))
    return SaidEdge(replace(edge.words, through=words), replace(edge.set, through=set_))


def on_cloth(block: Block, line: Line) -> Points:
    """Return the points of a line between the two centre lines, where there is cloth."""
    inside = (line.points[:, AROUND] >= 0.0) & (line.points[:, AROUND] <= 1.0)
    return block.at(line.points[inside, AROUND], line.points[inside, HEIGHT])


def level_all_round(count: int, height: Height) -> tuple[Position, ...]:
    """Return the points of an edge at one height all round."""
    return tuple(Position(Around(ratio=step / count), height) for step in range(count + 1))
