"""Primitives as the operators of a PDF page, in millimetres; what scales them to points stands before
them."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from fanblock.geometry.bezier import straights
from fanblock.sheet.drawing import PENS, Group, Pen, Stroke, Words
from fanblock.sheet.font import Glyph
from fanblock.sheet.writing import number, numbers

LAYERS: Mapping[str, str] = {
    "cut": "cutting lines",
    "slit": "cutting lines",
    "fold": "cutting lines",
    "stitch": "stitch lines",
    "level": "levels, grain and marks",
    "grain": "levels, grain and marks",
    "mark": "levels, grain and marks",
    "crease": "levels, grain and marks",
    "place": "levels, grain and marks",
    "dart": "levels, grain and marks",
    "gather": "levels, grain and marks",
    "tuck": "levels, grain and marks",
    "fastening": "levels, grain and marks",
    "channel": "bones and eyelets",
    "through": "bones and eyelets",
    "eyelet": "bones and eyelets",
    "guide": "guide lines",
    "ghost": "guide lines",
    "square cm": "squares of 10 cm",
    "square in": "squares of 4 in",
}
"""Which layer of the file a kind of line belongs to; what is not named here is always shown."""

WORDS_LAYER = "words"

CLOTH = "cloth: "
"""How the name of a layer begins that holds what one layer of cloth alone needs; the layer by kind of line lies in it."""


def layers_of(item: Stroke | Words) -> tuple[str, ...]:
    """Return the layers of the file that a line or a text lies in, the outer first."""
    kind = LAYERS.get(item.pen, "") if isinstance(item, Stroke) else WORDS_LAYER
    return tuple(layer for layer in (CLOTH + item.cloth if item.cloth else "", kind) if layer)


@dataclass(frozen=True, slots=True)
class TextLine:
    """One line of text as the operators show it: glyphs with the steps of kerning, and its width in em/1000."""

    shown: str
    width: float


@dataclass(frozen=True, slots=True)
class Style:
    """What the operators need from outside: every line of text, light and bold, and the resource name of every layer
    (none: no layers); and how many times as thick as its pen a line is."""

    lines: Mapping[bool, Mapping[str, TextLine]]
    layers: Mapping[str, str]
    thick: float = 1.0


def font_key(bold: bool) -> str:
    """Return the resource name of a face."""
    return "F1" if bold else "F0"


def operators(groups: Iterable[Group], style: Style) -> bytes:
    """Return the content that draws ``groups`` in order."""
    lines: list[str] = ["1 j"]
    open_layers: list[str] = []
    pen_name = ""
    items = [item for group in groups for item in group.items]
    straight = iter(straights([item.beziers for item in items if isinstance(item, Stroke)]))
    for item in items:
        wanted = [style.layers[title] for title in layers_of(item) if title in style.layers]
        if wanted != open_layers:
            lines += ["EMC"] * len(open_layers) + [f"/OC /{layer} BDC" for layer in wanted]
            open_layers = wanted
        if isinstance(item, Words):
            lines.append(_text(item, style.lines[item.bold][item.text]))
            pen_name = ""
            continue
        if item.pen != pen_name:
            lines.append(_pen(PENS[item.pen], style.thick))
            pen_name = item.pen
        lines.append(_path(item, next(straight)))
    lines += ["EMC"] * len(open_layers)
    return "\n".join(lines).encode("ascii")


def clipped(left: float, bottom: float, width: float, height: float) -> str:
    """Return the operators that let nothing be drawn outside a rectangle."""
    return f"{numbers((left, bottom, width, height))} re W n"


def text_line(glyphs: Iterable[Glyph]) -> TextLine:
    """Return a shaped line as the operators show it."""
    shown: list[str] = []
    run, width = "", 0.0
    for glyph in glyphs:
        run += f"{glyph.number:04X}"
        width += glyph.advance
        if glyph.advance != glyph.width:
            shown.append(f"<{run}> {number(glyph.width - glyph.advance)}")
            run = ""
    if run:
        shown.append(f"<{run}>")
    return TextLine(" ".join(shown), width)


def _color(value: str) -> str:
    return numbers(int(value[at : at + 2], 16) / 255.0 for at in (1, 3, 5))


def _pen(pen: Pen, thick: float) -> str:
    fill = f" {_color(pen.fill)} rg" if pen.fill else ""
    dashes = numbers(thick * dash for dash in pen.dash_mm)
    return f"{number(thick * pen.width_mm)} w [{dashes}] 0 d {_color(pen.color)} RG{fill}"


def _path(stroke: Stroke, straight: list[bool]) -> str:
    beziers = stroke.beziers.reshape(-1, 8).tolist()
    parts = [f"{numbers(beziers[0][:2])} m"]
    for bezier, is_line in zip(beziers, straight, strict=True):
        parts.append(f"{numbers(bezier[6:])} l" if is_line else f"{numbers(bezier[2:])} c")
    filled = bool(PENS[stroke.pen].fill)
    parts.append(("b" if stroke.closed else "B") if filled else ("s" if stroke.closed else "S"))
    return "\n".join(parts)


def _text(words: Words, line: TextLine) -> str:
    back = {"start": 0.0, "middle": 0.5, "end": 1.0}[words.anchor] * line.width * words.size_mm / 1000.0
    turn = math.radians(words.angle_deg)
    cosine, sine = math.cos(turn), math.sin(turn)
    place = numbers((cosine, sine, -sine, cosine, words.x - back * cosine, words.y - back * sine))
    return (
        f"BT {_color(words.color)} rg /{font_key(words.bold)} {number(words.size_mm)} Tf "
        f"{place} Tm [{line.shown}] TJ ET"
    )
