"""A drawing: plain primitives in millimetres, y up, that every writer only has to write.

What is drawn is settled here once; paper sizes, tiles and file formats come after and change nothing of it.
A pen is named by what it draws (``cut``, ``stitch``, ``grain`` …) and looked up in :data:`PENS`, so that
all sheets look alike.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from fanblock.geometry.curve import Points


@dataclass(frozen=True, slots=True)
class Pen:
    """How a kind of line looks: width and dashes in millimetres, colour as ``#rrggbb``; ``fill`` closes and
    fills it."""

    width_mm: float
    color: str = "#000000"
    dash_mm: tuple[float, ...] = ()
    fill: str = ""


PAPER_BLUE = "#2c6488"
"""What belongs to the paper and not to the pattern: test squares, joints, where to cut pages apart."""

PENS: Mapping[str, Pen] = MappingProxyType(
    {
        "cut": Pen(0.5),
        "stitch": Pen(0.3, dash_mm=(3.0, 1.2)),
        "fold": Pen(0.4, dash_mm=(8.0, 1.5, 1.5, 1.5)),
        "slit": Pen(0.5),
        "level": Pen(0.2, "#555555", (6.0, 2.0)),
        "grain": Pen(0.3),
        "mark": Pen(0.4),
        "guide": Pen(0.15, "#888888"),
        "crease": Pen(0.25, dash_mm=(5.0, 1.2, 0.8, 1.2)),
        "place": Pen(0.25, "#333333", (1.2, 1.2)),
        "dart": Pen(0.3, dash_mm=(1.5, 0.8)),
        "gather": Pen(0.3, "#333333", (0.6, 1.4)),
        "tuck": Pen(0.25, dash_mm=(3.0, 0.8, 0.5, 0.8, 0.5, 0.8)),
        "fastening": Pen(0.4),
        "channel": Pen(0.18, "#333333"),
        "through": Pen(0.1, "#9a9a9a"),
        "eyelet": Pen(0.3),
        "blank": Pen(0.1, "#ffffff", fill="#ffffff"),
        "square cm": Pen(0.12, "#9db8c9"),
        "square in": Pen(0.12, "#c9b49d"),
        "grid": Pen(0.1, "#cfc9bd"),
        "base": Pen(0.35, PAPER_BLUE),
        "frame": Pen(0.2, "#555555", (1.0, 1.0)),
        "scale": Pen(0.2, PAPER_BLUE),
        "scale pale": Pen(0.12, "#86aac4"),
        "trim": Pen(0.2, PAPER_BLUE),
        "meet": Pen(0.2, PAPER_BLUE, (2.0, 2.0)),
        "join": Pen(0.25, PAPER_BLUE),
        "sewn": Pen(0.9),
        "map": Pen(0.1, "#777777"),
        "mini": Pen(0.15, "#333333"),
        "ghost": Pen(0.25, "#999999"),
        "ink": Pen(0.1, fill="#000000"),
        "paper": Pen(0.2, "#444444", fill="#f2e9da"),
        "body": Pen(0.3, "#8a6d4b", fill="#e9dcc6"),
    }
)


@dataclass(frozen=True, slots=True, eq=False)
class Stroke:
    """A run of cubic Béziers, shape (n, 4, 2); each begins where the one before ends. ``name`` may be
    empty; ``cloth`` is the layer of cloth that alone needs it, if it is not for all."""

    beziers: Points
    pen: str
    name: str = ""
    closed: bool = False
    cloth: str = ""


@dataclass(frozen=True, slots=True)
class Words:
    """One line of text; ``anchor`` is ``start``, ``middle`` or ``end``; ``angle_deg`` turns it
    counter-clockwise; ``cloth`` is as for lines."""

    text: str
    x: float
    y: float
    size_mm: float
    anchor: str = "start"
    angle_deg: float = 0.0
    bold: bool = False
    color: str = "#000000"
    cloth: str = ""


@dataclass(frozen=True, slots=True)
class Group:
    """Named primitives that belong together: one panel, the test squares, the key."""

    name: str
    items: tuple[Stroke | Words, ...]


@dataclass(frozen=True, slots=True)
class Drawing:
    """Groups within a rectangle from (0, 0) to (width, height)."""

    title: str
    width_mm: float
    height_mm: float
    groups: tuple[Group, ...]
