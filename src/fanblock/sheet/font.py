"""The one font of all sheets, pinned to two weights, cut down to the letters a file needs.

Widths, kerning included, come from the same outlines that are written into the files, so that what is
measured here is what is printed.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

import uharfbuzz

from fanblock.sheet.writing import plain

FAMILY = "Source Sans 3"
"""Name of the family, as it stands in files that name a font."""

FALLBACKS = (FAMILY, "Source Sans Pro", "Noto Sans", "Helvetica", "Arial", "sans-serif")
"""Families to try, in order, where a file only names its font."""

_WEIGHTS = {False: 400.0, True: 700.0}
_KERN = int.from_bytes(b"kern", "big")
_OTHERS = ("calt", "ccmp", "clig", "liga", "locl", "mark", "mkmk", "rclt", "rlig", "rvrn")
_FEATURES = {"kern": True, **dict.fromkeys(_OTHERS, False)}
"""Kerning and nothing else: subsets carry no more, so that the whole font sets words as they do."""


@dataclass(frozen=True, slots=True)
class Glyph:
    """One shape of a line of text: its number in the face, the letters it stands for, its own and its set
    width in em/1000."""

    number: int
    letters: str
    width: float
    advance: float


@dataclass(frozen=True, slots=True, eq=False)
class Face:
    """One weight of the font: the TrueType file, and the measures a file must state, in em/1000."""

    bold: bool
    data: bytes
    ascent: float
    descent: float
    _font: uharfbuzz.Font

    def shaped(self, text: str) -> tuple[Glyph, ...]:
        """Return the glyphs of one line of text, kerned; letters the face lacks become its empty box."""
        if not text:
            return ()
        buffer = _shaped(text, self._font)
        scale = 1000.0 / self._font.face.upem
        infos, places = buffer.glyph_infos, buffer.glyph_positions
        starts = [info.cluster for info in infos]
        widths = {number: self._font.get_glyph_h_advance(number) * scale for number in {i.codepoint for i in infos}}
        return tuple(
            Glyph(info.codepoint, text[start:end], widths[info.codepoint], place.x_advance * scale)
            for info, place, start, end in zip(infos, places, starts, [*starts[1:], len(text)], strict=True)
        )


def font_file() -> Path:
    """Return where the font lies on disk (all weights in one file)."""
    import fontpkg_source_sans_3

    return Path(fontpkg_source_sans_3.ROOT) / "files" / "SourceSans3[wght].ttf"


def width_mm(text: str, size_mm: float, bold: bool = False) -> float:
    """Return how wide one line of ``text`` is when its em is ``size_mm`` high; blank text has no width."""
    return _advance(text, bold) * size_mm / 1000.0


def fitted(text: str, size_mm: float, room_mm: float, bold: bool = False) -> str:
    """Return ``text``, or as much of its beginning as ``room_mm`` holds with an ellipsis behind it."""
    line = plain(text)
    if width_mm(line, size_mm, bold) <= room_mm:
        return line
    low, high = 0, len(line)
    while low < high:
        middle = (low + high + 1) // 2
        if width_mm(line[:middle].rstrip() + "…", size_mm, bold) <= room_mm:
            low = middle
        else:
            high = middle - 1
    return line[:low].rstrip() + "…"


def subset_of(texts: Iterable[str], bold: bool = False) -> Face:
    """Return the face with only the letters of ``texts`` in it."""
    return _cut(frozenset(ord(letter) for text in texts for letter in plain(text)), bold)


@lru_cache(maxsize=4096)
def _advance(text: str, bold: bool) -> float:
    line = plain(text)
    if not line:
        return 0.0
    font = _whole(bold)
    return float(sum(place.x_advance for place in _shaped(line, font).glyph_positions) * 1000.0 / font.face.upem)


def _shaped(line: str, font: uharfbuzz.Font) -> uharfbuzz.Buffer:
    buffer = uharfbuzz.Buffer()
    buffer.add_str(line)
    buffer.direction, buffer.script, buffer.language = "ltr", "Latn", "en"
    buffer.cluster_level = uharfbuzz.BufferClusterLevel.MONOTONE_CHARACTERS
    uharfbuzz.shape(font, buffer, _FEATURES)
    return buffer


@lru_cache(maxsize=2)
def _whole(bold: bool) -> uharfbuzz.Font:
    """One weight of the font with all its letters, to measure by."""
    font = uharfbuzz.Font(_source())
    font.set_variations({"wght": _WEIGHTS[bold]})
    return font


@lru_cache(maxsize=1)
def _source() -> uharfbuzz.Face:
    return uharfbuzz.Face(uharfbuzz.Blob.from_file_path(str(font_file())))


def _cut(letters: frozenset[int] | None, bold: bool) -> Face:
    source = _source()
    wanted = uharfbuzz.SubsetInput()
    wanted.pin_axis_location(source, "wght", _WEIGHTS[bold])
    wanted.flags = uharfbuzz.SubsetFlags.NOTDEF_OUTLINE | uharfbuzz.SubsetFlags.NO_HINTING
    for letter in sorted(source.unicodes if letters is None else letters):
        wanted.unicode_set.add(letter)
    wanted.layout_feature_tag_set.clear()
    wanted.layout_feature_tag_set.add(_KERN)
    face = uharfbuzz.subset(source, wanted)
    font = uharfbuzz.Font(face)
    extents, scale = font.get_font_extents("ltr"), 1000.0 / face.upem
    return Face(bold, bytes(face.blob.data), extents.ascender * scale, extents.descender * scale, font)
