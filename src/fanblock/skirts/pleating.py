"""Pleats let into a seam of skirts that are cut in one with their panels.

From a head at or below the waist the two panels are widened by the cloth of the pleats. The seam's own line goes on straight
to the hem as the first crease; the layers beyond it are parts of one ring about a point on that line, or of a straight
strip, so that head and hem are square to every crease and all layers cover one another when they are folded. The seam is
sewn at the outer edges of that cloth.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from fanblock.draft.adding import with_panel, with_seam_between
from fanblock.draft.work import Work
from fanblock.pattern.model import CENTER, HEM, PLEAT_HEAD, SEAM, Edge, Mark, Note, Panel
from fanblock.problems import GeometryError, Problem
from fanblock.skirts.falls import Fall, falls_at
from fanblock.skirts.flaring import led
from fanblock.skirts.folds import PleatKind, SideFolds, Way, side_folds
from fanblock.skirts.strip import Strip

SHALLOWEST_MM = 8.0
"""A fold narrower than this is a tuck: no pleat of it would hang (from memory)."""


@dataclass(frozen=True, slots=True)
class Pleats:
    """What is let into one seam: kind and number of pleats, how deep a fold is, and where their heads lie.

    ``spread_mm`` is how much wider a fold is at the hem than at the head, ``below_mm`` how far below the waist the head
    lies. ``toward`` and ``cloth`` are for knife pleats (see :func:`fanblock.skirts.folds.side_folds`).
    """

    kind: PleatKind
    number: int
    fold_mm: float
    spread_mm: float = 0.0
    below_mm: float = 0.0
    toward: Way = "back"
    cloth: str = "both"


def pleated(work: Work, name: str, pleats: Pleats) -> Work:
    """Return the panels with pleats let into the seam called ``name``, or into a centre line.

    GeometryError when it does not go down to a hem, or the pleats are too shallow.
    """
    if pleats.fold_mm < SHALLOWEST_MM:
        what = f"got {pleats.fold_mm:.1f} mm, needs {SHALLOWEST_MM:.0f} mm or more."
        raise GeometryError([Problem("pleat-shallow", "depth", what, "Make fewer and deeper pleats.")])
    falls = falls_at(work, name, pleats.below_mm, "at")
    depth = sum(float(np.hypot(*(fall.down.end - fall.down.start))) for fall in falls) / len(falls)
    sides: tuple[Way, ...] = ("front", "back") if len(falls) == 2 else (("front",) if falls[0].rising else ("back",))
    for fall, side in zip(falls, sides, strict=True):
        folds = side_folds(pleats.kind, pleats.number, pleats.toward, pleats.cloth, side)
        work = with_panel(work, _widened(fall, name, folds, pleats, depth))
    if len(falls) == 2:
        seams = tuple(replace(seam, below=None) if name in (seam.name, seam.line) else seam for seam in work.seams)
        front, back = ((fall.panel.name, skirt_name(name)) for fall in falls)
        work = with_seam_between(replace(work, seams=seams), skirt_name(name), front, back)
    return replace(work, notes=(*work.notes, *_notes(name, pleats)))


def skirt_name(name: str) -> str:
    """Return the name of the seam of the skirts below pleats in a seam or centre line."""
    return f"{name} skirt"


def _widened(fall: Fall, name: str, folds: SideFolds, pleats: Pleats, depth_mm: float) -> Panel:
    """Return a fall's panel with its own line straight from the head down and the cloth of the pleats beyond it."""
    strip = _strip(fall, folds, pleats, depth_mm)
    corner = strip.at(0.0, depth_mm)
    hem = replace(fall.hem_edge, curve=fall.in_loop(led(fall.hem, corner, -strip.out)))
    beyond = [
        Edge(
            skirt_name(name),
            CENTER if fall.edge.kind == CENTER else SEAM,
            fall.in_loop(strip.straight_down(strip.width_mm, depth_mm)),
        )
    ]
    if folds.layers:
        head, foot = strip.across(0.0, 0.0, strip.width_mm), strip.across(depth_mm, strip.width_mm, 0.0)
        beyond.insert(0, Edge(f"{name} pleat head", PLEAT_HEAD, fall.in_loop(head)))
        beyond.append(Edge(f"{name} pleat hem", HEM, fall.in_loop(foot)))
    upper = fall.upper
    if upper is not None:
        waist = fall.edge.waist_at_mm
        waist = None if waist is None else waist - fall.head_mm if fall.rising else waist
        beyond.insert(0, replace(fall.edge, curve=upper, waist_at_mm=waist))
    if fall.rising:
        beyond.reverse()
    edges: list[Edge] = []
    for edge in fall.panel.edges:
        edges += beyond if edge.name == fall.edge.name else [hem if edge.name == hem.name else edge]
    marks = tuple(
        Mark(
            f"{name} fold {number}", "crease", strip.straight_down(crease.folds * pleats.fold_mm, depth_mm), crease.says
        )
        for number, crease in enumerate(folds.creases, start=1)
    )
    return replace(fall.panel, edges=tuple(edges), marks=(*fall.panel.marks, *marks))


def _strip(fall: Fall, folds: SideFolds, pleats: Pleats, depth_mm: float) -> Strip:
    """Return the cloth of the pleats beside a panel, from its own line outward."""
    chord = fall.down.end - fall.down.start
    along = chord / np.hypot(*chord)
    turn = folds.layers * pleats.spread_mm / depth_mm
    return Strip(fall.down.start, along, fall.outward(along), folds.layers * pleats.fold_mm, turn)


def _notes(name: str, pleats: Pleats) -> tuple[Note, ...]:
    place = name.replace("center", "centre")
    if pleats.kind == "knife":
        ahead = "forward" if pleats.toward == "front" else "back"
        lie = f"Outside their folded edges look {ahead}, one under another at the line of the seam"
    else:
        lie = "Outside two folded edges meet on the line of the seam; inside it the boxes lie on one another"
    return (
        Note(
            "sewing first",
            f"Where pleats are let in at the {place}, clip to the corner at the pleat head. Above it the seam is sewn by "
            "itself, below it along the outer edges of the pleats' cloth.",
        ),
        Note(
            "sewing pleats",
            f"Fold the pleats at the {place} on their creases, in order from the panel on, all their cloth to the inside. {lie}. "
            "Baste them flat, all layers together, until the garment is done.",
        ),
        Note(
            "sewing pleats",
            f"Inside, turn in the pleat heads at the {place} and whip them level to one another and to the allowance of the seam "
            "above them. They carry the weight of the skirts; outside nothing of them shows, nor any stitch.",
        ),
        Note(
            "toile",
            f"Do the pleats at the {place} hang closed while you stand? If they are drawn open, the skirts want more flare.",
        ),
    )
