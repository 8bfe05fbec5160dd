"""Patterns on paper as PDF: over pages to be joined, or in one piece.

Both show the same drawing at the same scale; every page carries words that say what it is and a test square.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from fanblock.problems import ExportError, Problem
from fanblock.sheet.clear import held, square_place
from fanblock.sheet.drawing import Drawing, Group
from fanblock.sheet.ink import Box
from fanblock.sheet.joining import joining_page, planned, title_whole
from fanblock.sheet.paper import Paper
from fanblock.sheet.pdf_file import Page, pdf_of
from fanblock.sheet.squares import SQUARE_NAME, square_at, square_box
from fanblock.sheet.tilemarks import header, tile_page
from fanblock.sheet.tiles import HEADER_MM, TilePlan, below_header, printable, window_on

_GAP_MM = 4.0


@dataclass(frozen=True, slots=True, eq=False)
class Sheets:
    """Pages laid out for a paper, and the drawing they show through their windows.

    The drawing's lines are ``thick`` times as thick as their pens; of its layers those in ``hidden`` are off at first.
    """

    paper: Paper
    drawing: Drawing
    pages: tuple[Page, ...]
    thick: float = 1.0
    hidden: frozenset[str] = frozenset()

    def pdf(self) -> bytes:
        """Return them as a PDF file."""
        return pdf_of(self.drawing, self.pages, self.thick, self.hidden)


def tiled(
    drawing: Drawing,
    paper: Paper,
    words: Sequence[str] = (),
    cover: Sequence[Drawing] | None = None,
    plan: TilePlan | None = None,
) -> bytes:
    """Return :func:`tiled_sheets` as a PDF file."""
    return tiled_sheets(drawing, paper, words, cover, plan).pdf()


def tiled_sheets(
    drawing: Drawing,
    paper: Paper,
    words: Sequence[str] = (),
    cover: Sequence[Drawing] | None = None,
    plan: TilePlan | None = None,
) -> Sheets:
    """Return pages that join to ``drawing`` at true scale.

    ``words`` (garment, wearer, draft, code) stand at the top of every page. ``cover`` pages come first;
    each is as large as the paper and keeps within :func:`fanblock.sheet.tiles.below_header`; one without a
    test square of its own is given one where it hides nothing. Without ``cover`` a first page with the page map is
    made. A title on the drawing is moved to where no joint cuts it. ``plan`` is
    :func:`fanblock.sheet.joining.planned` of the same drawing and paper, where it is already known. Raises
    :class:`fanblock.problems.ExportError` as that does.
    """
    drawing, plan = planned(drawing, paper) if plan is None else (title_whole(drawing, plan), plan)
    first = (joining_page(drawing, plan, words),) if cover is None else tuple(cover)
    carried = held(drawing.groups)
    total = len(first) + len(plan.tiles)
    pages = [_cover(page, paper, words, f"page {at} of {total}") for at, page in enumerate(first, 1)]
    for at, tile in enumerate(plan.tiles, len(first) + 1):
        under, over = tile_page(plan, tile, carried, words, f"page {at} of {total}")
        pages.append(
            Page(paper.width_mm, paper.height_mm, tuple(under), tuple(over), window_on(paper), plan.shift(tile))
        )
    return Sheets(paper, drawing, tuple(pages))


def one_page(drawing: Drawing, paper: Paper, words: Sequence[str] = ()) -> bytes:
    """Return :func:`single_sheet` as a PDF file."""
    return single_sheet(drawing, paper, words).pdf()


def single_sheet(drawing: Drawing, paper: Paper, words: Sequence[str] = ()) -> Sheets:
    """Return one page with all of ``drawing`` on it: a sheet, or as much of a roll as it needs.

    A sheet is turned when the drawing fits it only so. A roll grows by a band for the test square when
    there is no empty place for it. Raises :class:`fanblock.problems.ExportError` when the drawing is too
    large for the paper.
    """
    paper = _holding(drawing, paper)
    carried = held(drawing.groups)
    margin = paper.margin_mm
    height = paper.height_mm
    room = square_box()
    if paper.is_roll:
        inside = Box(margin, margin, paper.width_mm - margin, margin + drawing.height_mm)
        least = square_box().height_mm
        x, y, met = square_place(carried.moved(margin, margin), inside)
        bottom = margin
        if met or drawing.height_mm < least:
            bottom += least + _GAP_MM
            x, y = margin - room.left, margin - room.bottom
        height = bottom + drawing.height_mm + _GAP_MM + HEADER_MM + margin
    else:
        area = below_header(paper)
        bottom = area.top - _GAP_MM - drawing.height_mm
        x, y, _ = square_place(carried.moved(margin, bottom), area)
    window = Box(margin, margin, paper.width_mm - margin, height - margin - HEADER_MM)
    top = height - margin
    over = (header(paper, paper.width_mm, top, "", words, ""), square_at(x, y))
    return Sheets(paper, drawing, (Page(paper.width_mm, height, (), over, window, (margin, bottom)),))


def sheets(pages: Sequence[Drawing]) -> bytes:
    """Return a PDF of drawings that are pages already, each as large as it says, without anything added."""
    empty = Drawing(pages[0].title, 0.0, 0.0, ())
    return pdf_of(empty, [Page(page.width_mm, page.height_mm, page.groups) for page in pages])


def _cover(page: Drawing, paper: Paper, words: Sequence[str], count: str) -> Page:
    over: list[Group] = [header(paper, paper.width_mm, printable(paper).top, "", words, count)]
    if all(group.name != SQUARE_NAME for group in page.groups):
        x, y, met = square_place(held(page.groups), below_header(paper))
        if not met:
            over.append(square_at(x, y))
    return Page(paper.width_mm, paper.height_mm, page.groups, tuple(over))


def _holding(drawing: Drawing, paper: Paper) -> Paper:
    """The paper, turned if need be, that holds the drawing."""
    turned = Paper(paper.name, paper.height_mm, paper.width_mm, paper.margin_mm, paper.overlap_mm)
    for tried in (paper,) if paper.is_roll else (paper, turned):
        margins = 2 * tried.margin_mm
        high = np.inf if tried.is_roll else tried.height_mm - margins - HEADER_MM - _GAP_MM
        if drawing.width_mm <= tried.width_mm - margins and drawing.height_mm <= high:
            return tried
    raise ExportError(
        [
            Problem(
                "too-large",
                "paper",
                f"The drawing is {drawing.width_mm:.0f} × {drawing.height_mm:.0f} mm and does not fit on {paper.name}.",
                "Choose wider paper, or pages to be joined.",
            )
        ]
    )
