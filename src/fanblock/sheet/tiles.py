"""A drawing cut into pages: which pages there are, what each shows, and where two of them meet.

Every page shows its own *field* of the drawing and, left of it and above it, a strip its neighbours show
too. The left and upper page of two that meet is cut along the *joint* and laid over that strip of the
other, so only right and lower edges are ever cut. Rows are letters from the top, columns are numbers from
the left: ``B3``. A page whose field carries no ink is not made.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from fanblock.geometry.curve import Points
from fanblock.problems import ExportError, Problem
from fanblock.sheet.alongside import firm_runs
from fanblock.sheet.drawing import Drawing, Group, Words
from fanblock.sheet.gridding import best_laid
from fanblock.sheet.ink import Box, extent, ink_points
from fanblock.sheet.paper import Paper

HEADER_MM = 6.0
"""Height of the band of words at the top of every page."""

TRIM_MM = 4.0
"""Width of the strip right of and below the field that is cut off; it holds the words that say so."""

LEAST_FIELD_MM = 112.0
"""Least width and height of a field: it holds the test square."""

_MARK_SHARES = tuple(sorted((0.01 * share for share in range(6, 47)), key=lambda share: (abs(share - 0.25), share)))
"""Where along a join its first mark may stand, best first; the second stands as far from the other end."""

_MARK_MM, _BESIDE_MARK_MM = 8.0, 6.0
"""How far a mark and its number reach into the page, and along the join to either side."""

_WORDS_WEIGH = 20
"""How many points of other ink a point of words counts for, where marks of a join look for room."""


@dataclass(frozen=True, slots=True)
class Tile:
    """One page: its row and column from 0, its name, and its field in the drawing."""

    row: int
    column: int
    name: str
    field: Box


@dataclass(frozen=True, slots=True)
class Joint:
    """Where two pages meet: ``over`` is cut along it and laid over ``under``.

    ``number`` stands beside the marks on both pages. An upright joint is at ``x = at_mm`` in the drawing
    and its marks at the heights ``marks_mm``; a level one is at ``y = at_mm`` and its marks at those places
    across.
    """

    number: int
    upright: bool
    over: Tile
    under: Tile
    at_mm: float
    marks_mm: tuple[float, float]


@dataclass(frozen=True)
class TilePlan:
    """All pages of a drawing on one paper, in reading order, and their joints. ``grid`` is the whole table
    of fields."""

    paper: Paper
    rows: int
    columns: int
    grid: Box
    tiles: tuple[Tile, ...]
    joints: tuple[Joint, ...]

    @cached_property
    def by_place(self) -> dict[tuple[int, int], Tile]:
        """The pages by row and column."""
        return {(tile.row, tile.column): tile for tile in self.tiles}

    def shift(self, tile: Tile) -> tuple[float, float]:
        """Return what to add to a place in the drawing to get the place on the page of ``tile``."""
        own = field_on(self.paper)
        return own.left - tile.field.left, own.bottom - tile.field.bottom


def printable(paper: Paper) -> Box:
    """Return the part of a sheet that printers reach."""
    m = paper.margin_mm
    return Box(m, m, paper.width_mm - m, paper.height_mm - m)


def below_header(paper: Paper) -> Box:
    """Return the part of a sheet that a first page may draw on: all that printers reach, without the band
    of words."""
    area = printable(paper)
    return Box(area.left, area.bottom, area.right, area.top - HEADER_MM)


def field_on(paper: Paper) -> Box:
    """Return where on the sheet the field of a page lies."""
    window = window_on(paper)
    return Box(window.left + paper.overlap_mm, window.bottom, window.right, window.top - paper.overlap_mm)


def window_on(paper: Paper) -> Box:
    """Return where on the sheet the drawing shows: the field with the strips left of and above it."""
    area = below_header(paper)
    return Box(area.left, area.bottom + TRIM_MM, area.right - TRIM_MM, area.top)


def tile_name(row: int, column: int) -> str:
    """Return the name of a page: rows A to Z, then AA; columns from 1.

    >>> tile_name(1, 2), tile_name(26, 0)
    ('B3', 'AA1')
    """
    letters, rest = "", row + 1
    while rest:
        rest, letter = divmod(rest - 1, 26)
        letters = chr(ord("A") + letter) + letters
    return f"{letters}{column + 1}"


def plan_tiles(drawing: Drawing, paper: Paper, ink: Sequence[Points] = ()) -> TilePlan:
    """Return the pages on which ``drawing`` fits: of several ways to lay the grid the one with fewest pages and,
    among such, the one with least of a cut or stitched line along a join, then fewest joins across a group.

    ``ink`` may hand on the :func:`fanblock.sheet.ink.ink_points` of each group, where they are already known.
    Raises :class:`fanblock.problems.ExportError` for a roll, for paper too small, and for a drawing without
    ink.
    """
    own = field_on(paper)
    if paper.is_roll or min(own.width_mm, own.height_mm) < LEAST_FIELD_MM:
        what = f"{paper.name} cannot be joined from pages."
        raise ExportError([Problem("tile-paper", "paper", what, "Choose A4, Letter or A3, or print it in one piece.")])
    parts = ink or [ink_points((group,)) for group in drawing.groups]
    points = np.vstack((np.empty((0, 2)), *parts))
    around = extent(points)
    if around is None:
        raise ExportError([Problem("no-ink", "drawing", "There is nothing on the drawing to print.")])
    laid = best_laid(parts, firm_runs(drawing.groups), around, own, paper.overlap_mm)
    tiles = tuple(_tile(laid.grid, own, row, column) for row, column in laid.inked)
    joints = _joints(tiles, points, _words_points(drawing))
    return TilePlan(paper, laid.rows, laid.columns, laid.grid, tiles, joints)


def _words_points(drawing: Drawing) -> Points:
    """Points over everything that is written on a drawing."""
    words = (item for group in drawing.groups for item in group.items if isinstance(item, Words))
    return ink_points((Group("words", tuple(words)),))


def _tile(grid: Box, own: Box, row: int, column: int) -> Tile:
    left, top = grid.left + column * own.width_mm, grid.top - row * own.height_mm
    field = Box(left, top - own.height_mm, left + own.width_mm, top)
    return Tile(row, column, tile_name(row, column), field)


def _joints(tiles: tuple[Tile, ...], ink: Points, words: Points) -> tuple[Joint, ...]:
    place = {(tile.row, tile.column): tile for tile in tiles}
    joints: list[Joint] = []
    for tile in tiles:
        right, below = place.get((tile.row, tile.column + 1)), place.get((tile.row + 1, tile.column))
        field = tile.field
        if right is not None:
            near = [points[np.abs(points[:, 0] - field.right) < _MARK_MM][:, 1] for points in (ink, words)]
            marks = _marks(near[0], near[1], field.bottom, field.top)
            joints.append(Joint(len(joints) + 1, True, tile, right, field.right, marks))
        if below is not None:
            near = [points[np.abs(points[:, 1] - field.bottom) < _MARK_MM][:, 0] for points in (ink, words)]
            marks = _marks(near[0], near[1], field.left, field.right)
            joints.append(Joint(len(joints) + 1, False, tile, below, field.bottom, marks))
    return tuple(joints)


def _marks(ink: Points, words: Points, low: float, high: float) -> tuple[float, float]:
    """Places of the two marks of a joint, one in each half, where there is least ink, least of all of words."""

    def clear(shares: list[float]) -> float:
        return min(
            (low + share * (high - low) for share in shares),
            key=lambda at: _met(ink, at) + _WORDS_WEIGH * _met(words, at),
        )

    return clear(list(_MARK_SHARES)), clear([1.0 - share for share in _MARK_SHARES])


def _met(near: Points, at: float) -> int:
    return int((np.abs(near - at) < _BESIDE_MARK_MM).sum())
