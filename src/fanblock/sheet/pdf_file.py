"""Pages written as a PDF file: boxes exact, the drawing kept once and shown on every page through its window.

Nothing in the file depends on the time or the machine, and viewers are told to print it as large as it is.
"""

from __future__ import annotations

import io
import math
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

import pikepdf

from fanblock.sheet.drawing import Drawing, Group, Words
from fanblock.sheet.font import subset_of
from fanblock.sheet.ink import Box
from fanblock.sheet.pdf_content import Style, TextLine, clipped, font_key, layers_of, operators, text_line
from fanblock.sheet.pdf_font import embedded
from fanblock.sheet.writing import number, numbers, plain

POINTS_PER_MM = 72.0 / 25.4
_LARGEST_POINTS = 14400
_SPILL_MM = 1.0


@dataclass(frozen=True, slots=True)
class Page:
    """One page: its size, what lies under the drawing and over it, and where and how far shifted the
    drawing shows."""

    width_mm: float
    height_mm: float
    under: tuple[Group, ...] = ()
    over: tuple[Group, ...] = ()
    window: Box | None = None
    shift: tuple[float, float] = (0.0, 0.0)


def pdf_of(drawing: Drawing, pages: Sequence[Page], thick: float = 1.0, hidden: frozenset[str] = frozenset()) -> bytes:
    """Return the file with ``pages`` in order; every window on them shows ``drawing``.

    Its lines are ``thick`` times as thick as their pens; its layers named in ``hidden`` are off until somebody turns
    them on.
    """
    pdf = pikepdf.Pdf.new()
    groups = [*drawing.groups, *(group for page in pages for group in (*page.under, *page.over))]
    words = [item for group in groups for item in group.items if isinstance(item, Words)]
    layers = _layers(pdf, drawing, hidden)
    lines: dict[bool, dict[str, TextLine]] = {}
    fonts = pikepdf.Dictionary()
    for bold in (False, True):
        texts = sorted({item.text for item in words if item.bold is bold})
        if texts:
            face = subset_of(texts, bold)
            shaped = {text: face.shaped(plain(text)) for text in texts}
            fonts[f"/{font_key(bold)}"] = embedded(pdf, face, shaped.values())
            lines[bold] = {text: text_line(glyphs) for text, glyphs in shaped.items()}
    form = _form(pdf, drawing, Style(lines, layers, thick), fonts)
    plain_style = Style(lines, {})
    for page in pages:
        _add(pdf, page, form, fonts, plain_style)
    pdf.docinfo[pikepdf.Name.Title] = plain(drawing.title)
    pdf.Root.ViewerPreferences = pikepdf.Dictionary(
        PrintScaling=pikepdf.Name("/None"), PickTrayByPDFSize=True, DisplayDocTitle=True
    )
    pdf.Root.Lang = "en"
    out = io.BytesIO()
    pdf.save(
        out,
        deterministic_id=True,
        compress_streams=True,
        object_stream_mode=pikepdf.ObjectStreamMode.generate,
        linearize=False,
    )
    return out.getvalue()


def _layers(pdf: pikepdf.Pdf, drawing: Drawing, hidden: frozenset[str]) -> dict[str, str]:
    """Make one optional layer for every kind of line the drawing has and for every cloth with lines of its own, and hide some;
    return their resource names.
    """
    items = [item for group in drawing.groups for item in group.items]
    titles = {title for item in items for title in layers_of(item)}
    names = {title: f"L{count}" for count, title in enumerate(sorted(titles))}
    if names:
        made = [pdf.make_indirect(pikepdf.Dictionary(Type=pikepdf.Name.OCG, Name=title)) for title in sorted(names)]
        states = list(zip(sorted(names), made, strict=True))
        shown = pikepdf.Dictionary(Order=made, ON=[one for title, one in states if title not in hidden], Name="layers")
        if hidden & names.keys():
            shown.OFF = [one for title, one in states if title in hidden]
        pdf.Root.OCProperties = pikepdf.Dictionary(OCGs=made, D=shown)
    return names


def _form(pdf: pikepdf.Pdf, drawing: Drawing, style: Style, fonts: pikepdf.Dictionary) -> pikepdf.Object:
    form = pdf.make_stream(operators(drawing.groups, style))
    form.Type, form.Subtype = pikepdf.Name.XObject, pikepdf.Name.Form
    box = Box(0.0, 0.0, drawing.width_mm, drawing.height_mm).grown(_SPILL_MM)
    form.BBox = [Decimal(number(value)) for value in (box.left, box.bottom, box.right, box.top)]
    resources = pikepdf.Dictionary(Font=fonts)
    if style.layers:
        made = pdf.Root.OCProperties.OCGs
        resources.Properties = pikepdf.Dictionary(
            {f"/{style.layers[title]}": made[index] for index, title in enumerate(sorted(style.layers))}
        )
    form.Resources = resources
    return form


def _add(pdf: pikepdf.Pdf, page: Page, form: pikepdf.Object, fonts: pikepdf.Dictionary, style: Style) -> None:
    unit = max(1, math.ceil(max(page.width_mm, page.height_mm) * POINTS_PER_MM / _LARGEST_POINTS))
    scale = POINTS_PER_MM / unit
    box = [0, 0, _points(page.width_mm * scale), _points(page.height_mm * scale)]
    content = [f"q {scale:.8f} 0 0 {scale:.8f} 0 0 cm".encode("ascii"), operators(page.under, style)]
    if page.window is not None:
        window = page.window
        clip = clipped(window.left, window.bottom, window.width_mm, window.height_mm)
        content.append(f"q {clip} 1 0 0 1 {numbers(page.shift)} cm /D Do Q".encode("ascii"))
    content += [operators(page.over, style), b"Q"]
    added = pdf.add_blank_page(page_size=(10, 10))
    added.obj.MediaBox = added.obj.CropBox = added.obj.TrimBox = box
    if unit > 1:
        added.obj.UserUnit = unit
    added.obj.Resources = pikepdf.Dictionary(Font=fonts, XObject=pikepdf.Dictionary(D=form))
    added.obj.Contents = pdf.make_stream(b"\n".join(content))


def _points(value: float) -> Decimal:
    return Decimal(f"{value:.6f}")
