"""What stiffens a garment and closes it: bones in their channels, eyelets and the lace, binding. Lengths in millimetres."""

from __future__ import annotations

from dataclasses import dataclass

from fanblock.geometry.curve import Curve, Points

BONE, SHAPING, BUSK = "bone", "shaping", "busk"
SPIRAL, CROSSED = "spiral", "crossed"
LEFT, RIGHT, BOTH = "left", "right", "both"


@dataclass(frozen=True, slots=True)
class Bone:
    """A kind of bone: how wide and how thick it is, and what of."""

    width_mm: float
    thickness_mm: float
    material: str


@dataclass(frozen=True, slots=True, eq=False)
class Channel:
    """A pocket for one bone.

    ``kind`` is ``bone``, ``shaping`` or ``busk``. ``number`` counts a panel's bones from its front side; the others have
    0 and a ``name``, which the parts of one shaping bone on several panels share. ``line`` is the bone's middle, from its
    upper end down or from the front backward; ``rows`` are the lines that are stitched, ``width_mm`` apart.
    ``clear_mm`` is what was to be kept free beyond its two ends. One ``at_center`` goes on in the other half.
    """

    kind: str
    bone: Bone
    width_mm: float
    line: Curve
    rows: tuple[Curve, ...]
    clear_mm: tuple[float, float]
    number: int = 0
    name: str = ""
    at_center: bool = False


@dataclass(frozen=True, slots=True, eq=False)
class Eyelet:
    """A hole for the lace, ``at_mm`` below the top of a lacing edge, in the ``left`` half, the ``right`` or ``both``."""

    edge: str
    half: str
    number: int
    at_mm: float
    point: Points
    hole_mm: float


@dataclass(frozen=True, slots=True)
class Lacing:
    """How one opening is laced: each row's holes, measured from the top of its edge, and the lace without its tails.

    ``way`` is ``spiral`` or ``crossed``. ``lace_mm`` is its length from edge to edge through all holes, at the gap. The
    two rows are those of the left and the right half; or, where it laces at the side, ``left_mm`` that of ``panel`` and
    ``right_mm`` that of the panel ``across``, alike on both sides of the body, or on the one ``side`` it is told of.
    """

    panel: str
    edge: str
    way: str
    spacing_mm: float
    from_edge_mm: float
    gap_mm: float
    left_mm: tuple[float, ...]
    right_mm: tuple[float, ...]
    lace_mm: float
    across: str = ""
    side: str = ""

    @property
    def times(self) -> int:
        """How often it stands in the garment."""
        return 2 if self.across and not self.side else 1


@dataclass(frozen=True, slots=True)
class Binding:
    """What edges without an allowance are bound with."""

    material: str
    width_mm: float
