"""The files of a toile: its pieces to print, to open in a vector editor and to look at, and the sheet to fill in."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from contextlib import AbstractContextManager, nullcontext

from fanblock.bundle import PICTURE_PX, USUAL, Made, home_papers, pdf_name, printed_on
from fanblock.fitting.form import correction_sheet
from fanblock.fitting.questions import questions_of
from fanblock.halves.making import toile_of_both
from fanblock.pattern.model import Pattern
from fanblock.problems import ExportError
from fanblock.sheet import phrases
from fanblock.sheet.grid import gridded
from fanblock.sheet.layout import laid_out, pieces_of
from fanblock.sheet.paper import PROJECTOR, Paper
from fanblock.sheet.pdf import sheets
from fanblock.sheet.svg import write_svg


def toile_files(
    pattern: Pattern,
    papers: Sequence[Paper] = (),
    working: Callable[[str], AbstractContextManager[None]] = lambda _: nullcontext(),
    *,
    pictures: bool = True,
) -> tuple[tuple[Made, ...], tuple[str, ...]]:
    """Return the files of a pattern's toile and the texts of what could not be made among them.

    ``papers`` as in :func:`fanblock.bundle.pattern_bundle`. GeometryError for a pattern that has no toile.
    """
    toile = toile_of_both(pattern)
    with working("drawing the toile"):
        pieces = gridded(pieces_of(toile), toile.body.units)
        flat = laid_out(toile, pieces=pieces)
    made, left_out = [], []
    for paper in papers or USUAL:
        try:
            with working(f"laying the toile out on {paper.name}"):
                laid, purpose = printed_on(toile, paper, pieces)
        except ExportError as error:
            if papers:
                raise
            left_out += [f"{pdf_name(paper, 'toile')}: {problem.what}" for problem in error.problems]
            continue
        says = purpose if paper == PROJECTOR else f"the toile; {purpose}"
        made.append(Made(pdf_name(paper, "toile"), says, laid.pdf()))
    title = pattern.title
    asked = questions_of(pattern)
    words = f"{title.garment} · {title.wearer} · {phrases.stamp(title)}"
    made += [
        Made(
            pdf_name(paper, "correction"),
            f"correction sheet to fill in at the fitting, to print on {paper.name}",
            sheets(correction_sheet(paper, words, asked)),
        )
        for paper in home_papers(papers)
    ]
    svg = write_svg(flat)
    made.append(Made("toile.svg", "the toile's pieces at true scale, for a vector editor", svg.encode()))
    if pictures:
        from fanblock.sheet.png import to_png

        made.append(Made("toile.png", "the toile's pieces in one picture", to_png(svg, PICTURE_PX)))
    return tuple(made), tuple(left_out)
