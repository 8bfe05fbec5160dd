"""Layers of the PDF: turning one off takes away its lines and no others, as pypdfium2 draws the file."""

from __future__ import annotations

import io
from dataclasses import replace
from functools import cache

import numpy as np
import pikepdf
import pypdfium2
import pytest
from tests.samples import RECIPES
from tests.sheet.real import drafted

from fanblock.bundle import pattern_bundle
from fanblock.pattern.model import Pattern
from fanblock.sheet.clothlayers import MARKED_PENS, own_layer
from fanblock.sheet.drawing import PENS, Stroke, Words
from fanblock.sheet.layout import laid_out, pieces_of, tiled_layout
from fanblock.sheet.paper import A0, A4
from fanblock.sheet.pdf import single_sheet, tiled_sheets
from fanblock.sheet.pdf_content import CLOTH, LAYERS, WORDS_LAYER
from fanblock.sheet.projector import projector_sheets

NAMES = ("cutting lines", "stitch lines", "levels, grain and marks", WORDS_LAYER)
PX = 1.0
FAINT = 15.0
"""How dark a pixel is that a thin line passes through, of 255."""
PATTERN = drafted("innkeeper", "stays-three-panels")


@cache
def whole() -> bytes:
    """All pieces on A0."""
    return single_sheet(laid_out(PATTERN, A0), A0, ("stays",)).pdf()


def switched(data: bytes, off: tuple[str, ...]) -> bytes:
    """The file with some layers turned off, as a viewer's list of layers does it."""
    with pikepdf.open(io.BytesIO(data)) as pdf:
        layers = pdf.Root.OCProperties
        layers.D.OFF = [layer for layer in layers.OCGs if str(layer.Name) in off]
        layers.D.ON = [layer for layer in layers.OCGs if str(layer.Name) not in off]
        out = io.BytesIO()
        pdf.save(out)
        return out.getvalue()


def darkness(data: bytes) -> np.ndarray:
    """How dark each pixel of the first page is."""
    bitmap = pypdfium2.PdfDocument(data)[0].render(scale=PX * 25.4 / 72.0 * 2.0, grayscale=True)
    return 255.0 - np.asarray(bitmap.to_numpy(), dtype=np.float64).reshape(bitmap.height, bitmap.width)


@pytest.mark.parametrize("name", NAMES)
def test_a_layer_that_is_off_is_gone_and_the_others_stay(name: str) -> None:
    """Without one layer the page is lighter, and changed only where that layer alone has ink."""
    full, without = darkness(whole()), darkness(switched(whole(), (name,)))
    with pikepdf.open(io.BytesIO(whole())) as pdf:
        every = tuple(str(layer.Name) for layer in pdf.Root.OCProperties.OCGs)
    none = darkness(switched(whole(), every))
    others = tuple(other for other in every if other != name and not other.startswith(CLOTH))
    alone = darkness(switched(whole(), others)) - none
    changed = np.abs(full - without) > 1.0
    assert full.sum() - without.sum() > 1000.0
    assert np.count_nonzero(changed) > 1000
    assert np.all(alone[changed] > 0.0)


def test_what_belongs_to_the_paper_cannot_be_turned_off() -> None:
    """With all layers off the test square and the long line are still there to be measured."""
    with pikepdf.open(io.BytesIO(whole())) as pdf:
        every = tuple(str(layer.Name) for layer in pdf.Root.OCProperties.OCGs)
    assert set(NAMES) <= set(every)
    assert darkness(switched(whole(), every)).sum() > 1000.0


def test_every_kind_of_line_on_a_piece_is_in_a_layer() -> None:
    """Nothing of a piece but filled signs is left when all layers are off."""
    drawing = laid_out(drafted("ferrywoman", "stays-five-panels"), A0)
    pieces = [group for group in drawing.groups if group.name[0].isdigit()]
    pens = {item.pen for group in pieces for item in group.items if isinstance(item, Stroke)}
    assert {pen for pen in pens if pen not in LAYERS and not PENS[pen].fill} == set()
    assert any(isinstance(item, Words) for group in pieces for item in group.items)


@pytest.mark.parametrize("file", ["pattern-a4.pdf", "pattern-roll-900-mm.pdf"])
def test_every_pattern_on_paper_has_its_layers(file: str) -> None:
    """Tiled pages and rolls carry the same list of layers, all of them on."""
    from fanblock.sheet.paper import A4, roll

    made = {one.name: one.data for one in pattern_bundle(PATTERN, [A4, roll(900.0)], pictures=False).files}
    with pikepdf.open(io.BytesIO(made[file])) as pdf:
        layers = pdf.Root.OCProperties
        names = [str(layer.Name) for layer in layers.OCGs]
        assert set(NAMES) <= set(names)
        assert [str(layer.Name) for layer in layers.D.ON] == names
        assert "/OFF" not in layers.D


LAYERED = (
    ("ferrywoman stays-five-panels", {"cloth: strength layer"}),
    ("innkeeper stays-three-panels", {"cloth: strength layer"}),
)


def sheets_of(pattern: Pattern, paper: str) -> bytes:
    """A pattern on one page of A0, for a projector, or on A4 pages to join."""
    pieces = pieces_of(pattern)
    if paper == "projector":
        return projector_sheets(pattern, pieces).pdf()
    if paper == "A0":
        return single_sheet(laid_out(pattern, A0, pieces), A0, ("stays",)).pdf()
    drawing, plan = tiled_layout(pattern, A4, pieces)
    return tiled_sheets(drawing, A4, ("stays",), (), plan).pdf()


def names_of(data: bytes) -> set[str]:
    """The names of a file's layers."""
    with pikepdf.open(io.BytesIO(data)) as pdf:
        return {str(layer.Name) for layer in pdf.Root.OCProperties.OCGs}


def marked_with(data: bytes) -> list[tuple[tuple[str, ...], str]]:
    """Every operator that strokes a line or shows a text of the drawing, with the layers it stands in, the outer first."""
    found = []
    with pikepdf.open(io.BytesIO(data)) as pdf:
        form = pdf.pages[0].Resources.XObject.D
        names = {key: str(value.Name) for key, value in form.Resources.Properties.items()}
        nested: list[str] = []
        for operands, operator in pikepdf.parse_content_stream(form):
            if str(operator) == "BDC":
                nested.append(names[str(operands[1])])
            elif str(operator) == "EMC":
                nested.pop()
            elif str(operator) in ("S", "s", "B", "b", "TJ"):
                found.append((tuple(nested), str(operator)))
        assert not nested
    return found


@pytest.mark.parametrize("paper", ["A0", "projector", "A4"])
@pytest.mark.parametrize(("name", "cloths"), LAYERED)
def test_what_one_cloth_alone_needs_is_in_its_own_layer(name: str, cloths: set[str], paper: str) -> None:
    """Every line of channels and eyelets stands in the layer of its cloth and in that of its kind, numbers too; no other does."""
    data = sheets_of(drafted(*name.split(" ")), paper)
    assert {one for one in names_of(data) if one.startswith(CLOTH)} == cloths
    marks = marked_with(data)
    boned = [layers for layers, _ in marks if "bones and eyelets" in layers]
    assert len(boned) > 20
    assert all(layers[0] in cloths for layers in boned)
    clothed = [layers for layers, _ in marks if layers and layers[0] in cloths]
    assert {layers[1] for layers in clothed} == {"bones and eyelets", WORDS_LAYER}
    numbers = sum(one.number > 0 for panel in drafted(*name.split(" ")).panels for one in panel.channels)
    assert sum(layers[1] == WORDS_LAYER for layers in clothed) >= numbers


@pytest.mark.parametrize("paper", ["A0", "projector"])
def test_without_the_strength_layer_the_channels_vanish_and_the_outline_stays(paper: str) -> None:
    """Where a channel runs there is no ink any more; the file with only the lines of the outline is as dark there."""
    data = sheets_of(PATTERN, paper)
    full, without = darkness(switched(data, ())), darkness(switched(data, ("cloth: strength layer",)))
    gone = full - without
    assert (gone > FAINT).sum() > 1000
    assert (gone < -1.0).sum() < 0.01 * (gone > FAINT).sum()  # where a grey line lay over a black one
    outline = darkness(switched(data, tuple(names_of(data) - {"cutting lines"})))
    blank = darkness(switched(data, tuple(names_of(data))))
    cut = (outline - blank) > 4.0 * FAINT
    assert cut.sum() > 1000
    assert (without[cut] > 2.0 * FAINT).all()


def test_a_piece_of_one_cloth_is_in_the_layer_of_that_cloth() -> None:
    """A lining with an outline of its own vanishes as a whole with its layer; the outer cloth's pieces stay."""
    for pattern in (drafted("ferrywoman", recipe) for recipe in RECIPES):
        for one in pieces_of(pattern):
            own = own_layer(one.panel, pattern)
            cloths = {item.cloth for item in one.group.items}
            if own:
                assert cloths == {own}
            else:
                marks = {item.cloth for item in one.group.items if isinstance(item, Stroke) and item.pen in MARKED_PENS}
                assert cloths - marks == {""}
    assert {one.panel.layer for one in pieces_of(lined()) if one.panel.layer} == {"lining"}
    data = sheets_of(lined(), "A0")
    assert "cloth: lining" in names_of(data)


def lined() -> Pattern:
    """A pattern whose lining has pieces of its own: those of the bodice once more, for the lining alone."""
    pattern = drafted("innkeeper", "stays-three-panels")
    one = pattern.panels[0]
    more = replace(
        one, name="front lining", number=9, layer="lining", copy_of=one.name, cuts=(("lining", 2),), channels=()
    )
    return replace(pattern, panels=(*pattern.panels, more))
