"""PDF: page boxes, scale, tiles that join to the whole, words that can be searched, the same bytes every
time."""

from __future__ import annotations

import io

import numpy as np
import pikepdf
import pypdfium2
import pytest
from tests.sheet.paper_samples import WORDS, piece, sheet

from fanblock.geometry.bezier import polyline
from fanblock.problems import ExportError
from fanblock.sheet.drawing import Drawing, Group, Stroke, Words
from fanblock.sheet.ink import ink_points
from fanblock.sheet.joining import planned, title_whole
from fanblock.sheet.paper import A0, A3, A4, LETTER, Paper, roll
from fanblock.sheet.pdf import one_page, sheets, tiled
from fanblock.sheet.squares import SQUARE_NAME, square_at
from fanblock.sheet.tiles import plan_tiles, window_on

POINTS_PER_MM = 72.0 / 25.4


def raster(data: bytes, page: int, px_per_mm: float) -> np.ndarray:
    """One page as pypdfium2 draws it: greys, first row at the top."""
    bitmap = pypdfium2.PdfDocument(data)[page].render(scale=px_per_mm / POINTS_PER_MM, grayscale=True)
    return np.asarray(bitmap.to_numpy(), dtype=np.float64).reshape(bitmap.height, bitmap.width)


def boxes(data: bytes) -> list[tuple[float, float]]:
    """Sizes of all pages in mm, from the media boxes and user units."""
    with pikepdf.open(io.BytesIO(data)) as pdf:
        sizes = []
        for page in pdf.pages:
            unit = float(page.obj.get("/UserUnit", 1))
            left, bottom, right, top = (float(value) for value in page.obj.MediaBox)
            assert (left, bottom) == (0.0, 0.0)
            assert [float(v) for v in page.obj.CropBox] == [left, bottom, right, top]
            sizes.append((right * unit / POINTS_PER_MM, top * unit / POINTS_PER_MM))
        return sizes


@pytest.mark.parametrize(
    ("paper", "width_mm", "height_mm"),
    [
        (A4, 210.0, 297.0),  # ISO 216
        (A3, 297.0, 420.0),  # ISO 216
        (LETTER, 215.9, 279.4),  # ANSI/ASME Y14.1, size A
    ],
)
def test_tiled_pages_have_the_size_of_the_paper(paper: Paper, width_mm: float, height_mm: float) -> None:
    """pikepdf reads every media box back as the standard's size, within a thousandth of a millimetre."""
    cover = Drawing("cover", paper.width_mm, paper.height_mm, (Group("c", (Words("first", 20, 200, 8),)),))
    data = tiled(sheet(), paper, WORDS, [cover])
    sizes = boxes(data)
    assert len(sizes) == 1 + len(plan_tiles(sheet(), paper).tiles)
    assert np.array(sizes) == pytest.approx(np.tile((width_mm, height_mm), (len(sizes), 1)), abs=0.001)


def test_one_page_sizes() -> None:
    """A0 is 841 × 1189 mm (ISO 216), or turned when only so it holds the drawing; a roll keeps its width."""
    assert boxes(one_page(sheet(), A0, WORDS))[0] == pytest.approx((841.0, 1189.0), abs=0.001)
    wide = Drawing("wide", 1100.0, 300.0, (piece("1", 10, 10, 1000, 200),))
    assert boxes(one_page(wide, A0, WORDS))[0] == pytest.approx((1189.0, 841.0), abs=0.001)
    width, height = boxes(one_page(sheet(), roll(914.0), WORDS))[0]
    assert width == pytest.approx(914.0, abs=0.001)
    assert 480.0 + 20.0 < height < 480.0 + 150.0


def test_a_side_over_five_metres_counts_in_larger_units() -> None:
    """Past 14 400 points (PDF 1.7, Annex C) the page's user unit grows and the box stays under the limit."""
    long = Drawing("long", 800.0, 9000.0, (Group("g", (Stroke(polyline([(1, 1), (799, 8999)]), "cut"),)),))
    data = one_page(long, roll(914.0), WORDS)
    assert boxes(data)[0][1] > 9000.0
    with pikepdf.open(io.BytesIO(data)) as pdf:
        assert float(pdf.pages[0].obj.UserUnit) == 2.0
        assert float(pdf.pages[0].obj.MediaBox[3]) <= 14400.0


def edges_mm(profile: np.ndarray, px_per_mm: float) -> list[float]:
    """Where thin lines cross a row of pixels: the centre of gravity of each dark run, in mm."""
    dark = 255.0 - profile
    pixels = np.flatnonzero(dark > 8.0)
    runs = np.split(pixels, np.flatnonzero(np.diff(pixels) > 1) + 1)
    return [float(((run + 0.5) * dark[run]).sum() / dark[run].sum() / px_per_mm) for run in runs]


@pytest.mark.parametrize("paper", [A4, LETTER, A3, A0, roll(914.0)], ids=lambda paper: paper.name)
def test_the_printed_square_measures_true(paper: Paper) -> None:
    """In pypdfium2's picture the square is 100 ± 0.05 mm and the bars are 101.6 ± 0.05 mm long, in both axes, on
    every size of paper."""
    drawing = Drawing("dot", 100.0, 150.0, (Group("g", (Words(".", 90.0, 145.0, 3.0),)),))
    large = paper.is_roll or paper is A0
    data = one_page(drawing, paper, ()) if large else tiled(drawing, paper, (), ())
    px = 20.0 if not large else 8.0
    grey = raster(data, 0, px)
    dark = grey < 250.0
    rows, columns = dark.sum(axis=1), dark.sum(axis=0)
    low = int(np.flatnonzero(rows > 95 * px).max())
    left = int(np.flatnonzero(columns > 95 * px).min())
    across = edges_mm(grey[low - int(17 * px), left - int(px) : left + int(106 * px)], px)
    up = edges_mm(grey[low - int(106 * px) : low + int(px), left + int(17 * px)], px)
    assert across[-1] - across[0] == pytest.approx(100.0, abs=0.05)
    assert up[-1] - up[0] == pytest.approx(100.0, abs=0.05)
    level = edges_mm(grey[low - int(108.2 * px), left - int(px) : left + int(103 * px)], px)
    upright = edges_mm(grey[low - int(103 * px) : low + int(px), left + int(108.2 * px)], px)
    assert level[-1] - level[0] == pytest.approx(101.6, abs=0.05)
    assert upright[-1] - upright[0] == pytest.approx(101.6, abs=0.05)


def operands(data: bytes, page: int) -> list[tuple[str, list[float]]]:
    """The path operators of a page's own content, in order."""
    with pikepdf.open(io.BytesIO(data)) as pdf:
        parsed = pikepdf.parse_content_stream(pdf.pages[page])
        wanted = {"m", "l", "c", "cm", "s"}
        return [(str(one.operator), [float(v) for v in one.operands]) for one in parsed if str(one.operator) in wanted]


@pytest.mark.parametrize("paper", [A4, LETTER, A3], ids=lambda paper: paper.name)
def test_every_page_carries_a_square_or_bars_of_exact_size(paper: Paper) -> None:
    """In the page's own operators, scaled by its matrix, there are 100 mm and 4 in both ways within 0.01 mm: a square
    and two bars, or four bars where no square has room.
    """
    cover = Drawing("cover", paper.width_mm, paper.height_mm, (Group("c", (Words("first", 20, 200, 8),)),))
    data = tiled(sheet(), paper, WORDS, [cover])
    squares = 0
    for page in range(len(boxes(data))):
        parts = operands(data, page)
        scale = parts[0][1][0] / POINTS_PER_MM
        assert parts[0][0] == "cm"
        bars: set[tuple[int, float]] = set()
        run: list[list[float]] = []
        for name, values in parts:
            if name == "s":
                assert np.ptp(np.array(run), axis=0) * scale == pytest.approx([100.0, 100.0], abs=0.01)
                bars |= {(0, 100.0), (1, 100.0)}
                squares += 1
            run = [values] if name == "m" else [*run, values]
            if name == "l" and len(run) == 2:
                sides = np.ptp(np.array(run), axis=0) * scale
                bars |= {
                    (axis, length)
                    for axis in (0, 1)
                    for length in (100.0, 101.6)
                    if sides[1 - axis] == 0 and sides[axis] == pytest.approx(length, abs=0.01)
                }
        assert bars == {(0, 100.0), (1, 100.0), (0, 101.6), (1, 101.6)}
    assert squares


@pytest.mark.parametrize("paper", [A4, LETTER, A3], ids=lambda paper: paper.name)
def test_tiles_join_to_the_whole(paper: Paper) -> None:
    """Pictures of the pages, cut and laid together, show the pieces as one page does, to a pixel.

    Pieces are painted in a colour of their own, so that marks and words of the pages do not count.
    """
    painted = tuple(
        Group(group.name, tuple(Stroke(i.beziers, "body", i.name) for i in group.items if isinstance(i, Stroke)))
        for group in sheet().groups
    )
    drawing = Drawing("painted", 620.0, 480.0, painted)
    plan, px, margin = plan_tiles(drawing, paper), 2.0, 20.0
    whole = _brown(sheets([drawing]), 0, px)
    joined = np.zeros((int((480 + 2 * margin) * px), int((620 + 2 * margin) * px)), dtype=bool)
    data = tiled(drawing, paper, WORDS, ())
    window = window_on(paper)
    for page, tile in enumerate(plan.tiles):
        picture = _brown(data, page, px)
        x, y = plan.shift(tile)
        rows, columns = np.nonzero(picture)
        at_x, at_y = (columns + 0.5) / px, paper.height_mm - (rows + 0.5) / px
        kept = (at_x > window.left) & (at_x < window.right) & (at_y > window.bottom) & (at_y < window.top)
        into = ((480.0 - (at_y - y) + margin) * px).astype(int), ((at_x - x + margin) * px).astype(int)
        joined[into[0][kept], into[1][kept]] = True
    edge = int(margin * px)
    joined = joined[edge : edge + whole.shape[0], edge : edge + whole.shape[1]]
    assert whole.sum() > 100_000
    assert not (whole & ~_grown(joined)).any()
    assert not (joined & ~_grown(whole)).any()


def _brown(data: bytes, page: int, px: float) -> np.ndarray:
    """Where a page is painted in the pen of bodies."""
    image = pypdfium2.PdfDocument(data)[page].render(scale=px / POINTS_PER_MM).to_numpy()[:, :, :3].astype(int)
    return np.asarray(image[:, :, 2] - image[:, :, 0] > 20)  # pypdfium2 gives blue first


def _grown(mask: np.ndarray) -> np.ndarray:
    wide = np.pad(mask, 2)
    high, across = mask.shape
    return np.any([wide[r : r + high, c : c + across] for r in range(5) for c in range(5)], axis=0)


@pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)
def test_nothing_is_printed_in_the_margins(paper: Paper) -> None:
    """In pypdfium2's picture the outer 9.8 mm of every page are white, however the drawing runs over the
    edge."""
    data, px = tiled(sheet(), paper, WORDS, ()), 5.0
    for page in range(len(boxes(data))):
        grey, edge = raster(data, page, px), int(9.8 * px)
        grey[edge:-edge, edge:-edge] = 255.0
        assert grey.min() == 255.0


def test_the_drawing_is_kept_once() -> None:
    """All pages show one and the same form object, clipped to their windows."""
    data = tiled(sheet(), A4, WORDS, ())
    with pikepdf.open(io.BytesIO(data)) as pdf:
        forms = {page.obj.Resources.XObject.D.objgen for page in pdf.pages}
        assert len(pdf.pages) > 4
        assert len(forms) == 1
        assert pdf.pages[0].obj.Resources.XObject.D.Subtype == "/Form"
        assert pdf.check_pdf_syntax() == []
    assert len(data) < 60_000


def test_kinds_of_line_are_layers() -> None:
    """Cutting lines, stitch lines, marks and words can each be hidden; all are shown at first."""
    with pikepdf.open(io.BytesIO(tiled(sheet(), A4, WORDS, ()))) as pdf:
        names = [str(layer.Name) for layer in pdf.Root.OCProperties.OCGs]
        assert names == ["cutting lines", "levels, grain and marks", "stitch lines", "words"]
        assert len(pdf.Root.OCProperties.D.ON) == 4


def test_viewers_are_told_not_to_scale() -> None:
    """The file asks for printing without scaling, and bears the drawing's title."""
    with pikepdf.open(io.BytesIO(tiled(sheet(), A4, WORDS, ()))) as pdf:
        assert pdf.Root.ViewerPreferences.PrintScaling == "/None"
        assert str(pdf.docinfo.Title) == "Stays for the ferrywoman"
        assert set(pdf.docinfo.keys()) == {"/Title"}


def test_words_can_be_read_back() -> None:
    """pypdfium2 finds the words of the drawing, the header and the page's name as text."""
    document = pypdfium2.PdfDocument(tiled(sheet(), A4, WORDS, ()))
    said = "\n".join(page.get_textpage().get_text_range() for page in document)
    for wanted in ("1 · front", "cut 1 pair · strength", "A1", "code 7F3A", "print at 100 %, no scaling"):
        assert wanted in said


def test_hostile_words_are_only_words() -> None:
    """Brackets, backslashes, operators and letters the font lacks neither break the file nor vanish from
    its text."""
    words = Words("(a) Tj \\) ET Q <</S>> ½ é", 20.0, 100.0, 5.0)
    drawing = Drawing("x) /Evil (", 150.0, 200.0, (Group("g\x00)", (words, Words("✂ \u202e", 20, 80, 5.0))),))
    data = tiled(drawing, A4, ("(", "\\", "\x00"), ())
    with pikepdf.open(io.BytesIO(data)) as pdf:
        assert pdf.check_pdf_syntax() == []
        assert str(pdf.docinfo.Title) == "x) /Evil ("
    assert words.text in pypdfium2.PdfDocument(data)[0].get_textpage().get_text_range()


def test_the_same_drawing_gives_the_same_bytes() -> None:
    """Two runs give the same file, id included, tiled and in one piece."""
    assert tiled(sheet(), A4, WORDS, ()) == tiled(sheet(), A4, WORDS, ())
    assert one_page(sheet(), A0, WORDS) == one_page(sheet(), A0, WORDS)


def test_a_cover_keeps_its_own_square() -> None:
    """A first page with a test square gets no second one."""
    cover = Drawing("cover", 210.0, 297.0, (square_at(40.0, 40.0),))
    assert cover.groups[0].name == SQUARE_NAME
    data = tiled(sheet(), A4, WORDS, [cover])
    assert [name for name, _ in operands(data, 0)].count("s") == 1


def test_a_page_of_words_keeps_its_words_clear() -> None:
    """A first page full of words is given no test square over them."""
    rows = tuple(Words("to read " * 25, 15.0, 15.0 + 5.0 * row, 3.0) for row in range(52))
    data = tiled(sheet(), A4, WORDS, [Drawing("cover", 210.0, 297.0, (Group("c", rows),))])
    assert [name for name, _ in operands(data, 0)].count("s") == 0


def test_pages_without_a_cover_begin_with_their_map() -> None:
    """Without a first page of its own a drawing gets one with a square, how to join, and every page's name."""
    document = pypdfium2.PdfDocument(tiled(sheet(), A4, WORDS))
    assert len(document) == 1 + len(plan_tiles(sheet(), A4).tiles)
    said = document[0].get_textpage().get_text_range()
    assert "Measure the square now." in said
    for tile in plan_tiles(sheet(), A4).tiles:
        assert tile.name in said


def test_no_joint_cuts_a_title() -> None:
    """A title that would lie across two pages is moved to where one page shows all of it."""
    joint = next(joint for joint in plan_tiles(sheet(), A4).joints if joint.upright)
    place = joint.at_mm - 40.0, joint.over.field.bottom + 30.0
    title = Group("title", (Words("Stays for the ferrywoman, drawn large", *place, 7.0),))
    drawing = Drawing("titled", 620.0, 480.0, (*sheet().groups, title))
    plan = plan_tiles(drawing, A4)
    before, after = (
        next(group for group in one.groups if group.name == "title") for one in (drawing, title_whole(drawing, plan))
    )

    def whole(group: Group) -> bool:
        low, high = ink_points([group]).min(axis=0), ink_points([group]).max(axis=0)
        fields = [tile.field for tile in plan.tiles]
        return any(f.left < low[0] and high[0] < f.right and f.bottom < low[1] and high[1] < f.top for f in fields)

    assert not whole(before)
    assert whole(after)


def test_a_drawing_too_large_for_one_sheet_is_refused() -> None:
    """The message gives both sizes and what can be done."""
    with pytest.raises(ExportError) as caught:
        one_page(Drawing("big", 1500.0, 1500.0, ()), A0)
    assert str(caught.value) == (
        "paper › The drawing is 1500 × 1500 mm and does not fit on A0. Choose wider paper, or pages to be joined."
    )


def test_a_title_makes_no_page_of_its_own() -> None:
    """A title above a drawing that fills its pages is moved on to them instead of on to pages of its own."""
    width = 2 * 176.0
    lines = tuple(Stroke(polyline([(2.0, y), (width, y)]), "cut") for y in (5.0, 240.0))
    high = Drawing("titled", width, 400.0, (Group("g", lines), Group("title", (Words("A title", 20.0, 380.0, 7.0),))))
    assert len(plan_tiles(high, A4).tiles) > 2
    drawing, plan = planned(high, A4)
    assert len(plan.tiles) == 2
    title = next(group for group in drawing.groups if group.name == "title")
    low, top = ink_points([title]).min(axis=0), ink_points([title]).max(axis=0)
    fields = [tile.field for tile in plan.tiles]
    assert any(f.left < low[0] and top[0] < f.right and f.bottom < low[1] and top[1] < f.top for f in fields)
