"""The few kinds of value a recipe is written in.

An *amount* is a length or a share of a named measure. A *height* is a landmark or a share, then optionally more or
less by an amount, along the ruling. An *around* is a place from centre front (0 %) to centre back (100 %). A
*position* is an around and a height. Until a recipe's dials are resolved an amount may also be the name of a dial.

Heights and arounds keep their words; only a draft, which knows the body and what has been drawn, can turn them into
numbers (:mod:`fanblock.draft.places`).
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Length:
    """A length in millimetres."""

    mm: float


@dataclass(frozen=True, slots=True)
class Share:
    """A share, as a ratio, of a named measure; ``of`` is empty where the place itself says of what."""

    ratio: float
    of: str = ""


@dataclass(frozen=True, slots=True)
class Dial:
    """The name of a dial, standing for the amount it is set to."""

    name: str


Amount = Length | Share | Dial


@dataclass(frozen=True, slots=True)
class Extent:
    """A whole length: an amount, a measure being all of itself, then plus or minus an amount.

    ``plus`` is added after it has been multiplied by ``sign`` (1 or -1).
    """

    base: Amount
    plus: Amount | None = None
    sign: int = 1


@dataclass(frozen=True, slots=True)
class Height:
    """A height: a landmark, or a share of the way from waist to bust or of a measure, then plus or minus an amount.

    Exactly one of ``landmark`` and ``share`` is set. Landmarks: the girths ``waist``, ``raised waist``, ``underbust``,
    ``bust`` and ``upper chest``; ``held bust``, ``underarm``, ``hem``, ``top edge``. A share without ``of`` counts from the
    waist (0 %) to the bust (100 %). ``plus`` is added along the ruling after it has been multiplied by ``sign`` (1 or -1).
    """

    landmark: str = ""
    share: Share | None = None
    plus: Amount | None = None
    sign: int = 1


@dataclass(frozen=True, slots=True)
class Around:
    """A place around: ``center front``, ``side``, ``center back``, ``lacing edge``, ``front edge``, ``back edge``, the name of
    a seam, or a share.

    ``plus`` times ``sign`` is added along the level, towards the back when positive.
    """

    landmark: str = ""
    ratio: float | None = None
    plus: Amount | None = None
    sign: int = 1


@dataclass(frozen=True, slots=True)
class Position:
    """A point on any block: the around fixes the ruling, the height is then found on that ruling."""

    around: Around
    height: Height


LANDMARK_HEIGHTS = (
    "bust",
    "held bust",
    "hem",
    "raised waist",
    "top edge",
    "underarm",
    "underbust",
    "upper chest",
    "waist",
)
SIDE = "side"
CENTERS = ("center back", "center front")
LACING_EDGE = "lacing edge"
LACING_EDGES = {
    f"{LACING_EDGE} back": "center back",
    f"{LACING_EDGE} front": "center front",
    f"{LACING_EDGE} side": SIDE,
}
"""The words for the lacing edges of a garment that laces in several places, and where they are."""

LANDMARK_AROUNDS = tuple(sorted((*CENTERS, SIDE, "back edge", "front edge", LACING_EDGE, *LACING_EDGES)))
