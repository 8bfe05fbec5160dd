"""Pieces that both halves make together: one on the fold opened out, its left from one half and its right from the other."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from types import MappingProxyType

import numpy as np

from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.geometry.region import united
from fanblock.halves.mirror import reflected
from fanblock.halves.names import edge_name, is_fold
from fanblock.pattern.bones import Channel
from fanblock.pattern.model import Edge, Mark, Panel
from fanblock.problems import GeometryError, Problem
from fanblock.tolerances import HALVES_MEET_MM
from fanblock.wearer.model import LEFT, RIGHT


def opened(left: Panel, right: Panel) -> Panel:
    """Return a panel on the fold as one whole piece: the left half's, and the right half's turned over at the fold.

    GeometryError where the two folds are not straight lines of one length.
    """
    folds = [next(edge.curve for edge in panel.edges if is_fold(edge, panel)) for panel in (left, right)]
    _check_folds(left, folds)
    matrix, shift = _turned_over(*folds)
    other = reflected(right, matrix, shift)
    edges = _round(left, other)
    rings = [panel.cut_line.points if panel.cut_line is not None else panel.loop() for panel in (left, other)]
    return replace(
        left,
        edges=edges,
        levels=MappingProxyType(
            {name: (*left.levels.get(name, ()), *other.levels.get(name, ())) for name in (*left.levels, *other.levels)}
        ),
        slits=(*left.slits, *other.slits),
        notches=tuple(
            replace(notch, edge=edge_name(panel, notch.edge, side))
            for panel, side in ((left, LEFT), (other, RIGHT))
            for notch in panel.notches
            if notch.edge != panel.fold
        ),
        allowances=MappingProxyType(
            {
                edge_name(panel, name, side): wide
                for panel, side in ((left, LEFT), (other, RIGHT))
                for name, wide in panel.allowances.items()
                if name != panel.fold
            }
        ),
        cut_line=Curve(frozen(united([*rings, _bridge(folds[0])]))),
        fold="",
        marks=(
            Mark(left.fold, "place", folds[0], left.fold),
            *_sided(left.marks, LEFT),
            *_sided(other.marks, RIGHT),
        ),
        channels=_channels(left, other),
        eyelets=tuple(
            replace(eyelet, edge=edge_name(panel, eyelet.edge, side))
            for panel, side in ((left, LEFT), (other, RIGHT))
            for eyelet in panel.eyelets
        ),
        whole=True,
    )


def _check_folds(panel: Panel, folds: Sequence[Curve]) -> None:
    apart = abs(folds[0].length_mm - folds[1].length_mm)
    bent = max(fold.length_mm - float(np.hypot(*(fold.end - fold.start))) for fold in folds)
    if max(apart, bent) <= HALVES_MEET_MM:
        return
    line = panel.fold.replace("center", "centre")
    what = (
        f"“{panel.name}” is cut on the fold at the {line}, and its two halves are {apart:.1f} mm apart in length there."
    )
    remedy = "Write one measure for both halves of what lies there, or let the recipe have a seam in place of the fold."
    raise GeometryError([Problem("halves-fold", f"piece {panel.number} ({panel.name})", what, remedy)])


def _turned_over(left: Curve, right: Curve) -> tuple[Points, Points]:
    """The motion that lays the right half's fold on the left half's and turns the piece over there."""
    ours, theirs = (complex(*(fold.end - fold.start)) for fold in (left, right))
    turn = np.angle(ours / theirs)
    spun = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
    along = (left.end - left.start) / np.hypot(*(left.end - left.start))
    over = 2.0 * np.outer(along, along) - np.eye(2)
    middle, other = (0.5 * (fold.start + fold.end) for fold in (left, right))
    matrix = over @ spun
    return frozen(matrix), frozen(middle - matrix @ other)


def _bridge(fold: Curve) -> Points:
    """A strip along the fold, so that no hair of a gap is left between two halves that were cut there."""
    along = (fold.end - fold.start) / np.hypot(*(fold.end - fold.start))
    across = 0.5 * HALVES_MEET_MM * np.array([-along[1], along[0]])
    ends = fold.start + HALVES_MEET_MM * along, fold.end - HALVES_MEET_MM * along
    return frozen([ends[0] - across, ends[1] - across, ends[1] + across, ends[0] + across])


def _round(left: Panel, other: Panel) -> tuple[Edge, ...]:
    """The edges of both, from the left half's fold round to it again, those of either half named for it."""
    ours, theirs = (_after_fold(panel) for panel in (left, other))
    theirs[0] = replace(theirs[0], curve=_ended(theirs[0].curve, start=ours[-1].curve.end))
    theirs[-1] = replace(theirs[-1], curve=_ended(theirs[-1].curve, end=ours[0].curve.start))
    return (
        *(replace(edge, name=edge_name(left, edge.name, LEFT)) for edge in ours),
        *(replace(edge, name=edge_name(other, edge.name, RIGHT)) for edge in theirs),
    )


def _after_fold(panel: Panel) -> list[Edge]:
    at = next(number for number, edge in enumerate(panel.edges) if is_fold(edge, panel))
    return [*panel.edges[at + 1 :], *panel.edges[:at]]


def _ended(curve: Curve, start: Points | None = None, end: Points | None = None) -> Curve:
    """The curve with an end put where the other half's lies."""
    points = np.array(curve.points)
    if start is not None:
        points[0] = start
    if end is not None:
        points[-1] = end
    return Curve(frozen(points))


def _sided(marks: Iterable[Mark], side: str) -> list[Mark]:
    return [replace(mark, name=f"{mark.name} {side}") for mark in marks]


def _channels(left: Panel, other: Panel) -> tuple[Channel, ...]:
    """The channels of both; the right half's are numbered on from the left half's."""
    most = max((channel.number for channel in left.channels), default=0)
    theirs = [replace(channel, number=channel.number + most if channel.number else 0) for channel in other.channels]
    return (*left.channels, *theirs)
