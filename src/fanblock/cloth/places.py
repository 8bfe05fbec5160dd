"""Where each piece lies on its cloth, in distances that a cutter can measure: from an edge of the cloth and from its end.

A piece is told by the grain line that is printed on it. Both ends of that line lie equally far from the selvedge, which is
how a cutter sees that the piece lies true (common practice, no source).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from fanblock.cloth.laying import Lay
from fanblock.cloth.nesting import Laid
from fanblock.sheet import phrases
from fanblock.units import format_length


@dataclass(frozen=True, slots=True, eq=False)
class Place:
    """One piece on the cloth: what it is marked with, and how far its grain line lies from the cloth's edges.

    ``from_edge_mm`` is from the lower edge of the picture, which is a selvedge or the fold; ``lower_mm`` and ``upper_mm`` are
    from the cut end at the left to the lower and the upper end of the grain line. A piece whose upper end is nearer lies
    turned round. ``begins_mm`` is where the piece itself begins, ``ends_mm`` where it ends.
    """

    mark: str
    name: str
    laid: Laid
    from_edge_mm: float
    lower_mm: float
    upper_mm: float
    begins_mm: float
    ends_mm: float


def placed(lay: Lay) -> tuple[Laid, ...]:
    """Return the pieces where they lie, from the lower edge of the cloth: folded cloth lies with its fold below."""
    free = 0.0 if lay.cloth.folded else lay.cloth.selvedge_mm
    doubled = [laid.moved(0.0, free) for laid in lay.doubled]
    single = [laid.moved(0.0, lay.cloth.selvedge_mm) for laid in lay.single]
    return (*doubled, *single)


def places_of(lay: Lay) -> tuple[Place, ...]:
    """Return where every piece lies, by number, half and how far up the cloth; those alike are counted in their marks."""
    found = sorted(
        placed(lay),
        key=lambda one: (one.shape.number, one.shape.label, one.shape.mirrored, *one.grain.min(axis=0).tolist()),
    )
    many = Counter(_which(laid) for laid in found)
    seen: Counter[str] = Counter()
    places = []
    for laid in found:
        which = _which(laid)
        seen[which] += 1
        mark = f"{which}.{seen[which]}" if many[which] > 1 else which
        (low_x, y), (high_x, _) = laid.grain.tolist()
        begins, ends = float(laid.ring[:, 0].min()), float(laid.ring[:, 0].max())
        places.append(Place(mark, laid.shape.name, laid, y, low_x, high_x, begins, ends))
    return tuple(places)


def _which(laid: Laid) -> str:
    """The number of a piece, with the half it is for."""
    half = "R" if laid.shape.mirrored else "L"
    return f"{laid.shape.number}{half}" if laid.shape.paired else laid.shape.label


HEADS = (
    "piece",
    "name",
    "lower edge to grain line",
    "cut end to its foot",
    "cut end to its top",
    "piece begins",
    "ends",
)
"""What stands above the table of places."""


def place_rows(lay: Lay, units: str) -> Iterator[tuple[str, ...]]:
    """Yield a row of the table for every piece, its lengths as a tape shows them."""
    for place in places_of(lay):
        lengths = (place.from_edge_mm, place.lower_mm, place.upper_mm, place.begins_mm, place.ends_mm)
        yield (place.mark, phrases.prose(place.name), *(format_length(mm, units) for mm in lengths))


def place_words(lay: Lay) -> str:
    """Return how the table of places is used."""
    lower = "the fold" if lay.doubled and not lay.single else "the selvedge"
    if lay.doubled and lay.single:
        lower = "the fold, or where the cloth lies single the selvedge"
    return (
        f"Measure from the lower edge in the picture, which is {lower}, at both ends of the printed grain line, and from the "
        "cut end at the left. The arrow points to the top of the piece: where the foot of the grain line is farther from the "
        "cut end than its top, the piece lies turned round."
    )
