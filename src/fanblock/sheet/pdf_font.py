"""A face put into a PDF: its outlines, its widths, and which letters its glyphs stand for, so that words
can be searched."""

from __future__ import annotations

from collections.abc import Iterable

import pikepdf

from fanblock.sheet.font import FAMILY, Face, Glyph

_SYMBOLIC = 4


def embedded(pdf: pikepdf.Pdf, face: Face, lines: Iterable[tuple[Glyph, ...]]) -> pikepdf.Object:
    """Return the font object for ``face``, with what a reader must know of the glyphs of some lines of text."""
    widths: dict[int, float] = {}
    letters: dict[int, str] = {}
    for line in lines:
        for glyph in line:
            widths[glyph.number] = glyph.width
            if glyph.letters and glyph.number:
                letters.setdefault(glyph.number, glyph.letters)
    name = pikepdf.Name(f"/FANBLK+{FAMILY.replace(' ', '')}-{'Bold' if face.bold else 'Regular'}")
    file = pdf.make_stream(face.data)
    file.Length1 = len(face.data)
    descriptor = pdf.make_indirect(
        pikepdf.Dictionary(
            Type=pikepdf.Name.FontDescriptor,
            FontName=name,
            Flags=_SYMBOLIC,
            FontBBox=[-500, round(face.descent), 2000, round(face.ascent)],
            ItalicAngle=0,
            Ascent=round(face.ascent),
            Descent=round(face.descent),
            CapHeight=660,
            StemV=140 if face.bold else 84,
            FontFile2=file,
        )
    )
    listed: list[object] = []
    for number in sorted(widths):
        listed += [number, pikepdf.Array([round(widths[number])])]
    descendant = pdf.make_indirect(
        pikepdf.Dictionary(
            Type=pikepdf.Name.Font,
            Subtype=pikepdf.Name.CIDFontType2,
            BaseFont=name,
            CIDSystemInfo=pikepdf.Dictionary(Registry="Adobe", Ordering="Identity", Supplement=0),
            FontDescriptor=descriptor,
            CIDToGIDMap=pikepdf.Name.Identity,
            DW=500,
            W=pikepdf.Array(listed),
        )
    )
    return pdf.make_indirect(
        pikepdf.Dictionary(
            Type=pikepdf.Name.Font,
            Subtype=pikepdf.Name.Type0,
            BaseFont=name,
            Encoding=pikepdf.Name("/Identity-H"),
            DescendantFonts=[descendant],
            ToUnicode=pdf.make_stream(_letters_of(letters)),
        )
    )


def _letters_of(letters: dict[int, str]) -> bytes:
    """A character map from glyph numbers to letters, a hundred to a block as the format asks."""
    pairs = [f"<{number:04X}> <{text.encode('utf-16-be').hex().upper()}>" for number, text in sorted(letters.items())]
    blocks = [pairs[at : at + 100] for at in range(0, len(pairs), 100)]
    lines = [
        "/CIDInit /ProcSet findresource begin",
        "12 dict begin",
        "begincmap",
        "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def",
        "/CMapName /Adobe-Identity-UCS def",
        "/CMapType 2 def",
        "1 begincodespacerange",
        "<0000> <FFFF>",
        "endcodespacerange",
        *(line for block in blocks for line in (f"{len(block)} beginbfchar", *block, "endbfchar")),
        "endcmap",
        "CMapName currentdict /CMap defineresource pop",
        "end",
        "end",
    ]
    return "\n".join(lines).encode("ascii")
