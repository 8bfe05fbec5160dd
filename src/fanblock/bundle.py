"""The files that come out: which there are, what each is for, and what is in them."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from contextlib import AbstractContextManager, nullcontext
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from fanblock.block.bowed import BowBlock
from fanblock.pattern.model import Finding, Pattern
from fanblock.problems import ExportError
from fanblock.sheet import phrases
from fanblock.sheet.cover import cover
from fanblock.sheet.dxf import pattern_dxf
from fanblock.sheet.json import pattern_json
from fanblock.sheet.layout import is_tiled, laid_out, tiled_layout
from fanblock.sheet.paper import A0, A4, LETTER, PROJECTOR, Paper
from fanblock.sheet.papercheck import paper_findings
from fanblock.sheet.pdf import Sheets, one_page, sheets, single_sheet, tiled, tiled_sheets
from fanblock.sheet.piece import Piece
from fanblock.sheet.projector import projector_sheet, projector_sheets
from fanblock.sheet.svg import write_svg
from fanblock.sheet.views import Views
from fanblock.wearer.body import Body

if TYPE_CHECKING:
    from fanblock.cloth.laying import Lay
    from fanblock.garment.model import Cloth
    from fanblock.sheet.report import ToBuy

USUAL = (A4, LETTER, A0)
"""The papers a pattern is printed on when nobody asks for another."""

PICTURE_PX = 900
"""Width of pictures: enough to read the numbers of pieces; what a picture costs grows with its pixels."""

DXF_PURPOSE = "all pieces for pattern programs and cutting tables (ASTM D6673), in millimetres"

PROJECTOR_PURPOSE = "one page to throw on the cloth at true size: thick lines, squares to set the projector by"

CLOTH_MM = 180.0
"""Width of the pictures of cloth in the report, and the most they are high."""

Working = Callable[[str], AbstractContextManager[None]]
"""Called with what is being done, around doing it."""


@dataclass(frozen=True, slots=True)
class Made:
    """One file: its name, what it is for in a few words, and its bytes."""

    name: str
    purpose: str
    data: bytes


@dataclass(frozen=True, slots=True)
class Bundle:
    """Files that belong together, the texts of what could not be made among them, and what was found of the papers."""

    files: tuple[Made, ...]
    left_out: tuple[str, ...] = ()
    found: tuple[Finding, ...] = ()


def pattern_bundle(
    pattern: Pattern,
    papers: Sequence[Paper] = (),
    working: Working = lambda _: nullcontext(),
    *,
    pictures: bool = True,
    guides: bool = False,
    cloths: Mapping[str, Cloth] | None = None,
) -> Bundle:
    """Return all files of a pattern.

    ``papers`` are those asked for; ExportError when the pattern does not fit one of them. Without them the usual
    papers are used, and one that the pattern does not fit is left out and said so. Without ``pictures`` there is no report,
    no picture and no page on drawing by hand; ``guides`` adds that page all the same, and the same to print on the home
    papers among those asked for, or the usual. ``cloths`` are those of the layers: with them the pieces are laid on their
    cloth, and there is a list of what to buy; a layer that is not among them is assumed to be of ordinary width. Where
    nothing is known of any cloth, and a piece is too wide for the ordinary, that is said and there is no such list. A pattern that may not be put into a file for exchange goes without, and
    that is said too. What is found about the papers is told with the pattern's own checks.
    """
    views = Views(pattern)
    printed: list[tuple[Sheets, str]] = []
    left_out = []
    for paper in papers or USUAL:
        try:
            with working(f"laying out {paper.name}"):
                printed.append(printed_on(pattern, paper, views.pieces))
        except ExportError as error:
            if papers:
                raise
            left_out += [f"{pdf_name(paper)}: {problem.what}" for problem in error.problems]
    found = tuple(one for laid, _ in printed for one in paper_findings(laid.paper, laid.drawing, laid.pages))
    checked = replace(pattern, findings=(*pattern.findings, *found))
    shown: tuple[Made, ...] = ()
    lays: tuple[Lay, ...] = ()
    if cloths is not None:
        with working("laying the pieces on the cloth"):
            lays, wide = _laid_on(pattern, cloths)
        left_out += wide
    if pictures:
        with working("drawing the report"):
            shown = _shown(checked, views, lays)
    by_hand: tuple[Made, ...] = ()
    if pictures or guides:
        with working("drawing the hand guide"):
            by_hand = _by_hand(pattern, papers, guides)
    exchanged: tuple[Made, ...] = ()
    with working("writing pattern.dxf"):
        try:
            exchanged = (Made("pattern.dxf", DXF_PURPOSE, pattern_dxf(pattern, views.pieces)),)
        except ExportError as error:
            left_out += [f"pattern.dxf: {problem.where}: {problem.what}" for problem in error.problems]
    files = (
        *shown,
        *(Made(pdf_name(laid.paper), purpose, laid.pdf()) for laid, purpose in printed),
        *_cloth(pattern, lays, papers),
        *by_hand,
        Made("pattern.svg", "all pieces at true scale, for a vector editor", write_svg(views.flat).encode()),
        *exchanged,
        Made("pattern.json", "all numbers, for other programs", pattern_json(checked).encode()),
    )
    return Bundle(files, tuple(left_out), found)


def _laid_on(pattern: Pattern, cloths: Mapping[str, Cloth]) -> tuple[tuple[Lay, ...], list[str]]:
    """Return the pieces on their cloth, or what does not fit the cloth that was assumed for them all."""
    from fanblock.cloth.laying import lays_of

    try:
        return lays_of(pattern, cloths, pattern.body.units), []
    except ExportError as error:
        if cloths:
            raise
        own = "The cloth is assumed; say your own in a garment file."
        return (), [f"cloth: {problem.what} {own}" for problem in error.problems]


def _cloth(pattern: Pattern, lays: Sequence[Lay], papers: Sequence[Paper]) -> tuple[Made, ...]:
    """Return how the pieces lie on their cloth, to print on home papers."""
    if not lays:
        return ()
    from fanblock.cloth.sheet import cloth_pages

    return tuple(
        Made(
            pdf_name(paper, "cloth"),
            f"how the pieces lie on each cloth, and how much to buy, to print on {paper.name}",
            sheets(cloth_pages(pattern, lays, paper)),
        )
        for paper in home_papers(papers)
    )


def home_papers(papers: Sequence[Paper]) -> list[Paper]:
    """Return the papers a home printer takes among those asked for, or among the usual."""
    return [paper for paper in papers if is_tiled(paper)] or [paper for paper in USUAL if is_tiled(paper)]


def _shown(pattern: Pattern, views: Views, lays: Sequence[Lay]) -> tuple[Made, ...]:
    """Return the files that are looked at rather than cut by."""
    from fanblock.picture import picture_svg
    from fanblock.sheet.png import to_png
    from fanblock.sheet.report import report_html

    report = report_html(pattern, views, _to_buy(pattern, lays))
    picture = to_png(picture_svg(pattern, views), PICTURE_PX)
    return (
        Made("report.html", "start here: pictures, checks, what to cut and sew, cautions", report.encode()),
        Made("sheet.png", "the pattern in one picture", picture),
    )


def _to_buy(pattern: Pattern, lays: Sequence[Lay]) -> ToBuy | None:
    """Return what the report tells of cloth; None where none was laid."""
    if not lays:
        return None
    from fanblock.cloth.sheet import lay_drawing
    from fanblock.cloth.words import lay_sentences, shopping
    from fanblock.sheet.report import ToBuy

    units = pattern.body.units
    cloths = tuple((lay.layer, lay_sentences(lay, units), lay_drawing(lay, CLOTH_MM, CLOTH_MM, units)) for lay in lays)
    return ToBuy(shopping(pattern, lays), cloths)


def _by_hand(pattern: Pattern, papers: Sequence[Paper], printed: bool) -> tuple[Made, ...]:
    """Return how every piece is drawn by hand: as a page for the screen and, if it is to be printed, on home papers."""
    from fanblock.sheet.handguide import hand_panels
    from fanblock.sheet.handguide_html import hand_guide_html
    from fanblock.sheet.handguide_pages import hand_guide_pages

    hands = hand_panels(pattern)
    home = home_papers(papers)
    return (
        Made(
            "guide.html", "how to draw every piece by hand, with no printer", hand_guide_html(pattern, hands).encode()
        ),
        *(
            Made(pdf_name(paper, "guide"), f"the same, to print on {paper.name}", sheets(pages))
            for paper in home * printed
            for pages in (hand_guide_pages(pattern, paper, hands),)
        ),
    )


def printed_on(pattern: Pattern, paper: Paper, pieces: Sequence[Piece]) -> tuple[Sheets, str]:
    """Return a pattern laid out for a paper, and what that is for in a few words."""
    words = (pattern.title.garment, pattern.title.wearer, phrases.stamp(pattern.title))
    if is_tiled(paper):
        drawing, plan = tiled_layout(pattern, paper, pieces)
        first = cover(pattern, paper, drawing, plan)
        purpose = f"print at 100 %: {len(first)} to read, {len(plan.tiles)} {paper.name} pages to join"
        return tiled_sheets(drawing, paper, words, first, plan), purpose
    if paper == PROJECTOR:
        return projector_sheets(pattern, pieces), PROJECTOR_PURPOSE
    laid = single_sheet(laid_out(pattern, paper, pieces), paper, words)
    return laid, f"all pieces in one sheet on {paper.name}, for a copy shop"


def pdf_name(paper: Paper, what: str = "pattern") -> str:
    """The file name for a paper.

    >>> pdf_name(A4), pdf_name(Paper("roll 900 mm", 900.0, 0.0))
    ('pattern-a4.pdf', 'pattern-roll-900-mm.pdf')
    """
    return f"{what}-{'-'.join(paper.name.lower().split())}.pdf"


def block_bundle(
    block: BowBlock,
    body: Body,
    papers: Sequence[Paper] = (),
    working: Working = lambda _: nullcontext(),
    half: str = "left",
) -> Bundle:
    """Return all files of a body's block: the sheet at true scale, and how to draw it by hand, on each paper.

    ``half`` is the half it is of; either is drawn as a left one. ``papers`` as in :func:`pattern_bundle`; without them A4 and Letter.
    """
    from fanblock.sheet.blocksheet import block_sheet
    from fanblock.sheet.guidepages import guide_html, guide_pages
    from fanblock.sheet.png import to_png

    with working("drawing the block"):
        sheet = block_sheet(block, body, half)
        guide = guide_html(block, body, half)
    words = (f"block of {body.name}", f"over the {body.over}")
    files = [Made("guide.html", "start here: how to draw it with ruler, pin and string", guide.encode())]
    for paper in papers or (A4, LETTER):
        with working(f"laying out {paper.name}"):
            if is_tiled(paper):
                pages = sheets(guide_pages(block, body, paper, half))
                files.append(Made(pdf_name(paper, "guide"), f"the same guide, to print on {paper.name}", pages))
                data = tiled(sheet, paper, words)
                says = f"the block at true scale on {paper.name} pages to join"
            elif paper == PROJECTOR:
                data, says = projector_sheet(sheet, words, body.units).pdf(), PROJECTOR_PURPOSE
            else:
                data = one_page(sheet, paper, words)
                says = f"the block in one sheet on {paper.name}"
        files.append(Made(pdf_name(paper, "block"), says, data))
    svg = write_svg(sheet)
    files += [
        Made("block.png", "the block in one picture", to_png(svg, PICTURE_PX)),
        Made("block.svg", "the block at true scale, for a vector editor", svg.encode()),
    ]
    return Bundle(tuple(files))


def form_bundle() -> Bundle:
    """Return the blank form for taking measures, for A4 and for Letter paper."""
    from fanblock.sheet.measureform import measure_form

    return Bundle(
        tuple(
            Made(pdf_name(paper, "measures"), f"for {paper.name} paper", sheets(measure_form(paper)))
            for paper in (A4, LETTER)
        )
    )
