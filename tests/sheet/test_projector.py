"""The page for a projector: true size as pypdfium2 draws it, thick lines, squares that can be turned off."""

from __future__ import annotations

import io

import numpy as np
import pikepdf
import pypdfium2
import pytest
from tests.sheet.real import drafted
from tests.sheet.sample import sample

from fanblock.bundle import block_bundle, pattern_bundle
from fanblock.geometry.bezier import polyline
from fanblock.pattern.model import Pattern
from fanblock.sheet.drawing import PENS, Drawing, Group, Stroke, Words
from fanblock.sheet.ink import Box, extent, ink_points
from fanblock.sheet.layout import pieces_of
from fanblock.sheet.paper import PROJECTOR, paper
from fanblock.sheet.papercheck import paper_findings
from fanblock.sheet.pdf import Sheets
from fanblock.sheet.projector import APART_MM, SQUARES, THICK, projector_sheet, projector_sheets

POINTS_PER_MM = 72.0 / 25.4
INCHES, CENTIMETRES = drafted("ferrywoman", "stays-five-panels"), drafted("innkeeper", "stays-five-panels")


def page(pattern: Pattern) -> Sheets:
    """The page of a pattern."""
    return projector_sheets(pattern, pieces_of(pattern))


def raster(data: bytes, px_per_mm: float) -> np.ndarray:
    """The page as pypdfium2 draws it, in greys, first row at the top."""
    bitmap = pypdfium2.PdfDocument(data)[0].render(scale=px_per_mm / POINTS_PER_MM, grayscale=True)
    return np.asarray(bitmap.to_numpy(), dtype=np.float64).reshape(bitmap.height, bitmap.width)


def strokes(sheets: Sheets, name: str) -> list[np.ndarray]:
    """The end points of all strokes of a name."""
    return [
        item.beziers.reshape(-1, 2)
        for group in sheets.drawing.groups
        for item in group.items
        if isinstance(item, Stroke) and item.name == name
    ]


@pytest.mark.parametrize(("pattern", "side"), [(INCHES, 101.6), (CENTIMETRES, 100.0)], ids=["in", "cm"])
def test_the_projector_is_set_by_squares_and_diagonals(pattern: Pattern, side: float) -> None:
    """By hand: four squares of 10 cm are 40 cm and their diagonal 56.6; four of 4 in are 16 in, the diagonal 22 5/8."""
    sheets = page(pattern)
    (large,) = strokes(sheets, "large square")
    assert np.ptp(large, axis=0) == pytest.approx((SQUARES * side, SQUARES * side), abs=0.01)
    lengths = [float(np.hypot(*(run[-1] - run[0]))) for run in strokes(sheets, "diagonal")]
    assert lengths == pytest.approx([2.0**0.5 * SQUARES * side] * 2, abs=0.01)
    said = " ".join(i.text for g in sheets.drawing.groups if g.name == "title" for i in g.items if isinstance(i, Words))
    whole, slant, each = ("16 in", "22 5/8 in", "4 in") if side > 100.0 else ("40 cm", "56.6 cm", "10 cm")
    assert f"until each square is {each} both ways, the large one {whole}, and both its diagonals {slant}." in said
    assert all(finding.state == "holds" for finding in paper_findings(PROJECTOR, sheets.drawing, sheets.pages))


def test_the_page_is_true_to_scale() -> None:
    """In pypdfium2's picture the lines of the large square stand 100 mm apart, within a tenth of a millimetre."""
    sheets = page(CENTIMETRES)
    (large,) = strokes(sheets, "large square")
    px = 6.0
    left, bottom = large.min(axis=0)
    grey = raster(sheets.pdf(), px)
    row = grey[int((sheets.drawing.height_mm - bottom - 50.0) * px) + 3]
    dark = np.flatnonzero(row[int((left - 5.0) * px) : int((left + 405.0) * px)] < 150.0)
    runs = np.split(dark, np.flatnonzero(np.diff(dark) > 1) + 1)
    middles = np.array([run.mean() / px for run in runs])
    wanted = [middle for middle in middles if abs((middle - middles[0]) % 100.0 - 50.0) > 49.0]
    assert np.diff(wanted) == pytest.approx([100.0] * SQUARES, abs=0.1)


def test_lines_are_thick_and_nothing_is_for_paper() -> None:
    """Cut lines are three times as thick as on paper; there are no joints, no page names, no long line to measure."""
    sheets = page(CENTIMETRES)
    names = {group.name for group in sheets.drawing.groups}
    assert names.isdisjoint({"header", "joints", "page name", "long line"})
    assert all(not page.under and not page.over for page in sheets.pages)
    with pikepdf.open(io.BytesIO(sheets.pdf())) as pdf:
        form = pdf.pages[0].obj.Resources.XObject.D
        widths = {float(part.operands[0]) for part in pikepdf.parse_content_stream(form) if str(part.operator) == "w"}
    assert THICK * PENS["cut"].width_mm in widths
    assert min(widths) == pytest.approx(THICK * PENS["ink"].width_mm)


def test_the_squares_of_the_other_measure_are_there_but_off() -> None:
    """Both kinds of squares are layers; at first only those of the wearer's measure show."""
    for pattern, on, off in (
        (INCHES, "squares of 4 in", "squares of 10 cm"),
        (CENTIMETRES, "squares of 10 cm", "squares of 4 in"),
    ):
        with pikepdf.open(io.BytesIO(page(pattern).pdf())) as pdf:
            layers = pdf.Root.OCProperties
            assert [str(layer.Name) for layer in layers.D.OFF] == [off]
            assert on in [str(layer.Name) for layer in layers.D.ON]
            assert off not in [str(layer.Name) for layer in layers.D.ON]


def test_pieces_lie_clear_of_one_another_and_within_the_page() -> None:
    """Nothing lies outside, and every piece stays well clear of its neighbours and of what the projector is set by."""
    sheets = page(INCHES)
    pieces = [group for group in sheets.drawing.groups if group.name[0].isdigit()]
    assert len(pieces) == 5
    box = extent(ink_points(sheets.drawing.groups))
    assert Box(-2.0, -2.0, sheets.drawing.width_mm + 2.0, sheets.drawing.height_mm + 2.0).grown(0.0).left <= box.left
    assert max(box.right - sheets.drawing.width_mm, box.top - sheets.drawing.height_mm) <= 2.0
    fixed = [group for group in sheets.drawing.groups if group.name in ("setting", "title", "test square")]
    clouds = [ink_points((group,)) for group in (*pieces, *fixed[:2])]
    for at, one in enumerate(clouds):
        for other in clouds[at + 1 :]:
            near = np.min(np.hypot(*(one[::4, None] - other[None, ::4]).transpose(2, 0, 1)))
            assert near >= 0.5 * APART_MM


def test_a_page_over_five_metres_counts_in_larger_units() -> None:
    """Past 14 400 points (PDF 1.7, Annex C) the user unit grows, and the page is as long as it must be."""
    run = Stroke(polyline([(1.0, 1.0), (50.0, 6000.0)]), "cut")
    sheets = projector_sheet(Drawing("long", 60.0, 6010.0, (Group("g", (run,)),)), ("long",), "cm")
    with pikepdf.open(io.BytesIO(sheets.pdf())) as pdf:
        one = pdf.pages[0].obj
        assert float(one.UserUnit) == 2.0
        assert float(one.MediaBox[3]) * 2.0 / POINTS_PER_MM > 6010.0
        assert float(one.MediaBox[3]) <= 14400.0


def test_a_wide_drawing_widens_the_page() -> None:
    """Nothing has to be narrower than a sheet: there is none."""
    wide = projector_sheet(Drawing("wide", 2000.0, 50.0, ()), ("wide",), "in")
    assert wide.drawing.width_mm >= 2000.0


def test_what_does_not_add_up_is_marked() -> None:
    """NOT SOUND stands under the pieces here too."""
    groups = {group.name: group for group in page(sample(sound=False)).drawing.groups}
    assert any(item.text == "NOT SOUND" for item in groups["not sound"].items)
    assert "not sound" not in {group.name for group in page(sample()).drawing.groups}


def test_the_projector_is_asked_for_like_a_paper() -> None:
    """By its name, for patterns and for blocks; the file says what it is for."""
    assert paper("Projector") is PROJECTOR
    says = "one page to throw on the cloth at true size: thick lines, squares to set the projector by"
    made = pattern_bundle(sample(), [PROJECTOR], pictures=False).files[0]
    assert (made.name, made.purpose) == ("pattern-projector.pdf", says)
    pattern = CENTIMETRES
    drawn = {one.name: one.purpose for one in block_bundle(pattern.block, pattern.body, [PROJECTOR]).files}
    assert drawn["block-projector.pdf"] == says
    assert "guide.html" in drawn
