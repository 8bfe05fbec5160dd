"""What a vector editor does to a pattern's drawing, done by hand: lines moved on the body, names lost, files rewritten."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache
from pathlib import Path
from tempfile import mkdtemp

import numpy as np

from fanblock import draft_pattern, open_recipe, open_wearer
from fanblock.block.ruled import Block
from fanblock.geometry.curve import Points
from fanblock.pattern.model import Pattern
from fanblock.sheet.json import pattern_json
from fanblock.sheet.svg import write_svg
from fanblock.sheet.views import Views

STAYS, GOWN, KIRTLE = "stays-five-panels", "gown-bodice-1770s", "kirtle-bodice-front-lacing"
DARTED_GOWN = "gown-bodice-1760s-darted"

Move = Callable[[str, str, Points, Points], tuple[Points, Points] | None]
"""Takes a piece's name, an edge's name, arounds and heights; gives other arounds and heights, or None to leave it alone."""


@cache
def pattern_of(recipe: str, wearer: str) -> Pattern:
    """Return the pattern of a shipped recipe for a demo wearer."""
    return draft_pattern(open_wearer(wearer), open_recipe(recipe))


@cache
def folder_of(recipe: str, wearer: str) -> Path:
    """Return a folder with the two files of a draft that matter here."""
    folder = Path(mkdtemp(prefix="adopt-"))
    keep(pattern_of(recipe, wearer), folder)
    return folder


def keep(pattern: Pattern, folder: Path) -> None:
    """Write a pattern's numbers and its drawing into a folder."""
    folder.mkdir(exist_ok=True)
    (folder / "pattern.json").write_text(pattern_json(pattern), "utf-8")
    (folder / "pattern.svg").write_text(write_svg(Views(pattern).flat), "utf-8")


def svg_of(recipe: str, wearer: str) -> str:
    """Return the drawing of a draft as text."""
    return (folder_of(recipe, wearer) / "pattern.svg").read_text("utf-8")


def redrawn(recipe: str, wearer: str, move: Move) -> bytes:
    """Return a draft's drawing with edges moved on the block: each is written as a run of short straight lines.

    Where a piece lies on the sheet is found from its drawn waist-to-bust levels alone, by the places of their ends.
    """
    pattern, text = pattern_of(recipe, wearer), svg_of(recipe, wearer)
    for panel in (one for one in pattern.panels if not one.added):
        group = slug(f"{panel.number} {panel.name}")
        turn, shift = _lies(text, group, panel.edges[0].name, panel.edges[0].curve.points)
        for edge in panel.edges:
            around, height = pattern.block.where(edge.curve.points)
            moved = move(panel.name, edge.name, around, height)
            if moved is not None:
                sheet = pattern.block.at(*moved) @ turn.T + shift
                run = "M " + " L ".join(f"{x:.4f} {y:.4f}" for x, y in sheet * (1.0, -1.0))
                text, count = re.subn(
                    rf'(<path id="{slug(group + " " + edge.name)}"[^>]* d=")[^"]*', rf"\g<1>{run}", text
                )
                assert count == 1
    return text.encode()


def _lies(text: str, group: str, edge: str, points: Points) -> tuple[Points, Points]:
    """Return turn and shift from the block to the sheet (y up), from the two ends of one edge."""
    run = re.search(rf'<path id="{slug(group + " " + edge)}"[^>]* d="([^"]*)"', text)
    assert run is not None
    numbers = [float(number) for number in re.findall(r"-?[0-9.]+", run[1])]
    there = [complex(numbers[0], -numbers[1]), complex(numbers[-2], -numbers[-1])]
    here = [complex(*points[0]), complex(*points[-1])]
    turn = (there[1] - there[0]) / (here[1] - here[0])
    turn /= abs(turn)
    shift = there[0] - turn * here[0]
    return np.array([[turn.real, -turn.imag], [turn.imag, turn.real]]), np.array([shift.real, shift.imag])


def slug(name: str) -> str:
    """Return a name as the drawing's ids have it."""
    found = re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")
    return f"n{found}" if found[0].isdigit() else found


def seam_moved(block: Block, seam: str, mm: float, at: float = 0.0, reach: float = 0.6, only: str = "") -> Move:
    """Return the move of a seam: ``mm`` towards the back at a height, running out smoothly; of one panel ``only``."""

    def move(panel: str, edge: str, around: Points, height: Points) -> tuple[Points, Points] | None:
        if edge not in (seam, f"{seam} below waist") or only not in ("", panel):
            return None
        by = mm * np.exp(-(((height - at) / reach) ** 2))
        return np.asarray(block.along(around, height, by)), height

    return move


def edge_moved(block: Block, names: tuple[str, ...], up: Callable[[Points], Points]) -> Move:
    """Return the move of outline edges: raised along the rulings by so many mm, by around."""

    def move(panel: str, edge: str, around: Points, height: Points) -> tuple[Points, Points] | None:
        if re.sub(r" \d+$", "", edge) not in names:
            return None
        return around, height + up(around) / block.ruling_length_mm(around)

    return move


def bump(at: float, reach: float, mm: float) -> Callable[[Points], Points]:
    """Return so many mm at an around, running out smoothly on both sides."""
    return lambda around: mm * np.exp(-(((around - at) / reach) ** 2))


def sheet_of(recipe: str, wearer: str, panel: str) -> tuple[str, Callable[[Points], Points]]:
    """Return the id of a piece's group, and what takes points of its block to the drawing (y down)."""
    piece = pattern_of(recipe, wearer).by_name[panel]
    group = slug(f"{piece.number} {piece.name}")
    turn, shift = _lies(svg_of(recipe, wearer), group, piece.edges[0].name, piece.edges[0].curve.points)
    return group, lambda points: np.asarray((points @ turn.T + shift) * (1.0, -1.0))


def run_of(points: Points) -> str:
    """Return points of the drawing as a path of straight lines."""
    return "M " + " L ".join(f"{x:.4f} {y:.4f}" for x, y in points)


def with_line(text: str, recipe: str, wearer: str, panel: str, points: Points, attributes: str) -> str:
    """Return a drawing with one more line in a piece's group; its points are of the block."""
    group, put = sheet_of(recipe, wearer, panel)
    head = re.search(rf'<g id="{group}"[^>]*>', text)
    assert head is not None
    return text.replace(
        head[0], f'{head[0]}<path {attributes} style="fill:none;stroke:#f00" d="{run_of(put(points))}"/>'
    )


def like(recipe: str, wearer: str, other: Pattern, panels: tuple[str, ...], names: tuple[str, ...] = ()) -> bytes:
    """Return a draft's drawing with the edges and marks of some pieces as another pattern has them, or those called so."""
    text = svg_of(recipe, wearer)
    for panel in panels:
        old, new = (one.by_name[panel] for one in (pattern_of(recipe, wearer), other))
        group, put = sheet_of(recipe, wearer, panel)
        taken: set[str] = set()
        for line in (*old.edges, *old.marks):
            key = slug(f"{group} {line.name}")
            key = f"{key}-2" if key in taken else key
            there = [one for one in (*new.edges, *new.marks) if one.name == line.name]
            curve = there[-1 if key in taken or (key.endswith("-2") and len(there) > 1) else 0].curve
            taken.add(key)
            if names and line.name not in names:
                continue
            text, count = re.subn(rf'(<path id="{key}"[^>]* d=")[^"]*', rf"\g<1>{run_of(put(curve.points))}", text)
            assert count == 1, key
    return text.encode()
