"""A pattern as a DXF file by ASTM D6673. The one place that uses ezdxf.

The file is what the standard asks for and no more: an empty header, one block a piece, the style's texts with one
insert a piece. Readers that take such files stop at tables and layouts, so there are none; DXF release 12 has nothing
else that is needed. Without them nothing in the file depends on the time or the machine.
"""

from __future__ import annotations

import io
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from fanblock.geometry.curve import Points
from fanblock.pattern.model import Pattern
from fanblock.sheet.drawing import Words
from fanblock.sheet.dxf_pieces import DECIMALS, dxf_style
from fanblock.sheet.dxf_style import DxfPiece, DxfStyle
from fanblock.sheet.piece import Piece

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts.blocklayout import BlockLayout

BOUNDARY, TURN, CURVE, NOTCH, MIRROR, GRAIN, INNER, CUT, DRILL, SEW, REMARK = (
    "1", "2", "3", "4", "6", "7", "8", "11", "13", "14", "15",
)  # fmt: skip
"""The standard's layers that are written."""

CAPITALS = 0.66
"""Height of capitals, which is a text's height in DXF, as a share of the font's size."""

_TEXT_MM, _REMARK_MM, _STEP, _APART_MM, _LETTER = 4.0, 2.5, 1.6, 40.0, 0.75
"""Heights of the texts that stand below a piece, their step and the widest letter in heights; clear space between pieces."""


def pattern_dxf(pattern: Pattern, pieces: Sequence[Piece]) -> bytes:
    """Return the file of a pattern whose panels are printed as ``pieces``; the same pattern gives the same bytes.

    Raises ExportError with everything that the standard does not allow.
    """
    return write_dxf(dxf_style(pattern, pieces))


def write_dxf(style: DxfStyle) -> bytes:
    """Return a style as a file of 7-bit letters, its lines ended as the format was born with."""
    from ezdxf.document import Drawing as Document
    from ezdxf.lldxf.const import DXF12

    document = Document.new(DXF12)
    space = document.modelspace()
    on_boundary = {"layer": BOUNDARY}
    for row, (key, value) in enumerate(style.texts):
        place = (0.0, round(-_STEP * _TEXT_MM * (row + 1) - _below_mm(style), DECIMALS))
        space.add_text(f"{key}:{value}", height=_TEXT_MM, dxfattribs=on_boundary).set_placement(place)
    left = 0.0
    for piece in style.pieces:
        _block(document.blocks.new(piece.name), piece)
        space.add_blockref(piece.name, (left, 0.0), dxfattribs=on_boundary)
        left = round(left + _width_mm(piece) + _APART_MM, DECIMALS)
    return _written(document)


def _block(block: BlockLayout, piece: DxfPiece) -> None:
    """Put all of a piece into its block."""
    _texts_below(block, piece)
    _line(block, BOUNDARY, piece.boundary, closed=True)
    for layer, points in ((TURN, piece.turns), (CURVE, piece.curves)):
        for point in points:
            block.add_point(_place(point), dxfattribs={"layer": layer})
    for notch in piece.notches:
        attributes = {"layer": NOTCH, "angle": notch.angle_deg}
        block.add_point((*_place(notch.point), notch.depth_mm), dxfattribs=attributes)
    for layer, ends in ((GRAIN, piece.grain), (MIRROR, piece.mirror)):
        if ends is not None:
            block.add_line(_place(ends[0]), _place(ends[1]), dxfattribs={"layer": layer})
    for layer, runs in ((INNER, piece.inner), (CUT, piece.slits), (SEW, piece.sewn)):
        for run in runs:
            _line(block, layer, run)
    for point, diameter in piece.drills:
        block.add_point((*_place(point), diameter), dxfattribs={"layer": DRILL})
    for words in piece.words:
        _words(block, words)


def _texts_below(block: BlockLayout, piece: DxfPiece) -> None:
    """The texts that every reader looks for, and the remarks, under one another below the piece."""
    drawn, mirrored = piece.quantity
    system = [f"Piece Name:{piece.name}", f"Quantity:{drawn},{mirrored}", f"Material:{piece.material}"]
    y = 0.0
    for layer, height, texts in ((BOUNDARY, _TEXT_MM, system), (REMARK, _REMARK_MM, piece.remarks)):
        for text in texts:
            y -= _STEP * height
            block.add_text(text, height=height, dxfattribs={"layer": layer}).set_placement((0.0, round(y, DECIMALS)))


def _words(block: BlockLayout, words: Words) -> None:
    """One line of annotation where it stands on the printed piece."""
    from ezdxf.enums import TextEntityAlignment

    anchors = {
        "start": TextEntityAlignment.LEFT,
        "middle": TextEntityAlignment.CENTER,
        "end": TextEntityAlignment.RIGHT,
    }
    attributes = {"layer": REMARK, "rotation": round(words.angle_deg, DECIMALS) + 0.0}
    text = block.add_text(words.text, height=round(CAPITALS * words.size_mm, DECIMALS), dxfattribs=attributes)
    text.set_placement((round(words.x, DECIMALS) + 0.0, round(words.y, DECIMALS) + 0.0), align=anchors[words.anchor])


def _line(block: BlockLayout, layer: str, points: Points, closed: bool = False) -> None:
    block.add_polyline2d([_place(point) for point in points], close=closed, dxfattribs={"layer": layer})


def _place(point: Points) -> tuple[float, float]:
    return float(point[0]), float(point[1])


def _width_mm(piece: DxfPiece) -> float:
    """How wide a piece and the texts below it are."""
    longest = max((len(text) for text in piece.remarks), default=0)
    return max(float(piece.boundary[:, 0].max()), _LETTER * _REMARK_MM * longest)


def _below_mm(style: DxfStyle) -> float:
    """How far the texts below the pieces reach down."""
    rows = max((len(piece.remarks) for piece in style.pieces), default=0)
    return _STEP * (4 * _TEXT_MM + rows * _REMARK_MM)


def _written(document: Drawing) -> bytes:
    """The document's blocks and entities alone, after an empty header."""
    from ezdxf.lldxf.tagwriter import TagWriter

    stream = io.StringIO(newline="\n")
    writer = TagWriter(stream, write_handles=False, dxfversion=document.dxfversion)
    _section(writer, "HEADER")
    writer.write_tag2(0, "ENDSEC")
    _section(writer, "BLOCKS")
    for record in document.block_records:
        if record.is_block_layout:
            record.export_block_definition(writer)
    writer.write_tag2(0, "ENDSEC")
    _section(writer, "ENTITIES")
    document.modelspace().entity_space.export_dxf(writer)
    writer.write_tag2(0, "ENDSEC")
    writer.write_tag2(0, "EOF")
    return stream.getvalue().replace("\n", "\r\n").encode("ascii")


def _section(writer: Any, name: str) -> None:
    writer.write_tag2(0, "SECTION")
    writer.write_tag2(2, name)
