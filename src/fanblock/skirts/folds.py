"""Folds of pleats: how much cloth each side of a seam brings, and at every crease which way it is folded and laid.

All pleats of a seam lie on one another at the seam's own line, as they do where they are let into a seam; so a *fold* is
one layer, as wide as the pleat is deep. Seen from outside, a crease that stands out is *outward*, one that lies in is
*inward*. All the cloth is turned in: the heads are whipped to the seam's allowance, inside, and must not show. A box or
inverted pleat, which are one thing here, makes its box inside; outside two folded edges meet on the seam's line. Knife
pleats lie inside one way, and their folded edges look the other.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

PleatKind = Literal["knife", "box", "inverted"]
Way = Literal["front", "back"]


@dataclass(frozen=True, slots=True)
class Crease:
    """One crease, ``folds`` layers out from the panel's own line; ``says`` how to fold and lay it."""

    folds: int
    outward: bool
    says: str


@dataclass(frozen=True, slots=True)
class SideFolds:
    """What one side of a seam brings: so many layers beyond its own line, and the creases between them."""

    layers: int
    creases: tuple[Crease, ...]


def side_folds(kind: PleatKind, number: int, toward: Way, cloth: str, side: Way) -> SideFolds:
    """Return the folds of the panel before a seam (``side`` front) or of the one behind it.

    ``number`` boxes, or knife pleats, whose folded edges look ``toward`` front or back outside, while their cloth lies the
    other way inside. ``cloth`` tells for knife pleats which panel brings it: ``front``, ``back`` or ``both``. The two sides of a box bring half of it each.

    >>> side_folds("box", 2, "back", "both", "front").layers
    4
    >>> [side_folds("knife", 3, "back", "both", side).layers for side in ("front", "back")]
    [4, 2]
    """
    if kind != "knife":
        return _folded(2 * number, own_way=side, over=False, first=True)
    fronts = {"front": number, "back": 0, "both": number - number // 2}[cloth]
    layers = 2 * (fronts if side == "front" else number - fronts)
    own = toward != side
    return _folded(layers, own_way="back" if toward == "front" else "front", over=not own, first=own)


def _folded(layers: int, *, own_way: Way, over: bool, first: bool) -> SideFolds:
    """Return folds that go to and fro inside: they stand out at the even creases, on the line of the seam.

    ``first`` tells whether there is a crease on the panel's own line, ``over`` whether each further fold lies on the one
    before it, seen from outside, or under it.
    """
    creases: list[Crease] = []
    for folds in range(0 if first else 1, layers):
        outward = folds % 2 == 0
        number = len(creases) + 1
        says = f"fold {number}: {'outward' if outward else 'inward'}"
        if folds % 2 == 1:
            way = "forward" if own_way == "front" else "back"
            says += f", tuck it {way}"
            if folds > 1:
                says += f", {'on' if over else 'under'} fold {number - 2}"
        elif folds:
            says += ", at the seam line"
        else:
            says += ", on the seam line"
        creases.append(Crease(folds, outward, says))
    return SideFolds(layers, tuple(creases))
