"""A drawing as SVG: one unit is one millimetre, one named group a piece, one named path a line.

Paths and groups carry their names in their ids, so that a person finds them in a vector editor's list of
objects. Coordinates are turned from y up to y down once, in the numbers themselves: nothing in the file is
transformed but turned words.
"""

from __future__ import annotations

import base64
from html import escape

from fanblock.geometry.bezier import straights
from fanblock.sheet.drawing import PENS, Drawing, Group, Stroke, Words
from fanblock.sheet.font import FALLBACKS, FAMILY, subset_of
from fanblock.sheet.writing import identifier, number, numbers, plain


def write_svg(drawing: Drawing, embed_font: bool = False, background: str = "") -> str:
    """Return the drawing as an SVG file, true to scale.

    ``embed_font`` puts the letters it uses into the file, for pictures that must look alike everywhere;
    without it the file names the font and what may stand in for it. ``background`` (``#rrggbb``) fills the
    sheet.
    """
    width, height = number(drawing.width_mm), number(drawing.height_mm)
    taken: set[str] = set()
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" '
        f'viewBox="0 0 {width} {height}" stroke-linejoin="round">',
        f"<title>{escape(plain(drawing.title), quote=False)}</title>",
    ]
    if embed_font:
        lines.append(_font_rules(drawing))
    if background:
        lines.append(f'<rect width="{width}" height="{height}" fill="{escape(background)}"/>')
    for group in drawing.groups:
        lines.extend(_group(group, drawing.height_mm, taken))
    lines.append("</svg>")
    return "\n".join(lines) + "\n"


def _group(group: Group, height_mm: float, taken: set[str]) -> list[str]:
    name = plain(group.name)
    own = identifier(name, taken)
    lines = [f'<g id="{own}" data-name="{escape(name)}" fill="none">', f"<title>{escape(name, quote=False)}</title>"]
    straight = iter(straights([item.beziers for item in group.items if isinstance(item, Stroke)]))
    for item in group.items:
        if isinstance(item, Stroke):
            lines.append(_path(item, next(straight), own, height_mm, taken))
        else:
            lines.append(_text(item, height_mm))
    lines.append("</g>")
    return lines


def _path(stroke: Stroke, straight: list[bool], group: str, height_mm: float, taken: set[str]) -> str:
    pen = PENS[stroke.pen]
    label = ""
    if stroke.name:
        name = plain(stroke.name)
        label = f' id="{identifier(f"{group} {name}", taken)}" data-name="{escape(name)}"'
    dashes = f' stroke-dasharray="{numbers(pen.dash_mm)}"' if pen.dash_mm else ""
    fill = f' fill="{pen.fill}"' if pen.fill else ""
    return (
        f'<path{label} class="{stroke.pen}" d="{_run(stroke, straight, height_mm)}"{fill} stroke="{pen.color}" '
        f'stroke-width="{number(pen.width_mm)}"{dashes}/>'
    )


def _run(stroke: Stroke, straight: list[bool], height_mm: float) -> str:
    flipped = (stroke.beziers * (1.0, -1.0) + (0.0, height_mm)).reshape(-1, 8).tolist()
    parts = [f"M {numbers(flipped[0][:2])}"]
    for bezier, is_line in zip(flipped, straight, strict=True):
        parts.append(f"L {numbers(bezier[6:])}" if is_line else f"C {numbers(bezier[2:])}")
    if stroke.closed:
        parts.append("Z")
    return " ".join(parts)


def _text(words: Words, height_mm: float) -> str:
    x, y = number(words.x), number(height_mm - words.y)
    turned = f' transform="rotate({number(-words.angle_deg)} {x} {y})"' if words.angle_deg else ""
    bold = ' font-weight="bold"' if words.bold else ""
    families = ", ".join(FALLBACKS)
    return (
        f'<text x="{x}" y="{y}" font-family="{families}" font-size="{number(words.size_mm)}"{bold} '
        f'text-anchor="{words.anchor}" fill="{words.color}"{turned}>{escape(plain(words.text), quote=False)}</text>'
    )


def _font_rules(drawing: Drawing) -> str:
    words = [item for group in drawing.groups for item in group.items if isinstance(item, Words)]
    rules = []
    for bold in (False, True):
        texts = [item.text for item in words if item.bold is bold]
        if texts:
            data = base64.b64encode(subset_of(texts, bold).data).decode("ascii")
            rules.append(
                f'@font-face {{ font-family: "{FAMILY}"; font-weight: {"bold" if bold else "normal"}; '
                f'src: url("data:font/ttf;base64,{data}") format("truetype"); }}'
            )
    return "<style>\n" + "\n".join(rules) + "\n</style>"
