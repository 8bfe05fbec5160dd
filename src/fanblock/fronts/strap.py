"""A shoulder strap as a piece of its own: a straight strip whose ends are the exact mates of the edges it is sewn to.

It lies upright, its front end below and its back end above, the side of the neck at the left: as the wearer's left strap is
seen from above by somebody who stands before her.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from fanblock.draft.adding import Place, with_piece, with_seam_between
from fanblock.draft.work import Work
from fanblock.finish.openings import MARK_MM
from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.pattern.model import ARMHOLE, FREE, NECKLINE, TOP, Edge, Mark, Note, Panel
from fanblock.problems import GeometryError, Problem, nearest
from fanblock.units import format_length

MOST_SLANT_DEG = 25.0
"""An end that leans more than this from square is cut at this angle: what goes over it is trimmed on the body."""

LEAST_MM = 30.0
"""A strap shorter than this is a mistake in its seats."""

NAPE_ABOVE_MM = 10.0
"""How much higher the shoulder stands beside the neck than the bone of the neck behind (from memory)."""

FOLLOWS = (ARMHOLE, NECKLINE, TOP)
"""The kinds of edges that go on along a strap's sides; beside any other they are finished by themselves."""

GRAIN_INSET = 0.08


@dataclass(frozen=True, slots=True)
class Seat:
    """The edge that one end of a strap is sewn to, with the edges of its panel on the arm's side and on the neck's."""

    place: Place
    edge: Edge
    arm: Edge
    neck: Edge
    is_front: bool
    above_waist_mm: float

    @property
    def width_mm(self) -> float:
        """Length of the seat, which is the strap's width there."""
        return self.edge.curve.length_mm

    def slant_rad(self) -> float:
        """Return how far the strap's end leans from square so that neck and armhole run on over the seam as they can.

        Positive where the neck's corner of that end lies farther out along the strap than the arm's.
        """
        at_start, at_end = self.edge.curve.start_tangent, self.edge.curve.end_tangent
        before = _turn_rad((self.arm if self.is_front else self.neck).curve.end_tangent, at_start)
        after = _turn_rad(at_end, (self.neck if self.is_front else self.arm).curve.start_tangent)
        slant = (before - after) / 2.0 if self.is_front else (after - before) / 2.0
        most = math.radians(MOST_SLANT_DEG)
        return min(max(slant, -most), most)


def seat_of(work: Work, name: str, where: str) -> Seat:
    """Return the edge called ``name`` as a seat; GeometryError, told at ``where``, when there is none or it is sewn already."""
    for panel in work.panels:
        for number, edge in enumerate(panel.edges):
            if edge.name != name:
                continue
            if edge.mate is not None:
                what = f"“{name}” is sewn to “{edge.mate.edge}” of panel “{edge.mate.panel}” already."
                raise GeometryError([Problem("seat-taken", where, what, "A strap needs an edge that is free.")])
            before, after = panel.edges[number - 1], panel.edges[(number + 1) % len(panel.edges)]
            around, height = work.block.where(edge.curve.at(edge.curve.length_mm / 2.0))
            is_front = float(around) < work.block.side_ratio
            arm, neck = (before, after) if is_front else (after, before)
            above = float(height) * work.block.ruling_length_mm(float(around))
            return Seat((panel.name, name), edge, arm, neck, is_front, above)
    names = sorted({edge.name for panel in work.panels for edge in panel.edges if edge.mate is None})
    what = f"no panel has an edge “{name}”."
    raise GeometryError([Problem("edge-unknown", where, what, nearest(name, names))])


def guessed_length_mm(work: Work, front: Seat, back: Seat) -> float:
    """Return about how long a strap is between two seats: from either waist over the shoulder, less what stands below."""
    lengths = work.body.lengths
    over = lengths["front length"] - front.above_waist_mm
    return over + lengths["back length"] + NAPE_ABOVE_MM - back.above_waist_mm


@dataclass(frozen=True, slots=True)
class Strip:
    """A strap's measures in millimetres; the free end of one that is sewn on at one end only has ``free_mm``."""

    name: str
    length_mm: float
    free_mm: float | None
    spare_mm: float
    guessed: bool


def with_strap(work: Work, strip: Strip, seats: tuple[Seat, ...]) -> Work:
    """Return the work with a strap between one front and one back seat, or from one of the two, and its seams.

    GeometryError when it would have next to no length.
    """
    if strip.length_mm < LEAST_MM:
        what = f"on this body it would be {max(strip.length_mm, 0.0):.0f} mm long."
        raise GeometryError([Problem("strap-short", "length", what, "Lower its seats, or give its length.")])
    front = next((seat for seat in seats if seat.is_front), None)
    back = next((seat for seat in seats if not seat.is_front), None)
    panel = _piece(strip, front, back)
    work = with_piece(work, panel)
    for seat in seats:
        end = f"{strip.name} {'front end' if seat.is_front else 'back end'}"
        pair = (seat.place, (strip.name, end)) if seat.is_front else ((strip.name, end), seat.place)
        work = with_seam_between(work, end, *pair)
    spare_at = f"{strip.name} {'front end' if seats[0] is back else 'back end'}"
    widths = {**work.allowance_by_name}
    widths.setdefault(spare_at, strip.spare_mm)
    return replace(work, allowance_by_name=widths, notes=(*work.notes, *_notes(work, strip, seats)))


def _piece(strip: Strip, front: Seat | None, back: Seat | None) -> Panel:
    """Return the strap, its loop from the neck's corner of the front end on."""
    low = _end(front, strip, 0.0)
    high = _end(back, strip, strip.length_mm)
    arm, neck = _kind_of((front, back), arm=True), _kind_of((front, back), arm=False)
    edges = (
        Edge(f"{strip.name} front end", front.edge.kind if front else FREE, Curve(frozen(low))),
        Edge(
            f"{arm} {strip.name}" if arm != FREE else f"{strip.name} outer edge", arm, Curve(frozen([low[1], high[0]]))
        ),
        Edge(f"{strip.name} back end", back.edge.kind if back else FREE, Curve(frozen(high))),
        Edge(
            f"{neck} {strip.name}" if neck != FREE else f"{strip.name} inner edge",
            neck,
            Curve(frozen([high[1], low[0]])),
        ),
    )
    inset = GRAIN_INSET * strip.length_mm
    grain = frozen([0.0, inset]), frozen([0.0, strip.length_mm - inset])
    marks = [
        Mark(f"tie {end}", "fastening", _tie(at), "tie") for seat, end, at in _free_ends(strip, front, back) if seat
    ]
    return Panel(strip.name, 0, edges, grain=grain, marks=tuple(marks))


def _end(seat: Seat | None, strip: Strip, at_mm: float) -> Points:
    """Return the two points of an end, in loop order: neck to arm at the foot, arm to neck at the head."""
    width = seat.width_mm if seat else strip.free_mm or 0.0
    slant = seat.slant_rad() if seat else 0.0
    is_front = at_mm == 0.0
    half = 0.5 * width * np.array([math.cos(slant), math.sin(slant)])
    lift = half[1] if is_front else -half[1]
    neck, arm = np.array([-half[0], at_mm - lift]), np.array([half[0], at_mm + lift])
    return np.array([neck, arm] if is_front else [arm, neck])


def _kind_of(seats: tuple[Seat | None, ...], *, arm: bool) -> str:
    """Return the kind of a strap's side: what it goes on from, where that is one kind at all its seats."""
    kinds = {(seat.arm if arm else seat.neck).kind for seat in seats if seat}
    return kinds.pop() if len(kinds) == 1 and kinds <= set(FOLLOWS) else FREE


def _free_ends(strip: Strip, front: Seat | None, back: Seat | None) -> tuple[tuple[bool, str, float], ...]:
    """Return for both ends whether it is free, its word and the place of its tie."""
    return (
        (front is None, "front", TIE_FROM_END_MM),
        (back is None, "back", strip.length_mm - TIE_FROM_END_MM),
    )


TIE_FROM_END_MM = 12.0
"""How far from a free end the eyelet or the tie sits (from memory)."""


def _tie(at_mm: float) -> Curve:
    return Curve(frozen([[-MARK_MM / 2.0, at_mm], [MARK_MM / 2.0, at_mm]]))


def _turn_rad(along: Points, line: Points) -> float:
    return math.atan2(along[0] * line[1] - along[1] * line[0], float(along @ line))


def _notes(work: Work, strip: Strip, seats: tuple[Seat, ...]) -> list[Note]:
    """Return how the strap is set on, and that its length is taken on the body."""
    units, number = work.body.units, next(panel.number for panel in work.panels if panel.name == strip.name)
    spare, long = format_length(strip.spare_mm, units), format_length(strip.length_mm, units)
    other = "back" if seats[0].is_front else "front"
    who = f"the {strip.name} (piece {number})"
    if len(seats) == 1:
        sewing = f"Finish the other end of {who}; it is tied to the {other}, where you find the place on the body."
    else:
        sewing = (
            f"Draw {who} over the shoulder on the body, pin it to the {other}, take it off and sew it as it is pinned."
        )
    taken = f"strap length is taken on the body: {who} is {long} long along its middle, with {spare} more at its {other} end. Pin it with the arms lowered, and mark where it comes."
    notes = [Note("sewing last", sewing, strip.name), Note("toile", f"{taken[0].upper()}{taken[1:]}")]
    if strip.guessed:
        notes.append(
            Note("guess", f"GUESSED: the length of the {strip.name}: {long}, from front length and back length")
        )
    return notes
