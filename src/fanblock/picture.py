"""One picture of a pattern: the half garment seam to seam, its side view, and all its pieces, under one heading."""

from __future__ import annotations

import re

from fanblock.pattern.model import Pattern
from fanblock.sheet import phrases
from fanblock.sheet.drawing import Drawing, Group, Words
from fanblock.sheet.font import fitted
from fanblock.sheet.svg import write_svg
from fanblock.sheet.tapes import tape_sentence
from fanblock.sheet.views import Views

WIDTH_MM = 300.0
_EDGE_MM, _HEAD_MM = 6.0, 29.0
_RED = "#c62828"


def picture_svg(pattern: Pattern, views: Views | None = None, embed_font: bool = False) -> str:
    """Return the picture as SVG, 300 mm wide; its parts are not to scale with each other.

    ``views`` may hand on views of the pattern already drawn. ``embed_font`` puts the letters into the file.
    """
    views = views or Views(pattern)
    key, side, flat = views.key, views.side, views.flat
    inner = WIDTH_MM - 2 * _EDGE_MM
    flat_height = inner * flat.height_mm / flat.width_mm
    height = _HEAD_MM + key.height_mm + flat_height + 3 * _EDGE_MM
    top = _EDGE_MM + _HEAD_MM
    parts = [
        (_heading(pattern, inner), _EDGE_MM, _EDGE_MM, inner, _HEAD_MM),
        (key, _EDGE_MM, top, key.width_mm, key.height_mm),
        (flat, _EDGE_MM, top + key.height_mm + _EDGE_MM, inner, flat_height),
    ]
    if side is not None:
        parts.insert(2, (side, _EDGE_MM + key.width_mm, top, side.width_mm, side.height_mm))
    body = "".join(
        _placed(write_svg(drawing, embed_font), f"part{number}", x, y, wide, high)
        for number, (drawing, x, y, wide, high) in enumerate(parts, 1)
    )
    size = f'width="{WIDTH_MM:.0f}mm" height="{height:.1f}mm" viewBox="0 0 {WIDTH_MM:.0f} {height:.1f}"'
    return f'<svg xmlns="http://www.w3.org/2000/svg" {size}>\n{body}</svg>\n'


def _placed(svg: str, prefix: str, x: float, y: float, wide: float, high: float) -> str:
    """An SVG file as a part of another, in its own rectangle, its ids made its own.

    Nothing of it is cut off at the rectangle, which it keeps within: cutting off is what a picture takes longest over.
    """
    inside = svg.split("?>", 1)[-1].strip().replace(' id="', f' id="{prefix}-')
    place = f'<svg overflow="visible" x="{x:.1f}" y="{y:.1f}" width="{wide:.1f}" height="{high:.1f}"'
    return re.sub(r'<svg xmlns="[^"]*" width="[^"]*" height="[^"]*"', place, inside, count=1) + "\n"


def _heading(pattern: Pattern, wide: float) -> Drawing:
    title = pattern.title
    period = f" · {title.period}" if title.period else ""
    verdict = (
        phrases.SOUND
        if pattern.sound
        else f"{phrases.NOT_SOUND}: something does not add up or sew up. Do not cut cloth by it."
    )
    lines = (
        (title.garment, 7.0, True, "#000000"),
        (f"for {title.wearer} · {phrases.stamp(title)}{period}", 4.2, False, "#000000"),
        (tape_sentence(pattern), 3.8, False, "#000000"),
        (verdict, 3.8, not pattern.sound, "#000000" if pattern.sound else _RED),
    )
    y, items = _HEAD_MM, []
    for text, size, bold, color in lines:
        y -= 1.25 * size
        items.append(Words(fitted(text, size, wide, bold), 0.0, y, size, bold=bold, color=color))
    return Drawing("heading", wide, _HEAD_MM, (Group("heading", tuple(items)),))
