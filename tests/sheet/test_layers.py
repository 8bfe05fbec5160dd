"""Layers of the PDF: turning one off takes away its lines and no others, as pypdfium2 draws the file."""

from __future__ import annotations

import io
from functools import cache

import numpy as np
import pikepdf
import pypdfium2
import pytest
from tests.sheet.real import drafted

from fanblock.bundle import pattern_bundle
from fanblock.sheet.drawing import PENS, Stroke, Words
from fanblock.sheet.layout import laid_out
from fanblock.sheet.paper import A0
from fanblock.sheet.pdf import single_sheet
from fanblock.sheet.pdf_content import LAYERS, WORDS_LAYER

NAMES = ("cutting lines", "stitch lines", "levels, grain and marks", WORDS_LAYER)
PX = 1.0
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
    alone = darkness(switched(whole(), tuple(other for other in every if other != name))) - none
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
