"""The recipe walked twice side by side: as it was, and with every line where the maker drew it.

Edges and seams stand on one another: a seam ends on the top edge, an edge is told from a seam. So every step is drawn
anew on the draft as it now is, and only where that would not give the line that was drawn are its words changed.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields, replace
from typing import Any

import numpy as np

from fanblock.adopting.changing import Change, step_calls
from fanblock.adopting.darts import DART, DartTarget, dart_targets, redarted
from fanblock.adopting.levels import ALIKE_MM, LEVEL_SEAM, LevelTarget, level_options, level_targets
from fanblock.adopting.moved import DrawnMark
from fanblock.adopting.outlines import FIT_MM, Said, SaidEdge, chain_edges, crossing_points, level_all_round
from fanblock.adopting.placing import SAME_MM, UNMOVED_MM
from fanblock.adopting.seams import off_line_mm, seam_points
from fanblock.adopting.sorting import CHAINS, Sorted, main_line, outline_targets, seam_targets
from fanblock.adopting.taking import Retake, retaken, with_less_room
from fanblock.adopting.targets import SeamTarget, Target
from fanblock.adopting.wording import height_words
from fanblock.draft.model import Draft
from fanblock.draft.places import height_on
from fanblock.recipe.model import Recipe, Step
from fanblock.steps.table import BY_NAME, SEPARATES
from fanblock.terms import Height, Length, Position

SEAM = "seam"


@dataclass(frozen=True, slots=True, eq=False)
class Walked:
    """What came of the walk: the changes, where every line now runs, what is to be told."""

    changes: tuple[Change, ...]
    outlines: Mapping[str, Target]
    seams: Mapping[str, SeamTarget]
    levels: Mapping[str, LevelTarget]
    darts: Mapping[str, tuple[DartTarget, float]]
    old: Draft
    new: Draft
    notes: tuple[str, ...]


def drawn_on(start: Draft, steps: tuple[Step, ...]) -> Draft:
    """Return the draft with every step on it that stands before it is cut apart."""
    for step in steps:
        if BY_NAME[step.kind].stage == SEPARATES:
            break
        start = BY_NAME[step.kind].run(start, step.options)
    return start


def walked(start: Draft, recipe: Recipe, set_recipe: Recipe, edges: Sorted, marks: Sequence[DrawnMark] = ()) -> Walked:
    """Return the changes of a recipe by which its lines, and its darts among the ``marks``, run where they were drawn.

    ``set_recipe`` is the recipe with its dials set as they were for the draft.
    """
    old = drawn_on(start, set_recipe.steps)
    targets = {chain: outline_targets(old, chain, edges.outlines) for chain in CHAINS}
    by_seam = seam_targets(old, edges)
    moved = {name for name, found in edges.outlines.items() if any(edge.is_moved for edge in found)}
    walk = _Walk(old, start, targets, by_seam, moved)
    walk.levels, walk.darts = level_targets(old, edges.levels), dart_targets(old, marks)
    for call, step, set_step in zip(step_calls(recipe), recipe.steps, set_recipe.steps, strict=True):
        if BY_NAME[step.kind].stage == SEPARATES:
            walk.lessen()
            break
        walk.take(call, step, set_step)
    outlines = {name: target for found in targets.values() for name, target in found.items() if name in moved}
    levels = {name: target for name, target in walk.levels.items() if name in walk.adopted}
    darts = {name: (target, walk.adopted[name]) for name, target in walk.darts.items() if name in walk.adopted}
    return Walked(tuple(walk.changes), outlines, by_seam, levels, darts, old, walk.new, tuple(walk.notes))


class _Walk:
    """The draft as it now is, step by step, with the changes that this took."""

    def __init__(
        self,
        old: Draft,
        new: Draft,
        targets: Mapping[str, Mapping[str, Target]],
        seams: Mapping[str, SeamTarget],
        moved: set[str],
    ) -> None:
        self.old, self.new, self.targets, self.seams, self.moved = old, new, targets, seams, moved
        self.changes: list[Change] = []
        self.notes: list[str] = []
        self.less_mm: dict[str, float] = {}
        self.levels: Mapping[str, LevelTarget] = {}
        self.darts: Mapping[str, DartTarget] = {}
        self.adopted: dict[str, float] = {}

    def lessen(self) -> None:
        """Book the room that seams take which were moved apart, before the draft is cut."""
        less = {name: -round(mm, 1) for name, mm in self.less_mm.items() if abs(mm) > SAME_MM}
        if less:
            self.new = with_less_room(self.new, self.less_mm)
            ease = {name.replace(" ", "_"): Length(mm) for name, mm in less.items()}
            self.changes.append(Change(SEPARATES_STEP, ease, whole="ease", put="before"))

    def take(self, call: str, step: Step, set_step: Step) -> None:
        """Draw one step, with other words where it takes them."""
        options: Any = step.options
        set_options: Any = set_step.options
        drawn = set_options
        if step.kind in CHAINS and self.moved & self.targets[step.kind].keys():
            drawn = self._edge(step.kind, options, set_options)
        elif step.kind == SEAM:
            drawn = self._seam(options, set_options)
        elif step.kind == LEVEL_SEAM and options.name in self.levels:
            drawn = self._level(options, set_options)
        elif step.kind == DART and options.name in self.darts:
            drawn = self._dart(call, options, set_options)
        self.new = BY_NAME[step.kind].run(self.new, drawn)

    def _edge(self, chain: str, options: Any, set_options: Any) -> Any:
        """Return the options of an outline edge that draw it where it was drawn, and note the change."""
        if options.edges:
            return self._named_edges(chain, options, set_options)
        before, run = self.new, BY_NAME[chain].run
        target, line = self.targets[chain][chain], main_line(self.old, chain)
        height = getattr(options, "height", None)
        if height is None:
            said, bare = _said(options.through, set_options.through), set_options
        else:
            even = _even(before, target, set_options.height)
            if even is not None:
                self.changes.append(Change(chain, {"height": even}))
                return replace(set_options, height=even)
            said = _said(level_all_round(ROUND, height), level_all_round(ROUND, set_options.height))
            bare = replace(set_options, height=None)
        points = crossing_points(
            before, said, target, line, lambda found: main_line(run(before, replace(bare, through=found)), chain)
        )
        words = tuple(one.words for one in points)
        self.changes.append(Change(chain, {"through": words}, whole="" if height is None else chain))
        return replace(bare, through=tuple(one.set for one in points))

    def _named_edges(self, chain: str, options: Any, set_options: Any) -> Any:
        before, run = self.new, BY_NAME[chain].run
        said = [SaidEdge(words, set_) for words, set_ in zip(options.edges, set_options.edges, strict=True)]
        edges, notes = chain_edges(
            before, chain, said, self.targets[chain], lambda found: run(before, replace(set_options, edges=found))
        )
        self.notes += notes
        self.changes.append(Change(chain, {"edges": tuple(one.words for one in edges)}))
        return replace(set_options, edges=tuple(one.set for one in edges))

    def _seam(self, options: Any, set_options: Any) -> Any:
        """Return the options of a seam that draw it where it was drawn; note the change where the old ones do not."""
        before, run = self.new, BY_NAME[SEAM].run
        target, old = self.seams.get(options.name), self.old.seam(options.name)
        retake = None if target is None else retaken(self.old, old, options, set_options, target)
        if retake is not None:
            set_options = replace(set_options, **retake.set)
            for girth, mm in retake.less_mm.items():
                self.less_mm[girth] = self.less_mm.get(girth, 0.0) + mm
        off = off_line_mm(before, run(before, set_options).seams[-1], target, old)
        if off < (UNMOVED_MM if target is None else FIT_MM):
            self._note_seam(options, {} if retake is None else retake.words, retake)
            return set_options
        points = seam_points(
            before,
            _said(options.through, set_options.through),
            target,
            old,
            lambda found: run(before, replace(set_options, through=found)),
        )
        words = tuple(one.words for one in points)
        moved = {"through": words} if words != options.through else {}
        self._note_seam(options, moved if retake is None else {**moved, **retake.words}, retake)
        return replace(set_options, through=tuple(one.set for one in points))

    def _level(self, options: Any, set_options: Any) -> Any:
        """Return the options of a level seam that draw it where it was drawn, and note the change."""
        moved, name = self.levels[options.name], options.name
        if moved.apart_mm > ALIKE_MM:
            self.notes.append(
                f"the two edges of {name} were moved apart, by {moved.apart_mm:.1f} mm: a level seam takes nothing, so it is "
                "not adopted. Move both alike, on the pieces above it and below it"
            )
            return set_options
        before, run, old = self.new, BY_NAME[LEVEL_SEAM].run, next(o for o in self.old.level_seams if o.name == name)
        changed, whole, drawn = level_options(before, options, set_options, old, moved.target, run)
        self.changes.append(Change(name, changed, whole=LEVEL_SEAM if whole else ""))
        self.adopted[name] = 0.0
        return drawn

    def _dart(self, call: str, options: Any, set_options: Any) -> Any:
        """Return the options of a dart that draw it where it was drawn, and note the change."""
        target = self.darts[options.name]
        if target.problem:
            self.notes.append(
                f"the dart {options.name} is not adopted: {target.problem}. Let its legs end on one point"
            )
            return set_options
        found = redarted(self.old, self.new, options, set_options, target)
        for girth, mm in found.less_mm.items():
            self.less_mm[girth] = self.less_mm.get(girth, 0.0) + mm
        whole = {one.name: getattr(options, one.name) for one in fields(options)} | dict(found.words) | {"share": None}
        changed = whole if found.unshared else found.words
        if changed:
            self.changes.append(Change(call, changed, whole=DART if found.unshared else ""))
        self.adopted[options.name] = found.wider_mm
        return replace(set_options, **found.set)

    def _note_seam(self, options: Any, changed: Mapping[str, Any], retake: Retake | None) -> None:
        """Note what changes in a seam; one that carried a share and no longer does is put in the place of the old one."""
        if not changed:
            return
        if retake is None or not retake.unshared:
            self.changes.append(Change(options.name, changed))
            return
        whole = {one.name: getattr(options, one.name) for one in fields(options)} | dict(changed)
        del whole["share"]
        self.changes.append(Change(options.name, whole, whole=SEAM))


SEPARATES_STEP = "separate"

ROUND = 4
"""Into how many quarters an edge at one height all round is cut when it is drawn through points instead."""


def _said(words: tuple[Position, ...], set_: tuple[Position, ...]) -> tuple[Said, ...]:
    return tuple(Said(*pair) for pair in zip(words, set_, strict=True))


def _even(before: Draft, target: Target, was: Height) -> Height | None:
    """Return one height for an edge that was moved evenly all round, None for any other."""
    around, height = before.block.where(target.points)
    ruling = before.block.ruling_length_mm(around)
    shift = np.array([h - height_on(before, was, float(u)) for u, h in zip(around, height, strict=True)]) * ruling
    if float(np.ptp(shift)) > 2.0 * FIT_MM:
        return None
    up = float(np.median(shift)) / float(before.block.ruling_length_mm(0.0))
    return height_words(before, was, 0.0, height_on(before, was, 0.0) + up)
