"""Lines of the maker's own, drawn on the pieces: each becomes a ``mark`` of the recipe, good for any body.

A line counts as drawn on the piece that holds most of it. It is told through the fewest places by which the step draws it
again: straight from corner to corner where that takes fewer, else smooth.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

import numpy as np

from fanblock.adopting.changing import Change, step_calls
from fanblock.adopting.copies import Ours, ours
from fanblock.adopting.kept import Kept, KeptPanel
from fanblock.adopting.moved import Compared, DrawnMark, apart_mm, held_on
from fanblock.adopting.outlines import FIT_MM
from fanblock.adopting.strangers import own_name
from fanblock.adopting.strokes import Found
from fanblock.adopting.table import Row
from fanblock.adopting.wording import SHARE_DECIMALS, around_words, height_words
from fanblock.draft.model import Draft
from fanblock.draft.work import Work
from fanblock.geometry.curve import Curve, Points
from fanblock.geometry.region import holds_line, longest_within, thinned
from fanblock.geometry.splines import through_points
from fanblock.recipe.model import Recipe
from fanblock.recipe.phrase import LONGEST_NAME
from fanblock.steps.mark import STEP_MM
from fanblock.terms import Around, Height, Position, Share
from fanblock.tracing.bare import Element, plain_name
from fanblock.tracing.lines import NoLineError, as_line
from fanblock.units import shown

MARK = "mark"

SHORTEST_MM = 5.0
"""A line of the maker's own that is shorter was a slip of her hand."""

CORNERED_MM = 0.1
"""A line drawn from corner to corner stays this near to its chords; a bend does not."""

MOST_PLACES = 24
"""A line that takes more places than these is a picture, and no place to lay something."""

TOLD_MM = 30.0
"""A line without a name beside all pieces that is shorter is a tick of the sheet's own, or a slip."""

MOST_OFF = 0.02
"""The share of a line that may lie off its piece without a word: its ends were drawn by hand."""

MOST_LOOKED = 200
"""How many lines that were not drafted are looked at: nobody draws more marks by hand."""

_MOST_TOLD = 12
"""How many lines that are not adopted are told of one by one."""

_NOT_IN_NAMES = re.compile(r"[^\w '’-]|_")


@dataclass(frozen=True, slots=True, eq=False)
class NewMarks:
    """The changes and rows of marks, the lines that were drawn by the piece's and the mark's name, and what is to be told."""

    changes: tuple[Change, ...]
    rows: tuple[Row, ...]
    drawn: Mapping[tuple[str, str], Curve]
    notes: tuple[str, ...]


@dataclass(slots=True, eq=False)
class _Gathered:
    """What is found line by line."""

    changes: list[Change] = field(default_factory=list)
    rows: list[Row] = field(default_factory=list)
    drawn: dict[tuple[str, str], Curve] = field(default_factory=dict)
    notes: list[str] = field(default_factory=list)
    told: list[str] = field(default_factory=list)


def drawn_marks(found: Found, compared: Compared, kept: Kept, recipe: Recipe, work: Work) -> NewMarks:
    """Return the lines that the maker drew or moved as marks of the recipe; what cannot be one is told by its place."""
    gathered = _Gathered()
    _moved(compared, kept, recipe, work, gathered)
    lines = ours(kept.panels, compared)
    taken = {(panel.name, mark.name) for panel in kept.panels for mark in panel.marks}
    last = step_calls(recipe)[-1]
    for element in found.strangers[:MOST_LOOKED]:
        said = _drawn(element, found, lines, kept.panels)
        if isinstance(said, str):
            if said:
                gathered.told.append(said)
            continue
        name = _free(said.name, said.panel.name, taken)
        told = _step(kept.start, said.curve)
        if told is None:
            what = "it takes too many places to tell. Draw it plainer"
            gathered.told.append(f"the line {shown(name)} on piece {shown(said.panel.title)} is not adopted: {what}")
            continue
        taken.add((said.panel.name, name))
        gathered.drawn[said.panel.name, name] = said.curve
        options = {"name": name, "panel": said.panel.name, **told}
        gathered.changes.append(Change(last, options, whole=MARK, put="after"))
        gathered.rows.append(Row(name, f"on {said.panel.name}", f"drawn, {said.curve.length_mm:.0f} mm long", 0.0, 0.0))
        gathered.notes += said.notes
    if len(found.strangers) > MOST_LOOKED:
        gathered.notes.append(f"only the first {MOST_LOOKED} lines that were not drafted were looked at")
    more = len(gathered.told) - _MOST_TOLD
    if more > 0:
        gathered.told[_MOST_TOLD:] = [f"{more} more lines of your own are not adopted"]
    return NewMarks(tuple(gathered.changes), tuple(gathered.rows), gathered.drawn, (*gathered.told, *gathered.notes))


def left_over(rows: Sequence[Row], drawn: Mapping[tuple[str, str], Curve], work: Work) -> tuple[Row, ...]:
    """Return the rows of marks with how far the new recipe's lines stand off those that were drawn."""
    made = {(panel.name, mark.name): mark.curve for panel in work.panels for mark in panel.marks}
    found = []
    for row in rows:
        key = next((key for key in drawn if (key[1], f"on {key[0]}") == (row.line, row.at)), None)
        if key is not None and key in made:
            off = np.hypot(*(made[key].points - held_on(made[key].points, drawn[key])).T)
            row = replace(row, left_mm=float(off.max()))
        found.append(row)
    return tuple(found)


def _moved(compared: Compared, kept: Kept, recipe: Recipe, work: Work, gathered: _Gathered) -> None:
    """Note the marks of the recipe that were moved, and tell of other lines on the pieces that were."""
    steps: dict[tuple[str, str], tuple[str, Any]] = {}
    for step, call in zip(recipe.steps, step_calls(recipe), strict=True):
        own: Any = step.options
        if step.kind == MARK:
            steps[own.panel, own.name] = call, own
    darts = {dart.name for dart in work.draft.darts}
    titles = {panel.name: panel.title for panel in kept.panels}
    for mark in compared.marks:
        moved = any(edge.is_moved for edge in compared.added.get(mark.panel, ()))
        if not mark.is_moved or mark.name in darts or moved:
            continue
        found = steps.get((mark.panel, mark.name))
        if found is None:
            gathered.told.append(_follows(mark, titles[mark.panel]))
            continue
        told = _step(kept.start, mark.new)
        if told is not None:
            call, options = found
            straight = bool(told["straight"])
            told["straight"] = None if straight == options.straight else straight
            gathered.changes.append(Change(call, told))
            gathered.drawn[mark.panel, mark.name] = mark.new
            gathered.rows.append(Row(mark.name, f"on {mark.panel}", f"{mark.off_mm:.1f} mm", mark.off_mm, 0.0))


def _follows(mark: DrawnMark, title: str) -> str:
    return (
        f"{shown(mark.name)} on piece {shown(title)} was moved by {mark.off_mm:.1f} mm: it is drawn from the lines of that piece "
        "and from its steps, so it is not adopted. Move the lines it follows, or change its step"
    )


@dataclass(frozen=True, slots=True, eq=False)
class _Drawn:
    """One line of the maker's own on the piece it lies on, in the block's frame."""

    name: str
    panel: KeptPanel
    curve: Curve
    notes: tuple[str, ...]


def _drawn(element: Element, found: Found, lines: Ours, panels: Sequence[KeptPanel]) -> _Drawn | str:
    """Return a line that is not ours as one drawn on a piece, or why it is none, to be told; nothing of what is no matter."""
    name = own_name(element)
    called = f"the line {shown(name)} (line {element.line} of the file)" if name else _nameless(element)
    try:
        curve = as_line(element)
    except NoLineError as fault:
        return f"{called} is not adopted: it {fault.what.rstrip('.')}. {fault.remedy.rstrip('.')}"
    curve = curve.moved(found.scale * np.eye(2), np.zeros(2))
    if curve.length_mm < SHORTEST_MM:
        return ""
    like = lines.like(name)
    under = lines.under(curve)
    if under and (like or not name):
        return ""
    if under:
        remedy = "Draw it elsewhere if it shall be a mark of the recipe, or delete it"
        return f"{called} is not adopted: it lies all along {shown(under)}, which is drawn there already. {remedy}"
    held = max(_holding(curve, lines.compared, panels), key=lambda one: one[0], default=None)
    if held is None and not name and curve.length_mm < TOLD_MM:
        return ""
    if held is None or held[0] < 0.5 * curve.length_mm:
        return (
            f"{called} is not adopted: it lies on no piece that is cut from the block. Draw it on one, within its lines"
        )
    mm, panel, inner = held
    if not name:
        remedy = (
            "If it shall be a mark of the recipe, give it a name in the editor's list of objects, such as “pocket”, and"
        )
        remedy += " save the drawing in the editor's own kind of SVG: a plain one may lose that name"
        return f"{called} on piece {shown(panel.title)} is not adopted. {remedy}"
    if like:
        same = "has that name" if like == plain_name(name) else f"is called {shown(like)}, and so would a copy of it be"
        remedy = "Give it a name of its own if it shall be a mark of the recipe, or delete it"
        return f"{called} on piece {shown(panel.title)} is not adopted: a line of the pattern {same}. {remedy}"
    clean = " ".join(_NOT_IN_NAMES.sub(" ", name).split())[:LONGEST_NAME].strip(" -'’")
    if not clean or not clean[0].isalpha():
        return f"{called} on piece {shown(panel.title)} is not adopted: its name must begin with a letter. Name it otherwise"
    off = curve.length_mm - mm
    if off <= MOST_OFF * curve.length_mm:
        return _Drawn(clean, panel, inner, ())
    note = f"{shown(clean)} runs {off:.0f} mm beyond the stitch lines of piece {shown(panel.title)}: that is left out"
    return _Drawn(clean, panel, inner, (note,))


def _nameless(element: Element) -> str:
    own = element.attributes.get("id", "")
    return f"a line without a name ({f'{own}, ' if own else ''}line {element.line} of the file)"


def _holding(curve: Curve, compared: Compared, panels: Sequence[KeptPanel]) -> Iterator[tuple[float, KeptPanel, Curve]]:
    """Yield every piece cut from the block that a line lies on, with how much of it and that part, in the block's frame."""
    for panel in panels:
        if panel.added or panel.name not in compared.motions:
            continue
        there = compared.motions[panel.name].put(curve)
        loop = panel.loop()
        if np.any(there.points.max(axis=0) < loop.min(axis=0)) or np.any(there.points.min(axis=0) > loop.max(axis=0)):
            continue
        if holds_line(loop, there.points):
            yield there.length_mm, panel, there
            continue
        inner = longest_within(loop, there.points)
        if inner is not None and len(inner) > 1:
            part = Curve.through(inner)
            yield part.length_mm, panel, part


def _free(name: str, panel: str, taken: set[tuple[str, str]]) -> str:
    """Return a name that no mark of the piece has."""
    count, found = 1, name
    while (panel, found) in taken:
        count += 1
        found = f"{name[: LONGEST_NAME - 4]} {count}"
    return found


def _step(start: Draft, curve: Curve) -> dict[str, Any] | None:
    """Return the options of a mark by which a line is drawn again; None when it takes too many places."""
    cornered = thinned(curve.points, CORNERED_MM)
    smooth = _smooth(curve)
    if smooth is not None and len(smooth) < len(cornered):
        return {"through": tuple(_position(start, point) for point in smooth), "straight": None}
    if len(cornered) > MOST_PLACES:
        return None
    straight = True if len(cornered) > 2 else None
    return {"through": tuple(_position(start, point) for point in cornered), "straight": straight}


def _smooth(curve: Curve) -> Points | None:
    """Return the fewest places of a line through which a smooth one keeps to it; None when there are too many."""
    at = [0.0, curve.length_mm]
    if float(np.hypot(*(curve.end - curve.start))) < SHORTEST_MM:
        at = [0.0, curve.length_mm / 3.0, 2.0 * curve.length_mm / 3.0, curve.length_mm]
    while len(at) <= MOST_PLACES:
        points = np.array([curve.at(place) for place in at])
        drawn = Curve.through(through_points(points, STEP_MM))
        if apart_mm(curve, drawn) < FIT_MM:
            return points
        own = curve.points
        off = np.hypot(*(own - held_on(own, drawn)).T)
        near = np.abs(curve.along[:, None] - np.array(at)).min(axis=1)
        off = np.where(near < 2.0 * STEP_MM, 0.0, off)
        worst = int(np.argmax(off))
        if off[worst] == 0.0:
            return None
        at = sorted([*at, float(curve.along[worst])])
    return None


def _position(start: Draft, point: Points) -> Position:
    """Return a place on the block in words: shares of the way round and of the way from waist to bust."""
    around, height = (float(value) for value in start.block.where(point))
    if 0.0 <= around <= 1.0:
        where = Around(ratio=round(around, SHARE_DECIMALS))
    else:
        center = "center front" if around < 0.0 else "center back"
        where = around_words(start, Around(landmark=center, plus=Share(1.0, "bust")), around, height)
    if height > 0.0:
        return Position(where, Height(share=Share(round(height, SHARE_DECIMALS))))
    below = Height(landmark="waist", plus=Share(1.0, "bust to waist"), sign=-1)
    return Position(where, height_words(start, below, around, height))
