"""A drawing adopted: what was moved on it, as a recipe of the maker's own based on the one it was drafted by."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from fanblock.adopting.finding import Origin
from fanblock.adopting.kept import Kept
from fanblock.adopting.moved import DrawnEdge, compared
from fanblock.adopting.sorting import Sorted, sorted_edges
from fanblock.adopting.strokes import found_strokes
from fanblock.adopting.table import Row, outline_row, seam_rows
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
    walk = walked(kept.start, recipe, set_recipe, edges)
    rows = tuple(_rows(walk, edges))
    notes = (*found.notes, *drawn.notes, *_not_adopted(edges, work), *walk.notes)
    if not walk.changes:
        return Adopted(rows, notes, "")
    called = name.strip() or f"{recipe.name}, redrawn"
    text = recipe_text(kept, recipe, set_recipe, walk.changes, rows, notes, origin.based_on, called)
    _check_drafts(text, origin, kept)
    return Adopted(rows, notes, text)


def _check_drafts(text: str, origin: Origin, kept: Kept) -> None:
    """Draft the new recipe for the body that was drawn on; GeometryError when it cannot be, told of the drawing."""
    new = read_source(Base(text, "the new recipe", "", origin.bases), "new")
    try:
        run_steps(kept.start, with_dials(new))
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


def _rows(walk: Walked, edges: Sorted) -> Iterator[Row]:
    for name, target in walk.outlines.items():
        yield outline_row(walk.old, walk.new, name, target)
    for name, moved in walk.seams.items():
        yield from seam_rows(walk.old, walk.new, name, moved)


def _not_adopted(edges: Sorted, work: Work) -> Iterator[str]:
    """Yield what was moved that is neither outline nor upright seam."""
    for edge in _once(edges.others):
        yield (
            f"{edge.name} of {edge.panel} was moved by {edge.off_mm:.1f} mm: it is neither an outline edge nor an upright seam, "
            "so it is not adopted. Change it in the recipe"
        )


def _once(edges: Sequence[DrawnEdge]) -> list[DrawnEdge]:
    return [edge for edge in edges if edge.is_moved]
