"""Flaring: skirts cut in one with their panels, swung outward below the waist so that they go round the hip and stand off.

Each side of a seam is moved out by half of what the seam adds at the hem, eased just below the waist and then straight: the
hip begins at once, so a skirt that only began to spread lower down would ride up. A fall keeps its length, so the two sides
of a seam stay equal; its corner swings up, and the hem is led to it with the angle that it had.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from fanblock.draft.adding import with_panel
from fanblock.draft.work import Work
from fanblock.geometry.curve import Curve, Points
from fanblock.pattern.model import Panel
from fanblock.problems import GeometryError, Problem
from fanblock.skirts.falls import Fall, falls_at, followed, retraced, with_fall
from fanblock.skirts.levels import body_at_mm, level_at, reckoned_mm
from fanblock.tolerances import BLEND_MM, GIRTH_MM

WIDEST = 1.2
"""Most a seam may add at the hem, as a share of its depth below the waist: each side then leans about 35°."""

EASED_MM = 20.0
"""How far below the waist the turn outward is drawn out, so that the nipped seam can be sewn and clipped (from memory)."""

ROUNDS = 12
"""How often the flares are corrected to meet a girth, which grows nearly as their sum does; two or three do."""

HEM_SHARE = 0.45
"""Share of a hem that may be bent to lead to a corner: the other end needs as much."""

STEP_MM = 1.5
"""Distance between the points of a bent stretch of hem."""


def flared(work: Work, by: Mapping[str, float]) -> Work:
    """Return the panels flared below the waist: for each seam or centre line what it adds at the hem, both edges (mm).

    GeometryError when one does not reach a hem, or would add more than it can.
    """
    _check_wide(work, by)
    changed: dict[str, Panel] = {}
    for name, mm in by.items():
        for fall, depth in _falls(work, name) if mm else ():
            changed[fall.panel.name] = swung(fall, mm / 2.0, depth)
            work = with_panel(work, changed[fall.panel.name])
    for panel in changed.values():
        work = retraced(work, panel)
    return work


def _falls(work: Work, name: str) -> list[tuple[Fall, float]]:
    """Return the falls of a seam or centre line, each with the depth that all of them shall have."""
    falls = falls_at(work, name, 0.0, name)
    depth = sum(fall.depth_mm for fall in falls) / len(falls)
    return [(fall, depth) for fall in falls]


def _check_wide(work: Work, by: Mapping[str, float]) -> None:
    problems = []
    for name, mm in by.items():
        _, depth = _falls(work, name)[0]
        if mm > WIDEST * depth:
            what = f"would add {mm:.0f} mm at the hem, {depth:.0f} mm below the waist."
            remedy = "Share it with other seams, lower the hem, or let in pleats or a gore."
            problems.append(Problem("flare-wide", name, what, remedy))
    if problems:
        raise GeometryError(problems)


def swung(fall: Fall, by_mm: float, depth_mm: float) -> Panel:
    """Return the panel with one fall moved out by ``by_mm`` at its foot, and ``depth_mm`` long."""
    chord = fall.down.end - fall.down.start
    out = fall.outward(chord / np.hypot(*chord))
    steady = min(EASED_MM, 0.5 * fall.depth_mm)
    old = followed(fall.down)
    moved = np.where(old.along < steady, old.along**2 / (2.0 * steady), old.along - 0.5 * steady)
    share = moved / (fall.depth_mm - 0.5 * steady)
    down = Curve.through(old.points + by_mm * share[:, None] * out).between(0.0, depth_mm)
    direction = turned(fall.hem.start_tangent, fall.down, down)
    return with_fall(fall, down, led(fall.hem, down.end, direction, max(BLEND_MM, by_mm)))


def turned(direction: Points, old: Curve, new: Curve) -> Points:
    """Return a direction turned as the end of a curve turns when it is drawn anew."""
    (a, b), (c, d) = old.end_tangent, new.end_tangent
    turn = complex(*direction) * complex(c, d) / complex(a, b)
    return np.array([turn.real, turn.imag])


def led(hem: Curve, corner: Points, direction: Points, reach_mm: float = BLEND_MM) -> Curve:
    """Return a hem, run inward, led to another corner, which it leaves in ``direction``.

    Only its first part is bent, ``reach_mm`` of it or what there is room for, as a cubic that keeps the hem's own
    direction where the two meet.
    """
    bent = min(reach_mm, HEM_SHARE * hem.length_mm)
    end, tangent = hem.at(bent), hem.tangent_at(bent)
    reach = float(np.hypot(*(end - corner)))
    t = np.linspace(0.0, 1.0, max(int(reach / STEP_MM), 8) + 1)[:, None]
    run = (
        (2 * t**3 - 3 * t**2 + 1) * corner
        + (t**3 - 2 * t**2 + t) * reach * direction
        + (3 * t**2 - 2 * t**3) * end
        + (t**3 - t**2) * reach * tangent
    )
    return Curve.through(np.vstack((run, hem.between(bent, hem.length_mm).points[1:])))


def room_flares(work: Work, shares: Mapping[str, float], room_mm: float) -> Mapping[str, float]:
    """Return what each seam or centre line must add at the hem for the skirts to go round the hip with ``room_mm`` to spare.

    It is reckoned at the hip, or at three quarters of the shortest fall where that is less; ``shares`` share it out.
    Nothing is added where there is room enough. The body must have a hip.
    """
    falls = [fall.depth_mm for name in shares for fall, _ in _falls(work, name)]
    depth = reckoned_mm(work.body.lengths, falls)
    due = body_at_mm(work.body.lengths, depth) + room_mm
    weight = sum(shares.values())

    def by(total: float) -> dict[str, float]:
        return {name: total * share / weight for name, share in shares.items()}

    total = 0.0
    first = lacking = due - _round_at(work, by(total), depth)
    for _ in range(ROUNDS):
        if abs(lacking) < GIRTH_MM or first < 0.0:
            break
        total += total * lacking / (first - lacking) if total else lacking / 2.0
        lacking = due - _round_at(work, by(total), depth)
    return by(total)


def _round_at(work: Work, by: Mapping[str, float], depth_mm: float) -> float:
    """Return how far round the skirts go at a depth when they are flared so."""
    for name, mm in by.items():
        for fall, deep in _falls(work, name):
            work = with_panel(work, swung(fall, mm / 2.0, deep))
    return level_at(work.block, (panel for panel in work.panels if not panel.added), depth_mm).whole_mm
