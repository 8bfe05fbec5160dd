"""A drawing adopted: what was moved on it, as a recipe of the maker's own based on the one it was drafted by."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from fanblock.adopting.finding import Origin
from fanblock.adopting.kept import Kept
from fanblock.adopting.marks import drawn_marks, left_over
from fanblock.adopting.moved import compared
from fanblock.adopting.pieces import redrawn_pieces
from fanblock.adopting.sorting import Sorted, sorted_edges
from fanblock.adopting.strokes import found_strokes
from fanblock.adopting.table import Row, dart_rows, level_row, outline_row, seam_rows
from fanblock.adopting.walking import Walked, walked
from fanblock.adopting.writing import recipe_text
from fanblock.draft.work import Work
from fanblock.make import run_steps
from fanblock.problems import GeometryError, Problem
from fanblock.recipe.bases import Base
from fanblock.recipe.dials import with_dials
from fanblock.recipe.model import Recipe
from fanblock.recipe.reading import read_source
from fanblock.terms import Amount, Length, Share
from fanblock.units import shown


@dataclass(frozen=True, slots=True, eq=False)
class Adopted:
    """What came of a drawing: the rows of what was moved, what is to be told besides, and the text of the recipe.

    The text is empty where nothing was moved that a recipe can say.
    """

    rows: tuple[Row, ...]
    notes: tuple[str, ...]
    text: str


def adopted(data: bytes, file: str, kept: Kept, origin: Origin, name: str = "") -> Adopted:
    """Return what was moved on the drawing ``data`` of a draft, and the recipe that moves it on any body.

    ``file`` is the drawing's name in messages, ``name`` what the new recipe shall be called. Raises GeometryError with all
    problems of the first stage that has any: the drawing, its lines, and whether what was drawn can be cut and sewn.
    """
    recipe = origin.recipe
    found = found_strokes(data, file, kept.panels)
    drawn = compared(found, kept.panels)
    set_recipe = with_dials(recipe, settings_of(kept, recipe))
    work = run_steps(kept.start, set_recipe)
    edges = sorted_edges(drawn.edges, work)
    walk = walked(kept.start, recipe, set_recipe, edges, drawn.marks)
    titles = {panel.name: panel.title for panel in kept.panels}
    pieces = redrawn_pieces(drawn.added, titles, recipe, set_recipe, kept.start)
    marks = drawn_marks(found, drawn, kept, recipe, work)
    changes = (*walk.changes, *pieces.changes, *marks.changes)
    notes = (*found.notes, *drawn.notes, *_not_adopted(edges, walk), *walk.notes, *pieces.notes, *marks.notes)
    if not changes:
        return Adopted((), notes, "")
    called = name.strip() or f"{recipe.name}, redrawn"

    def text_of(rows: tuple[Row, ...]) -> str:
        return recipe_text(kept, recipe, set_recipe, changes, rows, notes, origin.based_on, called)

    new = _drafted(text_of(()), origin, kept)
    darts = dart_rows(walk.darts, drawn.marks, new)
    rows = (*_rows(walk), *darts, *pieces.rows, *left_over(marks.rows, marks.drawn, new))
    return Adopted(rows, notes, text_of(rows))


def _drafted(text: str, origin: Origin, kept: Kept) -> Work:
    """Return the new recipe's pieces for the body that was drawn on; GeometryError when it cannot be drafted, told of the
    drawing."""
    new = read_source(Base(text, "the new recipe", "", origin.bases), "new")
    try:
        return run_steps(kept.start, with_dials(new))
    except GeometryError as error:
        problems = [
            replace(
                problem,
                where=f"as it is drawn › {problem.where}",
                place=None,
                remedy=f"Draw it otherwise. {problem.remedy}",
            )
            for problem in error.problems
        ]
        raise GeometryError(problems) from None


def settings_of(kept: Kept, recipe: Recipe) -> dict[str, Amount]:
    """Return the dials of a recipe as they were set for a draft; GeometryError when it has other dials now."""
    names = {spec.name for spec in recipe.dials}
    if names != set(kept.dials):
        what = f"the recipe {shown(recipe.id)} has other dials than when this was drafted: it has been changed since."
        remedy = "Draft it again, and draw your changes on the new pattern.svg."
        raise GeometryError([Problem("adopt-changed", "from", what, remedy)])
    return {
        spec.name: Length(kept.dials[spec.name])
        if isinstance(spec.default, Length)
        else Share(kept.dials[spec.name], spec.of)
        for spec in recipe.dials
    }


def _rows(walk: Walked) -> Iterator[Row]:
    for name, target in walk.outlines.items():
        yield outline_row(walk.old, walk.new, name, target)
    for name, moved in walk.seams.items():
        yield from seam_rows(walk.old, walk.new, name, moved)
    for name, level in walk.levels.items():
        yield level_row(walk.old, walk.new, name, level.target)


def _not_adopted(edges: Sorted, walk: Walked) -> Iterator[str]:
    """Yield what was moved that is neither an outline, nor a seam, nor follows from a dart that was moved with it."""
    for edge in edges.others:
        dart = next((dart.name for dart in walk.old.darts if edge.name.rpartition(" at ")[2].startswith(dart.name)), "")
        if not edge.is_moved or dart in walk.darts:
            continue
        was = f"{edge.name} of {edge.panel} was moved by {edge.off_mm:.1f} mm"
        if dart:
            yield f"{was}: it is made from the legs of the dart, so it is not adopted. Move those"
        else:
            yield f"{was}: it is neither an outline edge nor a seam, so it is not adopted. Change it in the recipe"
