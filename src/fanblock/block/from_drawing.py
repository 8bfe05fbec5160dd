"""A drawing of half a block, read: its waist and bust between two straight centre lines, set upright, the right way round.

Four lines are wanted, by name: ``waist``, ``bust``, ``center front`` and ``center back``. Waist and bust are kept as they
are. The centre lines only tell where the block begins and ends, since its rulings are straight in any case; they must be
straight, and meet the other two at the corners.
"""

from __future__ import annotations

import hashlib
import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

import numpy as np

from fanblock.block.traced import TracedBlock, traced_line
from fanblock.geometry.curve import Curve, Points
from fanblock.problems import FanblockError, Problem
from fanblock.tolerances import BLOCK_MM, CORNER_DEG, TRACED_CORNER_MM, TRACED_STRAIGHT_MM
from fanblock.tracing.named import NamedLine, named_lines
from fanblock.units import format_length
from fanblock.wearer.measures import MEASURES

WAIST, BUST, FRONT, BACK = "waist", "bust", "center front", "center back"
LINES = (WAIST, BUST, FRONT, BACK)
"""The names of the four lines."""

_SIZES = {WAIST: (WAIST, 2.0), BUST: (BUST, 2.0), FRONT: ("bust to waist", 1.0), BACK: ("bust to waist", 1.0)}
"""Which measure each line must be believable for, and how often it goes into that."""


@dataclass(frozen=True, slots=True)
class Tracing:
    """Half a block as it was drawn: waist and bust from front to back, the centre front upright on the origin.

    ``name`` is what the drawing is called, ``digest`` a short text that differs when its lines do. ``notes`` tell what was
    done to it.
    """

    name: str
    digest: str
    waist: Curve = field(compare=False)
    bust: Curve = field(compare=False)
    notes: tuple[str, ...] = ()

    def block(self, side_ratio: float) -> TracedBlock:
        """Return the block of a body whose side lies so far around."""
        return TracedBlock(traced_line(self.waist), traced_line(self.bust), self.name, side_ratio)


def read_tracing(data: bytes, file: str, name: str, error: type[FanblockError]) -> Tracing:
    """Return the half block that the SVG drawing ``data`` holds.

    ``file`` is where it lies, for messages, ``name`` what it is called otherwise. Raises ``error`` with every problem of the first stage that has any: reading the
    file, finding the four lines, and what they are.
    """
    found = named_lines(data, file, LINES, error)
    lines = found.by_name
    waist, bust = (_from_front(lines[name], lines[FRONT]) for name in (WAIST, BUST))
    gaps = _gaps(lines, waist, bust)
    problems = [*_size_problems(lines), *_line_problems(lines), *_corner_problems(lines, gaps)]
    if problems:
        raise error(problems)
    turned, mirrored = _upright(waist, bust)
    on_its_head = float(bust.start[1]) < float(waist.start[1])
    notes = tuple(_notes(found.in_pixels, on_its_head, mirrored, max(mm for _, _, mm in gaps)))
    tracing = Tracing(name, _digest(turned), *turned, notes)
    crossing = tracing.block(0.5).crossing_height(0.0, 1.0)
    if crossing is not None:
        what = f"its upright lines run into each other {crossing:.0%} of the way from waist to bust."
        remedy = "Look whether waist and bust run the same way, and which of them is which."
        raise error([Problem("drawing-crossed", "", what, remedy, lines[WAIST].place)])
    return tracing


def _from_front(line: NamedLine, front: NamedLine) -> Curve:
    """Return the waist or the bust run from the end that is nearer to the centre front."""
    ends = np.stack((front.curve.start, front.curve.end))
    first, last = (float(np.hypot(*(ends - end).T).min()) for end in (line.curve.start, line.curve.end))
    return line.curve if first <= last else line.curve.reversed()


def _gaps(lines: Mapping[str, NamedLine], waist: Curve, bust: Curve) -> list[tuple[str, str, float]]:
    """Return how far two lines miss each other at each of the four corners: their names and the distance."""
    found = []
    for center, feet in ((FRONT, (waist.start, bust.start)), (BACK, (waist.end, bust.end))):
        curve = lines[center].curve
        ways = [
            [float(np.hypot(*(foot - end))) for foot, end in zip(feet, ends, strict=True)]
            for ends in ((curve.start, curve.end), (curve.end, curve.start))
        ]
        low, high = min(ways, key=sum)
        found += [(WAIST, center, low), (BUST, center, high)]
    return found


def _size_problems(lines: Mapping[str, NamedLine]) -> Iterator[Problem]:
    """Yield what no body can be: a drawing at another scale, or lines mixed up."""
    for name, line in lines.items():
        measure, times = MEASURES[_SIZES[name][0]], _SIZES[name][1]
        mm = times * line.curve.length_mm
        if not measure.least_mm <= mm <= measure.most_mm:
            twice = " for the whole body" if times > 1.0 else ""
            low, high = (format_length(limit, "cm") for limit in (measure.least_mm, measure.most_mm))
            what = f"{name} comes to {format_length(mm, 'cm')}{twice}; it lies between {low} and {high}."
            remedy = "Is the drawing at true scale, and is it half a block?"
            yield Problem("drawing-scale", "", what, remedy, line.place)


def _line_problems(lines: Mapping[str, NamedLine]) -> Iterator[Problem]:
    """Yield what the four lines must not be: centre lines that bow, waist and bust with corners in them."""
    for name in (FRONT, BACK):
        off = _off_chord_mm(lines[name].curve.points)
        if off > TRACED_STRAIGHT_MM:
            what = f"{name} is not straight: it stands off a straight line by {format_length(off, 'mm')}."
            remedy = "The centre lines of a block are straight: draw it with a ruler, from corner to corner."
            yield Problem("drawing-bowed", "", what, remedy, lines[name].place)
    for name in (WAIST, BUST):
        curve = lines[name].curve
        steps = np.diff(curve.points, axis=0) @ np.array([1.0, 1j])
        sharp = np.flatnonzero(np.abs(np.angle(steps[1:] / steps[:-1])) > math.radians(CORNER_DEG))
        if len(sharp):
            at = format_length(float(curve.along[sharp[0] + 1]), "cm")
            what = f"{name} has a corner in it, {at} from where its drawing begins."
            yield Problem("drawing-corner", "", what, "Draw it as one smooth line.", lines[name].place)


def _corner_problems(lines: Mapping[str, NamedLine], gaps: list[tuple[str, str, float]]) -> Iterator[Problem]:
    for name, center, mm in gaps:
        if mm > TRACED_CORNER_MM:
            what = f"{name} and {center} do not meet: their ends are {format_length(mm, 'mm')} apart."
            yield Problem("drawing-open", "", what, "Draw both to one corner.", lines[name].place)


def _off_chord_mm(points: Points) -> float:
    """Return how far a run of points stands off the straight line between its ends, at most."""
    chord = points[-1] - points[0]
    away = points - points[0]
    return float(np.max(np.abs(chord[0] * away[:, 1] - chord[1] * away[:, 0]))) / max(float(np.hypot(*chord)), BLOCK_MM)


def _upright(waist: Curve, bust: Curve) -> tuple[tuple[Curve, Curve], bool]:
    """Return both turned so that the centre front stands upright on the origin, the rest to its right; and whether the
    drawing had to be turned over for that."""
    front = bust.start - waist.start
    turn = math.pi / 2.0 - math.atan2(front[1], front[0])
    matrix = np.array([[math.cos(turn), -math.sin(turn)], [math.sin(turn), math.cos(turn)]])
    mirrored = bool((matrix @ (waist.end - waist.start))[0] < 0.0)
    if mirrored:
        matrix = np.array([[-1.0, 0.0], [0.0, 1.0]]) @ matrix
    shift = -matrix @ waist.start
    return (waist.moved(matrix, shift), bust.moved(matrix, shift)), mirrored


def _digest(lines: tuple[Curve, Curve]) -> str:
    """Return a short text of two lines, their places rounded to what can be drawn."""
    rounded = [np.round(line.points / BLOCK_MM).astype(np.int64).tobytes() for line in lines]
    return hashlib.sha256(b"\0".join(rounded)).hexdigest()[:16]


def _notes(in_pixels: bool, on_its_head: bool, mirrored: bool, gap_mm: float) -> Iterator[str]:
    if in_pixels:
        yield "the drawing has its size in pixels, read as 96 to the inch: hold a tape to its waist before you cut"
    if on_its_head:
        yield "the bust was drawn below the waist; the block has been turned round: are the two named rightly?"
    if mirrored:
        yield "the wearer's right half was drawn; it has been turned over"
    if gap_mm > BLOCK_MM:
        says = format_length(gap_mm, "mm")
        yield f"its lines miss one another by up to {says} at the corners: the ends of waist and bust were taken"
