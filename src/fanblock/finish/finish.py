"""From trued panels to a pattern: grain, notches, letters, allowances, cut counts and sums. Never optional, no order."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from types import MappingProxyType

from fanblock.draft.work import DEFAULT_ALLOWANCES, Work
from fanblock.finish.boning import boned
from fanblock.finish.girths import girths_of
from fanblock.finish.graining import with_grain
from fanblock.finish.letters import letters
from fanblock.finish.notching import with_notches
from fanblock.finish.offsets import cut_line
from fanblock.finish.openings import open_mm, openings_of, with_opening_marks
from fanblock.pattern.model import CENTER, FOLD, EdgeName, Note, Panel, Pattern, Seam, Title
from fanblock.problems import GeometryError, Problem, nearest
from fanblock.shaping.layers import with_layers
from fanblock.shaping.slits import with_closed_slits

OUTER = "outer"
"""The layer that a piece of its own is cut from where a recipe says nothing."""


def finished(
    work: Work, title: Title, dials: tuple[tuple[str, str, float], ...] = (), notes: Iterable[Note] = ()
) -> Pattern:
    """Return the pattern that these panels make, finished as the recipe chose; its checks are still to be run.

    GeometryError when a choice names a panel or an edge that there is not, or an allowance cannot be drawn.
    """
    _check_names(work)
    whole = with_notches(with_grain(with_layers(_folded(work))))
    layers = tuple(panel for panel in whole.panels if panel.layer)
    work = with_opening_marks(replace(whole, panels=tuple(panel for panel in whole.panels if not panel.layer)))
    stiff = boned(work)
    given = letters(work.draft.in_order, work.seams)
    panels = tuple(_finished(work, panel, given) for panel in (*stiff.panels, *layers))
    seams = tuple(
        Seam(
            seam.name,
            given[seam.front],
            EdgeName(*seam.front),
            EdgeName(*seam.back),
            seam.above,
            seam.below,
            seam.fullness_mm,
            seam.how,
            seam.line,
            seam.onto,
        )
        for seam in work.seams
    )
    return Pattern(
        title=title,
        body=work.body,
        block=work.block,
        panels=panels,
        seams=seams,
        girths=() if work.draft.band else girths_of(work),
        lines=work.lines,
        dials=dials,
        gap_mm=open_mm(work.draft),
        notes=tuple(dict.fromkeys((*notes, *work.notes, *stiff.notes))),
        band=work.draft.band,
        lacings=stiff.lacings,
        binding=stiff.binding,
        openings=openings_of(work),
        construction=work.construction,
        stand=work.draft.stand,
    )


def _check_names(work: Work) -> None:
    panels = [panel.name for panel in work.panels]
    edges = sorted({edge.name for panel in work.panels for edge in panel.edges} | {seam.line for seam in work.seams})
    problems = [
        Problem("panel-unknown", "cut › on fold", f"there is no panel “{name}”.", nearest(name, panels))
        for name in work.on_fold
        if name not in panels
    ]
    problems += [
        Problem(
            "panel-foldless",
            "cut › on fold",
            f"panel “{panel.name}” has no centre line to fold at.",
            "Leave it out.",
        )
        for panel in work.panels
        if panel.name in work.on_fold and not any(edge.kind == CENTER for edge in panel.edges)
    ]
    problems += [
        Problem("edge-unknown", "allowances", f"there is no edge “{name}”.", nearest(name, edges))
        for name in sorted(work.allowance_by_name)
        if name not in edges
    ]
    if problems:
        raise GeometryError(problems)


def _folded(work: Work) -> Work:
    """Return the work with the centre line of every panel on the fold marked as fold: of two, the centre front."""
    panels = tuple(_on_fold(panel) if panel.name in work.on_fold else panel for panel in work.panels)
    return replace(work, panels=panels)


def _on_fold(panel: Panel) -> Panel:
    fold = max(edge.name for edge in panel.edges if edge.kind == CENTER)  # “center front” comes after “center back”
    edges = (replace(edge, kind=FOLD) if edge.name == fold else edge for edge in panel.edges)
    return replace(panel, fold=fold, edges=tuple(edges))


def _finished(work: Work, panel: Panel, given: dict[tuple[str, str], str]) -> Panel:
    edges = tuple(
        replace(edge, letter=given.get((panel.name, edge.name), "")) if edge.mate is not None else edge
        for edge in panel.edges
    )
    by_kind = {**DEFAULT_ALLOWANCES, **work.allowance_by_kind}
    by_name, lines = work.allowance_by_name, _lines_of(work)
    widths = {
        edge.name: by_name.get(
            edge.name, by_name.get(lines.get((panel.name, edge.name), ""), by_kind.get(edge.kind, 0.0))
        )
        for edge in edges
    }
    try:
        outer = cut_line(with_closed_slits(panel), widths)
    except ValueError as error:
        what = f"the allowances of panel “{panel.name}” cannot be drawn: {error}."
        raise GeometryError([Problem("allowance", "allowances", what, "Make them narrower.")]) from None
    counts = tuple((layer, count // 2 if panel.fold else count) for layer, count in _layers(work, panel))
    return replace(panel, edges=edges, allowances=MappingProxyType(widths), cut_line=outer, cuts=counts)


def _lines_of(work: Work) -> dict[tuple[str, str], str]:
    """Return the line of the draft that each sewn edge lies on: an allowance named for it serves all its parts."""
    return {place: seam.line for seam in work.seams for place in (seam.front, seam.back)}


def _layers(work: Work, panel: Panel) -> tuple[tuple[str, int], ...]:
    """Return how many pieces of each layer a panel is cut from; an added piece has layers of its own."""
    if panel.name in work.layers_by_panel:
        return work.layers_by_panel[panel.name]
    return ((OUTER, 1 if panel.whole else 2),) if panel.added else work.layers
