"""What a recipe plans for bones, eyelets, binding and layers of their own; how they lie is settled when the panels are
finished.

A plan keeps places as words and shares, since the panels may still be cut into tabs after it was made.
"""

from __future__ import annotations

from dataclasses import dataclass

from fanblock.pattern.bones import Binding, Bone
from fanblock.terms import Height, Position

PARALLEL, SLANT, FAN, BESIDE = "parallel", "slant", "fan", "beside"


@dataclass(frozen=True, slots=True)
class Clear:
    """How far bones end from each kind of edge, and how far their channels keep beside a seam, in millimetres."""

    top_front_mm: float
    under_arm_mm: float
    top_back_mm: float
    hem_mm: float
    seam_mm: float
    beside_seam_mm: float


@dataclass(frozen=True, slots=True)
class ChannelPlan:
    """Straight channels on one panel.

    ``way`` is how they run: ``parallel`` to an edge or a line, at a ``slant``, in a ``fan`` between two edges, ``beside``
    an edge, or empty for whichever fills the panel best. ``edges`` are the edges it speaks of, ``slant`` shares of top
    edge and waist. A panel filled ``fully`` has neither ``count`` nor ``spacing_mm``; these speak of groups of ``group``
    bones that touch, over the part of the panel ``within`` two shares.
    """

    panel: str
    bone: Bone
    play_mm: float
    way: str
    clear: Clear
    edges: tuple[str, ...] = ()
    slant: tuple[float, ...] = ()
    fully: bool = False
    count: int | None = None
    spacing_mm: float | None = None
    group: int = 1
    within: tuple[float, float] = (0.0, 1.0)
    highest: Height | None = None
    lowest: Height | None = None

    @property
    def width_mm(self) -> float:
        """Width of the channel between its rows of stitching: the bone's and its play, but room for its thickness.

        Bone and 2 mm is a rule of the trade (common practice); a flat bone needs at least its width and its thickness
        (worked out: its girth is twice the sum of both).
        """
        return self.bone.width_mm + max(self.play_mm, self.bone.thickness_mm)

    @property
    def least_width_mm(self) -> float:
        """The narrowest channel its bones go into."""
        return self.bone.width_mm + self.bone.thickness_mm


@dataclass(frozen=True, slots=True)
class ShapingPlan:
    """Curved bones across several panels, the first through these places, the others one below the other."""

    panels: tuple[str, ...]
    bone: Bone
    play_mm: float
    through: tuple[Position, ...]
    count: int
    apart_mm: float


@dataclass(frozen=True, slots=True)
class BuskPlan:
    """A busk in its pocket at the centre front; without a length it is a little shorter than the edge."""

    panel: str
    bone: Bone
    low_width_mm: float | None
    play_mm: float
    length_mm: float | None
    shorter_mm: float
    from_top_mm: float


@dataclass(frozen=True, slots=True)
class EyeletPlan:
    """Rows of eyelets along a lacing edge; in a spiral ``stepped`` is the half whose second hole is half a space down."""

    edge: str
    way: str
    spacing_mm: float
    from_edge_mm: float
    below_top_mm: float
    above_waist_mm: float
    hole_mm: float
    stepped: str


Plan = ChannelPlan | ShapingPlan | BuskPlan | EyeletPlan | Binding


@dataclass(frozen=True, slots=True)
class LayerPlan:
    """A layer with outlines of its own: which panels have it and how many of each are cut.

    It lies ``inside_mm`` within the layer that was drafted, outside it where that is less than 0. It ends at ``down_to``, or
    where the panels do, ``short_mm`` short of all free edges and ``longer_mm`` longer at the lower ones.
    """

    layer: str
    panels: tuple[str, ...]
    inside_mm: float
    count: int
    down_to: Height | None = None
    short_mm: float = 0.0
    longer_mm: float = 0.0

    @property
    def reshapes(self) -> bool:
        """Whether it differs from the panels in more than its girth."""
        return self.down_to is not None or bool(self.short_mm) or bool(self.longer_mm)
