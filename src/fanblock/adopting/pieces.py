"""A piece that is not cut from the block, redrawn: the options of its step by which it comes out as it was drawn.

What a strap, a stomacher, a sleeve or a skirt looks like follows from a few lengths of its step. Each of these is tried: how
the piece's outline answers to it is seen by drawing it a little longer, and of the fewest lengths that give the outline that
was drawn the values are settled (the method of Gauss and Newton: least squares, step by step). What they cannot give within
half a millimetre is told and not adopted: nothing is guessed.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations
from typing import Any

import numpy as np

from fanblock.adopting.changing import Change, step_calls
from fanblock.adopting.feet import followed
from fanblock.adopting.lengths import lengths_of
from fanblock.adopting.moved import DrawnEdge, held_on
from fanblock.adopting.placing import SAME_MM, Motion, rigid, sampled
from fanblock.adopting.table import Row
from fanblock.adopting.wording import MM_DECIMALS
from fanblock.draft.work import Work
from fanblock.geometry.curve import Curve, Points
from fanblock.make import run_steps
from fanblock.problems import FanblockError
from fanblock.recipe.model import Recipe
from fanblock.steps.table import BY_NAME

WITHIN_MM = 0.5
"""A piece that comes out this near to what was drawn is that piece."""

TRIED_MM = 2.0
"""By how much each length is changed to see how the outline answers."""

ANSWERS_MM = 0.02
"""A length to which no point of the outline answers by more than this has no part in it."""

MOST_LENGTHS = 3
"""Most lengths that are changed at once: with more of them many outlines could be hit by chance."""

SURER = 0.5
"""Another choice of as many lengths must miss by twice as much, or nobody can tell which was meant."""

MANY = 4
"""So many lines of one piece are counted and not named."""

_ROUNDS = 8


@dataclass(frozen=True, slots=True, eq=False)
class NewPieces:
    """The changes and rows of pieces that were redrawn, and what is to be told of those that are not adopted."""

    changes: tuple[Change, ...]
    rows: tuple[Row, ...]
    notes: tuple[str, ...]


Place = tuple[str, str, int]
"""An edge: its piece's name, its own, and which of those of that name it is."""

Outline = Mapping[Place, Curve]
"""Edges by their places."""


def redrawn_pieces(
    added: Mapping[str, Sequence[DrawnEdge]], titles: Mapping[str, str], recipe: Recipe, set_recipe: Recipe, start: Any
) -> NewPieces:
    """Return how the steps change whose pieces were redrawn; ``start`` is the draft that the recipe begins with."""
    changes: list[Change] = []
    rows: list[Row] = []
    left = {name for name, edges in added.items() if any(edge.is_moved for edge in edges)}
    for number, call in enumerate(step_calls(recipe)):
        step = set_recipe.steps[number]
        names = tuple(name for name in BY_NAME[step.kind].adds(step.options) if name in added)
        if not left & {*names}:
            continue
        found = _Redrawn(set_recipe, number, start, [edge for name in names for edge in added[name]]).fitted()
        if found is None:
            continue
        options, said, off = found
        changes.append(Change(call, options))
        rows += [Row(names[0] if len(names) == 1 else call, *told, off) for told in said]
        left -= {*names}
    notes = [
        _not_adopted(titles[name], [edge for edge in edges if edge.is_moved])
        for name, edges in added.items()
        if name in left
    ]
    return NewPieces(tuple(changes), tuple(rows), tuple(notes))


def _not_adopted(title: str, moved: Sequence[DrawnEdge]) -> str:
    names = " and ".join(edge.name for edge in moved) if len(moved) < MANY else f"{len(moved)} lines"
    were = "was" if len(moved) == 1 else "were"
    most = max(edge.off_mm for edge in moved)
    return (
        f"{names} of the piece “{title}” {were} moved, by up to {most:.1f} mm. That piece is not cut from the block, and no "
        "lengths of the step that makes it give that outline, so it is not adopted. Change the step in the recipe"
    )


class _Redrawn:
    """The step of some pieces, and how near its lengths bring them to what was drawn."""

    def __init__(self, recipe: Recipe, number: int, start: Any, edges: Sequence[DrawnEdge]) -> None:
        self.recipe, self.number, self.start = recipe, number, start
        self.edges = list(edges)
        self.options: Any = recipe.steps[number].options
        before = replace(recipe, steps=recipe.steps[:number])
        self.before: Work = run_steps(start, before)
        self.lengths = tuple(lengths_of(self.before, recipe.steps[number].kind, self.options))
        base = self._outline(np.zeros(len(self.lengths)))
        self.drawn = {} if base is None else self._redrafted(base)

    def _redrafted(self, base: Outline) -> dict[Place, Curve]:
        """Return the edges as they are drawn, moved by what drafting anew moves them.

        The block of a draft that is read back agrees with the one it was drafted on to a hundredth of a millimetre; the cap
        of a sleeve may answer to that by a millimetre and more, its length being the same.
        """
        laid = self._laid(base, {_place(edge): edge.old for edge in self.edges})
        found = {}
        for edge in self.edges:
            by = sampled(laid[_place(edge)]) - sampled(edge.old)
            points = followed(edge.new)
            at = np.linspace(0.0, len(by) - 1.0, len(points))
            shift = np.column_stack([np.interp(at, np.arange(len(by)), by[:, axis]) for axis in (0, 1)])
            found[_place(edge)] = Curve.through(points + shift)
        return found

    def fitted(self) -> tuple[dict[str, Any], list[tuple[str, str, float]], float] | None:
        """Return the options that change, what is to be told of each, and how far the outline misses; None if none fit."""
        none = np.zeros(len(self.lengths))
        base = self._misses(none) if self.drawn else None
        if base is None:
            return None
        slopes, answers = np.zeros((len(self.lengths), len(base))), np.zeros(len(self.lengths))
        for number in range(len(self.lengths)):
            for way in (1.0, -1.0):
                tried = none.copy()
                tried[number] = way * TRIED_MM
                there = self._misses(tried)
                if there is not None:
                    slopes[number] = (there - base) / (way * TRIED_MM)
                    answers[number] = float(np.abs(there - base).max())
                    break
        alive = [number for number in range(len(self.lengths)) if answers[number] > ANSWERS_MM]
        for count in range(1, min(MOST_LENGTHS, len(alive)) + 1):
            found = self._best(base, slopes, alive, count)
            if found is not None:
                return found
        return None

    def _best(
        self, base: Points, slopes: Points, alive: Sequence[int], count: int
    ) -> tuple[dict[str, Any], list[tuple[str, str, float]], float] | None:
        """Return the choice of so many lengths that gives the outline, if there is one and no other is as near."""
        ranked = []
        for chosen in combinations(alive, count):
            part = slopes[list(chosen)].T
            step, *_ = np.linalg.lstsq(part, -base, rcond=None)
            ranked.append((float(np.linalg.norm(base + part @ step)), chosen))
        met = []
        for _, chosen in sorted(ranked)[:3]:
            values = self._settled(chosen, base, slopes)
            if values is not None:
                off = self._off_mm(values)
                if off is not None and off < WITHIN_MM:
                    met.append((off, chosen, values))
        met.sort(key=lambda one: (one[0], one[1]))
        if not met or (len(met) > 1 and met[0][0] > SURER * met[1][0] and met[1][0] > SAME_MM):
            return None
        off, chosen, values = met[0]
        said = [
            (self.lengths[number].says, _more(float(values[number])), abs(float(values[number]))) for number in chosen
        ]
        return self._changed(values, chosen), said, off

    def _settled(self, chosen: Sequence[int], base: Points, slopes: Points) -> Points | None:
        """Return the changes of the chosen lengths at which the outline misses least, in mm; None where it cannot be drawn."""
        values, part = np.zeros(len(self.lengths)), slopes[list(chosen)].T
        misses = base
        for _ in range(_ROUNDS):
            step, *_ = np.linalg.lstsq(part, -misses, rcond=None)
            values[list(chosen)] += step
            if float(np.abs(step).max()) < SAME_MM / 2.0:
                break
            now = self._misses(values)
            if now is None:
                return None
            misses, columns = now, []
            for number in chosen:
                tried = values.copy()
                tried[number] += TRIED_MM
                there = self._misses(tried)
                columns.append(slopes[number] if there is None else (there - misses) / TRIED_MM)
            part = np.array(columns).T
        return np.round(values, MM_DECIMALS)

    def _changed(self, values: Points, chosen: Sequence[int]) -> dict[str, Any]:
        """Return the options with these changes of the chosen lengths; points of one list are changed together."""
        found: dict[str, Any] = {}
        for number in chosen:
            length, mm = self.lengths[number], float(values[number])
            now = length.words(mm)
            was = found.get(length.option)
            if isinstance(now, tuple) and was is not None:
                now = tuple(
                    new if new != old else kept for new, old, kept in zip(now, length.words(0.0), was, strict=True)
                )
            found[length.option] = now
        return found

    def _outline(self, values: Points) -> Outline | None:
        """Return the pieces' edges with these changes; None where they cannot be drawn, or have other edges."""
        chosen = [number for number in range(len(values)) if values[number]]
        steps = list(self.recipe.steps[self.number :])
        try:
            steps[0] = replace(steps[0], options=replace(self.options, **self._changed(values, chosen)))
            state: Any = self.before
            for step in steps:
                state = BY_NAME[step.kind].run(state, step.options)
        except (FanblockError, ValueError):
            return None
        edges: dict[Place, Curve] = {}
        for panel in state.panels:
            often = Counter[str]()
            for edge in panel.edges:
                edges[panel.name, edge.name, often[edge.name]] = edge.curve
                often[edge.name] += 1
        wanted = [_place(edge) for edge in self.edges]
        return {key: edges[key] for key in wanted} if all(key in edges for key in wanted) else None

    def _laid(self, outline: Outline, on: Outline) -> dict[Place, Curve]:
        """Return the edges of every piece turned and moved to lie on others as near as they can."""
        laid = {}
        for panel in sorted({edge.panel for edge in self.edges}):
            own = [edge for edge in self.edges if edge.panel == panel]
            made = np.vstack([sampled(outline[_place(edge)]) for edge in own])
            motion: Motion = rigid(made, np.vstack([sampled(on[_place(edge)]) for edge in own]))
            laid.update({_place(edge): motion.put(outline[_place(edge)]) for edge in own})
        return laid

    def _misses(self, values: Points) -> Points | None:
        """Return by how much points of the outline lie elsewhere than was drawn."""
        outline = self._outline(values)
        if outline is None:
            return None
        laid = self._laid(outline, self.drawn)
        return np.concatenate([(sampled(laid[key]) - sampled(line)).ravel() for key, line in self.drawn.items()])

    def _off_mm(self, values: Points) -> float | None:
        """Return how far the outline stands off what was drawn, at most, ends included."""
        outline = self._outline(values)
        if outline is None:
            return None
        laid = self._laid(outline, self.drawn)
        off = 0.0
        for key, drawn in self.drawn.items():
            made = laid[key]
            for points, line in ((followed(made), drawn), (followed(drawn), made)):
                off = max(off, float(np.hypot(*(points - held_on(points, line)).T).max()))
        return off


def _place(edge: DrawnEdge) -> Place:
    return edge.panel, edge.name, edge.nth


def _more(mm: float) -> str:
    return f"{abs(mm):.1f} mm {'more' if mm > 0.0 else 'less'}"
