"""Small SVG drawings, written out by hand, for tests that read them."""

from __future__ import annotations

INKSCAPE = "http://www.inkscape.org/namespaces/inkscape"
PAGE = 'width="500mm" height="300mm" viewBox="0 0 500 300"'
"""A page on which one unit is one millimetre."""

WAIST = '<path id="waist" d="M 50 250 Q 230 200 420 240"/>'
BUST = '<path id="bust" d="M 20 90 Q 230 40 460 80"/>'
FRONT = '<path id="center front" d="M 50 250 L 20 90"/>'
BACK = '<line id="center back" x1="420" y1="240" x2="460" y2="80"/>'
BLOCK = f"{WAIST}\n{BUST}\n{FRONT}\n{BACK}"
"""Half a block, a line of the file for each of its lines."""


def svg(body: str, page: str = PAGE, before: str = "") -> bytes:
    """Return a drawing; what is in it begins in line 2, or as many lines lower as ``before`` has."""
    spaces = f'xmlns="http://www.w3.org/2000/svg" xmlns:inkscape="{INKSCAPE}"'
    return f"{before}<svg {spaces} {page}>\n{body}\n</svg>\n".encode()
