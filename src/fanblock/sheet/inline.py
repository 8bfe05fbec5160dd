"""Drawings within a page of HTML."""

from __future__ import annotations

import re
from html import escape

from fanblock.sheet.drawing import Drawing
from fanblock.sheet.svg import write_svg


def inline_svg(drawing: Drawing, prefix: str, says: str) -> str:
    """Return a drawing as SVG to stand within a page, its ids made its own by ``prefix``."""
    text = write_svg(drawing).split("?>", 1)[-1].strip()
    text = re.sub(r' xmlns="[^"]*"', "", text, count=1)
    text = text.replace(' id="', f' id="{prefix}-')
    return text.replace("<svg", f'<svg role="img" aria-label="{escape(says)}"', 1)
